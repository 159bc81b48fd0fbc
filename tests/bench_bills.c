/* Bills: regression of 36 months by all models, the whole judgement of a meter, 40 MB of a usage feed. */
#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "invented_bills.h"
#include "job/job_open.h"
#include "job/usage_feed.h"
#include "meter/change_point.h"
#include "meter/meter_use.h"
#include "study/range_bills_impl.h"

enum { MONTHS = 36, FEED_BYTES = 40000000, DRAWS = 2048 };

typedef struct desk {
  pw_daily weather;
  pw_normal_set normal;
  pw_bill_row row[MONTHS];
  pw_change_data data;
  char *feed;
  size_t size;
  int failed;
} desk;

static void models(void *data)
{
  desk *d = data;
  pw_change_fit best, tried[4];
  d->failed |= pw_change_point_choose(&d->data, NULL, 1, &best, tried, NULL) != PW_OK;
}

static void judgement(void *data)
{
  desk *d = data;
  pw_meter_use use;
  d->failed |= pw_meter_use_of(PW_FUEL_ELECTRICITY, d->row, MONTHS, &d->weather, &d->normal,
                               PW_BILL_NO_DAY, &use, NULL) != PW_OK;
  pw_meter_use_free(&use);
}

static void feed(void *data)
{
  static const pw_feed_options plain = {NAN, NULL, 0};
  desk *d = data;
  pw_bills bills;
  pw_notes notes = {0};
  d->failed |=
      pw_feed_parse("feed.xml", d->feed, d->size, &plain, &bills, &notes, NULL) != PW_OK;
  pw_bills_free(&bills);
  pw_notes_free(&notes);
}

/* What the draws' months miss is learned once, from the house's years in the weather of the bills; then weights. */
typedef struct weigh_desk {
  pw_open_job open;
  pw_compare compare;
  range_case rc;
  pw_range_bills bills;
  range_need need[DRAWS];
  double weight[DRAWS];
  int failed;
} weigh_desk;

static void live_years(void *data)
{
  weigh_desk *d = data;
  double *daily = NULL;
  d->failed |= range_bills_live(&d->rc, &d->bills, &daily, NULL) != PW_OK;
  free(daily);
}

static void weigh(void *data)
{
  weigh_desk *d = data;
  pw_range_conditioned what = {0};
  d->failed |=
      range_bills_weigh(&d->rc, &d->bills, NULL,
                        &(range_drawn){.need = d->need, .weight = d->weight, .n = DRAWS}, NULL,
                        &what, NULL) != PW_OK;
}

static void bench_weigh(bench *b, const desk *bills)
{
  weigh_desk *d = calloc(1, sizeof *d);
  pw_meter_use use;
  if (!d || pw_job_open("examples/harrow_bend", &d->open, NULL) != PW_OK) {
    free(d);
    return;
  }
  pw_compare_options o = pw_job_options(&d->open, PW_YEAR_DETAILED);
  if (pw_compare_run(&d->open.job, d->open.weather, &o, NULL, &d->compare, NULL) == PW_OK &&
      pw_meter_use_of(PW_FUEL_ELECTRICITY, bills->row, 24, &bills->weather, &bills->normal,
                      PW_BILL_NO_DAY, &use, NULL) == PW_OK) {
    d->rc = (range_case){.compare = &d->compare,
                         .weather = d->open.weather,
                         .method = PW_YEAR_DETAILED,
                         .rates = d->compare.billed.rates};
    const pw_needs *n = &d->compare.lived.existing_set.needs;
    for (int k = 0; k < DRAWS; k++)
      for (int m = 0; m < 12; m++) {
        d->need[k].per_need[0] = d->need[k].per_need[1] = 0.5;
        d->need[k].month[0][m] = n->heating_kwh[m] * (0.8 + 0.4 * k / DRAWS);
        d->need[k].month[1][m] = n->cooling_kwh[m] * (1.2 - 0.4 * k / DRAWS);
      }
    d->failed |= pw_range_bills_add(&d->bills, &use, 1.0, &bills->weather, NULL) != PW_OK;
    bench_run(b, "house lived in the weather of 24 bills, once a job", "job", 1.0, live_years,
              d, 10.0, "bound, one core");
    bench_run(b, "2048 draws weighed by 24 bills", "job", 1.0, weigh, d, 0.2,
              "bound, one core");
    pw_meter_use_free(&use);
    pw_range_bills_free(&d->bills);
    pw_compare_free(&d->compare);
  }
  if (d->failed) fprintf(stderr, "bench: weights failed\n");
  pw_job_close(&d->open);
  free(d);
}

/* Quarters of an hour, a day a block, as utilities give them out. */
static void make_feed(desk *d)
{
  d->feed = malloc(FEED_BYTES + 40000);
  if (!d->feed) return;
  char *at = d->feed;
  long start = 1262304000;
  at += sprintf(at, "<feed><entry><content><e:ReadingType><e:commodity>1</e:commodity><e:uom>72"
                    "</e:uom></e:ReadingType></content></entry>");
  while (at - d->feed < FEED_BYTES) {
    at += sprintf(at, "<entry><link rel=\"up\" href=\"M/1/I\"/><content><e:IntervalBlock>");
    for (int i = 0; i < 96; i++, start += 900)
      at += sprintf(
          at,
          "<e:IntervalReading><e:cost>9</e:cost><e:timePeriod><e:duration>900</e:duration>"
          "<e:start>%ld</e:start></e:timePeriod><e:value>250</e:value></e:IntervalReading>\n",
          start);
    at += sprintf(at, "</e:IntervalBlock></content></entry>");
  }
  at += sprintf(at, "</feed>");
  d->size = (size_t)(at - d->feed);
}

void bench_bills(bench *b)
{
  desk *d = calloc(1, sizeof *d);
  pw_change_period period[MONTHS];
  if (!d) return;
  invent_weather(&both_house, &d->weather);
  invent_bills(&both_house, &d->weather, d->row, MONTHS, 31);
  for (int i = 0; i < MONTHS; i++)
    period[i] = (pw_change_period){d->row[i].amount / 31.0, 31.0,
                                   d->weather.t + (d->row[i].from - d->weather.first), 31};
  if (pw_normal_set_of(&d->weather, &d->normal, NULL) == PW_OK &&
      pw_change_data_init(&d->data, period, MONTHS, NULL) == PW_OK) {
    bench_run(b, "regression of 36 months, base, H, C, HC", "meter", 1.0, models, d, 5e-3,
              "bound, one core");
    bench_run(b, "bills of 36 months judged: odd ones, breaks, normal year", "meter", 1.0,
              judgement, d, 0.0, "");
  }
  bench_weigh(b, d);
  make_feed(d);
  if (d->feed)
    bench_run(b, "usage feed of 40 MB, quarters of an hour", "file", 1.0, feed, d, 1.0,
              "bound, one core");
  if (d->failed) fprintf(stderr, "bench: bills failed\n");
  free(d->feed);
  pw_change_data_free(&d->data);
  pw_normal_set_free(&d->normal);
  pw_daily_free(&d->weather);
  free(d);
}
