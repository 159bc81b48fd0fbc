/* Corrected over normal emissivity by EN 12898 (EN 673 Annex A; from memory, table glazing/constants): every row, linear between,
 * and the ends. */
#include "support.h"

#include "panewright/unit.h"

static void every_row_and_what_lies_between(void **state)
{
  (void)state;
  static const double row[][2] = {{0.03, 1.22}, {0.05, 1.18}, {0.10, 1.14}, {0.20, 1.10},
                                  {0.30, 1.06}, {0.40, 1.03}, {0.50, 1.00}, {0.60, 0.98},
                                  {0.70, 0.96}, {0.80, 0.95}, {0.89, 0.94}};
  enum { N = sizeof row / sizeof row[0] };
  for (size_t i = 0; i < N; i++) {
    double e = 0.0;
    assert_int_equal(pw_emissivity_corrected(row[i][0], &e, NULL), PW_OK);
    pw_assert_near(e, row[i][0] * row[i][1], 1e-12, "row", "EN 12898");
    if (i + 1 == N) break;
    double mid = 0.5 * (row[i][0] + row[i + 1][0]);
    assert_int_equal(pw_emissivity_corrected(mid, &e, NULL), PW_OK);
    pw_assert_near(e, mid * 0.5 * (row[i][1] + row[i + 1][1]), 1e-12, "half way", "EN 12898");
  }
}

static void beyond_the_rows_the_last_ratio_holds(void **state)
{
  (void)state;
  double e = 7.0;
  pw_err err;
  assert_int_equal(pw_emissivity_corrected(0.01, &e, NULL), PW_OK);
  pw_assert_near(e, 0.0122, 1e-12, "a silvered face", "EN 12898, first row");
  assert_int_equal(pw_emissivity_corrected(1.0, &e, NULL), PW_OK);
  pw_assert_near(e, 0.94, 1e-12, "black", "EN 12898, last row");
  assert_int_equal(pw_emissivity_corrected(0.0, &e, &err), PW_E_DOMAIN);
  assert_int_equal(pw_emissivity_corrected(1.01, &e, &err), PW_E_DOMAIN);
  pw_assert_near(e, 0.94, 0.0, "untouched", "contract");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_row_and_what_lies_between),
                                     cmocka_unit_test(beyond_the_rows_the_last_ratio_holds)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
