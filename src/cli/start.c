#include "cli/start.h"

#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#include "cli/held.h"
#include "out/left_over.h"
#include "out/stop.h"

/* The wrong way round on purpose: /dev/null for writing where reading is wanted fails with EBADF. */
static int open_descriptors(void)
{
  static const int way[] = {O_WRONLY, O_RDONLY, O_RDONLY};
  for (int fd = 0; fd < 3; fd++)
    if (fcntl(fd, F_GETFD) < 0 && open("/dev/null", way[fd]) != fd) return 0;
  return 1;
}

static void tell_left_over(const char *path)
{
  fprintf(stderr, "panewright: %s was left by a run that was killed; it can be removed\n",
          path);
}

int cli_start(void)
{
  if (!open_descriptors()) return 0;
  pw_stop_catch();
  pw_left_over_tell(tell_left_over);
  return cli_hold();
}
