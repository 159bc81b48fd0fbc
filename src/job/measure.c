#include "job/measure.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/tape.h"
#include "job/date_text.h"
#include "job/number.h"
#include "panewright/units.h"

const char pw_measure_forms[] = "35 1/2, 35-1/2\", 35.5 in, 4'-2 3/8\", 902 mm or 90.2 cm";

enum { PLAIN_MAX = 64, DIGITS_MAX = 9 };

/* Marks of several bytes and what they stand for in plain letters. */
static const struct {
  const char *mark, *plain;
} spelling[] = {
    {"\xC2\xBD", " 1/2"},     {"\xC2\xBC", " 1/4"},     {"\xC2\xBE", " 3/4"},
    {"\xE2\x85\x9B", " 1/8"}, {"\xE2\x85\x9C", " 3/8"}, {"\xE2\x85\x9D", " 5/8"},
    {"\xE2\x85\x9E", " 7/8"}, {"\xE2\x80\xB2", "'"},    {"\xE2\x80\x99", "'"},
    {"\xE2\x80\x98", "'"},    {"\xE2\x80\xB3", "\""},   {"\xE2\x80\x9D", "\""},
    {"\xE2\x80\x9C", "\""},   {"\xC2\xA0", " "},        {"\xE2\x80\x93", "-"},
    {"\xE2\x80\x91", "-"},    {"\xE2\x81\x84", "/"},    {"\xE2\x88\x95", "/"},
    {"\xC2\xB4", "'"},        {"\xE2\x80\x94", "-"},    {"\xE2\x88\x92", "-"},
};

/* Copies text with those marks replaced, letters lowered, blanks squeezed; 0 when it is too long. */
static int plain_copy(const char *text, char plain[PLAIN_MAX])
{
  size_t n = 0;
  while (*text) {
    const char *put = NULL;
    int odd = (unsigned char)*text >= 128 || *text == '\''; /* what a spelling begins with */
    for (size_t i = 0; odd && i < sizeof spelling / sizeof spelling[0] && !put; i++) {
      size_t length = strlen(spelling[i].mark);
      if (strncmp(text, spelling[i].mark, length) != 0) continue;
      put = spelling[i].plain;
      text += length;
    }
    char one[2] = {0};
    if (!put) {
      one[0] = (char)(isspace((unsigned char)*text) ? ' ' : tolower((unsigned char)*text));
      put = one;
      text++;
    }
    for (; *put; put++) {
      if (*put == ' ' && (n == 0 || plain[n - 1] == ' ')) continue;
      if (*put == '\'' && n && plain[n - 1] == '\'') { /* two foot marks are one of inches */
        plain[n - 1] = '"';
        continue;
      }
      if (n + 1 >= PLAIN_MAX) return 0;
      plain[n++] = *put;
    }
  }
  while (n && plain[n - 1] == ' ')
    n--;
  plain[n] = '\0';
  return 1;
}

static void skip_blank(const char **p)
{
  while (**p == ' ')
    (*p)++;
}

/* A run of digits with at most one point and commas between thousands; 0 when there is none or it is
 * absurdly long. */
static int take_decimal(const char **p, double *v, int *whole)
{
  const char *s = *p;
  char digits[PLAIN_MAX];
  size_t n = 0, n_digit = 0;
  *whole = 1;
  while (isdigit((unsigned char)*s) || (*s == '.' && *whole) ||
         (*s == ',' && *whole && job_thousands(s, n_digit))) {
    if (*s == ',') {
      s++;
      continue;
    }
    if (*s == '.')
      *whole = 0;
    else
      n_digit++;
    digits[n++] = *s++;
  }
  digits[n] = '\0';
  if (n_digit == 0 || n_digit > 2 * DIGITS_MAX) return 0;
  *v = job_decimal(digits);
  *p = s;
  return 1;
}

/* "3/8": numerator below denominator, a power of two to 64. */
static int take_fraction(const char **p, double *v)
{
  const char *s = *p;
  double over = 0.0, under = 0.0;
  int whole = 0;
  if (!take_decimal(&s, &over, &whole) || !whole) return 0;
  skip_blank(&s);
  if (*s != '/') return 0;
  s++;
  skip_blank(&s);
  if (!take_decimal(&s, &under, &whole) || !whole) return -1;
  int ok = 0;
  for (int d = 2; d <= 64; d *= 2)
    ok |= under == d;
  if (!ok || !(over > 0.0 && over < under)) return -1;
  *v = over / under;
  *p = s;
  return 1;
}

/* Skips the first of the words that stands at *p and ends there; returns 1 when one does. */
static int take_word(const char **p, const char *const word[], size_t n)
{
  for (size_t i = 0; i < n; i++) {
    size_t length = strlen(word[i]);
    if (strncmp(*p, word[i], length) != 0) continue;
    int letters = isalpha((unsigned char)word[i][0]);
    if (letters && isalpha((unsigned char)(*p)[length])) continue;
    *p += length;
    if (**p == '.' && letters) (*p)++;
    return 1;
  }
  return 0;
}

