#include "out/safe_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/inputs.h"
#include "out/left_over.h"
#include "out/name_swap.h"
#include "out/stop.h"
#include "out/target.h"

enum { BASE_KEPT = 180, TRIES = 100 }; /* bytes of a name kept in the temporary one */

/* A file or folder that is not yet for good. */
typedef struct staged {
  struct staged *next; /* the one put before */
  atomic_int live;     /* 1: temp is there and has to go */
  int folder, fresh;   /* a folder made; never to replace a file */
  int named, swapped;  /* it has its name; temp holds what was there before */
  pw_target target;
  char temp[PW_PATH_SIZE + 64];
} staged;

static _Atomic(staged *) list; /* read by the handler of a signal */

/* Only what a signal handler may call. */
static void unlink_all(void)
{
  for (staged *s = atomic_load(&list); s; s = s->next)
    if (atomic_exchange(&s->live, 0)) {
      if (s->folder)
        rmdir(s->temp);
      else
        unlink(s->temp);
    }
}

static staged *push(pw_err *err)
{
  staged *s = calloc(1, sizeof *s);
  if (!s) {
    pw_fail(err, PW_E_NOMEM, NULL, "no memory for an output file");
    return NULL;
  }
  pw_stop_clean(unlink_all);
  s->next = atomic_load(&list);
  atomic_store(&list, s);
  return s;
}

static void forget_all(void)
{
  staged *s = atomic_exchange(&list, NULL);
  while (s) {
    staged *next = s->next;
    free(s);
    s = next;
  }
}

void pw_safe_drop(void)
{
  pw_stop_hold();
  unlink_all();
  forget_all();
  pw_stop_release();
}

/* Full is a failure of writing, whatever call meets it. */
static pw_status failed(const char *path, const char *what, int why, pw_err *err)
{
  int full = why == ENOSPC || why == EDQUOT || why == EFBIG || why == EIO;
  return pw_fail(err, full ? PW_E_IO : PW_E_CREATE, "path", "%.200s: cannot %s: %s", path, what,
                 strerror(why));
}

static pw_status find(const char *path, pw_target *t, pw_err *err)
{
  pw_status status = pw_target_find(path, t, err);
  if (status != PW_OK) return status;
  if (t->there && S_ISDIR(t->is.st_mode)) return failed(path, "write", EISDIR, err);
  if (t->there && access(t->path, W_OK) != 0) return failed(path, "write", errno, err);
  if (t->there && pw_inputs_has(&t->is))
    return pw_fail(err, PW_E_CREATE, "path",
                   "%.200s is read by this run: nothing is written onto an input", path);
  struct stat out;
  if (t->there && S_ISREG(t->is.st_mode) && fstat(STDOUT_FILENO, &out) == 0 &&
      out.st_dev == t->is.st_dev && out.st_ino == t->is.st_ino)
    return pw_fail(err, PW_E_CREATE, "path",
                   "%.200s is where standard output goes, too; give each its own", path);
  for (const staged *s = atomic_load(&list); s; s = s->next)
    if (!s->folder && pw_target_same(&s->target, t))
      return pw_fail(err, PW_E_CREATE, "path",
                     "%.200s: two outputs of this run are one file; give each its own", path);
  return PW_OK;
}

pw_status pw_safe_check(const char *path, pw_err *err)
{
  pw_target target;
  return find(path, &target, err);
}

int pw_write_all(int fd, const char *text, size_t size)
{
  for (size_t done = 0; done < size;) {
    ssize_t n = write(fd, text + done, size - done);
    if (n > 0)
      done += (size_t)n;
    else if (n == 0 || errno != EINTR)
      return n == 0 ? EIO : errno;
  }
  return 0;
}

/* What cannot be synced (a pipe, a read-only mount) needs no sync. */
static int sync_fd(int fd)
{
  if (fsync(fd) == 0 || errno == EINVAL || errno == EROFS || errno == ENOTSUP) return 0;
  return errno;
}

