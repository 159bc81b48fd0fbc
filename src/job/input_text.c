#include "job/input_text.h"

#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

#include "job/inputs.h"

static const struct {
  size_t most;
  const char *what;
} limit[PW_INPUT_KIND_COUNT] = {
    [PW_INPUT_JOB] = {(size_t)16 << 20, "which no job file is"},
    [PW_INPUT_SECTION] = {(size_t)4 << 20, "which no drawn section is"},
    [PW_INPUT_WEATHER] = {(size_t)64 << 20, "no year of weather"},
    [PW_INPUT_FEED] = {(size_t)100 << 20, "which no usage feed is"},
    [PW_INPUT_KEPT] = {(size_t)4 << 20, "which no list of promises is"},
};

enum { STEP = 1 << 20 };

pw_status pw_input_path(const char *dir, const char *name, char path[PW_INPUT_PATH],
                        pw_err *err)
{
  int n = snprintf(path, PW_INPUT_PATH, "%s/%s", dir, name);
  if (n < 0 || n >= PW_INPUT_PATH)
    return pw_fail(err, PW_E_MISSING, NULL, "%.80s...: the name is too long", dir);
  return PW_OK;
}

static pw_status too_large(const char *path, pw_input_kind kind, pw_err *err)
{
  return pw_fail(err, PW_E_DATA, NULL, "%s: larger than %zu MB, %s", path,
                 limit[kind].most >> 20, limit[kind].what);
}

/* Opens without waiting (a pipe has no writer to wait for) and looks at what it is. */
static pw_status open_file(const char *path, pw_input_kind kind, int *fd, struct stat *is,
                           pw_err *err)
{
  *fd = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
  if (*fd < 0) return pw_fail(err, PW_E_MISSING, NULL, "%s: %s", path, strerror(errno));
  pw_status status = PW_OK;
  if (fstat(*fd, is) != 0)
    status = pw_fail(err, PW_E_IO, NULL, "%s: %s", path, strerror(errno));
  else if (!S_ISREG(is->st_mode))
    status = pw_fail(err, PW_E_MISSING, NULL, "%s: is a %s, want a regular file", path,
                     S_ISDIR(is->st_mode)    ? "folder"
                     : S_ISFIFO(is->st_mode) ? "pipe"
                                             : "device");
  else if ((uint64_t)is->st_size > limit[kind].most)
    status = too_large(path, kind, err);
  else if (kind != PW_INPUT_KEPT)
    status = pw_inputs_note(*fd, err);
  if (status != PW_OK) close(*fd);
  return status;
}

/* At most want bytes; -1 on a failure that err tells. */
static long take(const char *path, gzFile f, char *to, size_t want, pw_err *err)
{
  int got = gzread(f, to, (unsigned)(want < STEP ? want : STEP)), code = Z_OK;
  if (got < 0 || (got == 0 && (gzerror(f, &code), code == Z_BUF_ERROR))) {
    gzerror(f, &code);
    if (code == Z_ERRNO)
      pw_fail(err, PW_E_IO, NULL, "%s: %s", path, strerror(errno));
    else if (code == Z_MEM_ERROR)
      pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", path);
    else
      pw_fail(err, PW_E_DATA, NULL, "%s: the compressed data is damaged or cut short", path);
    return -1;
  }
  return got;
}

static pw_status read_all(const char *path, gzFile f, pw_input_kind kind, size_t room,
                          char **text, size_t *size, pw_err *err)
{
  char *buffer = malloc(room + 1);
  if (!buffer) return pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", path);
  size_t n = 0;
  pw_err why = {.code = PW_OK};
  while (why.code == PW_OK) {
    if (n == room) {
      if (room > limit[kind].most) {
        too_large(path, kind, &why);
        break;
      }
      char *more = realloc(buffer, 2 * room + 1);
      if (!more) {
        pw_fail(&why, PW_E_NOMEM, NULL, "%s: no memory", path);
        break;
      }
      buffer = more;
      room *= 2;
    }
    long got = take(path, f, buffer + n, room - n, &why);
    if (got <= 0) break;
    n += (size_t)got;
  }
  if (why.code == PW_OK && n > limit[kind].most) too_large(path, kind, &why);
  if (why.code != PW_OK) {
    free(buffer);
    if (err) *err = why;
    return why.code;
  }
  buffer[n] = '\0';
  *text = buffer;
  *size = n;
  return PW_OK;
}

pw_status pw_input_read(const char *path, pw_input_kind kind, char **text, size_t *size,
                        pw_err *err)
{
  int fd = -1;
  struct stat is;
  *text = NULL;
  *size = 0;
  pw_status status = open_file(path, kind, &fd, &is, err);
  if (status != PW_OK) return status;
  gzFile f = gzdopen(fd, "rb");
  if (!f) {
    close(fd);
    return pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", path);
  }
  gzbuffer(f, 1u << 17);
  status = read_all(path, f, kind, (size_t)is.st_size + 1, text, size, err);
  int closed = gzclose_r(f);
  if (status == PW_OK && closed == Z_BUF_ERROR) {
    free(*text);
    *text = NULL;
    status = pw_fail(err, PW_E_DATA, NULL, "%s: the compressed data is cut short", path);
  }
  return status;
}
