/* A house in years made from monthly normals against the hourly files of the same stations: sun on its
 * walls, what it needs, what each package saves. The job is examples/harrow_bend without its bill. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/table.h"
#include "check/check.h"
#include "check/open_data.h"
#include "check/own_months.h"
#include "check/years.h"
#include "climate/month.h"
#include "job/job_open.h"

enum { PLACES = 9, WALLS = 4, PACKAGES = 3 };

/* Every second of them is in one half of the fits: reference/climate/made_year.csv. */
static const char *const station_file[PLACES] = {
    "703165TY.csv",  "722020TYA.CSV", "722780TYA.CSV", "722950TYA.CSV", "723170TYA.CSV",
    "724830TYA.CSV", "725650TYA.CSV", "726580TYA.CSV", "727930TYA.CSV"};
/* In no fit, of other makers: satellite and reanalysis. */
static const char *const apart_file[] = {"pvgis_tmy_45.000_8.000_2005_2023.csv",
                                         "nsrdb_psm3_halfhour_40.53_-108.54_2017.csv"};
static const char wall_name[WALLS][2] = {"N", "E", "S", "W"};

/* What is looked at of one year in one place. */
typedef struct lived {
  double wall[WALLS][12];                          /* kWh/m2 */
  double need[2];                                  /* kWh, existing windows: heating, cooling */
  double saved[PACKAGES][2], saved_cost[PACKAGES]; /* kWh; $ */
  double cost[PACKAGES][2];                        /* $ of it: heating, cooling */
} lived;

typedef struct desk {
  const pw_check_sink *sink;
  pw_open_job open;
  pw_weather year[2]; /* made, read: two, for a workspace knows a weather by its address */
  pw_sky_year sky;
  pw_year_workspace *ws;
  lived made, file;
  double off[PLACES * PACKAGES];     /* saved $ made over hourly, less one */
  double centred[PLACES * PACKAGES]; /* the same once centred by the other stations */
  size_t n_off, n_inside;
} desk;

static pw_status live(desk *d, const pw_weather *weather, lived *out, pw_err *err)
{
  pw_compare c;
  const pw_compare_options options = pw_job_options(&d->open, PW_YEAR_DETAILED);
  pw_status s = pw_sky_of_year(weather, PW_SKY_PEREZ, &d->sky, err);
  for (int k = 0; s == PW_OK && k < WALLS; k++)
    s = pw_month_facade(&d->sky, &(pw_facade){90.0 * k, 90.0, 0.2}, out->wall[k], err);
  if (s == PW_OK) s = pw_compare_run(&d->open.job, weather, &options, d->ws, &c, err);
  if (s != PW_OK) return s;
  const pw_year_result *old = &c.lived.existing_set.year;
  out->need[0] = old->heating_kwh;
  out->need[1] = old->cooling_kwh;
  for (size_t p = 0; p < PACKAGES; p++) {
    const pw_compare_set set = pw_compare_set_of(&c, (int)p);
    out->saved[p][0] = old->heating_kwh - set.lived->year.heating_kwh;
    out->saved[p][1] = old->cooling_kwh - set.lived->year.cooling_kwh;
    out->saved_cost[p] = set.billed->saving.cost_computed;
    out->cost[p][0] = c.billed.existing_set.bill.heating_cost - set.billed->bill.heating_cost;
    out->cost[p][1] = c.billed.existing_set.bill.cooling_cost - set.billed->bill.cooling_cost;
  }
  pw_compare_free(&c);
  return PW_OK;
}

/* share: of the file's value that the made one may be off by; floor: the same in the unit, for what is
 * little of a small number. */
static void give(const desk *d, const char *place, const char *quantity, const char *unit,
                 double made, double file, double share, double least)
{
  char id[48];
  snprintf(id, sizeof id, "%.*s", (int)strcspn(place, "T_"),
           place); /* the station, the data set */
  pw_check_give(d->sink, id, quantity, unit, made, file, fmax(share * fabs(file), least),
                "the hourly file, lived in the same way", "computed here from the file");
}

