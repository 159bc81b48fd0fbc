/* Two models of one house. The second (second_model.h) is written apart from the first, with textbook films; what
 * it makes a change of windows save, in money, has to lie where the range of the first says, at every station whose hours
 * are at hand. A range that holds it always would be too wide, one that never does too sure. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check/check.h"
#include "check/open_data.h"
#include "check/second_model.h"
#include "job/house_file.h"
#include "job/survey.h"
#include "panewright/month.h"
#include "panewright/range.h"

static const char *const station[] = {"722020TYA.CSV", "722780TYA.CSV", "722950TYA.CSV",
                                      "723170TYA.CSV", "724830TYA.CSV", "725650TYA.CSV",
                                      "726580TYA.CSV", "727930TYA.CSV", "703165TY.csv"};

/* Years made from monthly normals, beside them. */
static const char *const made[] = {"Albuquerque", "Denver"};

static const char source[] = "second model of our own, textbook films (check/second_model)";

typedef struct desk {
  const pw_check_sink *sink;
  pw_job job;
  pw_weather weather;
  pw_compare compare;
  pw_range range;
  pw_house_window window[PW_WINDOWS_MAX];
  int inside, pairs;
} desk;

static void give(desk *d, const char *id, const char *quantity, const char *unit, double ours,
                 double low, double high, int advisory)
{
  pw_check_give_range(d->sink, id, quantity, unit, ours, low, high, advisory, source,
                      "computed");
}

/* The second model's year of a set of windows (below 0: existing), with its bill. */
static pw_status second(desk *d, int package, pw_needs *needs, pw_bill *bill, pw_err *err)
{
  second_year y;
  size_t n = pw_compare_windows(&d->compare, package, d->window);
  pw_status s = second_year_of(&d->compare.house, &d->weather, d->window, n, &y, err);
  if (s != PW_OK) return s;
  *needs = (pw_needs){.heating_hour_kwh = NULL};
  for (size_t m = 0; m < 12; m++) {
    needs->heating_kwh[m] = y.heating_kwh[m];
    needs->cooling_kwh[m] = y.cooling_kwh[m];
  }
  return pw_bill_of(needs, &d->compare.rates, bill, err);
}

static double sum(const double month[12])
{
  double all = 0.0;
  for (size_t m = 0; m < 12; m++)
    all += month[m];
  return all;
}

static pw_status pair(desk *d, const char *place, size_t p, const pw_needs *was,
                      const pw_bill *cost, pw_err *err)
{
  pw_needs needs;
  pw_bill bill;
  char id[80], text[200];
  pw_status s = second(d, (int)p, &needs, &bill, err);
  if (s != PW_OK) return s;
  const pw_compare *c = &d->compare;
  const pw_band *band = &d->range.package[p].saving_cost;
  double saved = cost->cost_year - bill.cost_year;
  snprintf(id, sizeof id, "%.40s %.20s", place, c->package_set[p].name);
  snprintf(text, sizeof text,
           "%s: heating and cooling saved, kWh: second %.0f and %.0f, first %.0f and %.0f", id,
           sum(was->heating_kwh) - sum(needs.heating_kwh),
           sum(was->cooling_kwh) - sum(needs.cooling_kwh),
           c->existing_set.year.heating_kwh - c->package_set[p].year.heating_kwh,
           c->existing_set.year.cooling_kwh - c->package_set[p].year.cooling_kwh);
  d->sink->note(d->sink->context, text);
  give(d, id, "saved by the second model, within 10 to 90 of the range", "$/y", saved,
       band->p10, band->p90, 1);
  d->pairs++;
  d->inside += saved >= band->p10 && saved <= band->p90;
  band = &d->range.package[p].saving_need_kwh;
  saved = sum(was->heating_kwh) + sum(was->cooling_kwh) - sum(needs.heating_kwh) -
          sum(needs.cooling_kwh);
  give(d, id, "heat and cold saved by the second model, within 10 to 90 of the range", "kWh/y",
       saved, band->p10, band->p90, 1);
  return PW_OK;
}

