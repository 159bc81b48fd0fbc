/* The files of a job and those beside it. */
#include <stdlib.h>
#include <unistd.h>

#include "fuzz.h"
#include "job/csv.h"
#include "job/input_text.h"
#include "job/order_file.h"
#include "job/promise_file.h"
#include "job/survey.h"

void fuzz_csv(const char *text, size_t size)
{
  pw_csv csv;
  pw_err err = {0};
  pw_status status = pw_csv_parse("fuzz.csv", text, size, &csv, &err);
  fuzz_said(status, &err);
  if (status == PW_OK) pw_csv_free(&csv);
}

/* A file that may be gzip. */
void fuzz_packed(const char *text, size_t size)
{
  char *got = NULL;
  size_t n = 0;
  pw_err err = {0};
  fuzz_said(pw_input_read(fuzz_file(text, size), PW_INPUT_KEPT, &got, &n, &err), &err);
  if (got && got[n] != '\0') abort();
  free(got);
}

typedef pw_status file_reader(const char *path, pw_job *job, pw_notes *notes, pw_err *err);

static void file(file_reader *read, const char *text, size_t size)
{
  pw_job job = {0};
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(read(fuzz_file(text, size), &job, &notes, &err), &err);
  fuzz_notes(&notes);
  pw_job_free(&job);
}

void fuzz_house_facts(const char *text, size_t size) { file(pw_house_read, text, size); }
void fuzz_openings(const char *text, size_t size) { file(pw_openings_read, text, size); }
void fuzz_packages(const char *text, size_t size) { file(pw_packages_read, text, size); }
void fuzz_frame_lines(const char *text, size_t size) { file(pw_frame_lines_read, text, size); }

void fuzz_labels(const char *text, size_t size)
{
  pw_job job = fuzz_small_job();
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_labels_parse("labels.csv", text, size, &job, &notes, &err), &err);
  free(job.label);
  fuzz_notes(&notes);
}

void fuzz_prices(const char *text, size_t size)
{
  pw_job job = fuzz_small_job();
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_prices_parse("prices.csv", text, size, (int)(size & 1), &job, &notes, &err),
            &err);
  free(job.price);
  fuzz_notes(&notes);
}

void fuzz_firm(const char *text, size_t size)
{
  pw_job job = fuzz_small_job();
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_firm_parse("firm.csv", text, size, &job, &notes, &err), &err);
  fuzz_notes(&notes);
}

/* What was read can be asked for, in every row and column. */
void fuzz_order(const char *text, size_t size)
{
  pw_order_file order;
  pw_err err = {0};
  pw_status status = pw_order_parse("order.csv", text, size, &order, &err);
  fuzz_said(status, &err);
  if (status != PW_OK) return;
  for (size_t r = 0; r < order.csv.n_row; r++) {
    for (int c = 0; c < PW_ORDER_KNOWN; c++)
      if (!pw_order_at(&order, r, (pw_order_column)c)) abort();
    const char *tag = pw_order_at(&order, r, PW_ORDER_TAG),
               *dwelling = pw_order_at(&order, r, PW_ORDER_DWELLING);
    if (pw_order_row(&order, dwelling, tag) != (int)r) abort();
  }
  pw_order_free(&order);
}

void fuzz_promise(const char *text, size_t size)
{
  static char path[96];
  snprintf(path, sizeof path, "%s/promise.csv", fuzz_folder());
  FILE *f = fopen(path, "wb");
  if (!f || fwrite(text, 1, size, f) != size || fclose(f) != 0) abort();
  pw_promise promise;
  pw_err err = {0};
  pw_status status = pw_promise_read(fuzz_folder(), &promise, &err);
  fuzz_said(status, &err);
  for (size_t i = 0; status == PW_OK && i < promise.n; i++)
    if (!pw_promise_find(&promise, promise.row[i].figure, 0)) abort();
  pw_promise_free(&promise);
}