static void give_walls(const desk *d, const char *place)
{
  char text[64];
  for (int k = 0; k < WALLS; k++) {
    double made = 0.0, file = 0.0, square = 0.0;
    for (int m = 0; m < 12; m++) {
      double a = d->made.wall[k][m], b = d->file.wall[k][m];
      made += a;
      file += b;
      square += (a - b) * (a - b) / 12.0;
    }
    snprintf(text, sizeof text, "sun on a wall facing %s", wall_name[k]);
    give(d, place, text, "kWh/m2", made, file, 0.08, 0.0);
    snprintf(text, sizeof text, "%s, months, root mean square off", wall_name[k]);
    give(d, place, text, "kWh/m2", sqrt(square), 0.0, 0.0, 0.12 * file / 12.0);
  }
}

static void give_house(desk *d, const char *place, const pw_job *job)
{
  static const char *const need[2] = {"heating", "cooling"};
  char text[96];
  for (int k = 0; k < 2; k++) {
    snprintf(text, sizeof text, "%s, windows there now", need[k]);
    give(d, place, text, "kWh", d->made.need[k], d->file.need[k], 0.03, 450.0);
  }
  for (int p = 0; p < PACKAGES; p++) {
    for (int k = 0; k < 2; k++) {
      snprintf(text, sizeof text, "%s saved, %.40s", need[k], job->package[p].name);
      give(d, place, text, "kWh", d->made.saved[p][k], d->file.saved[p][k], 0.03, 160.0);
    }
    snprintf(text, sizeof text, "saved, %.40s", job->package[p].name);
    give(d, place, text, "$/year", d->made.saved_cost[p], d->file.saved_cost[p], 0.04, 12.0);
    d->off[d->n_off++] = d->made.saved_cost[p] / d->file.saved_cost[p] - 1.0;
  }
}

/* The ratio that reference/climate/fallback_spread.csv states, found again. */
static void give_ratio(const desk *d, const char *id, size_t p, int heating)
{
  const pw_table *t = pw_table_find("climate/fallback_spread");
  char quantity[64];
  snprintf(quantity, sizeof quantity, "%s saved %.40s", heating ? "heating" : "cooling",
           d->open.job.package[p].name);
  for (size_t i = 0; t && i < t->n_row; i++) {
    if (strcmp(pw_table_text(t, i, 0), id) != 0 ||
        strcmp(pw_table_text(t, i, 1), quantity) != 0)
      continue;
    if (pw_table_number(t, i, 2) < 500.0) return; /* in no ratio that is used */
    pw_check_give(d->sink, id, quantity, "made over file",
                  d->made.saved[p][!heating] / d->file.saved[p][!heating],
                  pw_table_number(t, i, 4), 0.02, "table climate/fallback_spread",
                  "computed here from the file");
  }
}

/* Saved $ as the range has them for a made year, the station left out of what centres and widens them:
 * how far the middle is off, and whether the file's lies within 10 to 90 %. */
static pw_status centre(desk *d, const char *id, pw_err *err)
{
  pw_month_spread spread[2];
  pw_status s = pw_month_saved_spread(1, id, &spread[0], err);
  if (s == PW_OK) s = pw_month_saved_spread(0, id, &spread[1], err);
  if (s != PW_OK) return s;
  for (int p = 0; p < PACKAGES; p++) {
    double middle = 0.0, square = 0.0;
    for (int k = 0; k < 2; k++) {
      double part = d->made.cost[p][k] / spread[k].ratio;
      middle += part;
      square += pow(part * spread[k].deviation / spread[k].ratio, 2.0);
    }
    double off = middle - d->file.saved_cost[p];
    d->centred[d->n_off - PACKAGES + (size_t)p] = off / d->file.saved_cost[p];
    d->n_inside += fabs(off) < 1.2816 * sqrt(square); /* normal: 10 to 90 % */
  }
  return PW_OK;
}

static pw_status place(desk *d, const char *file, pw_err *err)
{
  char station[8];
  size_t index = 0;
  snprintf(station, sizeof station, "%.6s", file);
  pw_status s = pw_place_find(station, &index, NULL, err);
  if (s == PW_OK) s = pw_place_year(index, &d->year[0], err);
  if (s == PW_OK) s = live(d, &d->year[0], &d->made, err);
  if (s == PW_OK) s = pw_check_hourly(d->sink, file, &d->year[1], err);
  if (s == PW_OK) s = live(d, &d->year[1], &d->file, err);
  if (s != PW_OK) return s;
  give_walls(d, file);
  give_house(d, file, &d->open.job);
  for (int k = 0; k < PACKAGES; k++)
    for (int heating = 0; heating < 2; heating++)
      give_ratio(d, station, (size_t)k, heating);
  return centre(d, station, err);
}

