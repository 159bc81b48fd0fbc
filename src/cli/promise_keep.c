#include "cli/promise_keep.h"

#include <stdlib.h>
#include <string.h>

#include "job/input_text.h"
#include "out/safe_file.h"
#include "out/text_stream.h"

/* The rows that the file does not say yet; 1 when another promise of one of the figures stands there. */
static int leave_known(const pw_promise *old, pw_promise_row row[], size_t *n)
{
  size_t kept = 0;
  int other = 0;
  for (size_t i = 0; i < *n; i++) {
    int known = 0;
    for (size_t k = 0; k < old->n; k++) {
      int figure = strcmp(old->row[k].figure, row[i].figure) == 0;
      known |= figure && pw_promise_same(&old->row[k], &row[i]);
      other |= figure;
    }
    if (!known) row[kept++] = row[i];
  }
  *n = kept;
  return other;
}

static pw_status put(const char *path, const pw_promise *old, const pw_promise_row row[],
                     size_t n, pw_err *err)
{
  pw_text_stream s;
  if (!pw_text_stream_open(&s))
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for promise.csv");
  if (old->size) fwrite(old->text, 1, old->size, s.f);
  if (old->size && old->text[old->size - 1] != '\n') fputc('\n', s.f);
  pw_status status = pw_promise_write(row, n, old->size == 0, s.f, err);
  if (!pw_text_stream_close(&s) && status == PW_OK)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for promise.csv");
  if (status == PW_OK) status = pw_safe_put(path, s.text, s.size, err);
  free(s.text);
  return status;
}

pw_status cli_promise_keep(const char *dir, const pw_promised promised[], size_t n,
                           pw_date date, pw_err *err)
{
  char path[PW_INPUT_PATH], version[PW_VERSION_MAX];
  pw_promise old = {.n = 0};
  size_t n_row = 0;
  pw_promise_row *row = calloc(n * PW_PROMISE_ROWS, sizeof *row);
  if (!row) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for promise.csv");
  pw_status status = pw_input_path(dir, "promise.csv", path, err);
  if (status == PW_OK) status = pw_job_version(dir, version, err);
  if (status == PW_OK) status = pw_promise_read(dir, &old, err);
  for (size_t i = 0; status == PW_OK && i < n; i++)
    n_row += pw_promise_rows(&promised[i], date, version, row + n_row);
  if (status == PW_OK) {
    int other = leave_known(&old, row, &n_row);
    if (n_row) status = put(path, &old, row, n_row, err);
    if (n_row && other && status == PW_OK)
      fprintf(stderr,
              "panewright: promise.csv: what was promised before stays; %zu rows of now (files "
              "%s) stand below it\n",
              n_row, version);
  }
  pw_promise_free(&old);
  free(row);
  return status;
}