/* A device or pipe has no name to give later. */
static pw_status write_in_place(const char *path, const pw_target *t, const char *text,
                                size_t size, pw_err *err)
{
  int fd = open(t->path, O_WRONLY | O_NOCTTY | O_CLOEXEC);
  if (fd < 0) return failed(path, "open", errno, err);
  int why = pw_write_all(fd, text, size);
  if (!why) why = sync_fd(fd);
  if (close(fd) != 0 && !why) why = errno;
  return why ? pw_fail(err, PW_E_IO, "path", "%.200s: cannot write: %s", path, strerror(why))
             : PW_OK;
}

static void split(const pw_target *t, char folder[PW_PATH_SIZE], const char **base)
{
  const char *slash = strrchr(t->path, '/');
  size_t n = slash == t->path ? 1 : (size_t)(slash - t->path);
  memcpy(folder, t->path, n);
  folder[n] = '\0';
  *base = slash + 1;
}

/* Creates .BASE.panewright-PID-N beside the target; -1 with errno. */
static int create(staged *s)
{
  char folder[PW_PATH_SIZE], prefix[BASE_KEPT + 32];
  const char *base;
  static unsigned count;
  split(&s->target, folder, &base);
  snprintf(prefix, sizeof prefix, ".%.*s.panewright-", BASE_KEPT, base);
  pw_left_over_look(folder, prefix);
  for (int i = 0; i < TRIES; i++) {
    int n = snprintf(s->temp, sizeof s->temp, "%s/%s%ld-%u", folder[1] ? folder : "", prefix,
                     (long)getpid(), count++);
    if (n < 0 || (size_t)n >= sizeof s->temp) {
      errno = ENAMETOOLONG;
      return -1;
    }
    int fd = open(s->temp, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
    if (fd >= 0) {
      atomic_store(&s->live, 1);
      return fd;
    }
    if (errno != EEXIST) return -1;
  }
  return -1;
}

/* The mode and owner of what is replaced, or those of any new file. */
static int dress(int fd, const pw_target *t)
{
  mode_t mask = umask(0), mode = t->is.st_mode & 0777u;
  umask(mask);
  if (!t->there) return fchmod(fd, 0666u & ~mask) == 0 ? 0 : errno;
  struct stat mine;
  if (fstat(fd, &mine) != 0) return errno;
  if (mine.st_gid != t->is.st_gid && fchown(fd, (uid_t)-1, t->is.st_gid) != 0)
    mode &= ~(mode_t)070; /* the rights were another group's */
  if (mine.st_uid != t->is.st_uid && fchown(fd, t->is.st_uid, (gid_t)-1) != 0 && errno != EPERM)
    return errno;
  return fchmod(fd, mode) == 0 ? 0 : errno;
}

static pw_status stage(const char *path, const char *text, size_t size, int fresh, pw_err *err)
{
  pw_target target;
  pw_status status = find(path, &target, err);
  if (status != PW_OK) return status;
  if (target.there && fresh)
    return pw_fail(err, PW_E_CREATE, "path", "%.200s is there already", path);
  if (target.there && !S_ISREG(target.is.st_mode))
    return write_in_place(path, &target, text, size, err);
  staged *s = push(err);
  if (!s) return PW_E_NOMEM;
  s->target = target;
  s->fresh = fresh;
  int fd = create(s);
  if (fd < 0) return failed(path, "create", errno, err);
  int why = pw_write_all(fd, text, size);
  if (!why) why = dress(fd, &target);
  if (!why) why = sync_fd(fd);
  if (close(fd) != 0 && !why) why = errno;
  if (!why) return PW_OK;
  unlink(s->temp);
  atomic_store(&s->live, 0);
  return pw_fail(err, PW_E_IO, "path", "%.200s: cannot write: %s", path, strerror(why));
}

pw_status pw_safe_put(const char *path, const char *text, size_t size, pw_err *err)
{
  pw_stop_hold();
  pw_status status = stage(path, text, size, 0, err);
  pw_stop_release();
  return status;
}

pw_status pw_safe_put_new(const char *path, const char *text, size_t size, pw_err *err)
{
  pw_stop_hold();
  pw_status status = stage(path, text, size, 1, err);
  pw_stop_release();
  return status;
}

pw_status pw_safe_folder(const char *dir, pw_err *err)
{
  struct stat is;
  if (stat(dir, &is) == 0)
    return S_ISDIR(is.st_mode)
               ? PW_OK
               : pw_fail(err, PW_E_CREATE, "path", "%.200s is there and is no folder", dir);
  pw_target t;
  pw_status status = pw_target_find(dir, &t, err);
  if (status != PW_OK) return status;
  staged *s = push(err);
  if (!s) return PW_E_NOMEM;
  s->folder = 1;
  s->target = t;
  strcpy(s->temp, t.path);
  pw_stop_hold();
  if (mkdir(t.path, 0777) == 0)
    atomic_store(&s->live, 1);
  else if (errno != EEXIST)
    status = pw_fail(err, errno == ENOSPC || errno == EDQUOT ? PW_E_IO : PW_E_CREATE, "path",
                     "%.200s: cannot make the folder: %s", dir, strerror(errno));
  pw_stop_release();
  return status;
}

/* The name for good; without links (some memory cards, files held in memory) a new file, too, is renamed. What is replaced
 * is swapped, so that it can be had back, where the file system does that. */
static int give_name(staged *s)
{
  const char *path = s->target.path;
  if (s->fresh) {
    if (link(s->temp, path) == 0) return unlink(s->temp) == 0 ? 0 : errno;
    if (errno != EPERM && errno != ENOTSUP && errno != ENOSYS && errno != EMLINK) return errno;
    struct stat is;
    if (lstat(path, &is) == 0) return EEXIST;
  }
  if (s->target.there && pw_name_swap(s->temp, path) == 0) {
    s->swapped = 1;
    return 0;
  }
  return rename(s->temp, path) == 0 ? 0 : errno;
}

/* As it was before: what was there comes back, what was not goes. */
static void take_back(staged *s)
{
  if (s->swapped) {
    pw_name_swap(s->temp, s->target.path);
    s->swapped = 0;
    atomic_store(&s->live, 1); /* the new text, to be dropped */
  } else if (!s->target.there) {
    unlink(s->target.path);
  }
}

static int sync_folder(const staged *s)
{
  char folder[PW_PATH_SIZE];
  const char *base;
  split(&s->target, folder, &base);
  int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd < 0) return 0; /* a folder that may be written but not read */
  int why = sync_fd(fd);
  close(fd);
  return why;
}

