#include "cli/batch_journal.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>
#include <zlib.h>

static const double mark_pause = 0.2; /* s between marks: what a kill can cost */
enum { MARK = 256, BLOCK = 1 << 16 };

/* A file of the run, locked; what is no regular file has no lock. */
static pw_status open_locked(const char *path, int flags, int *fd, pw_err *err)
{
  *fd = open(path, flags | O_CREAT | O_CLOEXEC, 0666);
  if (*fd < 0)
    return pw_fail(err, PW_E_CREATE, "output", "%.200s: cannot create: %s", path,
                   strerror(errno));
  if (flock(*fd, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK) return PW_OK;
  close(*fd);
  *fd = -1;
  return pw_fail(err, PW_E_CREATE, "output", "%.200s: another run writes it now", path);
}

pw_status batch_sink_open(batch_sink *sink, pw_err *err)
{
  return sink->name ? open_locked(sink->name, O_RDWR, &sink->fd, err) : PW_OK;
}

/* Whether the first n bytes of a sink have that check sum. */
static pw_status compare(const batch_sink *sink, uint64_t n, uint32_t want, pw_err *err)
{
  char block[BLOCK];
  uint64_t done = 0;
  uint32_t crc = 0;
  while (sink->fd >= 0 && done < n) {
    uint64_t ask = n - done < BLOCK ? n - done : BLOCK;
    ssize_t got = pread(sink->fd, block, (size_t)ask, (off_t)done);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0)
      return pw_fail(err, PW_E_IO, "output", "%.200s: cannot read: %s", sink->name,
                     strerror(errno));
    if (got == 0)
      return pw_fail(err, PW_E_DATA, "resume", "%.200s is shorter than its journal says",
                     sink->name);
    crc = (uint32_t)crc32(crc, (const unsigned char *)block, (unsigned)got);
    done += (uint64_t)got;
  }
  if (crc == want) return PW_OK;
  return pw_fail(err, PW_E_DATA, "resume", "%.200s is not as the run left it: it was edited",
                 sink->name ? sink->name : "the rejects");
}

/* The last mark of a journal that was written to its end. */
static void last_mark(FILE *f, batch_mark *mark, int *whole)
{
  char line[MARK], end[8];
  while (fgets(line, sizeof line, f)) {
    batch_mark m = {0};
    int n = sscanf(line,
                   "%" SCNu64 " %" SCNu64 " %" SCNx32 " %" SCNu64 " %" SCNx32 " %" SCNu64
                   " %" SCNx32 " %" SCNu64 " %" SCNu64 " %7s",
                   &m.line, &m.in_bytes, &m.crc, &m.out_bytes, &m.out_crc, &m.reject_bytes,
                   &m.reject_crc, &m.rows, &m.rejected, end);
    if (n != 10 || !strchr(line, '\n')) continue;
    if (strcmp(end, ".") != 0 && strcmp(end, "whole") != 0) continue;
    *mark = m;
    *whole = end[0] == 'w';
  }
}

/* What the journal in hand says; *there 0 when it is new. */
static pw_status read_journal(const batch_journal *j, const char *what, batch_mark *from,
                              int *there, int *whole, pw_err *err)
{
  char line[MARK];
  int fd = dup(j->fd);
  FILE *f = fd >= 0 ? fdopen(fd, "r") : NULL;
  if (!f) {
    if (fd >= 0) close(fd);
    return pw_fail(err, PW_E_IO, "resume", "%.200s: cannot read: %s", j->path, strerror(errno));
  }
  pw_status status = PW_OK;
  *there = fgets(line, sizeof line, f) != NULL && strchr(line, '\n');
  if (*there) {
    line[strcspn(line, "\n")] = '\0';
    if (strcmp(line, what) != 0)
      status = pw_fail(err, PW_E_DATA, "resume",
                       "%.100s is of another run: '%.80s', now '%.80s'", j->path, line, what);
    else
      last_mark(f, from, whole);
  }
  fclose(f);
  return status;
}

static pw_status put_line(const batch_journal *j, const char *line, size_t n, pw_err *err)
{
  if (write(j->fd, line, n) == (ssize_t)n) return PW_OK;
  return pw_fail(err, PW_E_IO, "output", "%.200s: cannot write: %s", j->path, strerror(errno));
}

static pw_status start_journal(const batch_journal *j, const char *what, int go_on, pw_err *err)
{
  char line[MARK];
  int n = snprintf(line, sizeof line, "%s\n", what);
  /* On a resume the last mark may be torn: the next one begins a line of its own. */
  if (go_on) return put_line(j, "\n", 1, err);
  if (ftruncate(j->fd, 0) != 0)
    return pw_fail(err, PW_E_IO, "output", "%.200s: cannot write: %s", j->path,
                   strerror(errno));
  return put_line(j, line, (size_t)n, err);
}

static pw_status empty(const batch_sink *sink, pw_err *err)
{
  struct stat is;
  if (sink->fd < 0 || fstat(sink->fd, &is) != 0 || !S_ISREG(is.st_mode)) return PW_OK;
  if (ftruncate(sink->fd, 0) == 0) return PW_OK;
  return pw_fail(err, PW_E_IO, "output", "%.200s: cannot write: %s", sink->name,
                 strerror(errno));
}

