#include "out/safe_file.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

pw_status pw_safe_reserve(pw_safe_file *file, const char *path, pw_err *err)
{
  memset(file, 0, sizeof *file);
  if (strlen(path) >= sizeof file->path)
    return pw_fail(err, PW_E_CREATE, "path", "%.80s...: name too long", path);
  strcpy(file->path, path);
  struct stat there;
  if (stat(path, &there) == 0 && !S_ISREG(there.st_mode)) { /* a device or pipe: no rename */
    strcpy(file->temp, path);
    return PW_OK;
  }
  snprintf(file->temp, sizeof file->temp, "%s.XXXXXX", path);
  int fd = mkstemp(file->temp);
  if (fd < 0) {
    file->temp[0] = '\0';
    return pw_fail(err, PW_E_CREATE, "path", "%s: cannot create: %s", path, strerror(errno));
  }
  mode_t mask = umask(0);
  umask(mask);
  fchmod(fd, 0666 & ~mask);
  close(fd);
  return PW_OK;
}

pw_status pw_safe_open(pw_safe_file *file, const char *path, pw_err *err)
{
  pw_status status = pw_safe_reserve(file, path, err);
  if (status != PW_OK) return status;
  file->f = fopen(file->temp, "wb");
  if (!file->f) {
    int why = errno;
    pw_safe_drop(file);
    return pw_fail(err, PW_E_CREATE, "path", "%s: cannot open: %s", path, strerror(why));
  }
  return PW_OK;
}

pw_status pw_safe_commit(pw_safe_file *file, pw_err *err)
{
  int bad = 0;
  if (file->f) {
    bad = ferror(file->f) || fflush(file->f) != 0;
    if (!bad) bad = fsync(fileno(file->f)) != 0 && errno != EINVAL && errno != EROFS;
    if (fclose(file->f) != 0) bad = 1;
    file->f = NULL;
  }
  int in_place = strcmp(file->temp, file->path) == 0;
  if (!bad && !in_place) bad = rename(file->temp, file->path) != 0;
  if (bad) {
    int why = errno;
    pw_safe_drop(file);
    return pw_fail(err, PW_E_IO, "path", "%s: cannot write: %s", file->path,
                   why ? strerror(why) : "write error");
  }
  file->temp[0] = '\0';
  return PW_OK;
}

void pw_safe_drop(pw_safe_file *file)
{
  if (file->f) fclose(file->f);
  file->f = NULL;
  if (file->temp[0] && strcmp(file->temp, file->path) != 0) unlink(file->temp);
  file->temp[0] = '\0';
}
