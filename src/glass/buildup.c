#include "panewright/glazing.h"

#include <float.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/ascii.h"
#include "base/nearest.h"
#include "base/print.h"
#include "gen/reference.h"
#include "glass/optics.h"
#include "panewright/units.h"

/* Limits of a part, m: from picture glass to a laminated pane, from a spacer to a storm window. */
static const double pane_min = 0.5e-3, pane_max = 50e-3, gap_min = 2e-3, gap_max = 200e-3;

enum { KNOWN_MAX = 96 };

typedef struct reader {
  const char *text, *p;
  const char *const *own; /* panes known beside the table's */
  size_t n_own;
  pw_err *err;
} reader;

static int is_blank(char c) { return c == ' ' || c == '\t'; }
static int is_word(char c) { return pw_is_alnum(c) || c == '_' || c == '-' || c == '.'; }
static void skip_blanks(reader *r)
{
  while (is_blank(*r->p))
    r->p++;
}

/* A refusal at the place `at`: "column 7: found 'x', want ...". */
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
static pw_status
refuse(const reader *r, const char *at, const char *format, ...)
{
  if (!r->err) return PW_E_DATA;
  char want[240], found[48];
  size_t n = strcspn(at, " \t/");
  if (n == 0 && *at) n = 1;
  if (n > 40) n = 40;
  memcpy(found, at, n);
  found[n] = 0;
  va_list args;
  va_start(args, format);
  pw_print_list(want, sizeof want, format, args);
  va_end(args);
  size_t column = (size_t)(at - r->text) + 1;
  if (n == 0)
    pw_fail(r->err, PW_E_DATA, "glass", "column %zu: the text ends, want %s", column, want);
  else
    pw_fail(r->err, PW_E_DATA, "glass", "column %zu: found '%s', want %s", column, found, want);
  r->err->column = column < 1000000 ? (int)column : 1000000;
  return PW_E_DATA;
}

/* Digits with at most one point; 0 when there is none or it is absurdly long. The value is the
 * integer of its digits over a power of ten, so it does not depend on a locale. */
static int read_number(reader *r, double *v)
{
  double digits = 0.0, scale = 1.0;
  int n = 0, seen = 0, point = 0;
  const char *p = r->p;
  for (; pw_is_digit(*p) || (*p == '.' && !point); p++) {
    if (*p == '.') {
      point = 1;
      continue;
    }
    seen = 1;
    if (n > 0 || *p != '0') n++;
    digits = digits * 10.0 + (*p - '0');
    if (point) scale *= 10.0;
    if (n > 18 || scale > 1e22) return 0;
  }
  if (!seen || *p == '.') return 0;
  *v = digits / scale;
  r->p = p;
  return 1;
}

/* NUMBER, N/D, or NUMBER N/D (blank or hyphen between); 0 and r->p at the fault otherwise. */
static int read_amount(reader *r, double *v)
{
  double whole = 0.0, over = 0.0, under = 1.0;
  const char *start = r->p;
  if (!read_number(r, &whole)) return 0;
  const char *after = r->p;
  if (*r->p == '/' && pw_is_digit(r->p[1])) {
    r->p = start;
    over = whole;
    whole = 0.0;
  } else {
    while (is_blank(*r->p) || (*r->p == '-' && pw_is_digit(r->p[1])))
      r->p++;
    const char *second = r->p;
    if (!pw_is_digit(*r->p) || !read_number(r, &over) || *r->p != '/' ||
        !pw_is_digit(r->p[1])) {
      r->p = pw_is_digit(*second) ? second : after;
      *v = whole;
      return !pw_is_digit(*second);
    }
  }
  while (*r->p != '/')
    r->p++;
  r->p++;
  const char *bottom = r->p;
  if (!read_number(r, &under) || !(under > 0.0)) {
    r->p = bottom;
    return 0;
  }
  *v = whole + over / under;
  return 1;
}

