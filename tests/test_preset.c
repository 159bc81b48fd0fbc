/* house/preset: which row a vintage takes, and what its layers are, by hand from reference/house_materials.csv. The years in
 * which insulation changed are California's vintage defaults (from memory; source column of house_presets.csv): none before
 * 1978, R-11 to 1991, R-13 to 2013, R-19 since 2014. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "house/preset.h"

static pw_preset find(unsigned part, const char *name, int year)
{
  pw_preset p;
  pw_err err = {0};
  if (pw_preset_find(part, name, year, &p, &err) != PW_OK) fail_msg("%s", err.text);
  return p;
}

static void the_last_and_the_first_year_of_a_vintage(void **state)
{
  (void)state;
  enum {
    wall = pw_ref_house_presets__part_wall,
    roof = pw_ref_house_presets__part_roof,
    air = pw_ref_house_presets__part_air_changes
  };
  static const struct {
    unsigned part;
    int year;
    const char *name;
  } row[] = {
      {wall, 1977, "stucco_bare"}, {wall, 1978, "stucco_r11"}, {wall, 1991, "stucco_r11"},
      {wall, 1992, "stucco_r13"},  {wall, 2013, "stucco_r13"}, {wall, 2014, "stucco_r19"},
      {wall, 0, "stucco_bare"},    {roof, 1977, "attic_r11"},  {roof, 1978, "attic_r19"},
      {roof, 1991, "attic_r19"},   {roof, 1992, "attic_r30"},  {roof, 2013, "attic_r30"},
      {roof, 2014, "attic_r38"},   {air, 1959, "leaky"},       {air, 1960, "usual"},
      {air, 1977, "usual"},        {air, 1978, "fair"},        {air, 1991, "fair"},
      {air, 1992, "tight"},        {air, 0, "usual"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    assert_string_equal(find(row[i].part, "", row[i].year).name, row[i].name);
  assert_string_equal(find(wall, "block", 2014).name,
                      "block"); /* a name goes before the year */
  pw_assert_near(find(air, "", 1960).value, 0.50, 0.0, "10 changes at 50 Pa over 20",
                 "Sherman 1987");
}

static double resistance(const pw_wall_layer *l)
{
  return l->thickness > 0.0 ? l->thickness / l->conductivity : l->resistance;
}

/* By hand: 22 mm of plaster at 0.72; 89 mm of cavity of R 0.16 (0.55625 W/(m K)) with a quarter of wood at 0.12; 12.7 mm
 * of board at 0.16. And 78 mm of quilt at 0.04 with a quarter of wood: 0.06 W/(m K); 136.5 kg/m3, of which 9 are quilt. */
static void wood_crosses_its_layer_side_by_side(void **state)
{
  (void)state;
  const pw_preset bare = find(pw_ref_house_presets__part_wall, "stucco_bare", 0);
  assert_int_equal(bare.layers.n_layer, 3);
  pw_assert_near(resistance(&bare.layers.layer[0]), 0.022 / 0.72, 1e-9, "plaster", "by hand");
  pw_assert_near(resistance(&bare.layers.layer[1]), 0.089 / 0.4471875, 1e-9, "cavity, wood",
                 "by hand");
  pw_assert_near(resistance(&bare.layers.layer[2]), 0.0127 / 0.16, 1e-9, "board", "by hand");
  pw_assert_near(bare.layers.layer[1].density, 0.75 * 1.2 + 0.25 * 510.0, 1e-9, "air and wood",
                 "by hand");
  pw_assert_near(bare.absorptance, 0.6, 0.0, "stucco", "house_presets.csv");
  const pw_preset r11 = find(pw_ref_house_presets__part_wall, "stucco_r11", 0);
  const pw_wall_layer *quilt = &r11.layers.layer[1];
  pw_assert_near(quilt->conductivity, 0.06, 1e-12, "quilt, wood", "by hand");
  pw_assert_near(quilt->thickness, 0.078, 1e-12, "quilt", "house_presets.csv");
  pw_assert_near(quilt->density, 136.5, 1e-9, "quilt, wood", "by hand");
  pw_assert_near(quilt->heat, (9.0 * 840.0 + 127.5 * 1380.0) / 136.5, 1e-9, "quilt, wood",
                 "by mass, by hand");
}

/* By hand: shingles, plywood, the attic as a resistance of 0.2, 134 mm of quilt with 7 % of wood (0.0456 W/(m K)), and the
 * board that every ceiling has. */
static void a_roof_ends_in_plasterboard(void **state)
{
  (void)state;
  const pw_preset p = find(pw_ref_house_presets__part_roof, "attic_r19", 0);
  static const double want[] = {0.006 / 0.16, 0.012 / 0.12, 0.2, 0.134 / 0.0456, 0.0127 / 0.16};
  assert_int_equal(p.layers.n_layer, 5);
  for (size_t i = 0; i < 5; i++)
    pw_assert_near(resistance(&p.layers.layer[i]), want[i], 1e-9, "layer of the roof",
                   "by hand");
  assert_true(p.layers.layer[2].thickness == 0.0); /* the attic stores nothing */
  const pw_preset floor = find(pw_ref_house_presets__part_floor, "", 1965);
  assert_string_equal(floor.name, "slab");
  assert_int_equal(floor.layers.n_layer, 2);
}

static void an_unknown_name_is_refused_with_what_there_is(void **state)
{
  (void)state;
  pw_preset p;
  pw_err err;
  assert_int_equal(pw_preset_find(pw_ref_house_presets__part_wall, "stuco_r11", 0, &p, &err),
                   PW_E_DATA);
  assert_non_null(strstr(err.text, "wall 'stuco_r11' is not known; did you mean stucco_r11"));
  assert_int_equal(pw_preset_find(pw_ref_house_presets__part_floor, "zzzzzzzz", 0, &p, &err),
                   PW_E_DATA);
  assert_null(strstr(err.text, "did you mean"));
  assert_non_null(strstr(err.text, "floor 'zzzzzzzz'"));
  assert_non_null(strstr(err.text, "accepted: slab, crawl, crawl_r19"));
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_last_and_the_first_year_of_a_vintage),
      cmocka_unit_test(wood_crosses_its_layer_side_by_side),
      cmocka_unit_test(a_roof_ends_in_plasterboard),
      cmocka_unit_test(an_unknown_name_is_refused_with_what_there_is),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
