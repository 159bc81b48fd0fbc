/* Speed of the range: draws, and the whole of it on the example job, reduced and full. */
#include "bench.h"

#include <stdlib.h>
#include <time.h>

#include "job/job_open.h"
#include "study/range.h"
#include "study/sobol.h"

enum { DIMS = 60, POINTS = 2048 };

typedef struct desk {
  pw_sobol sobol;
  double sum;
} desk;

static void points(void *data)
{
  desk *d = data;
  double x[DIMS];
  for (size_t i = 0; i < POINTS; i++) {
    pw_sobol_point(&d->sobol, i, x);
    d->sum += x[DIMS - 1];
  }
}

/* CPU s of one range; both cores' time is counted. */
static double range_s(const pw_compare *c, const pw_weather *weather, pw_range_method method,
                      pw_range *range)
{
  pw_range_options o = {.seed = 1, .n_thread = 2, .method = method};
  clock_t start = clock();
  if (pw_range_of(c, weather, PW_YEAR_DETAILED, &o, range, NULL) != PW_OK) return 0.0;
  return (double)(clock() - start) / CLOCKS_PER_SEC;
}

void bench_range(bench *b)
{
  desk *d = calloc(1, sizeof *d);
  pw_open_job open = {0};
  pw_compare *c = calloc(1, sizeof *c);
  pw_range *r = calloc(1, sizeof *r);
  if (d && pw_sobol_init(&d->sobol, DIMS, POINTS, 1, NULL) == PW_OK)
    bench_run(b, "scrambled Sobol, 2048 points of 60", "coordinate", (double)POINTS * DIMS,
              points, d, 0.0, "");
  if (c && r && pw_job_open("examples/harrow_bend", &open, NULL) == PW_OK) {
    pw_compare_options options = pw_job_options(&open, PW_YEAR_DETAILED);
    if (pw_compare_run(&open.job, open.weather, &options, NULL, c, NULL) == PW_OK) {
      double reduced = range_s(c, open.weather, PW_RANGE_REDUCED, r);
      bench_give(b, &(bench_row){"range of 2048 draws, reduced year", "range", 1.0, reduced,
                                 10.0, 0.0, "5 s on two cores"});
      double full = range_s(c, open.weather, PW_RANGE_FULL, r);
      bench_give(b, &(bench_row){"range of 2048 draws, each its year", "range", 1.0, full,
                                 120.0, 0.0, "60 s on two cores"});
      pw_compare_free(c);
    }
    pw_job_close(&open);
  }
  free(d);
  free(c);
  free(r);
}