/* Amount and unit, in m. */
static pw_status read_thickness(reader *r, const char *what, double low, double high, double *t)
{
  static const struct {
    const char *word;
    double per_m; /* exact, so that 12.7 mm is the double nearest to 0.0127 */
  } unit[] = {{"mm", 1000.0}, {"cm", 100.0}, {"inches", 0}, {"inch", 0}, {"in", 0}, {"\"", 0}};
  skip_blanks(r);
  const char *start = r->p;
  double v = 0.0;
  if (!read_amount(r, &v))
    return refuse(r, r->p, "the thickness of %s, such as 3mm or 1/8 in", what);
  skip_blanks(r);
  for (size_t i = 0; i < sizeof unit / sizeof unit[0]; i++) {
    size_t n = strlen(unit[i].word), same = 0;
    while (same < n && pw_lower(r->p[same]) == unit[i].word[same])
      same++;
    if (same < n || (n > 1 && is_word(r->p[n]))) continue;
    *t = unit[i].per_m > 0.0 ? v / unit[i].per_m : v * PW_INCH;
    r->p += n;
    if (*t >= low && *t <= high) return PW_OK;
    return refuse(r, start, "%s of %g to %g mm", what, low * 1e3, high * 1e3);
  }
  return refuse(r, r->p, "mm, cm or in after the thickness of %s", what);
}

/* A word in lower case, cut to fit; its length in the text, 0 for none. */
static size_t read_word(reader *r, char word[PW_NAME_MAX])
{
  size_t n = 0;
  memset(word, 0, PW_NAME_MAX);
  for (; is_word(*r->p); r->p++, n++)
    if (n < PW_NAME_MAX - 1) word[n] = pw_lower(*r->p);
  return n;
}

/* The word must be one of known[n], else the nearest or all of them are offered. */
static pw_status known_word(const reader *r, const char *at, const char *word, size_t length,
                            const char *what, const char *const known[], size_t n,
                            size_t *index)
{
  for (size_t i = 0; i < n && length < PW_NAME_MAX; i++)
    if (strcmp(word, known[i]) == 0) {
      *index = i;
      return PW_OK;
    }
  const char *near = length > 0 ? pw_nearest(word, known, n) : NULL;
  if (near) return refuse(r, at, "%s; did you mean '%s'?", what, near);
  char list[160] = "";
  for (size_t i = 0, used = 0; i < n; i++) {
    size_t more = strlen(known[i]);
    if (used + more + 8 > sizeof list) {
      memcpy(list + used, ", ...", 6);
      break;
    }
    used += (size_t)snprintf(list + used, sizeof list - used, "%s%s", i ? ", " : "", known[i]);
  }
  return refuse(r, at, "%s: %s", what, list);
}

/* The caller's own panes, then the ids of reference/panes.csv. */
static size_t known_kinds(const reader *r, const char *known[KNOWN_MAX])
{
  size_t n = 0;
  for (size_t i = 0; i < r->n_own && n < KNOWN_MAX; i++)
    known[n++] = r->own[i];
  for (size_t i = 0; i < pw_ref_panes__n && n < KNOWN_MAX; i++) {
    const char *word = pw_ref_panes[i].id;
    if (n == 0 || strcmp(known[n - 1], word) != 0) known[n++] = word; /* a row a thickness */
  }
  return n;
}

/* "@ 3": the surface must be one of pane i; *side is 0 for its outdoor face, 1 for its indoor. */
static pw_status read_surface(reader *r, size_t i, int *side)
{
  skip_blanks(r);
  if (*r->p != '@') return refuse(r, r->p, "'@' and the number of a surface");
  r->p++;
  skip_blanks(r);
  const char *at = r->p;
  size_t n = 0;
  for (; pw_is_digit(*r->p) && n < 1000; r->p++)
    n = n * 10 + (size_t)(*r->p - '0');
  if (n != 2 * i + 1 && n != 2 * i + 2)
    return refuse(r, at, "a surface of this pane: %zu or %zu", 2 * i + 1, 2 * i + 2);
  *side = n == 2 * i + 1 ? 0 : 1;
  return PW_OK;
}

static pw_status read_coat(reader *r, size_t i, pw_buildup_pane *pane)
{
  char word[PW_NAME_MAX];
  size_t known = 0, n_coating = 0;
  const char *const *coating = pw_coating_names(&n_coating);
  int side = 0;
  skip_blanks(r);
  const char *at = r->p;
  size_t length = read_word(r, word);
  pw_status s = known_word(r, at, word, length, "a coating", coating, n_coating, &known);
  if (s == PW_OK) s = read_surface(r, i, &side);
  if (s != PW_OK) return s;
  if (pane->coating[side][0]) return refuse(r, at, "one coating a surface, this is its second");
  memcpy(pane->coating[side], word, sizeof word);
  return PW_OK;
}