static staged *turned_round(staged *last)
{
  staged *first = NULL;
  while (last) {
    staged *next = last->next;
    last->next = first;
    first = last;
    last = next;
  }
  return first;
}

/* The names in order, each folder synced; stops at the first failure. */
static pw_status give_names(staged *first, pw_err *err)
{
  for (staged *s = first; s; s = s->next) {
    if (s->folder || !atomic_load(&s->live)) continue;
    int why = give_name(s);
    if (why) return failed(s->target.path, "write", why, err);
    atomic_store(&s->live, 0);
    s->named = 1;
    why = sync_folder(s);
    if (why) return failed(s->target.path, "write", why, err);
  }
  return PW_OK;
}

pw_status pw_safe_settle(pw_err *err)
{
  pw_stop_hold();
  staged *first = turned_round(atomic_load(&list)); /* in the order they were put */
  atomic_store(&list, first);
  pw_status status = give_names(first, err);
  for (staged *s = first; s; s = s->next) {
    if (status == PW_OK)
      atomic_store(&s->live, s->swapped); /* folders are for good, what was replaced goes */
    else if (s->named)
      take_back(s);
  }
  atomic_store(&list, turned_round(first)); /* a folder goes after what is in it */
  unlink_all();
  forget_all();
  pw_stop_release();
  return status;
}
