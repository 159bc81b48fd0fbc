/* The response surface: what it meets, what it says of its own error, how it is walked along an axis. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "study/surface.h"

/* Closed form: a quadratic is met to rounding when the runs tell enough, and left-out residuals are
 * those of a fit without the run (checked by leaving one out by hand). */
static void a_quadratic_is_met_and_the_error_known(void **state)
{
  (void)state;
  enum { N = 60, D = 3 };
  double z[N * D], y[N], rough[N], focus = 1.0, got = 0.0;
  unsigned seed = 7;
  for (int i = 0; i < N; i++) {
    for (int d = 0; d < D; d++)
      z[i * D + d] = 2.0 * (seed = seed * 1103515245u + 12345u) / 4294967296.0 - 1.0;
    const double *p = z + i * D;
    y[i] = 3.0 + p[0] - 2.0 * p[1] + 0.5 * p[0] * p[2] - p[1] * p[1];
    rough[i] = y[i] + 0.3 * sin(9.0 * p[2]);
  }
  surface s;
  assert_int_equal(surface_fit(z, y, N, D, 1, &focus, &s, NULL), PW_OK);
  const double at[D] = {0.3, -0.4, 0.9};
  surface_at(&s, at, &got);
  pw_assert_near(got, 3.0 + 0.3 + 0.8 + 0.5 * 0.27 - 0.16, 2e-3, "value", "closed form");
  for (size_t i = 0; i < D; i++) { /* one step along an axis, and all of it anew */
    double moved[D] = {at[0], at[1], at[2]}, stepped = 0.0, anew = 0.0;
    moved[i] = -0.7;
    surface_moved(&s, at, &got, i, moved[i], &stepped);
    surface_at(&s, moved, &anew);
    pw_assert_near(stepped, anew, 1e-13, "moved along an axis", "the surface there");
  }
  surface_free(&s);
  /* Left-out residuals beside refits without the run, 24 runs for 10 terms. */
  enum { FEW = 24 };
  double told = 0.0, by_hand = 0.0;
  for (int k = 0; k < FEW; k++) {
    double zk[FEW * D], yk[FEW];
    int n = 0;
    for (int i = 0; i < FEW; i++) {
      if (i == k) continue;
      memcpy(zk + n * D, z + i * D, D * sizeof *z);
      yk[n++] = rough[i];
    }
    assert_int_equal(surface_fit(zk, yk, FEW - 1, D, 1, &focus, &s, NULL), PW_OK);
    surface_at(&s, z + k * D, &got);
    by_hand += (rough[k] - got) * (rough[k] - got) / FEW;
    surface_free(&s);
  }
  assert_int_equal(surface_fit(z, rough, FEW, D, 1, &focus, &s, NULL), PW_OK);
  for (int i = 0; i < FEW; i++)
    told += s.left_out[i] * s.left_out[i] / FEW;
  surface_free(&s);
  print_message("left out: told %.3f, by hand %.3f\n", sqrt(told), sqrt(by_hand));
  pw_assert_near(sqrt(told / by_hand), 1.0, 0.15, "left-out error", "refits by hand");
  pw_err err;
  assert_int_equal(surface_fit(z, y, 7, D, 1, &focus, &s, &err), PW_E_SHAPE);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_quadratic_is_met_and_the_error_known),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