/* An output that is there and that no journal vouches for is not touched. */
static pw_status resume_state(const batch_journal *j, const char *what, batch_mark *from,
                              int *whole, pw_err *err)
{
  int there = 0;
  struct stat is;
  pw_status status = read_journal(j, what, from, &there, whole, err);
  if (status == PW_OK && !there && fstat(j->out->fd, &is) == 0 && is.st_size > 0)
    status =
        pw_fail(err, PW_E_DATA, "resume",
                "%.200s has no journal that tells what it answers; run without --resume to "
                "write it anew",
                j->out->name);
  if (status == PW_OK) status = compare(j->out, from->out_bytes, from->out_crc, err);
  if (status == PW_OK) status = compare(j->rejects, from->reject_bytes, from->reject_crc, err);
  if (status == PW_OK && *whole && fstat(j->out->fd, &is) == 0 &&
      (uint64_t)is.st_size != from->out_bytes)
    status = pw_fail(err, PW_E_DATA, "resume",
                     "%.200s is longer than its journal says: it was edited", j->out->name);
  return status;
}

pw_status batch_journal_open(batch_journal *j, const char *path, const char *what, int resume,
                             batch_sink *out, batch_sink *rejects, batch_mark *from, int *whole,
                             pw_err *err)
{
  struct stat is;
  *j = (batch_journal){.fd = -1, .out = out, .rejects = rejects};
  *from = (batch_mark){0};
  *whole = 0;
  int regular = stat(path, &is) != 0 || S_ISREG(is.st_mode);
  if ((size_t)snprintf(j->path, sizeof j->path, "%s.journal", path) >= sizeof j->path)
    return pw_fail(err, PW_E_CREATE, "output", "%.80s...: name too long", path);
  if (resume && !regular)
    return pw_fail(err, PW_E_DATA, "resume", "%.200s is no file: nothing can be resumed", path);
  pw_status status = batch_sink_open(out, err);
  if (status == PW_OK) status = batch_sink_open(rejects, err);
  if (status == PW_OK && regular) status = open_locked(j->path, O_RDWR | O_APPEND, &j->fd, err);
  if (status == PW_OK && resume) status = resume_state(j, what, from, whole, err);
  if (status != PW_OK || *whole) return status;
  int go_on = from->in_bytes > 0;
  if (!go_on) {
    status = empty(out, err);
    if (status == PW_OK) status = empty(rejects, err);
  }
  return status == PW_OK && j->fd >= 0 ? start_journal(j, what, go_on, err) : status;
}

static pw_status cut(batch_sink *sink, uint64_t keep, uint32_t crc, pw_err *err)
{
  if (sink->fd < 0) return PW_OK;
  if (ftruncate(sink->fd, (off_t)keep) != 0 || lseek(sink->fd, (off_t)keep, SEEK_SET) < 0)
    return pw_fail(err, PW_E_IO, "output", "%.200s: cannot go on: %s", sink->name,
                   strerror(errno));
  sink->bytes = keep;
  sink->crc = crc;
  return PW_OK;
}

pw_status batch_journal_cut(const batch_mark *from, batch_sink *out, batch_sink *rejects,
                            pw_err *err)
{
  pw_status status = cut(out, from->out_bytes, from->out_crc, err);
  return status == PW_OK ? cut(rejects, from->reject_bytes, from->reject_crc, err) : status;
}

static double seconds(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static pw_status put_mark(const batch_journal *j, const batch_mark *m, const char *end,
                          pw_err *err)
{
  char line[MARK];
  if (fdatasync(j->out->fd) != 0 || (j->rejects->fd >= 0 && fdatasync(j->rejects->fd) != 0))
    return pw_fail(err, PW_E_IO, "output", "cannot flush: %s", strerror(errno));
  int n = snprintf(line, sizeof line,
                   "%" PRIu64 " %" PRIu64 " %" PRIx32 " %" PRIu64 " %" PRIx32 " %" PRIu64
                   " %" PRIx32 " %" PRIu64 " %" PRIu64 " %s\n",
                   m->line, m->in_bytes, m->crc, m->out_bytes, m->out_crc, m->reject_bytes,
                   m->reject_crc, m->rows, m->rejected, end);
  return put_line(j, line, (size_t)n, err);
}

pw_status batch_journal_mark(batch_journal *j, const batch_mark *m, pw_err *err)
{
  double now = seconds();
  if (j->fd < 0 || now - j->last < mark_pause) return PW_OK;
  j->last = now;
  return put_mark(j, m, ".", err);
}

pw_status batch_journal_end(batch_journal *j, const batch_mark *m, pw_err *err)
{
  if (j->fd < 0) return PW_OK;
  pw_status status = put_mark(j, m, "whole", err);
  if (status == PW_OK && fdatasync(j->fd) != 0)
    status =
        pw_fail(err, PW_E_IO, "output", "%.200s: cannot flush: %s", j->path, strerror(errno));
  return status;
}

void batch_journal_close(batch_journal *j)
{
  if (j->fd >= 0) close(j->fd);
  j->fd = -1;
}
