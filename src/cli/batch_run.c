#include "cli/batch_run.h"

#include <errno.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>
#include <zlib.h>

/* The end of the last whole row in text[n], 0 when there is none. */
static size_t whole_rows(const char *text, size_t n)
{
  while (n > 0 && text[n - 1] != '\n')
    n--;
  return n;
}

pw_status batch_sink_put(batch_sink *sink, const char *text, size_t n, pw_err *err)
{
  size_t done = 0;
  if (sink->fd < 0) return PW_OK;
  while (done < n) {
    ssize_t put = write(sink->fd, text + done, n - done);
    if (put < 0 && errno == EINTR) continue;
    if (put > 0) {
      done += (size_t)put;
      continue;
    }
    int why = errno;
    struct stat is;
    off_t here = lseek(sink->fd, 0, SEEK_CUR);
    size_t torn = done - whole_rows(text, done);
    if (torn > 0 && here >= (off_t)torn && fstat(sink->fd, &is) == 0 && S_ISREG(is.st_mode) &&
        ftruncate(sink->fd, here - (off_t)torn) != 0)
      why = errno;
    return pw_fail(err, PW_E_IO, "output", "cannot write to %s: %s", sink->name, strerror(why));
  }
  sink->bytes += n;
  if (n > 0) /* zlib starts anew where there is no text */
    sink->crc = (uint32_t)crc32(sink->crc, (const unsigned char *)text, (unsigned)n);
  return PW_OK;
}

typedef struct team {
  batch_run *run;
  batch_chunk *slot;
  size_t n_slot;
  pthread_mutex_t lock;
  pthread_cond_t work, done;
  size_t filled, taken, written; /* chunks so far */
  int quit;
} team;

typedef struct worker {
  team *team;
  void *hand; /* owned */
  pthread_t thread;
  int started;
} worker;

static void *work(void *argument)
{
  worker *w = argument;
  team *t = w->team;
  pthread_mutex_lock(&t->lock);
  while (!t->quit) {
    if (t->taken == t->filled) {
      pthread_cond_wait(&t->work, &t->lock);
      continue;
    }
    batch_chunk *s = &t->slot[t->taken++ % t->n_slot];
    pthread_mutex_unlock(&t->lock);
    s->out.n = s->rejects.n = 0;
    s->rows = s->rejected = s->windows1252 = 0;
    s->failed = (pw_err){.code = PW_OK};
    t->run->todo.work(w->hand, s);
    pthread_mutex_lock(&t->lock);
    s->done = 1;
    pthread_cond_signal(&t->done);
  }
  pthread_mutex_unlock(&t->lock);
  return NULL;
}

static pw_status write_slot(batch_run *run, batch_chunk *s, pw_err *err)
{
  if (s->failed.code != PW_OK) {
    if (err) *err = s->failed;
    return s->failed.code;
  }
  if (s->out.lost || s->rejects.lost)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the results of a chunk");
  pw_status status = batch_sink_put(&run->rejects, s->rejects.text, s->rejects.n, err);
  if (status == PW_OK) status = batch_sink_put(&run->out, s->out.text, s->out.n, err);
  if (status != PW_OK) return status;
  if (s->rejected && !run->first_reason[0])
    memcpy(run->first_reason, s->first_reason, sizeof run->first_reason);
  run->windows1252 += s->windows1252;
  uint64_t rows = run->done.rows + s->rows, rejected = run->done.rejected + s->rejected;
  run->done = s->at;
  run->done.rows = rows;
  run->done.rejected = rejected;
  run->done.out_bytes = run->out.bytes;
  run->done.reject_bytes = run->rejects.bytes;
  run->done.out_crc = run->out.crc;
  run->done.reject_crc = run->rejects.crc;
  return run->written ? run->written(run->context, &run->done, err) : PW_OK;
}

