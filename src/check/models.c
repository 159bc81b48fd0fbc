/* Two models of one house. The second (second_model.h) is written apart from the first, with textbook films; what it makes a
 * change of windows save, in money, has to lie where the range of the first says, at every station whose hours are at hand.
 * Both live in one house behind one set of windows in one weather, under one ground and one tariff, so it is held to
 * the band of what they do not share: films, sky, and what models disagree on. The band of all that is not known is shown
 * beside it. A range that holds it always would be too wide, one that never does too sure; but the pairs are not 27 trials:
 * a model that is high at one station is high at the next. How often a model out of the band lies inside in how many pairs
 * is counted from the band's own draws. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check/check.h"
#include "check/open_data.h"
#include "check/second_model.h"
#include "climate/month.h"
#include "job/house_file.h"
#include "job/survey.h"
#include "study/range.h"

static const char *const station[] = {"722020TYA.CSV", "722780TYA.CSV", "722950TYA.CSV",
                                      "723170TYA.CSV", "724830TYA.CSV", "725650TYA.CSV",
                                      "726580TYA.CSV", "727930TYA.CSV", "703165TY.csv"};

/* Years made from monthly normals, beside them. */
static const char *const made[] = {"Albuquerque", "Denver"};

static const char source[] = "second model of our own, textbook films (check/second_model)";

enum { DRAWS = PW_RANGE_DRAWS, STATIONS = sizeof station / sizeof station[0] };

typedef struct desk {
  const pw_check_sink *sink;
  pw_job job;
  pw_weather weather;
  pw_compare compare;
  pw_range all, like;    /* of all that is not known; of what the two models do not share */
  pw_street_house drawn; /* of like: draw i is one model, whatever the station */
  unsigned char count[DRAWS];    /* pairs in which that model lies inside */
  int pairs, all_inside, inside; /* pairs; of them the second model's, by either band */
  pw_house_window window[PW_WINDOWS_MAX];
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
  size_t n = pw_compare_windows(d->compare.job, &d->compare.fitted, &d->compare.rated, package,
                                d->window);
  pw_status s = second_year_of(&d->compare.lived.house, &d->weather, d->window, n, &y, err);
  if (s != PW_OK) return s;
  *needs = (pw_needs){.heating_hour_kwh = NULL};
  for (size_t m = 0; m < 12; m++) {
    needs->heating_kwh[m] = y.heating_kwh[m];
    needs->cooling_kwh[m] = y.cooling_kwh[m];
  }
  return pw_bill_of(needs, &d->compare.billed.rates, bill, err);
}

static double sum(const double month[12])
{
  double all = 0.0;
  for (size_t m = 0; m < 12; m++)
    all += month[m];
  return all;
}

static int holds(const pw_band *band, double value)
{
  return value >= band->p10 && value <= band->p90;
}

/* The second model's place in both bands, and that of every model out of the band. */
static void placed(desk *d, size_t p, double saved)
{
  const pw_band *band = &d->like.package[p].saving_cost;
  const double *model =
      d->drawn.package + (p * PW_STREET_FIGURES + PW_STREET_SAVING) * d->drawn.n_draw;
  d->pairs++;
  d->all_inside += holds(&d->all.package[p].saving_cost, saved);
  d->inside += holds(band, saved);
  for (size_t i = 0; i < DRAWS; i++)
    d->count[i] = (unsigned char)(d->count[i] + holds(band, model[i]));
}