static pw_status read_emit(reader *r, size_t i, pw_buildup_pane *pane)
{
  double e = 0.0;
  int side = 0;
  skip_blanks(r);
  const char *at = r->p;
  if (!read_number(r, &e) || !(e >= 0.001 && e <= 1.0))
    return refuse(r, at, "an emissivity of 0.001 to 1");
  pw_status s = read_surface(r, i, &side);
  if (s != PW_OK) return s;
  if (pane->emit[side] > 0.0)
    return refuse(r, at, "one emissivity a surface, this is its second");
  pane->emit[side] = e;
  return PW_OK;
}

static pw_status read_pane(reader *r, size_t i, pw_buildup_pane *pane)
{
  static const char *const feature[] = {"coat", "emit"};
  const char *known[KNOWN_MAX];
  char word[PW_NAME_MAX];
  size_t which = 0;
  pw_status s = read_thickness(r, "a pane", pane_min, pane_max, &pane->thickness);
  if (s != PW_OK) return s;
  skip_blanks(r);
  const char *at = r->p;
  size_t length = read_word(r, word);
  s = known_word(r, at, word, length, "a kind of glass", known, known_kinds(r, known), &which);
  if (s != PW_OK) return s;
  memcpy(pane->kind, word, sizeof word);
  for (skip_blanks(r); *r->p && *r->p != '/'; skip_blanks(r)) {
    at = r->p;
    length = read_word(r, word);
    s = known_word(r, at, word, length, "'/' and a gap, or coat, emit", feature, 2, &which);
    if (s == PW_OK) s = which == 0 ? read_coat(r, i, pane) : read_emit(r, i, pane);
    if (s != PW_OK) return s;
  }
  return PW_OK;
}

static pw_status read_gas(reader *r, pw_gap *gap, double *sum, size_t *n_pure)
{
  const char *known[PW_GAS_COUNT];
  char word[PW_NAME_MAX];
  double percent = 100.0;
  size_t gas = 0;
  const char *at = r->p;
  size_t length = read_word(r, word);
  for (int g = 0; g < PW_GAS_COUNT; g++)
    known[g] = pw_gas_name((pw_gas)g);
  pw_status s = known_word(r, at, word, length, "a gas", known, PW_GAS_COUNT, &gas);
  if (s != PW_OK) return s;
  if (gap->mix.share[gas] > 0.0) return refuse(r, at, "each gas once");
  skip_blanks(r);
  const char *number = r->p;
  if (pw_is_digit(*r->p) || *r->p == '.') {
    if (!read_number(r, &percent) || !(percent >= 0.01 && percent <= 100.0))
      return refuse(r, number, "a share of 0.01 to 100 %%");
    skip_blanks(r);
    if (*r->p != '%') return refuse(r, r->p, "'%%' after the share of a gas");
    r->p++;
  } else {
    ++*n_pure;
  }
  gap->mix.share[gas] = percent / 100.0;
  *sum += percent / 100.0;
  if (*sum > 1.0 + 1e-9)
    return refuse(r, at, "shares that sum to 100 %% at most, a gas without a share alone");
  return PW_OK;
}

static pw_status read_gap(reader *r, pw_gap *gap)
{
  double sum = 0.0;
  size_t n_pure = 0, n = 0;
  pw_status s = read_thickness(r, "a gap", gap_min, gap_max, &gap->thickness);
  if (s != PW_OK) return s;
  for (skip_blanks(r); n == 0 || (*r->p && *r->p != '/'); skip_blanks(r), n++) {
    s = read_gas(r, gap, &sum, &n_pure);
    if (s != PW_OK) return s;
  }
  if (sum < 1.0) gap->mix.share[PW_AIR] += 1.0 - sum;
  return PW_OK;
}

pw_status pw_buildup_parse(const char *text, pw_buildup *buildup, pw_err *err)
{
  return pw_buildup_parse_own(text, NULL, 0, buildup, err);
}

