/* What the tests share: cmocka, comparison in double, places of files. */
#ifndef TESTS_SUPPORT_H
#define TESTS_SUPPORT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "panewright/message.h"

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

/* A message in English, in a buffer of its own until the next call. */
const char *pw_said(const pw_message *message);

#endif