static pw_status pair(desk *d, const char *place, size_t p, const pw_needs *was,
                      const pw_bill *cost, pw_err *err)
{
  pw_needs needs;
  pw_bill bill;
  char id[80], text[240];
  pw_status s = second(d, (int)p, &needs, &bill, err);
  if (s != PW_OK) return s;
  const pw_compare *c = &d->compare;
  const pw_range_set *like = &d->like.package[p];
  double saved = cost->cost_year - bill.cost_year;
  snprintf(id, sizeof id, "%.40s %.20s", place, c->rated.package_set[p].name);
  snprintf(text, sizeof text,
           "%s: heating and cooling saved, kWh: second %.0f and %.0f, first %.0f and %.0f; all "
           "that is not known %.0f to %.0f $",
           id, sum(was->heating_kwh) - sum(needs.heating_kwh),
           sum(was->cooling_kwh) - sum(needs.cooling_kwh),
           c->lived.existing_set.year.heating_kwh - c->lived.package_set[p].year.heating_kwh,
           c->lived.existing_set.year.cooling_kwh - c->lived.package_set[p].year.cooling_kwh,
           d->all.package[p].saving_cost.p10, d->all.package[p].saving_cost.p90);
  d->sink->note(d->sink->context, text);
  give(d, id, "saved by the second model, within 10 to 90 of what models differ by", "$/y",
       saved, like->saving_cost.p10, like->saving_cost.p90, 1);
  placed(d, p, saved);
  saved = sum(was->heating_kwh) + sum(was->cooling_kwh) - sum(needs.heating_kwh) -
          sum(needs.cooling_kwh);
  give(d, id, "heat and cold saved by it, within 10 to 90 of what models differ by", "kWh/y",
       saved, like->saving_need_kwh.p10, like->saving_need_kwh.p90, 1);
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

/* The bands of a comparison. The ground below is the house's in both models. */
static pw_status bands(desk *d, pw_err *err)
{
  pw_range_options options = {
      .n_draw = DRAWS, .seed = 1, .method = PW_RANGE_REDUCED, .bands_only = 1};
  pw_status s = pw_range_of(&d->compare, &d->weather, PW_YEAR_DETAILED, &options, &d->all, err);
  options.like = 1U << PW_FORM_FILM_OUT | 1U << PW_FORM_FILM_IN | 1U << PW_FORM_SKY_LIGHT |
                 1U << PW_FORM_SKY_COLD;
  options.street = &d->drawn;
  if (s == PW_OK) s = pw_street_house_new(&d->drawn, 1, DRAWS, d->compare.n_package, err);
  if (s == PW_OK)
    s = pw_range_of(&d->compare, &d->weather, PW_YEAR_DETAILED, &options, &d->like, err);
  return s;
}

static pw_status at_station(desk *d, const char *file, const char *place, pw_err *err)
{
  pw_needs was;
  pw_bill cost;
  pw_status s = weather_of(d, file, place, err);
  if (s == PW_OK) s = pw_compare_run(&d->job, &d->weather, NULL, NULL, &d->compare, err);
  if (s != PW_OK) return s;
  s = bands(d, err);
  if (s == PW_OK) s = second(d, -1, &was, &cost, err);
  for (size_t p = 0; p < d->compare.n_package && s == PW_OK; p++)
    s = pair(d, file ? d->weather.site.name : place, p, &was, &cost, err);
  pw_street_house_free(&d->drawn);
  pw_compare_free(&d->compare);
  return s;
}

/* How many pairs hold the second model, beside how many hold a model drawn from the band: where hardly one lies inside
 * so often the band is too wide, where hardly one lies inside so seldom it is too sure. */
static void counted(desk *d)
{
  char text[200];
  int often = 0, seldom = 0, within = 0, all = 0;
  const int fewest = 20, most = 25;
  for (size_t i = 0; i < DRAWS; i++) {
    often += d->count[i] >= d->inside;
    seldom += d->count[i] <= d->inside;
    within += d->count[i] >= fewest && d->count[i] <= most;
    all += d->count[i] == d->pairs;
  }
  snprintf(text, sizeof text,
           "%d of %d pairs of station and package inside what models differ by, %d inside all "
           "that is not known",
           d->inside, d->pairs, d->all_inside);
  d->sink->note(d->sink->context, text);
  snprintf(
      text, sizeof text,
      "a model drawn from the band lies inside in all %d with chance %.2f, in %d to %d with "
      "%.2f: it errs alike at every station",
      d->pairs, (double)all / DRAWS, fewest, most, (double)within / DRAWS);
  d->sink->note(d->sink->context, text);
  give(d, "pairs", "models drawn from the band inside as often as the second", "share",
       (double)often / DRAWS, 0.1, 1.0, 0);
  give(d, "pairs", "models drawn from the band inside as seldom", "share",
       (double)seldom / DRAWS, 0.1, 1.0, 0);
  give(d, "pairs", "savings of the second model inside 10 to 90", "of 27", d->inside, fewest,
       most, 1);
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
  char folder[512];
  desk *d = calloc(1, sizeof *d);
  if (!d) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the models");
  d->sink = sink;
  pw_status s = boxes(d, err);
  snprintf(folder, sizeof folder, "%.400s/house", sink->data ? sink->data : ".");
  int open = 0;
  if (s == PW_OK) {
    s = pw_job_read(folder, &d->job, NULL, err);
    open = s == PW_OK;
    if (open) pw_check_bare(&d->job); /* the second model knows no drapes and no clock */
  }
  for (size_t i = 0; i < STATIONS && s == PW_OK; i++)
    s = at_station(d, station[i], NULL, err);
  if (s == PW_OK) counted(d);
  for (size_t i = 0; i < sizeof made / sizeof made[0] && s == PW_OK; i++)
    s = at_station(d, NULL, made[i], err);
  if (open) pw_job_free(&d->job);
  free(d);
  return s;
}

const pw_check_group pw_check_models = {
    "models", "a second model of the house, written apart, inside the range of the first", run};
