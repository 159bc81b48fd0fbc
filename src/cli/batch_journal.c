#include "cli/batch_journal.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static const double mark_pause = 0.2; /* s between marks: what a kill can cost */

static pw_status open_sink(batch_sink *sink, uint64_t keep, pw_err *err)
{
  if (!sink->name) return PW_OK;
  sink->fd = open(sink->name, O_WRONLY | O_CREAT | (keep ? 0 : O_TRUNC), 0666);
  if (sink->fd < 0)
    return pw_fail(err, PW_E_CREATE, "output", "%s: cannot create: %s", sink->name,
                   strerror(errno));
  if (keep == 0) return PW_OK;
  struct stat is;
  if (fstat(sink->fd, &is) != 0 || (uint64_t)is.st_size < keep)
    return pw_fail(err, PW_E_DATA, "output", "%s is shorter than its journal says", sink->name);
  if (ftruncate(sink->fd, (off_t)keep) != 0 || lseek(sink->fd, (off_t)keep, SEEK_SET) < 0)
    return pw_fail(err, PW_E_IO, "output", "%s: cannot go on: %s", sink->name, strerror(errno));
  sink->bytes = keep;
  return PW_OK;
}

/* The last whole mark of a journal; 0 when it holds none. */
static int last_mark(FILE *f, batch_mark *mark)
{
  char line[256], end = 0;
  int found = 0;
  while (fgets(line, sizeof line, f)) {
    batch_mark m = {0};
    if (sscanf(line,
               "%" SCNu64 " %" SCNu64 " %" SCNu32 " %" SCNu64 " %" SCNu64 " %" SCNu64
               " %" SCNu64 " %c",
               &m.line, &m.in_bytes, &m.crc, &m.out_bytes, &m.reject_bytes, &m.rows,
               &m.rejected, &end) == 8 &&
        end == '.' && strchr(line, '\n')) {
      *mark = m;
      found = 1;
    }
  }
  return found;
}

static pw_status read_journal(const char *path, const char *what, batch_mark *from, int *there,
                              pw_err *err)
{
  char line[256];
  FILE *f = fopen(path, "r");
  *there = f != NULL;
  if (!f) return PW_OK;
  pw_status status = PW_OK;
  if (fgets(line, sizeof line, f) && strchr(line, '\n')) {
    line[strcspn(line, "\n")] = '\0';
    if (strcmp(line, what) != 0)
      status = pw_fail(err, PW_E_DATA, "resume", "%s is of another run: '%.80s', now '%.80s'",
                       path, line, what);
    else
      last_mark(f, from);
  }
  fclose(f);
  return status;
}

static pw_status start_journal(batch_journal *j, const char *what, int go_on, pw_err *err)
{
  char line[256];
  int n = snprintf(line, sizeof line, "%s\n", what);
  j->fd = open(j->path, O_WRONLY | O_CREAT | O_APPEND | (go_on ? 0 : O_TRUNC), 0666);
  if (j->fd < 0)
    return pw_fail(err, PW_E_CREATE, "output", "%s: cannot create: %s", j->path,
                   strerror(errno));
  if (go_on) { /* a mark may be torn: the next one begins a line of its own */
    line[0] = '\n';
    n = 1;
  }
  if (write(j->fd, line, (size_t)n) == n) return PW_OK;
  return pw_fail(err, PW_E_IO, "output", "%s: cannot write: %s", j->path, strerror(errno));
}

pw_status batch_journal_open(batch_journal *j, const char *path, const char *what, int resume,
                             batch_sink *out, batch_sink *rejects, batch_mark *from, int *whole,
                             pw_err *err)
{
  struct stat is;
  int there = 0;
  *j = (batch_journal){.fd = -1, .out = out, .rejects = rejects};
  *from = (batch_mark){0};
  *whole = 0;
  int regular = stat(path, &is) != 0 || S_ISREG(is.st_mode);
  pw_status status = PW_OK;
  if ((size_t)snprintf(j->path, sizeof j->path, "%s.journal", path) >= sizeof j->path)
    return pw_fail(err, PW_E_CREATE, "output", "%.80s...: name too long", path);
  if (resume && !regular)
    return pw_fail(err, PW_E_DATA, "resume", "%s is no file: nothing can be resumed", path);
  if (resume) status = read_journal(j->path, what, from, &there, err);
  if (status == PW_OK && resume && !there && stat(path, &is) == 0 && is.st_size > 0) {
    *whole = 1;
    return PW_OK;
  }
  int go_on = from->in_bytes > 0;
  if (status == PW_OK && regular) status = start_journal(j, what, go_on, err);
  if (status == PW_OK) status = open_sink(out, from->out_bytes, err);
  if (status == PW_OK) status = open_sink(rejects, from->reject_bytes, err);
  return status;
}

static double seconds(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

pw_status batch_journal_mark(batch_journal *j, const batch_mark *m, pw_err *err)
{
  char line[256];
  double now = seconds();
  if (j->fd < 0 || now - j->last < mark_pause) return PW_OK;
  j->last = now;
  if (fdatasync(j->out->fd) != 0 || (j->rejects->fd >= 0 && fdatasync(j->rejects->fd) != 0))
    return pw_fail(err, PW_E_IO, "output", "cannot flush: %s", strerror(errno));
  int n = snprintf(
      line, sizeof line,
      "%" PRIu64 " %" PRIu64 " %" PRIu32 " %" PRIu64 " %" PRIu64 " %" PRIu64 " %" PRIu64 " .\n",
      m->line, m->in_bytes, m->crc, m->out_bytes, m->reject_bytes, m->rows, m->rejected);
  if (write(j->fd, line, (size_t)n) == n) return PW_OK;
  return pw_fail(err, PW_E_IO, "output", "%s: cannot write: %s", j->path, strerror(errno));
}

void batch_journal_end(batch_journal *j)
{
  if (j->fd >= 0) unlink(j->path);
}

void batch_journal_close(batch_journal *j)
{
  if (j->fd >= 0) close(j->fd);
  j->fd = -1;
}
