/* Floor 0: tables compiled in, nearest word, one-line errors. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "base/nearest.h"
#include "base/table.h"
#include "panewright/status.h"
#include "panewright/units.h"

static void tables_hold_cells_as_text_and_number(void **state)
{
  (void)state;
  const pw_table *gas = pw_table_find("glazing/gas");
  assert_non_null(gas);
  assert_string_equal(pw_table_text(gas, 0, pw_table_column(gas, "quantity")), "k_a");
  pw_assert_near(pw_table_number(gas, 0, pw_table_column(gas, "value")), 0.002873, 0.0, "k_a",
                 "glazing/gas.csv row gas001");
  assert_true(isnan(pw_table_number(gas, 0, pw_table_column(gas, "gas"))));
  assert_true(isnan(pw_table_number(gas, 100000, 0)));
  assert_int_equal(pw_table_column(gas, "no such"), -1);
  assert_null(pw_table_find("no/such"));
  for (size_t i = 0; i < pw_table_count; i++) { /* the search halves a list in rising order */
    if (i > 0) assert_true(strcmp(pw_tables[i - 1].name, pw_tables[i].name) < 0);
    assert_ptr_equal(pw_table_find(pw_tables[i].name), &pw_tables[i]);
  }
}

static void nearest_word_is_offered_only_when_near(void **state)
{
  (void)state;
  static const char *const known[] = {"width_top", "width_middle", "facing"};
  assert_string_equal(pw_nearest("widht_top", known, 3), "width_top");
  assert_string_equal(pw_nearest("Facing", known, 3), "facing");
  assert_null(pw_nearest("colour", known, 3));
  assert_int_equal(pw_edit_distance("ca", "ac"), 1);
}

static void an_error_is_one_line_and_says_where(void **state)
{
  (void)state;
  pw_err err;
  assert_int_equal(pw_fail_at(&err, PW_E_DATA, "openings.csv", 3, 7, "got '%s'", "a\nb"),
                   PW_E_DATA);
  assert_string_equal(err.text, "openings.csv:3:7: got 'a?b'");
  assert_int_equal(pw_fail(NULL, PW_E_DOMAIN, "t", "x"), PW_E_DOMAIN);
}

/* Source: 1 Btu/(h ft2 F) = 5.678263 W/(m2 K), reference/glazing/METHODS.md E. */
static void units_agree_with_each_other(void **state)
{
  (void)state;
  pw_assert_near(PW_BTU / 3600.0 / PW_FOOT2 * 1.8, PW_U_IP, 1e-9, "U in IP",
                 "from BTU, foot, 1.8");
  pw_assert_near(PW_U_IP, 5.678263, 5e-7, "U in IP", "METHODS.md E");
  pw_assert_near(pw_f(pw_k(-18.0)), -0.4, 1e-9, "-18 C in F", "METHODS.md E");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(tables_hold_cells_as_text_and_number),
      cmocka_unit_test(nearest_word_is_offered_only_when_near),
      cmocka_unit_test(an_error_is_one_line_and_says_where),
      cmocka_unit_test(units_agree_with_each_other),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
