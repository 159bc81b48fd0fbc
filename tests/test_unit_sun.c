/* glass/unit: U of a unit that the sun shines on is that of the same unit in the dark, and what the sun adds is apart; the balance of heat
 * closes by hand. */
#include "support.h"

#include <math.h>

#include "panewright/glazing.h"
#include "panewright/unit.h"

static pw_unit unit_of(const char *text)
{
  pw_buildup b;
  pw_glazing g;
  assert_int_equal(pw_buildup_parse(text, &b, NULL), PW_OK);
  assert_int_equal(pw_glazing_build(&b, &g, NULL), PW_OK);
  return g.unit;
}

static void u_is_that_of_the_dark(void **state)
{
  (void)state;
  static const char *const text[] = {"3mm clear", "3mm clear / 12.7mm air / 3mm clear",
                                     "3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear"};
  static const double absorbed[PW_PANES_MAX] = {0.2, 0.1};
  for (size_t i = 0; i < 3; i++) {
    const pw_unit u = unit_of(text[i]);
    pw_unit_result sunny, dark, night, same;
    assert_int_equal(pw_unit_solve(&u, &pw_env_summer, absorbed, &sunny, NULL), PW_OK);
    assert_int_equal(pw_unit_solve(&u, &pw_env_summer, NULL, &dark, NULL), PW_OK);
    pw_assert_near(sunny.u, dark.u, 1e-9, "U", "in the dark");
    assert_true(sunny.q_in < dark.q_in - 1.0); /* q_in is outward: the sun brings heat in */
    assert_true(sunny.t[0] > dark.t[0] + 1.0);
    pw_assert_near(dark.u, dark.q_in / (pw_env_summer.t_in - pw_env_summer.t_out), 1e-9, "U",
                   "heat over the difference");
    double shgc = NAN;
    assert_int_equal(pw_unit_shgc(&u, &pw_env_summer, 0.5, absorbed, &shgc, NULL), PW_OK);
    pw_assert_near(shgc, 0.5 + (dark.q_in - sunny.q_in) / pw_env_summer.sun, 1e-12, "SHGC",
                   "ISO 15099 4.2");
    /* without sun what would be absorbed is nothing */
    pw_env no_sun = pw_env_winter;
    no_sun.sun = 0.0;
    assert_int_equal(pw_unit_solve(&u, &no_sun, absorbed, &night, NULL), PW_OK);
    assert_int_equal(pw_unit_solve(&u, &no_sun, NULL, &same, NULL), PW_OK);
    pw_assert_near(night.u, same.u, 1e-9, "U", "no sun");
    pw_assert_near(night.q_in, same.q_in, 1e-9, "heat", "no sun");
    assert_int_equal(pw_unit_shgc(&u, &no_sun, 0.5, absorbed, &shgc, NULL), PW_E_DOMAIN);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(u_is_that_of_the_dark)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
