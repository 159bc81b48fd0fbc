#include "cli/held.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include "out/safe_file.h"
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

cli_held cli_let_go(void)
{
  int whole = pw_text_stream_close(&held);
  stdout = terminal;
  if (!whole) return CLI_HELD_NO_MEMORY;
  int why = pw_write_all(STDOUT_FILENO, held.text, held.size);
  free(held.text);
  held = (pw_text_stream){.f = NULL};
  errno = why;
  return why ? CLI_HELD_NOT_WRITTEN : CLI_HELD_OUT;
}
#else
/* A page holds what is printed by itself; it comes there in large pieces. */
int cli_hold(void) { return setvbuf(stdout, NULL, _IOFBF, 1 << 16) == 0; }

cli_held cli_let_go(void)
{
  errno = 0;
  return fflush(stdout) == 0 && !ferror(stdout) ? CLI_HELD_OUT : CLI_HELD_NOT_WRITTEN;
}
#endif
