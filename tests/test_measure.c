/* job/measure and base/tape: what a tape says becomes metres, exactly, and back. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/random.h"
#include "base/tape.h"
#include "job/measure.h"
#include "job/number.h"
#include "panewright/units.h"

/* Source: 1 in = 25.4 mm, 1 ft = 12 in, by definition; the forms are those of trade/JOB.md "Inputs
 * a contractor expects". */
static void every_form_of_the_trade_is_read(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    double inch;
  } row[] = {{"35 1/2", 35.5},
             {"35-1/2", 35.5},
             {"35.5", 35.5},
             {"35 1/2\"", 35.5},
             {"35-1/2\"", 35.5},
             {"35.5 in", 35.5},
             {"4'-2 3/8\"", 50.375},
             {"4' 2 3/8", 50.375},
             {"50 3/8in", 50.375},
             {"4'2-3/8\"", 50.375},
             {"4 ft 2 3/8 in", 50.375},
             {"4'", 48.0},
             {"3/8", 0.375},
             {" 71 7/16 ", 71.4375},
             {"35\xC2\xBD", 35.5},
             {"35 \xC2\xBD\xE2\x80\xB3", 35.5},
             {"7'-11 7/16\"", 95.4375},
             {"0", 0.0},
             {"12 63/64 inches", 12.984375},
             {"35 1/2''", 35.5},
             {"6FT", 72.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    double v = NAN;
    pw_err err = {0};
    if (pw_measure_read(row[i].text, &v, &err) != PW_OK)
      fail_msg("%s: %s", row[i].text, err.text);
    if (v != row[i].inch * 0.0254) fail_msg("%s: got %.17g in", row[i].text, v / 0.0254);
  }
  static const struct {
    const char *text;
    double metre;
  } metric[] = {{"902 mm", 0.902}, {"902mm", 0.902}, {"90.2 cm", 0.902}, {"0.902 m", 0.902}};
  for (size_t i = 0; i < sizeof metric / sizeof metric[0]; i++) {
    double v = NAN;
    assert_int_equal(pw_measure_read(metric[i].text, &v, NULL), PW_OK);
    pw_assert_near(v, metric[i].metre, 1e-15, metric[i].text, "definition of the units");
  }
}

static void every_sixty_fourth_comes_back_to_the_last_bit(void **state)
{
  (void)state;
  for (int n = 0; n <= 240 * 64; n++) {
    double length = n / 64.0 * 0.0254, back = NAN;
    char text[40];
    pw_measure_text(length, text, sizeof text);
    assert_int_equal(pw_measure_read(text, &back, NULL), PW_OK);
    if (back != length) fail_msg("%d/64 in: %s came back as %.17g", n, text, back);
    char feet[48]; /* the same in feet and inches */
    char tape[32];
    pw_tape_text((n % (12 * 64)) / 64.0 * 0.0254, 64, tape, sizeof tape);
    snprintf(feet, sizeof feet, "%d'-%s\"", n / (12 * 64), tape);
    assert_int_equal(pw_measure_read(feet, &back, NULL), PW_OK);
    if (back != length) fail_msg("%s came back as %.17g, want %.17g", feet, back, length);
  }
}

static void what_is_no_length_is_refused_and_nothing_is_touched(void **state)
{
  (void)state;
  static const char *const text[] = {
      "",           "nan",        "inf",    "-35",         "abc",     "35 1/3",
      "35 9/8",     "35/",        "1/0",    "35 1/",       "35..5",   "35.5.1",
      "1e3",        "0x10",       "35 mmm", "35 1/2 mm x", "4'-12\"", "4' 99",
      "35 1/2 1/2", "35\" 4",     "'",      "\"",          "35,5",    "9999999999999999999999",
      "35 1/128",   "3.5 1/2",    "4'-",    "4''-2",       "35-",     "1/2/4",
      "--5",        "35 furlongs"};
  for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
    double v = -7.0;
    pw_err err = {0};
    if (pw_measure_read(text[i], &v, &err) != PW_E_DATA)
      fail_msg("'%s' was taken as %g in", text[i], v / 0.0254);
    assert_true(v == -7.0);
    assert_true(err.text[0] != '\0' && strchr(err.text, '\n') == NULL);
  }
  pw_err err = {0}; /* 4 294 967 299 is no 3, which 32 bits make of it */
  pw_measure_read("35 1/4294967299", &(double){0.0}, &err);
  assert_null(strstr(err.text, "spreadsheet"));
  char big[5000];
  memset(big, '1', sizeof big - 1);
  big[sizeof big - 1] = '\0';
  double v = -7.0;
  assert_int_equal(pw_measure_read(big, &v, NULL), PW_E_DATA);
}

