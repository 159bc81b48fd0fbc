#include "job/date_text.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"

enum { NUMBERS_MAX = 3, PLAIN_MAX = 40 };

/* What stands in the text: up to three numbers in their order and the name of a month. */
typedef struct parts {
  int number[NUMBERS_MAX], digits[NUMBERS_MAX], n;
  int month; /* 1..12 by name, 0 none */
} parts;

/* The month that the letters name, in full or from three letters on; 0 none. */
static int month_of(const char *word, size_t n)
{
  static const char *const name[2][12] = {
      {"january", "february", "march", "april", "may", "june", "july", "august", "september",
       "october", "november", "december"},
      {"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre",
       "octubre", "noviembre", "diciembre"}};
  for (int l = 0; l < 2; l++)
    for (int m = 0; m < 12; m++)
      if (n >= 3 && n <= strlen(name[l][m]) && strncmp(word, name[l][m], n) == 0) return m + 1;
  return n == 4 && strncmp(word, "sept", 4) == 0 ? 9 : 0;
}

/* A midnight behind the day, as spreadsheets write it, is cut off. */
static void cut_midnight(char *text)
{
  static const char *const tail[] = {" 0:00",     " 00:00",       " 0:00:00", " 00:00:00",
                                     "t00:00:00", " 12:00:00 am", " 12:00 am"};
  size_t n = strlen(text);
  for (size_t i = 0; i < sizeof tail / sizeof tail[0]; i++) {
    size_t k = strlen(tail[i]);
    if (n > k && strcmp(text + n - k, tail[i]) == 0) {
      text[n - k] = '\0';
      return;
    }
  }
}

/* Numbers and a month parted by blanks, ',', '.', '/', '-' or "de"; 0 when there is anything else. */
static int take_parts(const char *text, parts *p)
{
  char plain[PLAIN_MAX];
  size_t n = 0;
  *p = (parts){.n = 0};
  if (strlen(text) >= PLAIN_MAX) return 0;
  for (; text[n]; n++)
    plain[n] = (char)tolower((unsigned char)text[n]);
  plain[n] = '\0';
  cut_midnight(plain);
  for (const char *s = plain; *s;) {
    size_t k = 0;
    if (isdigit((unsigned char)*s)) {
      while (isdigit((unsigned char)s[k]))
        k++;
      if (k > 4 || p->n == NUMBERS_MAX) return 0;
      p->digits[p->n] = (int)k;
      p->number[p->n++] = atoi(s);
    } else if (isalpha((unsigned char)*s)) {
      while (isalpha((unsigned char)s[k]))
        k++;
      int month = month_of(s, k);
      if (month && p->month) return 0;
      if (!month && !(k == 2 && strncmp(s, "de", 2) == 0)) return 0;
      if (month) p->month = month;
    } else {
      if (!strchr(" ,./-", *s)) return 0;
      k = 1;
    }
    s += k;
  }
  return 1;
}

/* "yyyy-mm-dd" when there is such a day. */
static int make_day(int year, int month, int day, char iso[11])
{
  char text[40];
  pw_date date = 0;
  snprintf(text, sizeof text, "%04d-%02d-%02d", year, month, day);
  if (pw_date_read(text, &date, NULL) != PW_OK) return 0;
  pw_date_write(date, iso);
  return 1;
}

/* A whole number that is a day of the years 2000 to 2050 counted from 1899-12-30, as spreadsheets do
 * (common practice, no source). */
static int take_day_number(const char *text, int *year, int *month, int *day)
{
  if (strlen(text) != 5 || strspn(text, "0123456789") != 5) return 0;
  long serial = atol(text);
  if (serial < 36526 || serial > 55153) return 0;
  pw_date date = pw_date_of_day((int)serial - 25569);
  *year = date / 10000;
  *month = date / 100 % 100;
  *day = date % 100;
  return 1;
}