/* A file that was in no fit against a year made of its own months; ground as in the file. */
static pw_status place_apart(desk *d, const char *file, pw_err *err)
{
  pw_place p;
  char text[64];
  pw_status s = pw_check_hourly(d->sink, file, &d->year[1], err);
  if (s != PW_OK) return s;
  pw_check_own_months(&d->year[1], &p);
  s = pw_month_year(&p, PW_MONTH_VARIED_DAYS, &d->year[0], err);
  for (int i = 0; i < PW_HOURS; i++)
    d->year[0].hour[i].albedo = d->year[1].hour[i].albedo;
  if (s == PW_OK) s = live(d, &d->year[0], &d->made, err);
  if (s == PW_OK) s = live(d, &d->year[1], &d->file, err);
  if (s != PW_OK) return s;
  for (int k = 0; k < WALLS; k++) {
    double made = 0.0, hourly = 0.0;
    for (int m = 0; m < 12; m++) {
      made += d->made.wall[k][m];
      hourly += d->file.wall[k][m];
    }
    snprintf(text, sizeof text, "sun on a wall facing %s", wall_name[k]);
    give(d, file, text, "kWh/m2", made, hourly, 0.08, 0.0);
  }
  for (int k = 0; k < PACKAGES; k++) {
    snprintf(text, sizeof text, "saved, %.40s", d->open.job.package[k].name);
    give(d, file, text, "$/year", d->made.saved_cost[k], d->file.saved_cost[k], 0.075, 0.0);
  }
  return PW_OK;
}

static void give_mean(const desk *d, const char *quantity, const double off[], double mean_most,
                      double rms_most)
{
  char text[96];
  double mean = 0.0, square = 0.0;
  for (size_t i = 0; i < d->n_off; i++) {
    mean += off[i] / (double)d->n_off;
    square += off[i] * off[i] / (double)d->n_off;
  }
  snprintf(text, sizeof text, "%s, mean off", quantity);
  give(d, "all", text, "-", mean, 0.0, 0.0, mean_most);
  snprintf(text, sizeof text, "%s, root mean square off", quantity);
  give(d, "all", text, "-", sqrt(square), 0.0, 0.0, rms_most);
}

/* The bounds of the centred figures are what a range must do: no bias to speak of, and eight of ten
 * inside, give or take the chance of 27. */
static void give_all(const desk *d)
{
  give_mean(d, "saved $", d->off, 0.015, 0.03);
  give_mean(d, "saved $ centred by the other stations", d->centred, 0.01, 0.04);
  pw_check_give_range(d->sink, "all", "saved $ inside 10 to 90 % of the made year's range",
                      "of 27", (double)d->n_inside, 20.0, 25.0, 0,
                      "eight of ten, by chance two more or less", "binomial");
}

static pw_status work(void *at, const pw_check_sink *sink, pw_year_workspace *workspace,
                      pw_err *err)
{
  desk *d = at;
  d->sink = sink;
  d->ws = workspace;
  char dir[512];
  pw_status s = pw_check_example(d->sink, "harrow_bend", dir, sizeof dir, err);
  if (s == PW_OK) s = pw_job_open(dir, &d->open, err);
  if (s != PW_OK) return s;
  d->open.job.house.bill_year.value = 0.0;
  pw_check_bare(&d->open.job);
  for (int i = 0; s == PW_OK && i < PLACES; i++)
    s = place(d, station_file[i], err);
  for (size_t i = 0; s == PW_OK && i < sizeof apart_file / sizeof apart_file[0]; i++)
    s = place_apart(d, apart_file[i], err);
  if (s == PW_OK) give_all(d);
  pw_job_close(&d->open);
  return s;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  return pw_check_years(sink, sizeof(desk), work, err);
}

extern const pw_check_group pw_check_weather;
const pw_check_group pw_check_weather = {
    "weather", "a house in years made from monthly normals beside the hourly files", run};
