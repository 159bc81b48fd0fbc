/* Bills: regression of 36 months by all models, the whole judgement of a meter, 40 MB of a usage feed. */
#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "invented_bills.h"
#include "job/usage_feed.h"
#include "panewright/change_point.h"
#include "panewright/meter_use.h"

enum { MONTHS = 36, FEED_BYTES = 40000000 };

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
  static const invented house = {.base = 11.0,
                                 .heat = 1.2,
                                 .t_heat = 14.0,
                                 .cool = 2.4,
                                 .t_cool = 20.0,
                                 .noise = 0.1,
                                 .t_mean = 17.0,
                                 .t_swing = 11.0,
                                 .seed = 5};
  desk *d = calloc(1, sizeof *d);
  pw_change_period period[MONTHS];
  if (!d) return;
  invent_weather(&house, &d->weather);
  invent_bills(&house, &d->weather, d->row, MONTHS, 31);
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
