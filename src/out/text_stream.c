#define _GNU_SOURCE /* fopencookie */

#include "out/text_stream.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>

/* Fewer bytes than were given mark the stream with an error, which stays. */
static ssize_t keep(void *to, const char *bytes, size_t n)
{
  pw_text_stream *s = to;
  if (s->size + n + 1 > s->room) {
    size_t room = 2 * (s->size + n + 1);
    char *more = realloc(s->text, room);
    if (!more) return 0;
    s->text = more;
    s->room = room;
  }
  if (n) memcpy(s->text + s->size, bytes, n);
  s->size += n;
  return (ssize_t)n;
}

int pw_text_stream_open(pw_text_stream *stream)
{
  *stream = (pw_text_stream){.room = 1024};
  stream->text = malloc(stream->room);
  if (stream->text)
    stream->f = fopencookie(stream, "w", (cookie_io_functions_t){.write = keep});
  if (!stream->f) {
    free(stream->text);
    stream->text = NULL;
  }
  return stream->f != NULL;
}

pw_status pw_text_written(FILE *f, const char *what, pw_err *err)
{
  if (fflush(f) == 0 && !ferror(f)) return PW_OK;
  if (fileno(f) < 0) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %s", what);
  return pw_fail(err, PW_E_IO, NULL, "cannot write %s: %s", what, strerror(errno));
}

int pw_text_stream_close(pw_text_stream *stream)
{
  if (!stream->f) return 0;
  int lost = fflush(stream->f) != 0 || ferror(stream->f);
  if (fclose(stream->f) != 0) lost = 1;
  stream->f = NULL;
  if (lost) {
    free(stream->text);
    stream->text = NULL;
    return 0;
  }
  stream->text[stream->size] = '\0';
  return 1;
}