/* A year of a file, or one made from the normals of a built-in place. */
static pw_status weather_of(desk *d, const char *file, const char *place, pw_err *err)
{
  size_t index;
  if (file) return pw_check_hourly(d->sink, file, &d->weather, err);
  pw_status s = pw_place_find(place, &index, NULL, err);
  return s == PW_OK ? pw_place_year(index, &d->weather, err) : s;
}

static pw_status at_station(desk *d, const char *file, const char *place, pw_err *err)
{
  static const pw_range_options options = {.seed = 1, .method = PW_RANGE_REDUCED};
  pw_needs was;
  pw_bill cost;
  pw_status s = weather_of(d, file, place, err);
  if (s == PW_OK) s = pw_compare_run(&d->job, &d->weather, NULL, NULL, &d->compare, err);
  if (s != PW_OK) return s;
  s = pw_range_of(&d->compare, &d->weather, PW_YEAR_DETAILED, &options, &d->range, err);
  if (s == PW_OK) s = second(d, -1, &was, &cost, err);
  for (size_t p = 0; p < d->compare.n_package && s == PW_OK; p++)
    s = pair(d, file ? d->weather.site.name : place, p, &was, &cost, err);
  pw_compare_free(&d->compare);
  return s;
}

/* The second model itself on boxes of Standard 140: it need not lie inside the six results (table
 * climate/std140_2020_ranges), but near them. */
static pw_status box(desk *d, const char *id, pw_house_file *file, pw_err *err)
{
  char name[32], text[40];
  second_year y;
  snprintf(name, sizeof name, "std140/%s", id);
  snprintf(text, sizeof text, "second model, %s", id);
  pw_status s = pw_house_file_builtin(name, file, err);
  if (s == PW_OK)
    s = second_year_of(&file->house, &d->weather, file->window, file->n_window, &y, err);
  for (int cooling = 0; s == PW_OK && cooling < 2; cooling++) {
    double low, high, mean;
    if (!pw_standard140_case(cooling, id, &low, &high, &mean))
      return pw_fail(err, PW_E_DATA, "case", "no results of Standard 140 case %s", id);
    give(d, text,
         cooling ? "annual cooling, within a tenth of the six results"
                 : "annual heating, within a tenth of the six results",
         "MWh", 1e-3 * sum(cooling ? y.cooling_kwh : y.heating_kwh), 0.9 * low, 1.1 * high, 0);
  }
  return s;
}

static pw_status boxes(desk *d, pw_err *err)
{
  static const char *const id[] = {"600", "620", "660", "670", "900"};
  pw_house_file *file = malloc(sizeof *file);
  if (!file) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a house");
  pw_status s = pw_check_hourly(d->sink, "725650TYA.CSV", &d->weather, err);
  for (size_t i = 0; i < sizeof id / sizeof id[0] && s == PW_OK; i++)
    s = box(d, id[i], file, err);
  free(file);
  return s;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  char folder[512], text[120];
  desk *d = calloc(1, sizeof *d);
  if (!d) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the models");
  d->sink = sink;
  pw_status s = boxes(d, err);
  snprintf(folder, sizeof folder, "%.400s/house", sink->data ? sink->data : ".");
  int open = 0;
  if (s == PW_OK) {
    s = pw_job_read(folder, &d->job, NULL, err);
    open = s == PW_OK;
  }
  for (size_t i = 0; i < sizeof station / sizeof station[0] && s == PW_OK; i++)
    s = at_station(d, station[i], NULL, err);
  if (s == PW_OK) {
    snprintf(text, sizeof text, "%d of %d pairs of station and package inside", d->inside,
             d->pairs);
    sink->note(sink->context, text);
    give(d, "pairs", "savings of the second model inside 10 to 90", "of 27", d->inside, 20.0,
         25.0, 1);
  }
  for (size_t i = 0; i < sizeof made / sizeof made[0] && s == PW_OK; i++)
    s = at_station(d, NULL, made[i], err);
  if (open) pw_job_free(&d->job);
  free(d);
  return s;
}

const pw_check_group pw_check_models = {
    "models", "a second model of the house, written apart, inside the range of the first", run};
