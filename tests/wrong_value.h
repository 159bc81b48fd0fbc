/* Numbers that are none, put where a number is wanted: pw_assert_spans for fields that are all doubles, by their bounds alone. */
#ifndef TESTS_WRONG_VALUE_H
#define TESTS_WRONG_VALUE_H

#include "support.h"

#include <float.h>
#include <math.h>
#include <string.h>

/* A field of a subject, the bounds it has, and whether they are themselves taken. */
typedef struct wrong_field {
  const char *name; /* as err.field says it */
  size_t offset;    /* of a double in the subject */
  double low, high; /* -INFINITY, INFINITY: no bound, but finite */
  int open_low;     /* 1: low itself is refused */
} wrong_field;

/* subject: valid, size bytes; ask: the call under test. */
static inline void wrong_values(const void *subject, size_t size, const wrong_field field[],
                                size_t n, pw_status (*ask)(const void *subject, pw_err *err))
{
  static const char *const kind[2][2] = {{"d", "d)"}, {"(d", "(d)"}};
  for (size_t i = 0; i < n; i++) {
    const wrong_field *f = &field[i];
    const int open_low = f->open_low || isinf(f->low), open_high = isinf(f->high) != 0;
    const pw_span span = {f->name, f->offset, kind[open_low][open_high], f->low, f->high};
    pw_assert_spans(subject, size, &span, 1, ask);
  }
}

#endif
