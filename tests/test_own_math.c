/* The functions of base/own_math against the C library's 80-bit ones, which are right to a thousandth of a
 * last place of a double. */
#include "support.h"

#include <float.h>
#include <math.h>
#include <stdint.h>

#include "base/own_math.h"
#include "base/random.h"

enum { DRAWS = 200000 };

static double last_place(long double v)
{
  double d = fabs((double)v);
  return d < DBL_MIN ? nextafter(0.0, 1.0) : nextafter(d, INFINITY) - d;
}

typedef struct function {
  const char *name;
  double (*own)(double);
  long double (*known)(long double);
  double low, high, most; /* drawn from, evenly; units of the last place */
} function;

static void one_number(void **state)
{
  (void)state;
  static const function list[] = {
      {"exp", pw_exp, expl, -700.0, 700.0, 1.0},
      {"exp", pw_exp, expl, -1.0, 1.0, 1.0},
      {"expm1", pw_expm1, expm1l, -40.0, 40.0, 2.5},
      {"expm1", pw_expm1, expm1l, -0.4, 0.4, 2.5},
      {"log", pw_log, logl, 1e-300, 1e-3, 2.5},
      {"log", pw_log, logl, 0.4, 2.5, 2.5},
      {"log", pw_log, logl, 1.0, 1e9, 2.5},
      {"log10", pw_log10, log10l, 1e-6, 1e6, 2.5},
      {"root3", pw_root3, cbrtl, -1e9, 1e9, 1.0},
      {"root3", pw_root3, cbrtl, 0.0, 2.0, 1.0},
      {"tanh", pw_tanh, tanhl, -3.0, 3.0, 4.0},
      {"sin", pw_sin, sinl, -7.0, 7.0, 1.5},
      {"sin", pw_sin, sinl, -9e5, 9e5, 1.5},
      {"cos", pw_cos, cosl, -7.0, 7.0, 1.5},
      {"cos", pw_cos, cosl, -9e5, 9e5, 1.5},
      {"tan", pw_tan, tanl, -1.6, 1.6, 2.5},
      {"asin", pw_asin, asinl, -1.0, 1.0, 2.5},
      {"acos", pw_acos, acosl, -1.0, 1.0, 2.5},
      {"atan", pw_atan, atanl, -4.0, 4.0, 1.5},
      {"atan", pw_atan, atanl, -1e6, 1e6, 1.5},
  };
  uint64_t chance = 18;
  for (size_t k = 0; k < sizeof list / sizeof *list; k++) {
    double most = 0.0, at = 0.0;
    for (int i = 0; i < DRAWS; i++) {
      double x = list[k].low + (list[k].high - list[k].low) * pw_random_share(&chance);
      long double known = list[k].known((long double)x);
      double off = (double)fabsl((long double)list[k].own(x) - known) / last_place(known);
      if (off > most) {
        most = off;
        at = x;
      }
    }
    if (most > list[k].most) fail_msg("%s: %.3f last places at %.17g", list[k].name, most, at);
  }
}

static void two_numbers(void **state)
{
  (void)state;
  uint64_t chance = 19;
  for (int i = 0; i < 2 * DRAWS; i++) {
    double x = exp(40.0 * pw_random_share(&chance) - 20.0),
           e = 20.0 * pw_random_share(&chance) - 10.0;
    long double known = powl((long double)x, (long double)e);
    if (known > 1e300L || known < 1e-300L) continue;
    assert_true(fabsl((long double)pw_power(x, e) - known) < 1.0L * last_place(known));
    double a = 2.0 * pw_random_share(&chance) - 1.0, b = 2.0 * pw_random_share(&chance) - 1.0;
    known = atan2l((long double)a, (long double)b);
    assert_true(fabsl((long double)pw_atan2(a, b) - known) < 1.5L * last_place(known));
    known = hypotl((long double)a, (long double)b);
    assert_true(fabsl((long double)pw_hypot(a, b) - known) < 2.5L * last_place(known));
  }
}

/* What ISO C annex F says of the ends. */
static void ends(void **state)
{
  (void)state;
  const double inf = INFINITY, nan = (double)NAN;
  assert_true(pw_exp(-inf) == 0.0 && pw_exp(inf) == inf && isnan(pw_exp(nan)));
  assert_true(pw_exp(0.0) == 1.0 && pw_expm1(0.0) == 0.0 && pw_log(1.0) == 0.0);
  assert_true(pw_exp(-745.0) > 0.0 && pw_exp(-750.0) == 0.0 && pw_exp(710.0) == inf);
  assert_true(pw_log(0.0) == -inf && pw_log(inf) == inf && isnan(pw_log(-1.0)));
  assert_true(fabs(pw_log(5e-324) - log(5e-324)) < 1e-12);
  assert_true(pw_power(0.0, 2.0) == 0.0 && pw_power(0.0, -1.0) == inf &&
              pw_power(3.0, 0.0) == 1.0);
  assert_true(pw_power(2.0, 10.0) == 1024.0 && isnan(pw_power(-2.0, 0.5)));
  assert_true(pw_power(10.0, 400.0) == inf && pw_power(10.0, -400.0) == 0.0);
  assert_true(pw_power(inf, 0.5) == inf && pw_root3(0.0) == 0.0 && pw_root3(27.0) == 3.0);
  assert_true(pw_sin(0.0) == 0.0 && pw_cos(0.0) == 1.0 && isnan(pw_sin(inf)) &&
              isnan(pw_cos(nan)));
  for (int y = -1; y <= 1; y++)
    for (int x = -1; x <= 1; x++) {
      assert_true(fabs(pw_atan2(y, x) - atan2(y, x)) < 1e-15);
      if (x || y) assert_true(fabs(pw_atan2(y * inf, x) - atan2(y * inf, x)) < 1e-15 || y == 0);
    }
  assert_true(pw_acos(1.0) == 0.0 && pw_asin(1.0) == asin(1.0) && pw_acos(-1.0) == acos(-1.0));
  assert_true(isnan(pw_acos(1.1)) && isnan(pw_asin(nan)));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(one_number),
      cmocka_unit_test(two_numbers),
      cmocka_unit_test(ends),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
