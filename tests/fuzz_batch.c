/* Fuzz: any bytes as lines of a batch, and as a catalogue. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "job/batch_example.h"
#include "job/batch_rows.h"
#include "job/catalogue_file.h"
#include "out/batch_out.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* A refusal must say something, in one line. */
static void said(pw_status status, const pw_err *err)
{
  if (status != PW_OK && (!err->text[0] || strchr(err->text, '\n'))) abort();
}

/* Lines under the example's header; what is taken must come out as one line. */
static void rows(const char *text, size_t size)
{
  static pw_batch_reader *reader;
  static pw_batch_hand *hand;
  if (!hand) {
    char header[PW_BATCH_EXAMPLE_MAX];
    header[pw_batch_example_header(header)] = '\0';
    if (pw_batch_reader_new(header, PW_BATCH_MONTHLY, &reader, NULL, NULL) != PW_OK) abort();
    hand = pw_batch_hand_new(reader);
    if (!hand) abort();
  }
  pw_lines out = {0};
  for (size_t at = 0; at < size;) {
    const char *end = memchr(text + at, '\n', size - at);
    size_t n = end ? (size_t)(end - text) - at : size - at;
    pw_batch_item item;
    pw_batch_figures figures;
    const char *id = "";
    double away = 0.0;
    pw_err err = {0};
    pw_status status = pw_batch_read(hand, text + at, n, 2, &item, &id, &away, &err);
    if (status == PW_OK) status = pw_batch_solve(&item, &figures, &err);
    said(status, &err);
    out.n = 0;
    if (status == PW_OK)
      pw_batch_print(&out, id, away, &figures);
    else
      pw_reject_print(&out, 2, err.column, id, err.text);
    if (out.n == 0 || memchr(out.text, '\n', out.n) != out.text + out.n - 1) abort();
    at += n + 1;
  }
  pw_lines_free(&out);
}

/* The first byte picks. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  const char *text = (const char *)data + 1;
  pw_rank_catalogue catalogue;
  pw_err err = {0};
  if (size == 0) return 0;
  if (data[0] % 2)
    said(pw_catalogue_parse("fuzz.csv", text, size - 1, &catalogue, NULL, &err), &err);
  else
    rows(text, size - 1);
  return 0;
}
