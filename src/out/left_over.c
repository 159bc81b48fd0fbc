#include "out/left_over.h"

#include <dirent.h>
#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/target.h"

static void (*teller)(const char *path);

void pw_left_over_tell(void (*tell)(const char *path)) { teller = tell; }

void pw_left_over_look(const char *folder, const char *prefix)
{
  size_t n = strlen(prefix);
  DIR *dir = teller ? opendir(folder) : NULL;
  if (!dir) return;
  for (const struct dirent *e; (e = readdir(dir)) != NULL;) {
    char *end = NULL, path[2 * PW_PATH_SIZE];
    if (strncmp(e->d_name, prefix, n) != 0) continue;
    long pid = strtol(e->d_name + n, &end, 10);
    if (pid <= 1 || *end != '-' || kill((pid_t)pid, 0) == 0 || errno != ESRCH) continue;
    snprintf(path, sizeof path, "%s/%s", folder, e->d_name);
    teller(path);
  }
  closedir(dir);
}