static int take_inch_mark(const char **p)
{
  static const char *const word[] = {"\"", "inches", "inch", "in"};
  skip_blank(p);
  return take_word(p, word, sizeof word / sizeof word[0]);
}

static int take_foot_mark(const char **p)
{
  static const char *const word[] = {"'", "feet", "foot", "ft"};
  skip_blank(p);
  return take_word(p, word, sizeof word / sizeof word[0]);
}

static double take_metric(const char **p)
{
  static const struct {
    const char *const word[2];
    double metre;
  } unit[] = {
      {{"mm", "millimetres"}, 1e-3}, {{"cm", "centimetres"}, 1e-2}, {{"m", "metres"}, 1.0}};
  skip_blank(p);
  for (size_t i = 0; i < sizeof unit / sizeof unit[0]; i++)
    if (take_word(p, unit[i].word, 2)) return unit[i].metre;
  return 0.0;
}

/* Inches: "35", "35.5", "35 1/2", "35-1/2", "1/2"; 0 nothing there, -1 a bad fraction. */
static int take_inches(const char **p, double *inch)
{
  double whole = 0.0, part = 0.0;
  int is_whole = 0, got = take_fraction(p, &part);
  if (got != 0) {
    *inch = part;
    return got;
  }
  if (!take_decimal(p, &whole, &is_whole)) return 0;
  *inch = whole;
  if (!is_whole) return 1;
  const char *s = *p;
  skip_blank(&s);
  if (*s == '-') s++;
  skip_blank(&s);
  if (s == *p) return 1; /* a digit cannot follow at once */
  got = take_fraction(&s, &part);
  if (got < 0) return -1;
  if (got > 0) {
    *inch += part;
    *p = s;
  }
  return 1;
}

/* No length: says what happened when that can be seen. */
static pw_status refuse(const char *text, pw_err *err)
{
  int over = 0, under = 0;
  const char *comma = strchr(text, ',');
  if (job_date_turned(text, &over, &under) && under > 0)
    return pw_fail(
        err, PW_E_DATA, "length",
        "'%.40s' is a date: a spreadsheet has turned %d/%d into it; write 0 %d/%d or "
        "%d/%d in (make the cells text first)",
        text, over, under, over, under, over, under);
  if (job_date_turned(text, &over, &under))
    return pw_fail(
        err, PW_E_DATA, "length",
        "'%.40s' is a date that a spreadsheet made; write what the tape said, as in 0 "
        "1/2 or 1/2 in (make the cells text first)",
        text);
  if (comma && isdigit((unsigned char)comma[1]))
    return pw_fail(err, PW_E_DATA, "length",
                   "'%.40s': decimals want a point, as in 35.5 (a comma parts thousands)",
                   text);
  return pw_fail(err, PW_E_DATA, "length", "'%.40s' is no length; want %s", text,
                 pw_measure_forms);
}

/* A bad fraction: ninths and tenths come from a spreadsheet's way to show a fraction. */
static pw_status refuse_fraction(const char *text, pw_err *err)
{
  const char *slash = strchr(text, '/');
  long under =
      slash ? strtol(slash + 1, NULL, 10) : 0; /* the nearest, where it is beyond all */
  int power = 0;
  for (int d = 2; d <= 64; d *= 2)
    power |= under == d;
  return pw_fail(err, PW_E_DATA, "length",
                 "'%.40s': a fraction must be below 1, in halves to sixty-fourths%s", text,
                 under > 2 && under < 100 && !power
                     ? " (a spreadsheet's fraction format rounds; show decimals)"
                     : "");
}

pw_status pw_measure_read(const char *text, double *length, pw_err *err)
{
  char plain[PLAIN_MAX] = "";
  const char *p = plain;
  double first = 0.0, feet = 0.0, inch = 0.0, metre = 0.0;
  if (!plain_copy(text, plain) || !plain[0]) return refuse(text, err);
  int got = take_inches(&p, &first);
  if (got < 0) return refuse_fraction(text, err);
  if (got > 0 && *p == '\0') {
    inch = first;
  } else if (got > 0 && (metre = take_metric(&p)) > 0.0) {
    metre *= first;
  } else if (got > 0 && take_foot_mark(&p)) {
    feet = first;
    skip_blank(&p);
    int dash = *p == '-';
    if (dash) p++;
    skip_blank(&p);
    if ((*p || dash) && take_inches(&p, &inch) <= 0) got = 0;
    if (inch >= 12.0)
      return pw_fail(err, PW_E_DATA, "length", "'%.40s': after feet, inches must be below 12",
                     text);
    take_inch_mark(&p);
  } else if (got > 0) {
    inch = first;
    if (!take_inch_mark(&p)) got = 0;
  }
  skip_blank(&p);
  if (got <= 0 || *p) return refuse(text, err);
  *length = metre > 0.0 ? metre : (12.0 * feet + inch) * PW_INCH;
  return PW_OK;
}

void pw_measure_text(double length, char text[], size_t size)
{
  char tape[32];
  pw_tape_text(length, 64, tape, sizeof tape);
  snprintf(text, size, "%s\"", tape);
}
