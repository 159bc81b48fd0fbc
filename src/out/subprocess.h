/* A helper program run for us: text on its input, what it says and makes read back.
 *
 * It never gets a path of ours. It runs in a process group of its own, in a private temporary folder,
 * with an environment of our making (PATH is kept), with no descriptor but its three pipes, behind the
 * fences of out/fence.h, and for a limited time; at its end the whole group is ended, so that nothing it
 * started lives on or keeps us waiting. Several may run at once, each from a thread of its own.
 */
#ifndef OUT_SUBPROCESS_H
#define OUT_SUBPROCESS_H

#include <stddef.h>

#include "out/target.h"
#include "panewright/status.h"

enum { PW_SAID_MAX = 512, PW_MADE_MAX = 1 << 28 /* bytes */ };

typedef struct pw_subprocess_result {
  char *out;              /* its standard output, ended by '\0'; owned, free() */
  size_t size;            /* of it */
  char said[PW_SAID_MAX]; /* the beginning of its standard error */
  int exit_status;        /* -1: it was stopped by a signal */
} pw_subprocess_result;

typedef struct pw_subprocess_settings {
  double seconds; /* that a helper may take, waits for a busy processor left out (30) */
  void (*say)(
      const char *line); /* how a helper was fenced, the first time; NULL: nobody asks */
} pw_subprocess_settings;

/* For the whole process, before the first helper. */
void pw_subprocess_set(const pw_subprocess_settings *settings);

/* Runs argv[0] (looked for in the absolute folders of PATH, no shell) with input on its standard input.
 *
 * Given     argv[] ends with NULL; input[size]
 * Returned  *result, to be freed by pw_subprocess_free, also when the program failed
 * Status    PW_OK it ran (look at exit_status); PW_E_LACK it is not installed; PW_E_IO no pipe or
 *           process, or it took too long or made too much; PW_E_CREATE no private folder; PW_E_NOMEM
 */
pw_status pw_subprocess_run(const char *const argv[], const char *input, size_t size,
                            pw_subprocess_result *result, pw_err *err);

/* A run that says more: by (an absolute path) is what runs, an interpreter, on behalf of name, which is found as argv[0] is
 * above and whose folder it may read, too. n_piece pieces of work may each take the helper's time. */
typedef struct pw_subprocess_call {
  const char *by, *name, *const *argv;
  size_t n_piece;
  const char *input;
  size_t size;
} pw_subprocess_call;
pw_status pw_subprocess_run_by(const pw_subprocess_call *call, pw_subprocess_result *result,
                               pw_err *err);

/* Where name is found. Status PW_OK, PW_E_LACK. */
pw_status pw_subprocess_find(const char *name, char path[PW_PATH_SIZE], pw_err *err);

void pw_subprocess_free(pw_subprocess_result *result); /* NULL and a zeroed struct are fine */

#endif
