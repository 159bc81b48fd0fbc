#include "support.h"

#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/message_text.h"

void pw_assert_near_at(double got, double want, double tolerance, const char *what,
                       const char *source, const char *file, int line)
{
  if (fabs(got - want) <= tolerance) return;
  print_error("%s: got %.10g, want %.10g +- %.3g (off by %.3g); source: %s\n", what, got, want,
              tolerance, got - want, source);
  _fail(file, line);
}

const char *pw_hourly(const char *name)
{
  static char path[512];
  snprintf(path, sizeof path, "reference/checks/hourly/%s.gz", name);
  return path;
}

void pw_test_begin(void) { gsl_set_error_handler(NULL); }

/* The letter of a kind. */
static char letter(const pw_span *s) { return s->kind[s->kind[0] == '(']; }

static int is_whole(const pw_span *s) { return letter(s) == 'i' || letter(s) == 'n'; }

static void put(char *struct_of, const pw_span *s, double value)
{
  char *at = struct_of + s->at;
  float f = (float)value;
  int i = is_whole(s) ? (int)value : 0;
  size_t n = is_whole(s) ? (size_t)value : 0;
  switch (letter(s)) {
  case 'd':
    memcpy(at, &value, sizeof value);
    break;
  case 'f':
    memcpy(at, &f, sizeof f);
    break;
  case 'i':
    memcpy(at, &i, sizeof i);
    break;
  case 'n':
    memcpy(at, &n, sizeof n);
    break;
  default:
    fail_msg("no kind %s", s->kind);
  }
}

/* The number next to an end, on the way to another. */
static double beside(const pw_span *s, double end, double to)
{
  if (is_whole(s)) return end + (to > end ? 1.0 : -1.0);
  return letter(s) == 'f' ? (double)nextafterf((float)end, (float)to) : nextafter(end, to);
}

static int is_taken(const pw_span *s, double v)
{
  int above = s->kind[0] == '(' ? v > s->low : v >= s->low;
  int below = strchr(s->kind, ')') ? v < s->high : v <= s->high;
  return above && below;
}

static void assert_span(const void *good, char *changed, size_t size, const pw_span *s,
                        pw_status (*call)(const void *changed, pw_err *err))
{
  const double width = s->high - s->low, within = isfinite(width) ? 1e-6 * width : 0.0;
  const double value[] = {s->low,
                          s->high,
                          beside(s, s->low, -INFINITY),
                          beside(s, s->high, INFINITY),
                          s->low + within, /* a double or a float only, as what follows */
                          s->high - within,
                          INFINITY,
                          -INFINITY,
                          (double)NAN};
  for (size_t k = 0; k < (is_whole(s) ? 4 : sizeof value / sizeof value[0]); k++) {
    if (letter(s) == 'n' && value[k] < 0.0) continue;
    pw_err err = {.field = NULL};
    memcpy(changed, good, size);
    put(changed, s, value[k]);
    pw_status got = call(changed, &err), refused = letter(s) == 'n' ? PW_E_SHAPE : PW_E_DOMAIN;
    pw_status want = is_taken(s, value[k]) ? PW_OK : refused;
    const char *named = got != PW_OK && err.field ? err.field : "";
    if (got == want && strcmp(named, want == PW_OK ? "" : s->field) == 0) continue;
    fail_msg("%s = %.17g: status %d of '%s', want %d", s->field, value[k], (int)got, named,
             (int)want);
  }
}

void pw_assert_spans(const void *good, size_t size, const pw_span span[], size_t n,
                     pw_status (*call)(const void *changed, pw_err *err))
{
  char *changed = malloc(size);
  assert_non_null(changed);
  assert_int_equal(call(good, NULL), PW_OK);
  for (size_t i = 0; i < n; i++)
    assert_span(good, changed, size, &span[i], call);
  free(changed);
}

const char *pw_said(const pw_message *message)
{
  static char text[PW_MESSAGE_TEXT];
  return pw_message_text(NULL, message, text, sizeof text);
}
