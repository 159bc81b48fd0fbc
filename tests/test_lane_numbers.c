/* The year's own functions of numbers (house/lanes.h, house/film.h) against those of the C library. */
#include "support.h"

#include <math.h>

#define LANES 1
#include "house/lanes.h"

static void own_functions_meet_the_librarys(void **state)
{
  (void)state;
  double root = 0.0, power = 0.0;
  for (double x = 1e-8; x < 1e4; x *= 1.01) {
    root = fmax(root, fabs(v_root3(x) / cbrt(x) - 1.0));
    assert_true(v_root3(x) == film_root3(x));
    for (double e = -1.0; e <= 1.0; e += 0.0625)
      power = fmax(power, fabs(v_power(x, e) / pow(x, e) - 1.0));
  }
  pw_assert_near(root, 0.0, 2.2e-5, "cube root", "cbrt of the C library");
  pw_assert_near(power, 0.0, 2.5e-8, "power", "pow of the C library");
  assert_true(v_power(0.0, 0.0) == 1.0 && v_power(0.0, 0.2) < 1e-50 && v_root3(0.0) < 1e-50);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(own_functions_meet_the_librarys)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