pw_status pw_buildup_parse_own(const char *text, const char *const own[], size_t n_own,
                               pw_buildup *buildup, pw_err *err)
{
  reader r = {text, text, own, n_own, err};
  pw_buildup b = {0};
  for (;;) {
    pw_status s = read_pane(&r, b.n_pane, &b.pane[b.n_pane]);
    if (s != PW_OK) return s;
    b.n_pane++;
    if (*r.p == 0) break;
    if (b.n_pane == PW_PANES_MAX) return refuse(&r, r.p, "at most %d panes", PW_PANES_MAX);
    r.p++;
    s = read_gap(&r, &b.gap[b.n_pane - 1]);
    if (s != PW_OK) return s;
    if (*r.p == 0) return refuse(&r, r.p, "'/' and a pane after the gap");
    r.p++;
  }
  *buildup = b;
  return PW_OK;
}

/* ---- and back ---- */

typedef struct writer {
  char *text;
  size_t size, used;
  int lost; /* a number was no amount that can be read back */
} writer;

#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
static void
put(writer *w, const char *format, ...)
{
  size_t room = w->used < w->size ? w->size - w->used : 0;
  va_list args;
  va_start(args, format);
  int n = vsnprintf(room ? w->text + w->used : NULL, room, format, args);
  va_end(args);
  if (n > 0) w->used += (size_t)n;
}

/* v in 1/per units, with the fewest digits that read back as v to two units in the last place. */
static void put_number(writer *w, double v, double per)
{
  char digits[40] = "";
  double off = INFINITY; /* of what is read back */
  for (int n = 1; n <= 15 && !(off <= 2.0 * DBL_EPSILON * v); n++) {
    double back = 0.0;
    pw_print(digits, sizeof digits, "%.*f", n, v * per);
    reader r = {digits, digits, NULL, 0, NULL};
    off = read_number(&r, &back) ? fabs(back / per - v) : INFINITY;
  }
  if (!(off <= 1e-6 * fmin(v, 1e6))) {
    w->lost = 1;
    return;
  }
  size_t n = strlen(digits);
  while (digits[n - 1] == '0') /* behind the point */
    n--;
  if (digits[n - 1] == '.') n--;
  digits[n] = 0;
  put(w, "%s", digits);
}

static void put_mix(writer *w, const pw_mix *mix)
{
  size_t n = 0;
  for (size_t i = 1; i < PW_GAS_COUNT; i++) {
    if (!(mix->share[i] > 0.0)) continue;
    put(w, " %s", pw_gas_name((pw_gas)i));
    n++;
    if (mix->share[i] == 1.0) continue;
    put(w, " ");
    put_number(w, mix->share[i], 100.0);
    put(w, "%%");
  }
  if (n == 0) put(w, " air");
}

pw_status pw_buildup_print(const pw_buildup *buildup, char *text, size_t size, pw_err *err)
{
  if (size > 0) text[0] = 0;
  if (!(buildup->n_pane >= 1 && buildup->n_pane <= PW_PANES_MAX))
    return pw_fail(err, PW_E_SHAPE, "n_pane", "%zu panes, want 1 to %d", buildup->n_pane,
                   PW_PANES_MAX);
  writer w = {text, size, 0, 0};
  for (size_t i = 0; i < buildup->n_pane; i++) {
    const pw_buildup_pane *pane = &buildup->pane[i];
    if (i > 0) {
      put(&w, " / ");
      put_number(&w, buildup->gap[i - 1].thickness, 1000.0);
      put(&w, "mm");
      put_mix(&w, &buildup->gap[i - 1].mix);
      put(&w, " / ");
    }
    put_number(&w, pane->thickness, 1000.0);
    put(&w, "mm %s", pane->kind[0] ? pane->kind : "clear");
    for (size_t side = 0; side < 2; side++) {
      if (pane->coating[side][0])
        put(&w, " coat %s@%zu", pane->coating[side], 2 * i + 1 + side);
      if (!(pane->emit[side] > 0.0)) continue;
      put(&w, " emit ");
      put_number(&w, pane->emit[side], 1.0);
      put(&w, "@%zu", 2 * i + 1 + side);
    }
  }
  if (w.lost) return pw_fail(err, PW_E_DOMAIN, "buildup", "a number that no digits can say");
  if (w.used >= size)
    return pw_fail(err, PW_E_SHAPE, "size", "%zu bytes, want %zu for the build-up in words",
                   size, w.used + 1);
  return PW_OK;
}
