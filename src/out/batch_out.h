/* Lines of a batch's results and of its rejects, gathered in memory. */
#ifndef OUT_BATCH_OUT_H
#define OUT_BATCH_OUT_H

#include <stddef.h>

#include "study/batch.h"

/* Text that grows; keep it from chunk to chunk and set n to 0. */
typedef struct pw_lines {
  char *text; /* owned; not NUL ended */
  size_t n, room;
  int lost; /* 1: out of memory, something is missing */
} pw_lines;

void pw_lines_add(pw_lines *lines, const char *text, size_t n);
void pw_lines_free(pw_lines *lines);

/* The header of the results, with its line end; SI, the unit in the name. */
void pw_batch_print_header(pw_lines *lines);

/* One row of results. Numbers have a fixed count of decimals; NAN is an empty cell. */
void pw_batch_print(pw_lines *lines, const char *id, double away_km,
                    const pw_batch_figures *figures);

void pw_reject_print_header(pw_lines *lines);
void pw_reject_print(pw_lines *lines, long line, int column, const char *id,
                     const char *reason);

#endif
