#include "cli/progress.h"

#include <stdio.h>
#include <time.h>
#include <unistd.h>

enum { WIDTH = 40 };

static double now(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

void cli_progress_begin(cli_progress *bar, const char *what)
{
  *bar = (cli_progress){what, now(), 0, -1};
}

int cli_progress_step(void *context, size_t done, size_t all)
{
  cli_progress *bar = context;
  int percent = all ? (int)(100 * done / all) : 100;
  if (percent == bar->percent || !isatty(STDERR_FILENO)) return 0;
  double spent = now() - bar->started;
  if (!bar->shown && spent < 1.0) return 0;
  bar->shown = 1;
  bar->percent = percent;
  int full = WIDTH * percent / 100;
  double left = percent > 0 ? spent * (100 - percent) / percent : 0.0;
  fprintf(stderr, "\r%s [%.*s%.*s] %3d %%, %.0f s left ", bar->what, full,
          "########################################", WIDTH - full,
          "........................................", percent, left);
  return 0;
}

void cli_progress_end(cli_progress *bar)
{
  if (bar->shown) fprintf(stderr, "\r%79s\r", "");
  bar->shown = 0;
}
