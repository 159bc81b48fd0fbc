/* One comparison of a job, and the search of a catalogue for it. */
#include "bench.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "job/catalogue_file.h"
#include "job/job_open.h"
#include "job/text_file.h"

typedef struct desk {
  pw_open_job open;
  pw_compare *compare;
  pw_year_workspace *workspace;
  int failed;
} desk;

static void compare(void *data)
{
  desk *d = data;
  pw_compare_options options = pw_job_options(&d->open, PW_YEAR_DETAILED);
  pw_compare_free(d->compare);
  d->failed |= pw_compare_run(&d->open.job, d->open.weather, &options, d->workspace, d->compare,
                              NULL) != PW_OK;
}

static void open_job(void *data)
{
  desk *d = data;
  pw_open_job open = {0};
  d->failed |= pw_job_open("examples/harrow_bend", &open, NULL) != PW_OK;
  pw_job_close(&open);
}

/* Two and three panes, two coatings a unit, two gaps, and pockets that take every unit, so that
 * nothing is left out unseen. */
static void rank_part(bench *b, const desk *d)
{
  const char *text = pw_text_file_find("examples/catalogue.csv");
  pw_rank_catalogue c;
  pw_rank r;
  if (!text || pw_catalogue_parse("catalogue.csv", text, strlen(text), &c, NULL, NULL) != PW_OK)
    return;
  c.n_gap = 2;
  for (size_t i = 0; i < c.n_line; i++)
    c.line[i].pocket = 1.0;
  const pw_rank_options o = {.limits = {.panes_min = 2, .panes_max = 3, .coatings_max = 2},
                             .n_thread = 2};
  clock_t start = clock();
  if (pw_rank_run(d->compare, d->open.weather, &c, &o, &r, NULL) != PW_OK) return;
  double cpu = (double)(clock() - start) / CLOCKS_PER_SEC;
  bench_give(b, &(bench_row){"rank of a catalogue, years of the best too", "build-up",
                             (double)r.counts.ranked, cpu, 40e-6, 0.0,
                             "1e6 in 20 s on two cores"});
  pw_rank_free(&r);
}

void bench_rank(bench *b)
{
  desk d = {.compare = calloc(1, sizeof *d.compare), .workspace = pw_year_workspace_new()};
  if (d.compare && d.workspace && pw_job_open("examples/harrow_bend", &d.open, NULL) == PW_OK) {
    bench_run(b, "job folder read, weather made", "job", 1.0, open_job, &d, 0.0, "");
    bench_run(b, "full comparison, 3 packages, hour by hour", "job", 1.0, compare, &d, 0.0, "");
    if (!d.failed) rank_part(b, &d);
    pw_compare_free(d.compare);
    pw_job_close(&d.open);
  }
  free(d.compare);
  pw_year_workspace_free(d.workspace);
}
