#include "job/number.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/unit_text.h"

enum { TOKEN_MAX = 40, UNIT_MAX = JOB_UNIT_MAX, LIST_MAX = 160 };

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

int job_thousands(const char *s, size_t n_before)
{
  size_t n = 1;
  while (n < 4 && isdigit((unsigned char)s[n]))
    n++;
  return n_before >= 1 && n_before <= 3 && n == 4 && !isdigit((unsigned char)s[4]);
}

double job_decimal(const char *digits)
{
  static const double ten[] = {1.0, 1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                               1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
  long long whole = 0;
  size_t n = 0, after = 0;
  int point = 0;
  const char *s = digits;
  for (; isdigit((unsigned char)*s) || (*s == '.' && !point); s++) {
    if (*s == '.') {
      point = 1;
      continue;
    }
    whole = 10 * whole + (*s - '0');
    after += (size_t)point;
    if (++n > 15) break;
  }
  /* Both are whole numbers that a double holds, so the quotient is the nearest one, as strtod's is. */
  return *s || n == 0 ? strtod(digits, NULL) : (double)whole / ten[after];
}

/* A decimal number with sign and exponent, and commas between thousands; words, hexadecimal and a
 * second point are none. */
static int take_number(const char **p, double *v)
{
  const char *s = *p;
  char token[TOKEN_MAX];
  size_t n = 0, n_digit = 0, group = 0;
  int point = 0;
  if (*s == '-' || *s == '+') token[n++] = *s++;
  for (; n + 6 < TOKEN_MAX; s++) {
    if (isdigit((unsigned char)*s)) {
      n_digit++;
      group++;
    } else if (*s == ',' && !point && job_thousands(s, group)) {
      group = 0;
      continue;
    } else if (*s == '.' && !point && s[1] != '.')
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
  *v = job_decimal(token);
  *p = s;
  return isfinite(*v);
}

/* Unit text up to end (NULL: all) without blanks and case, led by the '$' that stood before the
 * number; 0 when too long. */
static int unit_text(const char *s, const char *end, const char *lead, char unit[UNIT_MAX])
{
  size_t n = (size_t)snprintf(unit, UNIT_MAX, "%s", lead);
  for (; *s && s != end; s++) {
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

/* The unit's row, n when there is none: as it is written, then in one spelling for both. */
static size_t find_unit(const pw_unit_word unit[], size_t n, const char *word)
{
  char plain[JOB_UNIT_MAX], known[JOB_UNIT_MAX];
  for (size_t i = 0; i < n; i++)
    if (same_unit(unit[i].word, word)) return i;
  job_unit_plain(word, plain);
  if (!plain[0] && n) return 0; /* "68 deg" */
  for (size_t i = 0; i < n; i++) {
    job_unit_plain(unit[i].word, known);
    if (strcmp(known, plain) == 0) return i;
    if (plain[0] == '/' && known[0] == '$' && strcmp(known + 1, plain) == 0) return i;
  }
  return n;
}

/* "SEER 13": the unit's words before the number, in lower case; 0 when it does not begin so. */
static int leading_unit(const char **p, char lead[UNIT_MAX])
{
  const char *s = *p;
  size_t n = 0;
  while (n + 1 < UNIT_MAX && isalpha((unsigned char)s[n]))
    n++;
  if (n < 2 || n + 1 == UNIT_MAX) return 0;
  for (size_t i = 0; i < n; i++)
    lead[i] = (char)tolower((unsigned char)s[i]);
  lead[n] = '\0';
  s += n;
  if (*s == '2' && (s[1] == ' ' || s[1] == ':' || s[1] == '=')) { /* SEER2, HSPF2 */
    lead[n++] = '2';
    lead[n] = '\0';
    s++;
  }
  while (*s == ':' || *s == '=' || isspace((unsigned char)*s))
    s++;
  if (!isdigit((unsigned char)*s) && *s != '.' && *s != '$') return 0;
  *p = s;
  return 1;
}

/* Why a number is followed by what is no unit. */
static const char *advice(const char *word)
{
  const char *comma = strchr(word, ',');
  if (comma && isdigit((unsigned char)comma[1]))
    return "a comma parts thousands only, as in 2,280; decimals want a point, as in 22.8";
  if ((*word == '-' && isdigit((unsigned char)word[1])) ||
      strncmp(word, "\xE2\x80\x93", 3) == 0 ||
      (strncmp(word, "to", 2) == 0 && isdigit((unsigned char)word[2])))
    return "a range is written 12 .. 14";
  return NULL;
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

/* Where the next mark of a spread stands, and its length; NULL when there is none. */
static const char *find_mark(const char *s, int *is_range, size_t *length)
{
  static const struct {
    const char *mark;
    int is_range;
  } spread[] = {{"+-", 0},  {"+/-", 0}, {"\xC2\xB1", 0},
                {"...", 1}, {"..", 1},  {"\xE2\x80\xA6", 1}};
  for (; *s; s++)
    for (size_t i = 0; i < sizeof spread / sizeof spread[0]; i++)
      if (strncmp(s, spread[i].mark, strlen(spread[i].mark)) == 0) {
        *is_range = spread[i].is_range;
        *length = strlen(spread[i].mark);
        return s;
      }
  return NULL;
}

/* Value and half width from "a", "a +- b" or "a .. b"; a unit may follow either number. */
static pw_status take_values(const char *text, const char *p, const char *lead, double *value,
                             double *spread, char unit[UNIT_MAX], pw_err *err)
{
  double a = 0.0, b = 0.0;
  int is_range = 0;
  size_t length = 0;
  char second[UNIT_MAX] = "";
  if (!take_number(&p, &a))
    return pw_fail(err, PW_E_DATA, "number", "'%.40s' is no number", text);
  *value = a;
  *spread = 0.0;
  const char *mark = find_mark(p, &is_range, &length);
  if (!unit_text(p, mark, lead, unit)) strcpy(unit, "?");
  if (!mark) return PW_OK;
  p = mark + length;
  skip_blank(&p);
  if (*p == '$' && *lead) p++;
  if (!take_number(&p, &b))
    return pw_fail(err, PW_E_DATA, "number",
                   "'%.40s': want two numbers, as in 12 .. 14 or 12.5 +- 0.5", text);
  if (!unit_text(p, NULL, lead, second)) strcpy(second, "?");
  if (strcmp(unit, lead) == 0)
    strcpy(unit, second);
  else if (strcmp(second, lead) != 0 && strcmp(second, unit) != 0)
    return pw_fail(err, PW_E_DATA, "number", "'%.40s': two units in one cell", text);
  if (!is_range && b < 0.0)
    return pw_fail(err, PW_E_DATA, "number", "'%.40s': want a spread not below 0", text);
  if (is_range && b < a)
    return pw_fail(err, PW_E_DATA, "number",
                   "'%.40s' is upside down: want the low end first, as in %g .. %g", text, b,
                   a);
  *value = is_range ? 0.5 * (a + b) : a;
  *spread = is_range ? 0.5 * (b - a) : b;
  return PW_OK;
}

pw_status pw_number_read(const char *text, const pw_unit_word unit[], size_t n_unit, double low,
                         double high, pw_given *given, size_t *unit_index, pw_err *err)
{
  const char *p = text;
  double value = 0.0, spread = 0.0;
  char word[UNIT_MAX] = "", list[LIST_MAX];
  char lead[UNIT_MAX] = "", first_word[UNIT_MAX] = "";
  skip_blank(&p);
  int leads = leading_unit(&p, first_word), sum_of_money = *p == '$';
  if (leads && (strcmp(first_word, "usd") == 0 || strcmp(first_word, "us") == 0)) {
    first_word[0] = '\0';
    strcpy(lead, "$");
  }
  if (sum_of_money) {
    strcpy(lead, "$");
    p++;
  }
  skip_blank(&p);
  const char *first = p;
  list_units(unit, n_unit, list);
  if (!take_number(&first, &value))
    return pw_fail(err, PW_E_DATA, "number", "'%.40s' is no number%s%s", text,
                   list[0] ? "; want one in " : "", list);
  pw_status status = take_values(text, p, lead, &value, &spread, word, err);
  if (status != PW_OK) return status;
  if (first_word[0] && strlen(word) + strlen(first_word) < UNIT_MAX) strcat(word, first_word);
  const char *odd = advice(word);
  if (odd) return pw_fail(err, PW_E_DATA, "number", "'%.40s': %s", text, odd);
  size_t i = word[0] ? find_unit(unit, n_unit, word) : n_unit;
  if (i == n_unit) {
    int bare = !word[0], sum = strcmp(word, "$") == 0 && n_unit && unit[0].word[0] == '$';
    if (!bare && !sum) /* "$350" is a bare sum of money */
      return pw_fail(err, PW_E_DATA, "number", "'%.40s': the unit is not known here; want %s",
                     text, list[0] ? list : "a bare number");
    i = 0;
  }
  double factor = n_unit ? unit[i].factor : 1.0, add = n_unit ? unit[i].add : 0.0;
  double kept = factor * value + add;
  if (!(kept >= low && kept <= high))
    return pw_fail(err, PW_E_DATA, "number", "'%.40s' is out of range; want %g to %g%s%s", text,
                   (low - add) / factor, (high - add) / factor,
                   n_unit && unit[i].word[0] ? " " : "", n_unit ? unit[i].word : "");
  *given =
      (pw_given){.value = kept, .spread = fabs(factor) * spread, .origin = PW_ORIGIN_STATED};
  if (unit_index) *unit_index = i;
  return PW_OK;
}
