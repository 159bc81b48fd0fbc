#include "cli/held.h"

#include <errno.h>
#include <stdio.h>
#include <unistd.h>

#include "out/text_stream.h"

#ifdef __GLIBC__
static pw_text_stream held;
static FILE *terminal; /* what stdout was */

int cli_hold(void)
{
  if (!pw_text_stream_open(&held)) return 0;
  terminal = stdout;
  stdout = held.f;
  return 1;
}

static int write_all(const char *at, size_t left)
{
  while (left) {
    ssize_t n = write(STDOUT_FILENO, at, left);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return 0;
    at += n;
    left -= (size_t)n;
  }
  return 1;
}

cli_held cli_let_go(void)
{
  int whole = pw_text_stream_close(&held);
  stdout = terminal;
  if (!whole) return CLI_HELD_NO_MEMORY;
  errno = 0;
  return write_all(held.text, held.size) ? CLI_HELD_OUT : CLI_HELD_NOT_WRITTEN;
}
#else
int cli_hold(void) { return 1; }

cli_held cli_let_go(void)
{
  errno = 0;
  return fflush(stdout) == 0 && !ferror(stdout) ? CLI_HELD_OUT : CLI_HELD_NOT_WRITTEN;
}
#endif