static uint64_t lines_in(const char *text, size_t n)
{
  uint64_t lines = 0;
  for (const char *p = text; (p = memchr(p, '\n', n - (size_t)(p - text))) != NULL; p++)
    lines++;
  return lines;
}

/* Reads, waits and writes; the workers do the rest. */
static pw_status lead(team *t, pw_err *err)
{
  batch_input *in = t->run->in;
  pw_status status = PW_OK;
  int ended = 0;
  while (status == PW_OK && !(ended && t->written == t->filled)) {
    if (!ended && t->filled - t->written < t->n_slot) {
      batch_chunk *s = &t->slot[t->filled % t->n_slot];
      status = batch_input_chunk(in, s->in, &s->n, err);
      if (status != PW_OK) break;
      s->line = in->at.line + 1;
      in->at.line += lines_in(s->in, s->n) + (uint64_t)in->skipping;
      s->at = in->at;
      s->done = 0;
      ended = s->n == 0;
      pthread_mutex_lock(&t->lock);
      if (!ended) t->filled++;
      pthread_cond_signal(&t->work);
      pthread_mutex_unlock(&t->lock);
    }
    int must_wait = ended || t->filled - t->written == t->n_slot;
    while (status == PW_OK && t->written < t->filled) {
      batch_chunk *s = &t->slot[t->written % t->n_slot];
      pthread_mutex_lock(&t->lock);
      while (must_wait && !s->done)
        pthread_cond_wait(&t->done, &t->lock);
      int ready = s->done;
      pthread_mutex_unlock(&t->lock);
      if (!ready) break;
      must_wait = ended;
      status = write_slot(t->run, s, err);
      t->written++;
    }
  }
  return status;
}

static pw_status with_team(team *t, pw_err *err)
{
  size_t n = (size_t)t->run->n_thread, started = 0;
  worker *w = calloc(n, sizeof *w);
  if (!w) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu threads", n);
  for (size_t i = 0; i < n; i++) { /* where a thread cannot be had, the others do its share */
    w[i].team = t;
    w[i].hand = t->run->todo.hand_new(t->run->todo.context);
    w[i].started = w[i].hand && pthread_create(&w[i].thread, NULL, work, &w[i]) == 0;
    started += (size_t)w[i].started;
  }
  pw_status status = started > 0
                         ? lead(t, err)
                         : pw_fail(err, PW_E_LACK, "threads", "no thread could be started");
  pthread_mutex_lock(&t->lock);
  t->quit = 1;
  pthread_cond_broadcast(&t->work);
  pthread_mutex_unlock(&t->lock);
  for (size_t i = 0; i < n; i++) {
    if (w[i].started) pthread_join(w[i].thread, NULL);
    if (w[i].hand) t->run->todo.hand_free(w[i].hand);
  }
  free(w);
  return status;
}

pw_status batch_run_all(batch_run *run, pw_err *err)
{
  team t = {.run = run, .n_slot = 2 * (size_t)run->n_thread + 2};
  pw_status status = PW_OK;
  t.slot = calloc(t.n_slot, sizeof *t.slot);
  for (size_t i = 0; t.slot && i < t.n_slot; i++)
    if (!(t.slot[i].in = malloc(BATCH_CHUNK + PW_BATCH_LINE_MAX))) status = PW_E_NOMEM;
  if (!t.slot || status != PW_OK)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu chunks", t.n_slot);
  if (status == PW_OK) {
    pthread_mutex_init(&t.lock, NULL);
    pthread_cond_init(&t.work, NULL);
    pthread_cond_init(&t.done, NULL);
    status = with_team(&t, err);
    pthread_cond_destroy(&t.done);
    pthread_cond_destroy(&t.work);
    pthread_mutex_destroy(&t.lock);
  }
  for (size_t i = 0; t.slot && i < t.n_slot; i++) {
    free(t.slot[i].in);
    pw_lines_free(&t.slot[i].out);
    pw_lines_free(&t.slot[i].rejects);
  }
  free(t.slot);
  return status;
}
