/* The exact Pareto set against the definition, every pair of points looked at. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "base/random.h"
#include "study/pareto.h"

static int dominates(const double a[], const double b[], size_t n_dim)
{
  int better = 0;
  for (size_t d = 0; d < n_dim; d++) {
    if (a[d] > b[d]) return 0;
    better |= a[d] < b[d];
  }
  return better;
}

static void check(const double v[], size_t n, size_t n_dim)
{
  size_t *front = malloc((n + 1) * sizeof *front), n_front = 99, k = 0;
  assert_int_equal(pw_pareto(v, n, n_dim, front, &n_front, NULL), PW_OK);
  for (size_t i = 0; i < n; i++) {
    int beaten = 0;
    for (size_t j = 0; j < n && !beaten; j++)
      beaten = dominates(v + j * n_dim, v + i * n_dim, n_dim);
    int found = k < n_front && front[k] == i;
    if (found == beaten) fail_msg("%zu dimensions, point %zu of %zu", n_dim, i, n);
    k += (size_t)found;
  }
  assert_int_equal(k, n_front);
  free(front);
}

/* Free points, points on a coarse grid (many ties and likes), points on a sphere (nearly all in the
 * set), and a line along which all dimensions fall together. */
static void equals_every_pair_on_random_sets(void **state)
{
  static const size_t size[] = {0, 1, 2, 3, 25, 60, 333, 1500};
  (void)state;
  double *v = malloc(1500 * PW_PARETO_MAX * sizeof *v);
  uint64_t seed = 7;
  for (size_t n_dim = 1; n_dim <= 6; n_dim++)
    for (size_t s = 0; s < sizeof size / sizeof size[0]; s++)
      for (int kind = 0; kind < 5; kind++) {
        size_t n = size[s];
        for (size_t i = 0; i < n; i++) {
          double length = 0.0, *p = v + i * n_dim, shared = pw_random_share(&seed);
          for (size_t d = 0; d < n_dim; d++) {
            p[d] = pw_random_share(&seed);
            if (kind == 1) p[d] = floor(3.0 * p[d]);
            if (kind == 3) p[d] = floor(30.0 * shared) + 0.001 * floor(5.0 * p[d]);
            if (kind == 4 && d % 2)
              p[d] = floor(4.0 * p[d]); /* likes in some dimensions only */
            length += p[d] * p[d];
          }
          if (kind == 2)
            for (size_t d = 0; d < n_dim; d++)
              p[d] /= -sqrt(length);
        }
        check(v, n, n_dim);
      }
  free(v);
}

/* Sixty points, each better than the last in one of the first two dimensions and worse in the other, all alike in the third but for
 * one, which is worse than the others in the first two and alone in being better there: nothing beats it. It stands where the
 * order of all dimensions is halved, wherever that is. */
static void one_point_better_in_what_is_else_alike(void **state)
{
  enum { N = 60, DIMS = 3 };
  double v[N * DIMS];
  (void)state;
  for (size_t better = 0; better < N; better++) {
    for (size_t i = 0; i < N; i++) {
      v[i * DIMS] = (double)i;
      v[i * DIMS + 1] = i == better ? 1000.0 : (double)(N - i);
      v[i * DIMS + 2] = i == better ? 0.0 : 1.0;
    }
    size_t front[N], n = 0;
    assert_int_equal(pw_pareto(v, N, DIMS, front, &n, NULL), PW_OK);
    assert_int_equal(n, N);
    check(v, N, DIMS);
  }
}

static void likes_stay_together_and_bad_points_are_refused(void **state)
{
  (void)state;
  double v[] = {1.0, 2.0, 1.0, 2.0, 0.0, 3.0, 1.0, 3.0};
  size_t front[4], n = 0;
  pw_err err = {0};
  assert_int_equal(pw_pareto(v, 4, 2, front, &n, NULL), PW_OK);
  assert_int_equal(n, 3);
  assert_true(front[0] == 0 && front[1] == 1 && front[2] == 2);
  assert_int_equal(pw_pareto(v, 4, 0, front, &n, &err), PW_E_SHAPE);
  v[3] = NAN;
  assert_int_equal(pw_pareto(v, 4, 2, front, &n, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "v");
  assert_int_equal(n, 3);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(equals_every_pair_on_random_sets),
      cmocka_unit_test(one_point_better_in_what_is_else_alike),
      cmocka_unit_test(likes_stay_together_and_bad_points_are_refused)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
