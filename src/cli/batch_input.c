/* The input of a batch, cut at line ends into chunks of constant size. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <zlib.h>

#include "cli/batch_run.h"

pw_status batch_input_open(batch_input *in, int fd, pw_err *err)
{
  *in = (batch_input){.fd = fd, .rest = malloc(BATCH_CHUNK + PW_BATCH_LINE_MAX)};
  return in->rest ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the batch");
}

void batch_input_close(batch_input *in)
{
  free(in->rest);
  in->rest = NULL;
}

/* Reads until text holds a chunk or the input ends. */
static pw_status fill(batch_input *in, char text[], size_t *n, pw_err *err)
{
  memcpy(text, in->rest, in->n_rest);
  *n = in->n_rest;
  in->n_rest = 0;
  while (*n < BATCH_CHUNK && !in->ended) {
    ssize_t got = read(in->fd, text + *n, BATCH_CHUNK - *n);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0)
      return pw_fail(err, PW_E_IO, "input", "cannot read the input: %s", strerror(errno));
    if (got == 0) in->ended = 1;
    *n += (size_t)got;
  }
  return PW_OK;
}

/* Length of the whole lines in text[n]. */
static size_t whole_lines(const char text[], size_t n)
{
  while (n > 0 && text[n - 1] != '\n')
    n--;
  return n;
}

static size_t first_line(const char text[], size_t n)
{
  const char *end = memchr(text, '\n', n);
  return end ? (size_t)(end - text) + 1 : 0;
}

static void hand_out(batch_input *in, const char text[], size_t n)
{
  in->at.crc = (uint32_t)crc32(in->at.crc, (const unsigned char *)text, (unsigned)n);
  in->at.in_bytes += n;
}

/* Drops the tail of a line that was too long; returns what is left of text[n]. */
static size_t drop_tail(batch_input *in, char text[], size_t n)
{
  const char *end = memchr(text, '\n', n);
  size_t gone = end ? (size_t)(end - text) + 1 : n;
  hand_out(in, text, gone);
  if (end) in->skipping = 0;
  memmove(text, text + gone, n - gone);
  return n - gone;
}

pw_status batch_input_chunk(batch_input *in, char text[], size_t *n, pw_err *err)
{
  for (;;) {
    pw_status status = fill(in, text, n, err);
    if (status != PW_OK) return status;
    if (*n > 0 && in->skipping) {
      size_t left = drop_tail(in, text, *n);
      memcpy(in->rest, text, left);
      in->n_rest = left;
      *n = 0;
      continue;
    }
    if (*n == 0 && in->ended) return PW_OK;
    size_t whole = in->by_line ? first_line(text, *n) : whole_lines(text, *n);
    if (whole == 0 && in->ended) {
      whole = *n;            /* the last line has no end mark */
    } else if (whole == 0) { /* a line longer than a chunk: its head is enough to refuse it */
      whole = *n;
      in->skipping = 1;
    }
    in->n_rest = *n - whole;
    memcpy(in->rest, text + whole, in->n_rest);
    *n = whole;
    hand_out(in, text, whole);
    return PW_OK;
  }
}

pw_status batch_input_header(batch_input *in, char header[], size_t size, pw_err *err)
{
  char *text = malloc(BATCH_CHUNK + PW_BATCH_LINE_MAX);
  size_t n = 0;
  pw_status status =
      text ? fill(in, text, &n, err) : pw_fail(err, PW_E_NOMEM, NULL, "no memory");
  size_t at = 0;
  if (status == PW_OK && n >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) at = 3;
  while (status == PW_OK && at < n) {
    const char *end = memchr(text + at, '\n', n - at);
    size_t length = end ? (size_t)(end - text) - at : n - at;
    size_t next = at + length + (end ? 1 : 0);
    in->at.line++;
    if (pw_batch_is_blank(text + at, length)) {
      at = next;
      continue;
    }
    if (length + 1 > size || memchr(text + at, '\0', length)) {
      status = pw_fail(err, PW_E_DATA, "header", "line %llu: this is no header of a CSV text",
                       (unsigned long long)in->at.line);
      break;
    }
    memcpy(header, text + at, length);
    header[length] = '\0';
    hand_out(in, text, next);
    memcpy(in->rest, text + next, n - next);
    in->n_rest = n - next;
    free(text);
    return PW_OK;
  }
  free(text);
  return status != PW_OK ? status
                         : pw_fail(err, PW_E_MISSING, "input",
                                   "the input is empty; panewright batch --example 10 shows "
                                   "how it looks");
}

pw_status batch_input_skip(batch_input *in, const batch_mark *to, pw_err *err)
{
  char *text = malloc(BATCH_CHUNK + PW_BATCH_LINE_MAX);
  size_t n = 1;
  pw_status status = text ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory");
  while (status == PW_OK && n > 0 && in->at.in_bytes < to->in_bytes)
    status = batch_input_chunk(in, text, &n, err);
  free(text);
  if (status != PW_OK) return status;
  in->at.out_crc = to->out_crc;
  in->at.reject_crc = to->reject_crc;
  if (in->at.in_bytes != to->in_bytes || in->at.crc != to->crc)
    return pw_fail(err, PW_E_DATA, "input",
                   "the input is not the one that the interrupted run read");
  in->at.line = to->line;
  return PW_OK;
}

pw_status batch_input_same_to_the_end(batch_input *in, const batch_mark *to, pw_err *err)
{
  char *text = malloc(BATCH_CHUNK + PW_BATCH_LINE_MAX);
  size_t n = 0;
  pw_status status = text ? batch_input_skip(in, to, err)
                          : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the batch");
  if (status == PW_OK) status = batch_input_chunk(in, text, &n, err);
  free(text);
  if (status == PW_OK && n > 0)
    status = pw_fail(err, PW_E_DATA, "input",
                     "the input goes on beyond what the whole run read: run without --resume");
  return status;
}
