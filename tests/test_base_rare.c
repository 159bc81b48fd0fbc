/* Floor 0 where it is seldom: every kind of cell, every mark that text must not hold, dates at the ends of months, words too long. */
#include "support.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "base/nearest.h"
#include "base/own_math.h"
#include "base/state.h"
#include "base/table.h"
#include "base/tape.h"
#include "base/text.h"
#include "base/windows1252.h"
#include "panewright/units.h"

/* ---------------------------------------------------------------- tables */

typedef struct odd_row {
  double number;
  const char *word;
  unsigned char choice;
  const pw_table *table;
  short row, fixed;
  char chars[4];
} odd_row;

/* A table of one column of each kind, a row with values and a row without. Row 0 of climate2/places has the key 690150. */
static void every_kind_of_cell_is_text_or_number(void **state)
{
  (void)state;
  static const char *const choice[] = {"no", "yes", NULL};
  static const pw_column column[] = {
      {.name = "number", .kind = PW_COLUMN_NUMBER, .offset = offsetof(odd_row, number)},
      {.name = "word", .kind = PW_COLUMN_WORD, .offset = offsetof(odd_row, word)},
      {.name = "enum",
       .kind = PW_COLUMN_ENUM,
       .offset = offsetof(odd_row, choice),
       .word = choice},
      {.name = "table", .kind = PW_COLUMN_TABLE, .offset = offsetof(odd_row, table)},
      {.name = "row",
       .kind = PW_COLUMN_ROW,
       .offset = offsetof(odd_row, row),
       .table = "climate2/places"},
      {.name = "chars", .kind = PW_COLUMN_CHARS, .offset = offsetof(odd_row, chars)},
      {.name = "fixed",
       .kind = PW_COLUMN_FIXED,
       .offset = offsetof(odd_row, fixed),
       .per = 100},
      {.name = "later", .kind = (pw_column_kind)99}};
  const odd_row row[] = {{2.5, "w", 1, pw_table_find("glazing/gas"), 0, 125, "abc"},
                         {(double)NAN, "", 0, NULL, -1, SHRT_MIN, ""}};
  const pw_table t = {.name = "odd",
                      .n_row = 2,
                      .n_col = sizeof column / sizeof column[0],
                      .stride = sizeof row[0],
                      .column = column,
                      .row = row};
  static const char *const text[2][8] = {
      {"", "w", "yes", "glazing/gas", "690150", "abc", "", ""},
      {"", "", "no", "", "", "", "", ""}};
  for (size_t r = 0; r < 2; r++)
    for (int c = 0; c < 8; c++) {
      assert_string_equal(pw_table_text(&t, r, c), text[r][c]);
      double v = pw_table_number(&t, r, c);
      if (r == 0 && c == 0)
        pw_assert_near(v, 2.5, 0.0, "number", "as put in");
      else if (r == 0 && c == 6)
        pw_assert_near(v, 1.25, 0.0, "fixed", "125 hundredths");
      else
        assert_true(isnan(v));
    }
  assert_string_equal(pw_table_text(&t, 2, 1), "");
  assert_string_equal(pw_table_text(&t, 0, 8), "");
  assert_string_equal(pw_table_text(&t, 0, -1), "");
  assert_string_equal(pw_table_text(NULL, 0, 0), "");
  assert_true(isnan(pw_table_number(NULL, 0, 0)));
  assert_int_equal(pw_table_column(NULL, "word"), -1);
}

/* ---------------------------------------------------------------- dates, lengths, states, words */

/* Gregorian calendar: 1900 was no leap year, 2000 was one. */
static void dates_end_with_their_month(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    int date; /* 0: none */
  } row[] = {{"2000-02-29", 20000229}, {"1900-02-28", 19000228}, {"1900-02-29", 0},
             {"2024-02-29", 20240229}, {"2023-02-29", 0},        {"1899-12-31", 0},
             {"2023-00-10", 0},        {"2023-13-10", 0},        {"2023-04-00", 0},
             {"2023-04-31", 0},        {"2023-12-31", 20231231}, {"2023/12/31", 0},
             {"2023-12-3", 0},         {"2023-1x-31", 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_date date = 77;
    pw_err err;
    pw_status s = pw_date_read(row[i].text, &date, &err);
    if (row[i].date ? s != PW_OK || date != row[i].date : s != PW_E_DOMAIN || date != 77)
      fail_msg("%s: status %d, %d", row[i].text, (int)s, (int)date);
  }
  char text[11];
  pw_date_write(99991231, text);
  assert_string_equal(text, "9999-12-31");
  pw_date_write(99991232, text);
  assert_string_equal(text, "");
  pw_date_write(-1, text);
  assert_string_equal(text, "");
}

