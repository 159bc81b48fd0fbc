/* The reader of a catalogue: what it takes and what it refuses. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "job/catalogue_file.h"
#include "panewright/units.h"

static void catalogue_refusals_say_where(void **state)
{
  static const struct {
    const char *row, *says;
  } bad[] = {{"pain,clear,3mm,,,\n", "c.csv:3:1"},
             {"pane,klear,3mm,,,\n", "did you mean 'clear'"},
             {"pane,clear,3mm,,,\n", "stands already"},
             {"gap,,12mm,argn,,\n", "c.csv:3:4"},
             {"coating,gold,,,,\n", "'gold' is no coating"},
             {"coating,ag2,,,inside,\n", "c.csv:3:5"},
             {"spacer,paper,,,,\n", "metal, stainless or insulating"},
             {"frame_line,vinyl,,,,\n", "pocket"}};
  (void)state;
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    char text[400];
    pw_rank_catalogue c;
    pw_err err = {0};
    int n = snprintf(text, sizeof text,
                     "part,name,thickness,gas,place,pocket\npane,clear,3mm,,,\n%s"
                     "frame_line,fibreglass,,,,1 in\n",
                     bad[i].row);
    assert_int_equal(pw_catalogue_parse("c.csv", text, (size_t)n, &c, NULL, &err), PW_E_DATA);
    if (!strstr(err.text, bad[i].says)) fail_msg("%s, want %s", err.text, bad[i].says);
  }
}

static void example_is_read_whole(void **state)
{
  pw_rank_catalogue c;
  pw_err err = {0};
  (void)state;
  if (pw_catalogue_read("examples/catalogue.csv", &c, NULL, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_int_equal(c.n_pane, 7);
  assert_int_equal(c.n_coating, 6);
  assert_int_equal(c.n_gap, 6);
  assert_int_equal(c.n_spacer, 3);
  assert_int_equal(c.n_line, 3);
  assert_true(c.coating[0].outside && !c.coating[3].outside);
  pw_assert_near(c.pane[0].per_area, 1.60 / PW_FOOT2, 1e-9, "per ft2 to per m2",
                 "0.3048 m a foot");
  pw_assert_near(c.spacer[0].per_length, 0.35 / PW_FOOT, 1e-9, "per ft to per m",
                 "0.3048 m a foot");
  pw_assert_near(c.line[0].pocket, 1.125 * PW_INCH, 1e-12, "pocket", "1 1/8 in");
  pw_assert_near(c.gap[1].gap.mix.share[PW_ARGON], 0.9, 1e-12, "argon", "the file");
}

int main(void)
{
  const struct CMUnitTest tests[] = {cmocka_unit_test(catalogue_refusals_say_where),
                                     cmocka_unit_test(example_is_read_whole)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
