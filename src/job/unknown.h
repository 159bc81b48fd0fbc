/* Columns and items that no reader knows: plainly one of ours under another spelling, something that
 * would change an order, or a note of the user's own. */
#ifndef JOB_UNKNOWN_H
#define JOB_UNKNOWN_H

#include <stddef.h>

#include "job/notes.h"
#include "panewright/status.h"

/* Where it stands. */
typedef struct job_unknown_at {
  const char *file;
  int line, column;
  const char *what; /* "column" or "item" */
  int is_order;     /* 1: the file decides what is ordered */
} job_unknown_at;

/* Given     name as written; known[n] all names of the file
 * Returned  a note that it was left out, with the nearest known name; none for a name that begins with
 *           "note"
 * Status    PW_OK; PW_E_DATA the name is a known one with something added ("Floor Area (sq ft)",
 *           "width_bottom_in") or another word for one, which is offered; or it reads like something
 *           that changes an order ("tempered", "leave", "obscure", "shape", "unit") and is_order.
 */
pw_status job_unknown_name(const char *name, const char *const known[], size_t n,
                           const job_unknown_at *at, pw_notes *notes, pw_err *err);

/* Whether the whole name is one word that changes an order, such as "shape": no slip for a known one. */
int job_unknown_is_order(const char *name);

#endif
