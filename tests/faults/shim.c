/* Preloaded by the standing attack: the call number SHIM_AT of those named in SHIM_CALLS (write, fsync,
 * open, rename, close, link, mkdir, fchmod, memory; "," between) fails with SHIM_ERRNO, or the process is killed
 * there (SHIM_ERRNO=kill). SHIM_NOTE names a file that is made when the call was reached. Only calls of
 * the program itself count, not those of its helpers. */
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

static int count;

static int struck(const char *call)
{
  const char *calls = getenv("SHIM_CALLS"), *at = getenv("SHIM_AT"),
             *why = getenv("SHIM_ERRNO");
  const char *note = getenv("SHIM_NOTE"), *found = calls ? strstr(calls, call) : NULL;
  size_t n = strlen(call);
  if (!found || !at || !why || (found != calls && found[-1] != ',') ||
      (found[n] && found[n] != ','))
    return 0;
  if (++count != atoi(at)) return 0;
  if (note) {
    long fd = syscall(SYS_openat, AT_FDCWD, note, O_WRONLY | O_CREAT, 0600);
    if (fd >= 0) syscall(SYS_close, fd);
  }
  if (strcmp(why, "kill") == 0) raise(SIGKILL);
  errno = atoi(why);
  return 1;
}

#define NEXT(type, name) ((type)dlsym(RTLD_NEXT, name))

ssize_t write(int fd, const void *text, size_t n)
{
  return struck("write") ? -1
                         : NEXT(ssize_t(*)(int, const void *, size_t), "write")(fd, text, n);
}
int fsync(int fd) { return struck("fsync") ? -1 : NEXT(int (*)(int), "fsync")(fd); }
int close(int fd)
{
  int bad = struck("close"), rc = NEXT(int (*)(int), "close")(fd);
  return bad ? -1 : rc;
}
int fchmod(int fd, mode_t mode)
{
  return struck("fchmod") ? -1 : NEXT(int (*)(int, mode_t), "fchmod")(fd, mode);
}
int rename(const char *a, const char *b)
{
  return struck("rename") ? -1 : NEXT(int (*)(const char *, const char *), "rename")(a, b);
}
int renameat2(int da, const char *a, int db, const char *b, unsigned flags)
{
  return struck("rename") ? -1
                          : NEXT(int (*)(int, const char *, int, const char *, unsigned),
                                 "renameat2")(da, a, db, b, flags);
}
int link(const char *a, const char *b)
{
  return struck("link") ? -1 : NEXT(int (*)(const char *, const char *), "link")(a, b);
}
int mkdir(const char *a, mode_t mode)
{
  return struck("mkdir") ? -1 : NEXT(int (*)(const char *, mode_t), "mkdir")(a, mode);
}
int open(const char *path, int flags, ...)
{
  va_list args;
  va_start(args, flags);
  mode_t mode = flags & O_CREAT ? va_arg(args, mode_t) : 0;
  va_end(args);
  if ((flags & O_CREAT) && struck("open")) return -1;
  return NEXT(int (*)(const char *, int, ...), "open")(path, flags, mode);
}

/* Memory: asked far too often to read the environment each time. SHIM_AT -1 writes the count to SHIM_NOTE at the end;
 * SHIM_SPAN more fail after the first (0). */
void *__libc_malloc(size_t);
void *__libc_calloc(size_t, size_t);
void *__libc_realloc(void *, size_t);
void *__libc_memalign(size_t, size_t);

static long wanted = -2, span, asked; /* wanted -2: not read yet */

static int lacks(void)
{
  if (wanted == -2) {
    const char *calls = getenv("SHIM_CALLS"), *at = getenv("SHIM_AT"),
               *more = getenv("SHIM_SPAN");
    span = more ? atol(more) : 0;
    wanted = calls && at && strcmp(calls, "memory") == 0 ? atol(at) : 0;
  }
  if (wanted == 0) return 0;
  long n = __atomic_add_fetch(&asked, 1, __ATOMIC_RELAXED);
  if (wanted < 0 || n < wanted || n > wanted + span) return 0;
  errno = ENOMEM;
  return 1;
}

__attribute__((destructor)) static void tell_count(void)
{
  const char *note = getenv("SHIM_NOTE");
  if (wanted != -1 || !note) return;
  char text[24] = {0};
  long n = asked, at = 22;
  do
    text[--at] = (char)('0' + n % 10);
  while (n /= 10);
  long fd = syscall(SYS_openat, AT_FDCWD, note, O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (fd >= 0) {
    syscall(SYS_write, fd, text + at, 22 - at);
    syscall(SYS_close, fd);
  }
}

void *malloc(size_t n) { return lacks() ? NULL : __libc_malloc(n); }
void *calloc(size_t n, size_t size) { return lacks() ? NULL : __libc_calloc(n, size); }
void *realloc(void *p, size_t n) { return lacks() ? NULL : __libc_realloc(p, n); }
void *aligned_alloc(size_t align, size_t n)
{
  return lacks() ? NULL : __libc_memalign(align, n);
}
int posix_memalign(void **p, size_t align, size_t n)
{
  void *got = lacks() ? NULL : __libc_memalign(align, n);
  if (got) *p = got;
  return got ? 0 : ENOMEM;
}
