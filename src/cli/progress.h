/* A bar on standard error while work takes over a second, when that is a terminal. */
#ifndef CLI_PROGRESS_H
#define CLI_PROGRESS_H

#include <stddef.h>

typedef struct cli_progress {
  const char *what; /* a word or two before the bar */
  double started;   /* s */
  int shown, percent;
} cli_progress;

void cli_progress_begin(cli_progress *bar, const char *what);

/* Fits the progress hooks of the studies; context is the bar. Never stops the work. */
int cli_progress_step(void *context, size_t done, size_t all);

void cli_progress_end(cli_progress *bar); /* wipes the line */

#endif
