/* The moving parts of panewright batch and street: chunks of lines go from the input to workers and, in the
 * input's order, to the output. */
#ifndef CLI_BATCH_RUN_H
#define CLI_BATCH_RUN_H

#include <stdint.h>

#include "job/batch_rows.h"
#include "out/batch_out.h"

/* A file or pipe that only ever gets whole rows: where the disk is full, what was written of a row
 * is taken back as far as the file allows. */
typedef struct batch_sink {
  int fd; /* -1: none */
  const char *name;
  uint64_t bytes; /* written since the start of the run that a resume goes on with */
  uint32_t crc;   /* of them */
} batch_sink;

pw_status batch_sink_put(batch_sink *sink, const char *text, size_t n, pw_err *err);

/* How far everything is, at a boundary of chunks. */
typedef struct batch_mark {
  uint64_t line, in_bytes, out_bytes, reject_bytes, rows, rejected;
  uint32_t crc, out_crc, reject_crc; /* of the input, the output and the rejects so far */
} batch_mark;

typedef struct batch_input {
  int fd;
  int ended, skipping; /* skipping: inside a line that is too long */
  int by_line;         /* 1: a chunk is a line */
  char *rest;          /* owned; begun and not yet ended line */
  size_t n_rest;
  batch_mark at; /* line, in_bytes and crc of what was handed out */
} batch_input;

enum { BATCH_CHUNK = 65536 };

pw_status batch_input_open(batch_input *in, int fd, pw_err *err);
void batch_input_close(batch_input *in);

/* Whole lines into text[BATCH_CHUNK + PW_BATCH_LINE_MAX]; 0 at the end. */
pw_status batch_input_chunk(batch_input *in, char text[], size_t *n, pw_err *err);

/* The header: the first line that is no note, NUL ended. PW_E_MISSING an empty input. */
pw_status batch_input_header(batch_input *in, char header[], size_t size, pw_err *err);

/* Reads on to a mark of an earlier run. PW_E_DATA when the input is not the same as then. */
pw_status batch_input_skip(batch_input *in, const batch_mark *to, pw_err *err);

/* A whole run's answer belongs to this input only when it was read to its end: PW_E_DATA when there is more. */
pw_status batch_input_same_to_the_end(batch_input *in, const batch_mark *to, pw_err *err);

/* One chunk on its way, and what a worker makes of it. */
typedef struct batch_chunk {
  char *in; /* owned */
  size_t n;
  uint64_t line; /* of its first */
  batch_mark at; /* of the input at its end */
  pw_lines out, rejects;
  uint64_t rows, rejected, windows1252;
  char first_reason[256];
  pw_err failed; /* code PW_OK: every row was judged; else the run ends, to be resumed */
  int done;
} batch_chunk;

/* What is done to a chunk, whose results and counts are empty then; each worker has a hand of its own. */
typedef struct batch_work {
  void *(*hand_new)(void *context); /* NULL when out of memory */
  void (*hand_free)(void *hand);
  void (*work)(void *hand, batch_chunk *chunk);
  void *context;
} batch_work;

/* Rows of windows; context is a pw_batch_reader. */
extern const batch_work batch_windows;

typedef struct batch_run {
  batch_work todo;
  batch_input *in;
  batch_sink out, rejects;
  int n_thread;
  batch_mark done;
  uint64_t windows1252;   /* rows of this run that were no UTF-8 text */
  char first_reason[256]; /* of the first row that was rejected, "" none */
  /* Called after each chunk is written. */
  pw_status (*written)(void *context, const batch_mark *done, pw_err *err);
  void *context;
} batch_run;

pw_status batch_run_all(batch_run *run, pw_err *err);

#endif
