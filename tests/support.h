/* What the tests share: cmocka, comparison in double, places of files. */
#ifndef TESTS_SUPPORT_H
#define TESTS_SUPPORT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "panewright/message.h"
#include "panewright/status.h"

/* Fails unless |got - want| <= tolerance (a NaN fails); what and source are printed then. */
#define pw_assert_near(got, want, tolerance, what, source)                                     \
  pw_assert_near_at(got, want, tolerance, what, source, __FILE__, __LINE__)
void pw_assert_near_at(double got, double want, double tolerance, const char *what,
                       const char *source, const char *file, int line);

/* The path of an open hourly file of reference/checks. Static buffer. */
const char *pw_hourly(const char *name);

/* First call of each test program: GSL's own handler, which ends the program at an error, is on, as in a host that knows
 * nothing of GSL. */
void pw_test_begin(void);

/* A number of a struct, and that low to high is taken of it. Kind: d double, f float, i int, n size_t (refused as a PW_E_SHAPE, all
 * others as a PW_E_DOMAIN); "(d" without the low end itself, "d)" without the high one. */
typedef struct pw_span {
  const char *field; /* as the refusal names it */
  size_t at;
  const char *kind;
  double low, high;
} pw_span;

/* Makes one number after the other wrong in a good struct of that size (not a number, without end, the next number outside either
 * end) and fails unless the call refuses it by its status and field; a number at a closed end, or just within an open one, has to
 * be taken. The call itself looks whether what it then returns is finite. */
void pw_assert_spans(const void *good, size_t size, const pw_span span[], size_t n,
                     pw_status (*call)(const void *changed, pw_err *err));

/* A message in English, in a buffer of its own until the next call. */
const char *pw_said(const pw_message *message);

#endif
