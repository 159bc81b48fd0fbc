#include "out/private_folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "out/left_over.h"

enum { DEPTH_MAX = 32 };

static const char *base_folder(void)
{
  const char *base = getenv("TMPDIR");
  return base && base[0] == '/' && strlen(base) <= PW_PATH_SIZE - 64 ? base : "/tmp";
}

FILE *pw_private_file(pw_err *err)
{
  char path[PW_PATH_SIZE];
  snprintf(path, sizeof path, "%s/panewright.XXXXXX", base_folder());
  int fd = mkstemp(path);
  FILE *f = fd >= 0 ? fdopen(fd, "w+") : NULL;
  if (fd >= 0) unlink(path);
  if (f) return f;
  pw_fail(err, PW_E_CREATE, NULL, "%.200s: cannot create: %s", path, strerror(errno));
  if (fd >= 0) close(fd);
  return NULL;
}

pw_status pw_private_folder(char path[PW_PATH_SIZE], pw_err *err)
{
  const char *base = base_folder();
  pw_left_over_look(base, "panewright-");
  snprintf(path, PW_PATH_SIZE, "%s/panewright-%ld-XXXXXX", base, (long)getpid());
  if (mkdtemp(path)) return PW_OK;
  return pw_fail(err, errno == ENOSPC || errno == EDQUOT ? PW_E_IO : PW_E_CREATE, NULL,
                 "%.200s: cannot make a folder for a helper program (TMPDIR names another): %s",
                 base, strerror(errno));
}

static void empty(int folder, int depth)
{
  DIR *dir = fdopendir(folder);
  if (!dir) {
    close(folder);
    return;
  }
  for (const struct dirent *e; (e = readdir(dir)) != NULL;) {
    if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0) continue;
    if (unlinkat(dirfd(dir), e->d_name, 0) == 0 || depth == DEPTH_MAX) continue;
    int below = openat(dirfd(dir), e->d_name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (below >= 0) empty(below, depth + 1);
    unlinkat(dirfd(dir), e->d_name, AT_REMOVEDIR);
  }
  closedir(dir);
}

void pw_private_folder_remove(const char *path)
{
  int folder = open(path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
  if (folder >= 0) empty(folder, 0);
  rmdir(path);
}
