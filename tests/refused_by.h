/* A call under test against the status and the field that are wanted of it. */
#ifndef TESTS_REFUSED_BY_H
#define TESTS_REFUSED_BY_H

#include "support.h"

#include <string.h>

#include "panewright/status.h"

/* field: as err->field says it; "" none, or the call is taken. */
static inline void refused(pw_status got, pw_status want, const pw_err *err, const char *field)
{
  if (got != want || (want != PW_OK && strcmp(err->field ? err->field : "", field) != 0))
    fail_msg("status %d, want %d; field %s, want %s: %s", (int)got, (int)want,
             err->field ? err->field : "-", field, err->text);
}

#endif
