/* Lanes beside the scalar path, in the same run: rows of a batch, the comparison, the range. */
#include "bench.h"

#include <stdio.h>
#include <stdlib.h>

#include "job/batch_example.h"
#include "job/batch_rows.h"
#include "job/job_open.h"
#include "study/range.h"

enum { ROWS = 4 * PW_BATCH_BESIDE };
static const int widths[] = {1, 2, 4, 8};

/* ---- batch in detail: rows of one place ---- */

typedef struct rows {
  pw_batch_years years[ROWS];
  pw_batch_figures figures[ROWS];
  pw_alone_desk *desk;
  int failed;
} rows;

static void live(void *data)
{
  rows *r = data;
  for (size_t i = 0; i < ROWS; i += PW_BATCH_BESIDE) {
    const pw_batch_years *years[PW_BATCH_BESIDE];
    pw_batch_figures *figures[PW_BATCH_BESIDE];
    for (size_t k = 0; k < PW_BATCH_BESIDE; k++) {
      years[k] = &r->years[i + k];
      figures[k] = &r->figures[i + k];
    }
    r->failed |= pw_batch_live(years, figures, PW_BATCH_BESIDE, r->desk, NULL) != PW_OK;
  }
}

/* Example rows, all taken to the place of the first. */
static int rated(rows *r, pw_batch_hand *hand)
{
  char text[PW_BATCH_EXAMPLE_MAX];
  pw_batch_hold(hand, 1);
  for (size_t i = 0; i < ROWS; i++) {
    pw_batch_item item;
    const char *id;
    double away;
    size_t n = pw_batch_example(i, text);
    if (pw_batch_read(hand, text, n, 1, &item, &id, &away, NULL) != PW_OK ||
        pw_batch_rate(&item, &r->figures[i], &r->years[i], NULL) != PW_OK)
      return 0;
    r->years[i].place = r->years[0].place;
  }
  return 1;
}

static void rows_by_lanes(bench *b, rows *r)
{
  double first = 0.0;
  for (size_t k = 0; k < sizeof widths / sizeof *widths && widths[k] <= pw_year_lanes(); k++) {
    char name[48];
    r->desk = pw_alone_desk_new(widths[k]);
    if (!r->desk) return;
    double cpu = bench_cpu(live, r);
    if (k == 0) first = cpu / ROWS;
    snprintf(name, sizeof name, "batch row in detail, lanes %d", widths[k]);
    bench_give(b, &(bench_row){name, "row", ROWS, cpu, 0.0, first, "lanes 1"});
    pw_alone_desk_free(r->desk);
  }
}

static void batch(bench *b)
{
  char header[PW_BATCH_EXAMPLE_MAX];
  pw_batch_reader *reader = NULL;
  rows *r = calloc(1, sizeof *r);
  header[pw_batch_example_header(header)] = '\0';
  if (r && pw_batch_reader_new(header, PW_BATCH_DETAILED, &reader, NULL, NULL) == PW_OK) {
    pw_batch_hand *hand = pw_batch_hand_new(reader);
    if (hand && rated(r, hand)) rows_by_lanes(b, r);
    pw_batch_hand_free(hand);
    pw_batch_reader_free(reader);
  }
  free(r);
}

/* ---- comparison and range of the example ---- */

typedef struct desk {
  pw_open_job open;
  pw_compare *compare;
  pw_range *range;
  pw_year_workspace *workspace;
  int lanes, full, failed;
} desk;

static void compare(void *data)
{
  desk *d = data;
  pw_compare_options options = pw_job_options(&d->open, PW_YEAR_DETAILED);
  options.lanes = d->lanes;
  pw_compare_free(d->compare);
  d->failed |= pw_compare_run(&d->open.job, d->open.weather, &options, d->workspace, d->compare,
                              NULL) != PW_OK;
}

static void range(void *data)
{
  desk *d = data;
  const pw_range_options o = {.n_draw = d->full ? 512 : 0,
                              .seed = 1,
                              .n_thread = 1,
                              .lanes = d->lanes,
                              .method = d->full ? PW_RANGE_FULL : PW_RANGE_REDUCED};
  d->failed |=
      pw_range_of(d->compare, d->open.weather, PW_YEAR_DETAILED, &o, d->range, NULL) != PW_OK;
}

static void by_lanes(bench *b, desk *d, void (*work)(void *), const char *what)
{
  double first = 0.0;
  for (size_t k = 0; k < sizeof widths / sizeof *widths && widths[k] <= pw_year_lanes(); k++) {
    char name[48];
    d->lanes = widths[k];
    double cpu = bench_cpu(work, d);
    if (k == 0) first = cpu;
    snprintf(name, sizeof name, "%s, lanes %d", what, widths[k]);
    bench_give(b, &(bench_row){name, what, 1.0, cpu, 0.0, first, "lanes 1"});
  }
}

void bench_lanes(bench *b)
{
  desk d = {.compare = calloc(1, sizeof *d.compare),
            .range = calloc(1, sizeof *d.range),
            .workspace = pw_year_workspace_new()};
  batch(b);
  if (d.compare && d.range && d.workspace &&
      pw_job_open("examples/harrow_bend", &d.open, NULL) == PW_OK) {
    by_lanes(b, &d, compare, "comparison");
    by_lanes(b, &d, range, "range");
    d.full = 1;
    by_lanes(b, &d, range, "range, each its own year");
    pw_compare_free(d.compare);
    pw_job_close(&d.open);
  }
  free(d.compare);
  free(d.range);
  pw_year_workspace_free(d.workspace);
}
