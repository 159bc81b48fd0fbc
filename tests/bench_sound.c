/* Sound: spectra of glass units, single numbers, all windows of a job with their draws, and what the
 * search pays when quiet is its objective. */
#include "bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "gen/reference.h"
#include "job/catalogue_file.h"
#include "job/job_open.h"
#include "job/text_file.h"
#include "sound/sound_unit.h"
#include "study/compare_sound.h"
#include "study/rank.h"

enum { SPECTRA = 200 };

typedef struct unit_job {
  size_t n;
  double mm[3], gap[2];
  double sum; /* so that none can be left out */
  int failed;
} unit_job;

/* The gap differs in each. */
static void spectra(void *data)
{
  unit_job *j = data;
  for (int i = 0; i < SPECTRA; i++) {
    pw_leaf leaf[3];
    double gap[2] = {j->gap[0] + 1e-6 * i, j->gap[1] + 1e-6 * i};
    pw_thirds r;
    for (size_t k = 0; k < j->n; k++)
      j->failed |=
          pw_leaf_sheet(j->mm[k] * 1e-3, pw_ref_sound_leaf__glass, &leaf[k], NULL) != PW_OK;
    j->failed |= pw_sound_unit(leaf, gap, j->n, NULL, &r, NULL) != PW_OK;
    j->sum += pw_rw_ctr(&r);
  }
}

static void numbers(void *data)
{
  pw_thirds *r = data;
  pw_single_number n;
  for (int i = 0; i < SPECTRA; i++) {
    r->db[10] += i % 2 ? 0.1 : -0.1;
    pw_single_number_of(r, &n, NULL);
  }
}

typedef struct desk {
  pw_open_job open;
  pw_compare compare;
  int failed;
} desk;

static void windows(void *data)
{
  desk *d = data;
  pw_compare_sound sound;
  d->failed |= pw_compare_sound_of(&d->compare, &sound, NULL) != PW_OK;
  pw_compare_sound_free(&sound);
}

/* The search of bench_rank without its years, for quiet or for life cost. */
static double search(const desk *d, int sound)
{
  const char *text = pw_text_file_find("examples/catalogue.csv");
  pw_rank_catalogue c;
  pw_rank r;
  if (!text || pw_catalogue_parse("catalogue.csv", text, strlen(text), &c, NULL, NULL) != PW_OK)
    return 0.0;
  c.n_gap = 2;
  const pw_rank_options o = {.limits = {.panes_min = 2, .panes_max = 2, .coatings_max = 2},
                             .method = PW_YEAR_QUICK,
                             .n_thread = 1,
                             .no_years = 1,
                             .sound = sound};
  clock_t start = clock();
  if (pw_rank_run(&d->compare, d->open.weather, &c, &o, &r, NULL) != PW_OK) return 0.0;
  double cpu = (double)(clock() - start) / CLOCKS_PER_SEC / (double)r.counts.ranked;
  pw_rank_free(&r);
  return cpu;
}

void bench_sound(bench *b)
{
  static const struct {
    const char *name;
    unit_job job;
    double bound;
  } row[] = {
      {"spectrum of a single pane", {.n = 1, .mm = {3}}, 30e-6},
      {"spectrum of 3-12.7-3", {.n = 2, .mm = {3, 3}, .gap = {0.0127}}, 30e-6},
      {"spectrum of 3-12.7-5", {.n = 2, .mm = {3, 5}, .gap = {0.0127}}, 30e-6},
      {"spectrum of 6-16-10", {.n = 2, .mm = {6, 10}, .gap = {0.016}}, 30e-6},
      {"spectrum of 3-12-3-12-3", {.n = 3, .mm = {3, 3, 3}, .gap = {0.012, 0.012}}, 60e-6}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    unit_job j = row[i].job;
    bench_run(b, row[i].name, "spectrum", SPECTRA, spectra, &j, row[i].bound,
              "bound, one core");
    if (j.failed || !(j.sum > 0.0)) fprintf(stderr, "bench: %s failed\n", row[i].name);
  }
  pw_thirds flat;
  for (int i = 0; i < PW_THIRDS; i++)
    flat.db[i] = 30.0;
  bench_run(b, "Rw, C, Ctr, enlarged, STC, OITC of a spectrum", "curve", SPECTRA, numbers,
            &flat, 0.0, "");
  desk *d = calloc(1, sizeof *d);
  if (!d || pw_job_open("examples/harrow_bend", &d->open, NULL) != PW_OK) {
    free(d);
    return;
  }
  pw_compare_options options = pw_job_options(&d->open, PW_YEAR_QUICK);
  if (pw_compare_run(&d->open.job, d->open.weather, &options, NULL, &d->compare, NULL) ==
      PW_OK) {
    bench_run(b, "sound of a job, 11 openings, 3 packages, 256 draws", "job", 1.0, windows, d,
              0.0, "");
    double plain = search(d, 0), quiet = search(d, 1);
    bench_give(b, &(bench_row){"rank by quiet", "build-up", 1.0, quiet, 1.1 * plain, 0.0,
                               "the same search by life cost, and a tenth"});
    pw_compare_free(&d->compare);
  }
  pw_job_close(&d->open);
  free(d);
}