static void tape_text_is_in_lowest_terms_and_floor_forgives_noise(void **state)
{
  (void)state;
  char t[32];
  pw_tape_text(35.5 * PW_INCH, 16, t, sizeof t);
  assert_string_equal(t, "35 1/2");
  pw_tape_text(0.9999 * PW_INCH, 16, t, sizeof t);
  assert_string_equal(t, "1");
  pw_tape_text(-0.375 * PW_INCH, 8, t, sizeof t);
  assert_string_equal(t, "-3/8");
  /* half a mark goes up, whatever a rounding before took away */
  pw_tape_text((3.5 / 16.0 - 1e-13) * PW_INCH, 16, t, sizeof t);
  assert_string_equal(t, "1/4");
  pw_tape_text(3.49 / 16.0 * PW_INCH, 16, t, sizeof t);
  assert_string_equal(t, "3/16");
  pw_tape_text((double)NAN, 8, t, sizeof t);
  assert_string_equal(t, "-");
  for (int n = 0; n < 2000; n++) { /* a size on the mark is not lost to rounding */
    double length = n / 8.0 * 0.0254;
    pw_assert_near(pw_tape_floor(length, 8), length, 1e-12, "on the mark", "definition");
    pw_assert_near(pw_tape_floor(length + 0.9 / 8 * 0.0254, 8), length, 1e-12, "above",
                   "definition");
  }
}

/* The C library's strtod is the other way: bit by bit, over decimals of chance with up to 18 digits and a point anywhere. */
static void decimals_are_the_nearest_double(void **state)
{
  (void)state;
  static const char *const odd[] = {"0",
                                    "0.1",
                                    ".5",
                                    "5.",
                                    "000.30",
                                    "999999999999999",
                                    "9007199254740993",
                                    "0.000000000000001",
                                    "123456789012345.6",
                                    "-2.5",
                                    "1e3",
                                    "",
                                    "1.2.3"};
  for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++)
    assert_true(job_decimal(odd[i]) == strtod(odd[i], NULL));
  uint64_t seed = 7;
  for (int i = 0; i < 200000; i++) {
    char text[32];
    size_t n = 0, digits = 1 + (size_t)((pw_random_next(&seed) >> 33) % 18),
           point = (size_t)((pw_random_next(&seed) >> 33) % 20);
    for (size_t k = 0; k < digits; k++) {
      if (k == point) text[n++] = '.';
      text[n++] = (char)('0' + (pw_random_next(&seed) >> 33) % 10);
    }
    text[n] = '\0';
    double got = job_decimal(text), want = strtod(text, NULL);
    if (memcmp(&got, &want, sizeof got) != 0)
      fail_msg("%s: %.17g, strtod %.17g", text, got, want);
  }
}

static void numbers_carry_unit_and_spread(void **state)
{
  (void)state;
  static const pw_unit_word unit[] = {{"$/kWh", 1.0, 0.0}, {"$/therm", 1.0 / 29.307107, 0.0}};
  static const struct {
    const char *text;
    double value, spread;
  } row[] = {{"0.14", 0.14, 0.0},
             {"$0.14", 0.14, 0.0},
             {"0.14 $/kWh", 0.14, 0.0},
             {"$0.14 /kWh", 0.14, 0.0},
             {"2.9307107 $/therm", 0.1, 0.0},
             {"12.5 +- 0.5", 12.5, 0.5},
             {"12.5 \xC2\xB1 0.5 $/kWh", 12.5, 0.5},
             {"12.5+/-0.5", 12.5, 0.5},
             {"12 .. 14", 13.0, 1.0},
             {"12..14", 13.0, 1.0},
             {"1.5e1", 15.0, 0.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_given g = {0};
    pw_err err = {0};
    if (pw_number_read(row[i].text, unit, 2, -100.0, 100.0, &g, NULL, &err) != PW_OK)
      fail_msg("%s: %s", row[i].text, err.text);
    pw_assert_near(g.value, row[i].value, 1e-9, row[i].text, "arithmetic");
    pw_assert_near(g.spread, row[i].spread, 1e-9, row[i].text, "arithmetic");
  }
  static const char *const bad[] = {
      "",          "nan",       "inf",          "-inf",     "NaN",  "1,480",
      "14 .. 12",  "12 ..",     "12 +- ",       "12 +- -1", "0x1F", "1.2.3",
      "5 parsecs", "12 $/kwhh", "$5 $/therm x", "1e999",    "101",  "--3"};
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    pw_given g = {.value = -7.0};
    pw_err err = {0};
    if (pw_number_read(bad[i], unit, 2, -100.0, 100.0, &g, NULL, &err) != PW_E_DATA)
      fail_msg("'%s' was taken as %g", bad[i], g.value);
    assert_true(g.value == -7.0);
    assert_true(err.text[0] != '\0');
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_form_of_the_trade_is_read),
      cmocka_unit_test(every_sixty_fourth_comes_back_to_the_last_bit),
      cmocka_unit_test(what_is_no_length_is_refused_and_nothing_is_touched),
      cmocka_unit_test(tape_text_is_in_lowest_terms_and_floor_forgives_noise),
      cmocka_unit_test(decimals_are_the_nearest_double),
      cmocka_unit_test(numbers_carry_unit_and_spread),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
