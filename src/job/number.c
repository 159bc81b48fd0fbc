#include "job/number.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TOKEN_MAX = 40, UNIT_MAX = 24, LIST_MAX = 160 };

static void skip_blank(const char **p)
{
  for (;;) {
    if (isspace((unsigned char)**p))
      (*p)++;
    else if (strncmp(*p, "\xC2\xA0", 2) == 0)
      *p += 2;
    else
      return;
  }
}

/* A decimal number with sign and exponent; words, hexadecimal and a second point are none. */
static int take_number(const char **p, double *v)
{
  const char *s = *p;
  char token[TOKEN_MAX];
  size_t n = 0, n_digit = 0;
  int point = 0;
  if (*s == '-' || *s == '+') token[n++] = *s++;
  for (; n + 6 < TOKEN_MAX; s++) {
    if (isdigit((unsigned char)*s))
      n_digit++;
    else if (*s == '.' && !point && s[1] != '.')
      point = 1;
    else
      break;
    token[n++] = *s;
  }
  if (!n_digit || isdigit((unsigned char)*s)) return 0;
  const char *e = s + 1;
  if ((*s == 'e' || *s == 'E') && (*e == '-' || *e == '+')) e++;
  if ((*s == 'e' || *s == 'E') && isdigit((unsigned char)*e)) {
    token[n++] = 'e';
    if (e[-1] == '-') token[n++] = '-';
    for (int k = 0; k < 3 && isdigit((unsigned char)*e); k++)
      token[n++] = *e++;
    s = e;
  }
  token[n] = '\0';
  *v = strtod(token, NULL);
  *p = s;
  return isfinite(*v);
}

static int take_mark(const char **p, const char *const mark[], size_t n)
{
  skip_blank(p);
  for (size_t i = 0; i < n; i++) {
    size_t length = strlen(mark[i]);
    if (strncmp(*p, mark[i], length) != 0) continue;
    *p += length;
    skip_blank(p);
    return 1;
  }
  return 0;
}

/* Unit text without blanks and case, '$' first as it stands; 0 when too long. */
static int unit_text(const char *s, const char *lead, char unit[UNIT_MAX])
{
  size_t n = (size_t)snprintf(unit, UNIT_MAX, "%s", lead);
  for (; *s; s++) {
    if (isspace((unsigned char)*s)) continue;
    if (*s == '$' && n == 1 && unit[0] == '$') continue;
    if (n + 1 >= UNIT_MAX) return 0;
    unit[n++] = (char)tolower((unsigned char)*s);
  }
  unit[n] = '\0';
  return 1;
}

static int same_unit(const char *word, const char *unit)
{
  for (; *word; word++) {
    if (*word == ' ') continue;
    if (tolower((unsigned char)*word) != *unit++) return 0;
  }
  return *unit == '\0';
}

static void list_units(const pw_unit_word unit[], size_t n, char list[LIST_MAX])
{
  size_t have = 0;
  list[0] = '\0';
  for (size_t i = 0; i < n && have + UNIT_MAX + 2 < LIST_MAX; i++)
    if (unit[i].word[0])
      have += (size_t)snprintf(list + have, LIST_MAX - have, "%s%s", have ? ", " : "",
                               unit[i].word);
}

/* Value and half width from "a", "a +- b" or "a .. b". */
static pw_status take_values(const char *text, const char **p, double *value, double *spread,
                             pw_err *err)
{
  static const char *const plus_minus[] = {"+-", "+/-", "\xC2\xB1"};
  static const char *const to[] = {"..", "\xE2\x80\xA6"};
  double a = 0.0, b = 0.0;
  *spread = 0.0;
  if (!take_number(p, &a))
    return pw_fail(err, PW_E_DATA, "number", "'%.40s' is no number", text);
  *value = a;
  if (take_mark(p, plus_minus, 3)) {
    if (!take_number(p, &b) || b < 0.0)
      return pw_fail(err, PW_E_DATA, "number",
                     "'%.40s': after +- want a number not below 0, as in 12.5 +- 0.5", text);
    *spread = b;
  } else if (take_mark(p, to, 2)) {
    if (*p[0] == '.') (*p)++;
    skip_blank(p);
    if (!take_number(p, &b))
      return pw_fail(err, PW_E_DATA, "number", "'%.40s': want two numbers, as in 12 .. 14",
                     text);
    if (b < a)
      return pw_fail(err, PW_E_DATA, "number",
                     "'%.40s' is upside down: want the low end first, as in %g .. %g", text, b,
                     a);
    *value = 0.5 * (a + b);
    *spread = 0.5 * (b - a);
  }
  return PW_OK;
}

pw_status pw_number_read(const char *text, const pw_unit_word unit[], size_t n_unit, double low,
                         double high, pw_given *given, size_t *unit_index, pw_err *err)
{
  const char *p = text;
  double value = 0.0, spread = 0.0;
  skip_blank(&p);
  const char *lead = *p == '$' ? "$" : "";
  if (*lead) p++;
  pw_status status = take_values(text, &p, &value, &spread, err);
  if (status != PW_OK) return status;
  char word[UNIT_MAX] = "", list[LIST_MAX];
  size_t i = n_unit;
  if (unit_text(p, lead, word))
    for (i = word[0] ? 0 : n_unit; i < n_unit; i++)
      if (same_unit(unit[i].word, word)) break;
  if (i == n_unit) {
    list_units(unit, n_unit, list);
    skip_blank(&p);
    int money = *lead && n_unit && unit[0].word[0] == '$'; /* "$350" is a bare sum */
    if (*p || (*lead && !money))
      return pw_fail(err, PW_E_DATA, "number", "'%.40s': the unit is not known here; want %s",
                     text, list[0] ? list : "a bare number");
    i = 0;
  }
  double factor = n_unit ? unit[i].factor : 1.0, add = n_unit ? unit[i].add : 0.0;
  double kept = factor * value + add;
  if (!(kept >= low && kept <= high))
    return pw_fail(err, PW_E_DATA, "number", "'%.40s' is out of range; want %g to %g %s", text,
                   (low - add) / factor, (high - add) / factor, n_unit ? unit[i].word : "");
  *given =
      (pw_given){.value = kept, .spread = fabs(factor) * spread, .origin = PW_ORIGIN_STATED};
  if (unit_index) *unit_index = i;
  return PW_OK;
}
