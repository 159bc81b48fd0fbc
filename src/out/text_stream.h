/* A stream whose text is kept in memory, and that cannot lose any of it in silence: the C library's own streams over
 * memory go on without an error when there is no room for more. */
#ifndef OUT_TEXT_STREAM_H
#define OUT_TEXT_STREAM_H

#include <stdio.h>

#include "panewright/status.h"

/* Stays where it was opened: its stream points to it. */
typedef struct pw_text_stream {
  FILE *f;    /* to write to; NULL: no memory, or closed */
  char *text; /* after the close; owned by the caller */
  size_t size, room;
} pw_text_stream;

/* 0: no memory. */
int pw_text_stream_open(pw_text_stream *stream);

/* 1: all that was written is in text, a 0 behind it. 0: there was no memory for it, text is NULL. Harmless on what is
 * not open (0). */
int pw_text_stream_close(pw_text_stream *stream);

/* What was written to a stream went in: PW_OK; PW_E_NOMEM where it is one over memory, else PW_E_IO. what: "the year". */
pw_status pw_text_written(FILE *f, const char *what, pw_err *err);

#endif
