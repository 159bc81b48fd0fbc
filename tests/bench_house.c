/* Speed of a year in the house, in CPU time. */
#include "bench.h"

#include <stdlib.h>
#include <string.h>

#include "climate/month.h"
#include "house/airing.h"
#include "house/covering.h"
#include "house/infiltration.h"
#include "job/house_file.h"
#include "panewright/year.h"

typedef struct desk {
  pw_weather weather;
  pw_house_file file;
  pw_house_window window[14];
  pw_year_options options;
  pw_year_workspace *kept;
  pw_year_result result[8];
  pw_house_window beside[8][14];
  float air[PW_HOURS];
  int failed;
} desk;

static void year_kept(void *data)
{
  desk *d = data;
  d->failed |= pw_year_run(&d->file.house, &d->weather, d->window, 14, &d->options, d->kept,
                           &d->result[0], NULL) != PW_OK;
}

static void year_fresh(void *data)
{
  desk *d = data;
  d->failed |= pw_year_run(&d->file.house, &d->weather, d->window, 14, &d->options, NULL,
                           &d->result[0], NULL) != PW_OK;
}

/* Each hour's share of the air by AIM-2, and the year with it. */
static void year_airy(void *data)
{
  static const pw_infiltration_site site = {
      .height = 2.5, .storeys = 1, .shield = 3, .terrain = 3, .level = 0.5};
  desk *d = data;
  double mean = pw_infiltration_year(PW_INFILTRATION_AIM2, &site, &d->weather, 20.0, d->air);
  for (int i = 0; i < PW_HOURS; i++)
    d->air[i] = (float)((double)d->air[i] / mean);
  d->file.house.air_shape = d->air;
  year_kept(d);
  d->file.house.air_shape = NULL;
}

/* With windows that are opened and half drawn drapes and blinds, too. */
static void year_lived_in(void *data)
{
  desk *d = data;
  pw_house *h = &d->file.house;
  const pw_airing shut = h->airing;
  pw_airing_of(PW_AIRING_ALWAYS, h->heat_set_c[12], h->cool_set_c[12], &h->airing);
  for (int i = 0; i < 14; i++) {
    pw_covering_of(PW_COVERING_USUAL, 1, d->window[i].glazing, &d->window[i].covered);
    d->window[i].open_area = 0.4 * d->window[i].area_glass;
    d->window[i].open_height = d->window[i].height;
  }
  year_airy(d);
  h->airing = shut;
  for (int i = 0; i < 14; i++) {
    d->window[i].covered = (pw_covered){.resistance = 0.0};
    d->window[i].open_area = d->window[i].open_height = 0.0;
  }
}

/* Eight years side by side, their glass each a little more than the last's. */
static void eight_beside(void *data)
{
  desk *d = data;
  pw_year_lane lane[8];
  for (int l = 0; l < 8; l++) {
    memcpy(d->beside[l], d->window, sizeof d->window);
    for (int i = 0; i < 14; i++)
      d->beside[l][i].area_glass *= 1.0 + 0.01 * l;
    lane[l] = (pw_year_lane){&d->file.house, d->beside[l], NULL, &d->result[l]};
  }
  d->failed |=
      pw_year_run_beside(lane, 8, &d->weather, 14, &d->options, d->kept, NULL, NULL) != PW_OK;
}

/* Fourteen different openings on eight facades: two glasses, reveals, some eaves. */
static int furnish(desk *d)
{
  pw_place place;
  if (pw_place_get(0, &place, NULL) != PW_OK ||
      pw_month_year(&place, PW_MONTH_VARIED_DAYS, &d->weather, NULL) != PW_OK ||
      pw_house_file_builtin("std140/660", &d->file, NULL) != PW_OK)
    return 0;
  for (int i = 0; i < 14; i++)
    d->window[i] = (pw_house_window){.facing_deg = 45.0 * (i % 8),
                                     .area_glass = 0.9 + 0.05 * i,
                                     .height = 1.2,
                                     .glazing = &d->file.glass[0],
                                     .ua_other = 1.5,
                                     .solar_other = 0.03,
                                     .overhang_depth = i % 3 ? 0.5 : 0.0,
                                     .overhang_gap = 0.3,
                                     .reveal_depth = i % 2 ? 0.1 : 0.0};
  d->kept = pw_year_workspace_new();
  return d->kept != NULL;
}

void bench_house(bench *b)
{
  desk *d = calloc(1, sizeof *d);
  if (!d || !furnish(d)) {
    free(d);
    return;
  }
  bench_run(b, "year, 14 openings on 8 facades", "year", 1.0, year_kept, d, 12e-3,
            "weather read; sun and sky kept");
  bench_run(b, "the same with its sun, sky and shade", "year", 1.0, year_fresh, d, 16e-3,
            "12 ms and 4 ms");
  bench_run(b, "the first with infiltration by the hour", "year", 1.0, year_airy, d, 10e-3,
            "the customer's bound");
  bench_run(b, "that, windows opened, drapes and blinds", "year", 1.0, year_lived_in, d, 10e-3,
            "the customer's bound");
  d->options.steps_per_hour = 2;
  bench_run(b, "the same in half hours, sky kept", "year", 1.0, year_kept, d, 0.0, "");
  d->options = (pw_year_options){.lanes = 1};
  bench_run(b, "eight years, one by one", "year", 8.0, eight_beside, d, 0.0, "lanes 1");
  for (int lanes = 2; lanes <= pw_year_lanes(); lanes *= 2) {
    d->options.lanes = lanes;
    bench_run(b,
              lanes == 2   ? "two by two"
              : lanes == 4 ? "four by four"
                           : "all eight",
              "year", 8.0, eight_beside, d, 0.0, "lanes 1, above");
  }
  d->options = (pw_year_options){.method = PW_YEAR_SIMPLE};
  bench_run(b, "simple hourly method", "year", 1.0, year_kept, d, 0.0, "");
  d->options.method = PW_YEAR_QUICK;
  bench_run(b, "monthly method", "year", 1.0, year_kept, d, 0.0, "");
  pw_year_workspace_free(d->kept);
  free(d);
}
