/* Another program run for us: text on its input, what it says and makes read back. */
#ifndef OUT_SUBPROCESS_H
#define OUT_SUBPROCESS_H

#include <stddef.h>

#include "panewright/status.h"

enum { PW_SAID_MAX = 512 };

typedef struct pw_subprocess_result {
  char *out;              /* its standard output, ended by '\0'; owned, free() */
  size_t size;            /* of it */
  char said[PW_SAID_MAX]; /* the beginning of its standard error */
  int exit_status;        /* -1: it was stopped by a signal */
} pw_subprocess_result;

/* Runs argv[0] (looked for in PATH, no shell) with input on its standard input.
 *
 * Given     argv[] ends with NULL; input[size]
 * Returned  *result, to be freed by pw_subprocess_free, also when the program failed
 * Status    PW_OK it ran (look at exit_status); PW_E_LACK it is not installed; PW_E_IO no pipe or
 *           process; PW_E_NOMEM
 */
pw_status pw_subprocess_run(const char *const argv[], const char *input, size_t size,
                            pw_subprocess_result *result, pw_err *err);
void pw_subprocess_free(pw_subprocess_result *result); /* NULL and a zeroed struct are fine */

#endif
