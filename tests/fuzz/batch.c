/* A batch's header, rows and journal, and the records of a street. */
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/batch_journal.h"
#include "fuzz.h"
#include "job/batch_example.h"
#include "job/batch_rows.h"
#include "out/street_out.h"

static pw_batch_reader *reader_of(const char *header)
{
  pw_batch_reader *reader = NULL;
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_batch_reader_new(header, PW_BATCH_MONTHLY, &reader, &notes, &err), &err);
  fuzz_notes(&notes);
  return reader;
}

void fuzz_batch_header(const char *bytes, size_t size)
{
  char *header = fuzz_string(bytes, size);
  pw_batch_reader_free(reader_of(header));
  free(header);
}

/* What is taken must come out as one line, and what is not as a reject of one line. */
static void row(pw_batch_hand *hand, const char *line, size_t n, pw_lines *out)
{
  pw_batch_item item;
  pw_batch_figures figures;
  const char *id = "";
  double away = 0.0;
  pw_err err = {0};
  pw_status status = pw_batch_read(hand, line, n, 2, &item, &id, &away, &err);
  if (status == PW_OK) status = pw_batch_solve(&item, &figures, &err);
  fuzz_said(status, &err);
  out->n = 0;
  if (status == PW_OK)
    pw_batch_print(out, id, away, &figures);
  else
    pw_reject_print(out, 2, err.column, id, err.text);
  if (out->n == 0 || memchr(out->text, '\n', out->n) != out->text + out->n - 1) abort();
}

/* Lines under the example's header. */
void fuzz_batch(const char *text, size_t size)
{
  static pw_batch_hand *hand;
  if (!hand) {
    char header[PW_BATCH_EXAMPLE_MAX];
    header[pw_batch_example_header(header)] = '\0';
    hand = pw_batch_hand_new(reader_of(header));
    if (!hand) abort();
  }
  pw_lines out = {0};
  for (size_t at = 0; at < size;) {
    const char *end = memchr(text + at, '\n', size - at);
    size_t n = end ? (size_t)(end - text) - at : size - at;
    row(hand, text + at, n, &out);
    at += n + 1;
  }
  pw_lines_free(&out);
}

static void put(const char *path, const char *text, size_t size)
{
  int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (fd < 0 || write(fd, text, size) != (ssize_t)size || close(fd) != 0) abort();
}

/* The bytes as a journal beside an output of twelve bytes: what it vouches for is no more than stands there. */
void fuzz_journal(const char *text, size_t size)
{
  static const char answer[] = "a,b\n1,2\n3,4\n";
  char path[96], beside[112];
  snprintf(path, sizeof path, "%s/out.csv", fuzz_folder());
  snprintf(beside, sizeof beside, "%s.journal", path);
  put(path, answer, sizeof answer - 1);
  put(beside, text, size);
  batch_journal journal;
  batch_sink out = {.fd = -1, .name = path}, rejects = {.fd = -1};
  batch_mark from;
  int whole = 0;
  pw_err err = {0};
  pw_status status =
      batch_journal_open(&journal, path, "batch", 1, &out, &rejects, &from, &whole, &err);
  fuzz_said(status, &err);
  if (status == PW_OK && from.out_bytes > sizeof answer - 1) abort();
  if (status == PW_OK && !whole)
    fuzz_said(batch_journal_cut(&from, &out, &rejects, &err), &err);
  batch_journal_close(&journal);
  if (out.fd >= 0) close(out.fd);
}

static void print_street(const pw_street *street)
{
  static FILE *nowhere;
  pw_street_total total;
  pw_err err = {0};
  if (!nowhere) nowhere = fopen("/dev/null", "w");
  pw_status status = pw_street_total_of(street, &total, &err);
  fuzz_said(status, &err);
  if (status == PW_OK) {
    fuzz_said(pw_street_text(street, &total, pw_units(0), nowhere, &err), &err);
    fuzz_said(pw_street_csv(street, &total, nowhere, &err), &err);
    fuzz_said(pw_street_json(street, &total, nowhere, &err), &err);
  }
  pw_street_total_free(&total);
}

void fuzz_street(const char *text, size_t size)
{
  static const char *const name[] = {"records"};
  FILE *f = fopen(fuzz_file(text, size), "r");
  pw_street *street = NULL;
  pw_err err = {0};
  if (!f) abort();
  pw_status status = pw_street_open(&f, name, 1, (int)(size & 1), &street, &err);
  fuzz_said(status, &err);
  if (status == PW_OK) print_street(street);
  pw_street_free(street);
  fclose(f);
}
