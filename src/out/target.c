#define _XOPEN_SOURCE 700 /* realpath */
#include "out/target.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { LINKS_MAX = 40 }; /* as the kernel counts them */

static pw_status refuse(const char *path, int why, pw_err *err)
{
  return pw_fail(err, PW_E_CREATE, "path", "%.200s: cannot create: %s", path, strerror(why));
}

/* The folder of name with every link resolved, then the last part of name. */
static int beside(const char *name, char out[PW_PATH_SIZE])
{
  char dir[PW_PATH_SIZE], real[PW_PATH_SIZE];
  const char *slash = strrchr(name, '/'), *base = slash ? slash + 1 : name;
  size_t n = slash ? (size_t)(slash - name) : 0;
  if (!base[0]) return slash ? EISDIR : ENOENT;
  memcpy(dir, name, n);
  dir[n] = '\0';
  if (!realpath(!slash ? "." : n ? dir : "/", real)) return errno;
  const char *part = strcmp(real, "/") == 0 ? "" : real;
  if (strlen(part) + strlen(base) + 2 > PW_PATH_SIZE) return ENAMETOOLONG;
  sprintf(out, "%s/%s", part, base);
  return 0;
}

/* Follows a link that points to nothing yet to the name at its end. */
static int follow(char name[PW_PATH_SIZE])
{
  for (int i = 0; i < LINKS_MAX; i++) {
    char to[PW_PATH_SIZE], next[PW_PATH_SIZE];
    char at[PW_PATH_SIZE];
    int why = beside(name, at);
    if (why) return why;
    ssize_t n = readlink(at, to, sizeof to - 1);
    if (n < 0) {
      strcpy(name, at);
      return errno == ENOENT || errno == EINVAL ? 0 : errno;
    }
    to[n] = '\0';
    size_t folder = to[0] == '/' ? 0 : (size_t)(strrchr(at, '/') - at) + 1;
    if (folder + (size_t)n >= sizeof next) return ENAMETOOLONG;
    memcpy(next, at, folder);
    strcpy(next + folder, to);
    strcpy(name, next);
  }
  return ELOOP;
}

pw_status pw_target_find(const char *path, pw_target *target, pw_err *err)
{
  memset(target, 0, sizeof *target);
  if (strlen(path) >= sizeof target->path) return refuse(path, ENAMETOOLONG, err);
  if (stat(path, &target->is) == 0) { /* the kernel, too, may forbid to follow a link */
    target->there = 1;
    if (!realpath(path, target->path)) return refuse(path, errno, err);
    return PW_OK;
  }
  if (errno != ENOENT) return refuse(path, errno, err);
  strcpy(target->path, path);
  int why = follow(target->path);
  return why ? refuse(path, why, err) : PW_OK;
}

int pw_target_same(const pw_target *a, const pw_target *b)
{
  if (a->there && b->there) return a->is.st_dev == b->is.st_dev && a->is.st_ino == b->is.st_ino;
  return strcmp(a->path, b->path) == 0;
}
