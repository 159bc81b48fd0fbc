/* Numbers that are none, put where a number is wanted: each must be refused with the field's name, and what is
 * just inside the stated bounds taken. */
#ifndef TESTS_WRONG_VALUE_H
#define TESTS_WRONG_VALUE_H

#include "support.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "panewright/status.h"

/* A field of a subject, the bounds it has, and whether they are themselves taken. */
typedef struct wrong_field {
  const char *name; /* as err.field says it */
  size_t offset;    /* of a double in the subject */
  double low, high; /* -INFINITY, INFINITY: no bound, but finite */
  int open_low;     /* 1: low itself is refused */
} wrong_field;

/* subject: valid, size bytes; ask: the call under test. */
static inline void wrong_value_one(const void *subject, size_t size, const wrong_field *f,
                                   pw_status (*ask)(const void *subject, pw_err *err),
                                   double value, pw_status want)
{
  unsigned char copy[16384];
  pw_err err = {0};
  assert_true(size <= sizeof copy);
  memcpy(copy, subject, size);
  memcpy(copy + f->offset, &value, sizeof value);
  pw_status got = ask(copy, &err);
  if (got != want || (want != PW_OK && strcmp(err.field ? err.field : "", f->name) != 0))
    fail_msg("%s = %g: status %d, want %d; field %s: %s", f->name, value, (int)got, (int)want,
             err.field ? err.field : "-", err.text);
}

static inline void wrong_values(const void *subject, size_t size, const wrong_field field[],
                                size_t n, pw_status (*ask)(const void *subject, pw_err *err))
{
  for (size_t i = 0; i < n; i++) {
    const wrong_field *f = &field[i];
    const double never[] = {NAN, INFINITY, -INFINITY};
    for (size_t k = 0; k < 3; k++)
      wrong_value_one(subject, size, f, ask, never[k], PW_E_DOMAIN);
    if (isfinite(f->low)) {
      wrong_value_one(subject, size, f, ask, nextafter(f->low, -DBL_MAX), PW_E_DOMAIN);
      wrong_value_one(subject, size, f, ask, f->low, f->open_low ? PW_E_DOMAIN : PW_OK);
      if (f->open_low)
        wrong_value_one(subject, size, f, ask, nextafter(f->low, DBL_MAX), PW_OK);
    }
    if (isfinite(f->high)) {
      wrong_value_one(subject, size, f, ask, nextafter(f->high, DBL_MAX), PW_E_DOMAIN);
      wrong_value_one(subject, size, f, ask, f->high, PW_OK);
    }
  }
}

#endif