/* A thousandth of an inch is no mark of a tape in sixteenths, so that it has no sign either. */
static void nothing_on_a_tape_has_no_sign(void **state)
{
  (void)state;
  static const struct {
    double inch;
    const char *text;
  } row[] = {{-0.001, "0"},   {0.0, "0"},  {-0.5, "-1/2"},     {-2.0, "-2"},
             {2.25, "2 1/4"}, {1e12, "-"}, {(double)NAN, "-"}, {-1.0625, "-1 1/16"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char text[32];
    pw_tape_text(row[i].inch * PW_INCH, 16, text, sizeof text);
    assert_string_equal(text, row[i].text);
  }
}

static void a_word_longer_than_all_is_like_none(void **state)
{
  (void)state;
  char longer[70];
  memset(longer, 'a', 69);
  longer[69] = '\0';
  assert_int_equal(pw_edit_distance(longer, "a"), 69);
  assert_int_equal(pw_edit_distance("a", longer), 69);
  assert_int_equal(pw_edit_distance(longer + 5, "a"), 63); /* 64 letters, one is there */
  const char *code = "x", *near = "x";
  assert_false(pw_state_find(longer, &code, &near));
  assert_null(near);
  assert_string_equal(code, "x");
  assert_true(pw_state_find("n.m.", &code, NULL));
  assert_string_equal(code, "NM");
}

/* ---------------------------------------------------------------- text */

/* Unicode: C0, C1, marks of direction (UAX 9), byte order mark, noncharacters (FDD0..FDEF, the last two of each plane), line and
 * paragraph separator; the character before and behind each stretch is a common one. */
static void marks_are_unwanted_and_their_neighbours_are_not(void **state)
{
  (void)state;
  static const struct {
    unsigned long from, to;
  } stretch[] = {{0, 31},          {0x7F, 0x9F},     {0x202A, 0x202E},  {0x2066, 0x2069},
                 {0x200E, 0x200F}, {0x061C, 0x061C}, {0xFEFF, 0xFEFF},  {0xFFFE, 0xFFFF},
                 {0xFDD0, 0xFDEF}, {0x2028, 0x2029}, {0x1FFFE, 0x1FFFF}};
  for (size_t i = 0; i < sizeof stretch / sizeof stretch[0]; i++) {
    assert_true(pw_text_unwanted(stretch[i].from) && pw_text_unwanted(stretch[i].to));
    if (stretch[i].from > 0 && stretch[i].from != 0x202A) /* behind 2029 */
      assert_false(pw_text_unwanted(stretch[i].from - 1));
    if (stretch[i].to != 0x2029) assert_false(pw_text_unwanted(stretch[i].to + 1));
  }
}

/* Letters in small, all else one line between; what does not fit is left out whole. */
static void plain_words_fit_their_room(void **state)
{
  (void)state;
  static const struct {
    const char *text, *plain;
    size_t size;
  } row[] = {{"  Bed Room -- 2 ", "bed_room_2", 32},
             {"{A}|B", "a_b", 32},
             {"caf\xC3\xA9", "caf\xC3\xA9", 6},
             {"caf\xC3\xA9", "caf", 5},
             {"\xFF\xFE", "", 32},
             {"a\xFF"
              "b",
              "a_b", 32},
             {"abcdef", "abc", 4},
             {"", "", 1}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char plain[32];
    pw_text_plain(row[i].text, plain, row[i].size);
    assert_string_equal(plain, row[i].plain);
  }
}

/* The byte 0 stands for itself; 0x81 is no character of the page. 0x80 is U+20AC, E2 82 AC in UTF-8. */
static void bytes_of_the_old_page(void **state)
{
  (void)state;
  size_t n = 0, bad = 0;
  char *out = pw_windows1252_to_utf8("a\0\x80\xE9", 4, &n, &bad);
  assert_non_null(out);
  assert_int_equal(n, 7);
  assert_memory_equal(out, "a\0\xE2\x82\xAC\xC3\xA9", 8);
  free(out);
  assert_null(pw_windows1252_to_utf8("ab\x81", 3, &n, &bad));
  assert_int_equal(bad, 2);
}

/* ---------------------------------------------------------------- errors, messages */

static void every_status_has_words(void **state)
{
  (void)state;
  assert_string_equal(pw_status_text(PW_OK), "done");
  for (int i = PW_OK; i <= (int)PW_E_LACK; i++) {
    const char *text = pw_status_text((pw_status)i);
    assert_true(strlen(text) > 3 && strcmp(text, "unknown status") != 0);
    for (int k = PW_OK; k < i; k++)
      assert_string_not_equal(text, pw_status_text((pw_status)k));
  }
  assert_string_equal(pw_status_text((pw_status)((int)PW_E_LACK + 1)), "unknown status");
}

static void an_error_holds_no_mark(void **state)
{
  (void)state;
  pw_err err;
  pw_fail(&err, PW_E_DATA, "x", "a%cb%cc", 127, 1);
  assert_string_equal(err.text, "a?b?c");
  pw_fail_at(&err, PW_E_DATA, "f.csv", 3, 0, "x");
  assert_string_equal(err.text, "f.csv:3: x");
  pw_fail_at(&err, PW_E_DATA, "f.csv", 0, 4, "x");
  assert_string_equal(err.text, "f.csv: x");
  assert_int_equal(pw_fail_at(NULL, PW_E_DATA, "f.csv", 0, 0, "x"), PW_E_DATA);
}

/* ---------------------------------------------------------------- own_math */

/* ISO C annex F, powers and angles of numbers without end and of no number; the C library says the same. */
static void numbers_without_end(void **state)
{
  (void)state;
  const double inf = INFINITY, nan = (double)NAN, some[] = {-inf, -2.0, -0.0, 0.0, 2.0, inf};
  const size_t n = sizeof some / sizeof some[0];
  for (size_t i = 0; i < n; i++)
    for (size_t k = 0; k < n; k++) {
      double got = pw_atan2(some[i], some[k]), want = atan2(some[i], some[k]);
      assert_true(fabs(got - want) < 1e-15 && signbit(got) == signbit(want));
    }
  assert_true(isnan(pw_atan2(nan, 1.0)) && isnan(pw_atan2(1.0, nan)));
  const double bad[] = {inf, -inf, nan};
  for (size_t i = 0; i < 3; i++) {
    double s = 0.0, c = 0.0;
    pw_sin_cos(bad[i], &s, &c);
    assert_true(isnan(s) && isnan(c) && isnan(pw_tan(bad[i])));
  }
  assert_true(pw_root3(inf) == inf && pw_root3(-inf) == -inf && isnan(pw_root3(nan)));
  assert_true(pw_power(inf, 2.0) == inf && isnan(pw_power(nan, 2.0)) &&
              isnan(pw_power(-1.5, 0.5)));
  assert_true(pw_power(1.0, nan) == 1.0 && pw_power(nan, 0.0) == 1.0 &&
              isnan(pw_power(2.0, nan)));
  /* far out an angle is first brought within a turn by remainder(): 1e7 less 1591549 turns is 5.0955... */
  pw_assert_near(pw_sin(1e7), sin(1e7), 1e-9, "sin 1e7", "C library");
  pw_assert_near(pw_cos(-3e8), cos(-3e8), 1e-7, "cos -3e8", "C library");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_kind_of_cell_is_text_or_number),
      cmocka_unit_test(dates_end_with_their_month),
      cmocka_unit_test(nothing_on_a_tape_has_no_sign),
      cmocka_unit_test(a_word_longer_than_all_is_like_none),
      cmocka_unit_test(marks_are_unwanted_and_their_neighbours_are_not),
      cmocka_unit_test(plain_words_fit_their_room),
      cmocka_unit_test(bytes_of_the_old_page),
      cmocka_unit_test(every_status_has_words),
      cmocka_unit_test(an_error_holds_no_mark),
      cmocka_unit_test(numbers_without_end),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