/* Year first, month and day by their place or by the name of the month. */
static int days_meant(const parts *p, char first[11], char second[11])
{
  const int *v = p->number;
  int n = 0;
  if (p->month && p->n == 2) {
    int year = p->digits[0] == 4 ? v[0] : v[1], day = p->digits[0] == 4 ? v[1] : v[0];
    if (p->digits[0] != 4 && p->digits[1] != 4) return 0;
    return make_day(year, p->month, day, first);
  }
  if (p->month || p->n != 3) return 0;
  if (p->digits[0] == 4) return make_day(v[0], v[1], v[2], first);
  if (p->digits[2] != 4) return 0;
  n = make_day(v[2], v[0], v[1], first);
  if (v[0] == v[1]) return n;
  return n + make_day(v[2], v[1], v[0], n ? second : first);
}

pw_status job_date_read(const char *text, char iso[11], pw_err *err)
{
  parts p;
  char first[11] = "", second[11] = "";
  int year = 0, month = 0, day = 0;
  if (take_day_number(text, &year, &month, &day))
    return pw_fail(err, PW_E_DATA, "date",
                   "'%.40s' is a spreadsheet's number of a day (%04d-%02d-%02d); show the cell "
                   "as yyyy-mm-dd",
                   text, year, month, day);
  if (!take_parts(text, &p))
    return pw_fail(err, PW_E_DATA, "date", "'%.40s' is no date; want yyyy-mm-dd", text);
  int n = days_meant(&p, first, second);
  if (n == 2)
    return pw_fail(err, PW_E_DATA, "date", "'%.40s' may be %s or %s; want yyyy-mm-dd", text,
                   first, second);
  if (n == 1) {
    memcpy(iso, first, 11);
    return PW_OK;
  }
  int wide = 0;
  for (int i = 0; i < p.n; i++)
    wide |= p.digits[i] == 4;
  if (!wide && p.n + (p.month != 0) == 3)
    return pw_fail(err, PW_E_DATA, "date",
                   "'%.40s' has a year of two digits, which may be read in more than one way; "
                   "want yyyy-mm-dd",
                   text);
  return pw_fail(err, PW_E_DATA, "date", "'%.40s' is no date; want yyyy-mm-dd", text);
}

int job_date_two_ways(const char *text, char month_first[11], char day_first[11])
{
  parts p;
  month_first[0] = day_first[0] = '\0';
  if (!take_parts(text, &p) || p.month || p.n != 3 || p.digits[0] == 4 || p.digits[2] != 4)
    return 0;
  make_day(p.number[2], p.number[0], p.number[1], month_first);
  make_day(p.number[2], p.number[1], p.number[0], day_first);
  return 1;
}

static int of_a_tape(int over, int under)
{
  int ok = 0;
  for (int d = 2; d <= 64; d *= 2)
    ok |= under == d;
  return ok && over > 0 && over < under;
}

int job_date_turned(const char *text, int *over, int *under)
{
  parts p;
  char day[11], other[11];
  int a = 0, b = 0, year = 0;
  *over = *under = 0;
  if (take_day_number(text, &year, &a, &b)) {
    ;
  } else if (!take_parts(text, &p)) {
    return 0;
  } else if (p.month && p.n >= 1) { /* 2-Jan, Jan-32, 2-Jan-2027 */
    int at = p.n == 2 && p.digits[0] == 4 ? 1 : 0;
    a = p.month;
    b = p.number[at];
    year = p.n == 2 ? p.number[1 - at] : 0;
  } else if (p.n == 3 && days_meant(&p, day, other) > 0) {
    int at = p.digits[0] == 4 ? 1 : 0;
    a = p.number[at];
    b = p.number[at + 1];
    year = p.number[at ? 0 : 2];
  } else {
    return 0;
  }
  if (of_a_tape(a, b) || of_a_tape(b, a)) {
    *over = a < b ? a : b;
    *under = a < b ? b : a;
  } else if (b == 1 &&
             (year % 100 == 32 || year % 100 == 64)) { /* 3/64 is taken as March '64 */
    *over = a;
    *under = year % 100;
  }
  return 1;
}
