/* frame/conduct: options at and past their limits, on a slab of 20 mm. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "frame/conduct.h"

static pw_status solve(const pw_section_options *o, pw_err *err)
{
  pw_section s;
  pw_section_result r;
  pw_section_init(&s);
  assert_int_equal(pw_section_add(&s, -1.0, 0.0, 0.0, 0.1, "outdoor", NAN, NAN, 0, NULL),
                   PW_OK);
  assert_int_equal(pw_section_add(&s, 0.0, 0.0, 0.02, 0.1, "slab", 0.04, NAN, 0, NULL), PW_OK);
  assert_int_equal(pw_section_add(&s, 0.02, 0.0, 1.0, 0.1, "indoor", NAN, NAN, 0, NULL), PW_OK);
  pw_status status = pw_section_solve(&s, o, &r, err);
  if (status == PW_OK) { /* 0.1 m over 0.04 + 0.5 + 0.13 m2 K/W */
    pw_assert_near(r.l2d, 0.1 / 0.67, 1e-9, "slab", "by hand");
    pw_section_result_free(&r);
  }
  pw_section_free(&s);
  return status;
}

static void options_hold_at_their_limits_and_fail_past_them(void **state)
{
  (void)state;
  static const pw_films thick = {0.04, 100.0, 0.13}, less = {-0.01, 0.13, 0.13};
  const struct {
    pw_section_options o;
    const char *field; /* NULL: taken */
  } row[] = {
      {{.tolerance = 0.5}, NULL},
      {{.tolerance = 0.51}, "tolerance"},
      {{.tolerance = 0.9e-7}, "tolerance"},
      {{.t_in = 293.15, .t_out = 293.15}, "t_in"},
      {{.t_in = 293.15, .t_out = 293.10}, NULL},
      {{.t_in = 400.0, .t_out = 273.15}, "t_in"},
      {{.t_in = 399.9, .t_out = 150.1}, NULL},
      {{.t_in = 293.15, .t_out = 150.0}, "t_in"},
      {{.films = &thick}, "films"},
      {{.films = &less}, "films"},
      {{.hollow = (pw_hollow_method)7}, "hollow"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_err err = {0};
    assert_int_equal(solve(&row[i].o, &err), row[i].field ? PW_E_DOMAIN : PW_OK);
    if (row[i].field) assert_string_equal(err.field, row[i].field);
  }
}

/* Each word with its own conductivity is a material of its own, however many there are; the same word again is the same one. */
static void many_materials_are_told_apart(void **state)
{
  (void)state;
  enum { MANY = 300 };
  pw_section s;
  pw_section_init(&s);
  for (int round = 0; round < 2; round++)
    for (int i = 0; i < MANY; i++) {
      char name[16];
      snprintf(name, sizeof name, "stuff%d", i % 150);
      assert_int_equal(pw_section_add(&s, 0.0, 0.001 * i, 0.01, 0.001 * (i + 1), name,
                                      i < 150 ? 0.1 : 0.2, 0.9, 0, NULL),
                       PW_OK);
    }
  assert_int_equal(s.n_material, MANY);
  assert_int_equal(s.n_part, 2 * MANY);
  for (size_t i = 0; i < s.n_part; i++) {
    char name[16];
    const pw_section_material *m = &s.material[s.part[i].material];
    snprintf(name, sizeof name, "stuff%zu", i % MANY % 150);
    assert_string_equal(m->name, name);
    pw_assert_near(m->conductivity, i % MANY < 150 ? 0.1 : 0.2, 0.0, name, "as given");
    pw_assert_near(s.part[i].y0, 0.001 * (double)(i % MANY), 1e-12, name, "as given");
  }
  pw_section_free(&s);
}

/* Two layers one behind the other, along x or along y: 20 mm of 0.04 and 30 mm of 1 W/(m K) between films of 0.04 and 0.13 m2 K/W, 0.70 in all. A point
 * at z has (0.04 + z / 0.04) / 0.70 of the difference in the first layer and (0.54 + (z - 0.02)) / 0.70 in the second; in air it has none. */
static void points_have_the_temperature_of_their_layer(void **state)
{
  (void)state;
  enum { POINTS = 9 };
  static const double z[POINTS] = {0.0, 0.005, 0.0199, 0.02, 0.0201, 0.021, 0.03, 0.0499, 0.05};
  for (int along_y = 0; along_y < 2; along_y++) {
    static const double from[] = {-1.0, 0.0, 0.02, 0.05}, to[] = {0.0, 0.02, 0.05, 1.0};
    static const char *const name[] = {"outdoor", "lamb", "stone", "indoor"};
    static const double lambda[] = {NAN, 0.04, 1.0, NAN};
    double at[2 * (POINTS + 2)], got[POINTS + 2];
    pw_section s;
    pw_section_result r;
    pw_err err = {0};
    pw_section_init(&s);
    for (int k = 0; k < 4; k++)
      assert_int_equal(
          along_y
              ? pw_section_add(&s, 0.0, from[k], 0.1, to[k], name[k], lambda[k], 0.9, 0, &err)
              : pw_section_add(&s, from[k], 0.0, to[k], 0.1, name[k], lambda[k], 0.9, 0, &err),
          PW_OK);
    for (int k = 0; k < POINTS + 2; k++) {
      double through = k < POINTS ? z[k] : k == POINTS ? -0.1 : 0.2, beside = 0.01 + 0.008 * k;
      at[2 * k + along_y] = through;
      at[2 * k + 1 - along_y] = beside;
    }
    static const pw_films films = {0.04, 0.13, 0.13};
    const pw_section_options o = {.t_in = 293.15,
                                  .t_out = 273.15,
                                  .films = &films,
                                  .probe = at,
                                  .n_probe = POINTS + 2,
                                  .t_probe = got};
    if (pw_section_solve(&s, &o, &r, &err) != PW_OK) fail_msg("%s", err.text);
    for (int k = 0; k < POINTS; k++) {
      double share = z[k] <= 0.02 ? (0.04 + z[k] / 0.04) / 0.70 : (0.54 + z[k] - 0.02) / 0.70;
      pw_assert_near(got[k], 273.15 + 20.0 * share, 1e-6, "temperature",
                     "resistances in series");
    }
    assert_true(isnan(got[POINTS]) && isnan(got[POINTS + 1]));
    pw_assert_near(r.l2d, 0.1 / 0.70, 1e-9, "L2D", "resistances in series");
    pw_assert_near(r.coldest, 273.15 + 20.0 * 0.57 / 0.70, 1e-6, "inner face",
                   "resistances in series");
    assert_int_equal(r.flow_axis, along_y);
    /* both methods hold at least their temperatures and a diagonal, and such a small drawing no megabytes */
    assert_true(r.bytes >= 4 * sizeof(double) * r.n_cell && r.bytes < 10u << 20);
    pw_section_result_free(&r);
    pw_section_free(&s);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(options_hold_at_their_limits_and_fail_past_them),
      cmocka_unit_test(many_materials_are_told_apart),
      cmocka_unit_test(points_have_the_temperature_of_their_layer),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
