/* frame/hollow: the equivalent conductivity of a rectangular hollow, both methods, with numbers for every branch.
 * ISO 15099 clause 6.6 and Annex B as reference/section/METHODS.md 4 has them (from memory): worked apart from this
 * program by a short script of those formulas, to seven digits. Air of Annex B at 10 C: conductivity 0.0248454 W/(m K),
 * viscosity 1.771061e-5 kg/(m s), heat 1006.227 J/(kg K), density 1.246843 kg/m3 (at 0 C the printed check points 0.0241,
 * 1.722e-5, 1006.103). */
#include "support.h"

#include <math.h>

#include "frame/frame_impl.h"

static double conductivity(pw_hollow h, pw_hollow_method method)
{
  double k = NAN;
  assert_int_equal(pw_hollow_conductivity(&h, method, &k, NULL), PW_OK);
  return k;
}

/* Which of the five relations rules in each row stands beside it. */
static void iso_15099_by_every_branch(void **state)
{
  (void)state;
  static const struct {
    pw_hollow hollow;
    double k;
    const char *what;
  } row[] = {
      {{0.025, 0.010, 10.0, 283.15, {0.9, 0.9}, 0},
       0.09936602,
       "Ra 19245, shallow, Nu 1.27145"},
      {{0.040, 0.020, 15.0, 283.15, {0.9, 0.2}, 0},
       0.16168882,
       "Ra 118240, shallow, Nu 5.06087"},
      {{0.100, 0.020, 15.0, 283.15, {0.9, 0.9}, 0},
       0.37020094,
       "Ra 1847494, shallow, Nu 4.75139"},
      {{0.006, 0.090, 12.0, 283.15, {0.9, 0.9}, 0}, 0.04945193, "Ra 319, no convection"},
      {{0.012, 0.200, 18.0, 280.00, {0.9, 0.9}, 0},
       0.07436148,
       "Ra 4036, second of the tall, 1.08315"},
      {{0.030, 0.020, 10.0, 283.15, {0.9, 0.9}, 1},
       0.13934668,
       "Ra 33255, a jamb, first, 2.07082"},
      {{0.150, 0.900, 20.0, 280.00, {0.9, 0.9}, 0}, 0.87911967, "Ra 8759534, third, 12.47141"},
      {{0.020, 0.040, 10.0, 283.15, {0.9, 0.9}, 0},
       0.10874266,
       "Ra 9853, a third of the way, 1.53453"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_assert_near(conductivity(row[i].hollow, PW_HOLLOW_ISO15099), row[i].k, 1e-6 * row[i].k,
                   row[i].what, "ISO 15099 6.6, worked apart with 8314.51 J/(kmol K)");
}

/* Without a difference of temperature there is conduction and radiation alone, in hollows of all shapes. */
static void still_air_conducts(void **state)
{
  (void)state;
  static const double breadth[] = {0.005, 0.02, 0.2};
  for (size_t i = 0; i < 3; i++) {
    pw_hollow h = {0.02, breadth[i], 0.0, 283.15, {1e-9, 1e-9}, 0}; /* mirrors */
    pw_assert_near(conductivity(h, PW_HOLLOW_ISO15099), 0.002873 + 7.760e-5 * 283.15, 1e-8,
                   "still air", "ISO 15099 Annex B at 283.15 K");
  }
}

/* By hand from ISO 10077-2:2012 clause 6 (METHODS.md 3): h_a = max(0.025 / d, 0.73 dT^(1/3)), the former alone below 5 mm;
 * h_r = 4 s T^3 E (1 + sqrt(1 + (d/b)^2) - d/b) / 2. Square of 20 mm, 27 K, black walls at 300 K: h_a = 0.73 x 3 = 2.19,
 * 4 s T^3 = 6.124004, view 0.7071068, h_r = 4.330325; k = 0.02 x 6.520325. */
static void iso_10077_by_hand(void **state)
{
  (void)state;
  pw_hollow h = {0.02, 0.02, 27.0, 300.0, {1.0, 1.0}, 0};
  pw_assert_near(conductivity(h, PW_HOLLOW_ISO10077), 0.1304065, 1e-7, "square", "by hand");
  h.emit[0] = 0.5; /* E = 1 / (2 + 1 - 1) */
  pw_assert_near(conductivity(h, PW_HOLLOW_ISO10077), 0.0438 + 0.5 * 0.0866065, 1e-7,
                 "one wall 0.5", "by hand");
  h.breadth = 0.0049; /* d / b = 4.0816327, view 0.5603575; conduction 0.025 */
  pw_assert_near(conductivity(h, PW_HOLLOW_ISO10077), 0.025 + 0.02 * 6.124004 * 0.5 * 0.5603575,
                 1e-7, "narrower than 5 mm", "by hand");
  h.breadth = 0.005; /* view 0.5 (1 + sqrt(17) - 4) = 0.5615528 */
  pw_assert_near(conductivity(h, PW_HOLLOW_ISO10077),
                 0.0438 + 0.02 * 6.124004 * 0.5 * 0.5615528, 1e-7, "5 mm", "by hand");
}

/* Two squares of 20 mm beside each other, nodes of their lower edge at 0 and of their upper at 1 of 27 K between 286.5 and
 * 313.5 K: the walls' mean is 300 K, as in the row above: 0.1304065, slightly ventilated twice that. From 0.1 and 0.25 the
 * larger change is 0.304065; a second look changes nothing; a change that is not above what is enough leaves what was. */
static void a_section_sets_its_hollows_by_their_walls(void **state)
{
  (void)state;
  const pw_hollow square = {0.02, 0.02, 10.0, 283.0, {1.0, 1.0}, 0};
  double x[] = {0.0, 0.02, 0.04}, y[] = {0.0, 0.02};
  size_t base_x[] = {0, 1}, base_y[] = {0};
  const double theta[] = {0.0, 0.0, 0.0, 1.0, 1.0, 1.0};
  int cell[] = {1, 2};
  frame_region region[] = {{.zone = PW_ZONE_SOLID, .k = 7.0},
                           {.zone = PW_ZONE_HOLLOW, .k = 0.1, .hollow = square},
                           {.zone = PW_ZONE_HOLLOW_VENTED, .k = 0.25, .hollow = square}};
  frame_plane plane = {.n_x = 2,
                       .n_y = 1,
                       .x = x,
                       .y = y,
                       .cell = cell,
                       .region = region,
                       .n_region = 3,
                       .n_hollow = 2};
  const frame_grid grid = {&plane, 2, 1, x, y, base_x, base_y};
  pw_section_options o = {.t_out = 286.5, .t_in = 313.5, .hollow = PW_HOLLOW_ISO10077};
  for (int round = 0; round < 3; round++) {
    double change = 7.0;
    pw_err err = {0};
    if (round == 2) region[1].k = 0.1;
    if (round == 2) region[2].k = 0.25;
    assert_int_equal(
        frame_update_hollows(&plane, &grid, theta, &o, round == 2 ? 0.31 : 1e-3, &change, &err),
        PW_OK);
    pw_assert_near(change, round == 1 ? 0.0 : 0.304065, 1e-6, "largest change", "by hand");
    pw_assert_near(region[1].k, round == 2 ? 0.1 : 0.1304065, 1e-7, "hollow", "by hand");
    pw_assert_near(region[2].k, round == 2 ? 0.25 : 0.260813, 2e-7, "ventilated", "by hand");
    assert_true(region[0].k == 7.0);
    pw_assert_near(region[1].hollow.dt, 27.0, 1e-9, "K across", "by hand");
    pw_assert_near(region[1].hollow.t_mean, 300.0, 1e-9, "K, mean", "by hand");
  }
}

static void hollows_that_cannot_be_are_refused(void **state)
{
  (void)state;
  static const struct {
    pw_hollow hollow;
    const char *field;
  } row[] = {
      {{0.0, 0.02, 10.0, 283.0, {0.9, 0.9}, 0}, "depth"},
      {{100.0, 0.02, 10.0, 283.0, {0.9, 0.9}, 0}, "depth"},
      {{0.02, 0.0, 10.0, 283.0, {0.9, 0.9}, 0}, "breadth"},
      {{0.02, 100.0, 10.0, 283.0, {0.9, 0.9}, 0}, "breadth"},
      {{0.02, 0.02, -0.1, 283.0, {0.9, 0.9}, 0}, "dt"},
      {{0.02, 0.02, 200.0, 283.0, {0.9, 0.9}, 0}, "dt"},
      {{0.02, 0.02, 10.0, 150.0, {0.9, 0.9}, 0}, "t_mean"},
      {{0.02, 0.02, 10.0, 450.0, {0.9, 0.9}, 0}, "t_mean"},
      {{0.02, 0.02, 10.0, 283.0, {0.0, 0.9}, 0}, "emit"},
      {{0.02, 0.02, 10.0, 283.0, {0.9, 1.1}, 0}, "emit"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    double k = 7.0;
    pw_err err = {0};
    assert_int_equal(pw_hollow_conductivity(&row[i].hollow, PW_HOLLOW_ISO15099, &k, &err),
                     PW_E_DOMAIN);
    assert_string_equal(err.field, row[i].field);
    assert_true(k == 7.0);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(iso_15099_by_every_branch), cmocka_unit_test(still_air_conducts),
      cmocka_unit_test(iso_10077_by_hand),
      cmocka_unit_test(a_section_sets_its_hollows_by_their_walls),
      cmocka_unit_test(hollows_that_cannot_be_are_refused)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
