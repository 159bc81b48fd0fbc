/* Published trials of windows in houses beside our own range of the same: each trial is a job folder, read, compared and
 * drawn as a user's, and what was measured there stands beside the draws of the same figure. Nothing is fitted to them, and
 * no row can fail: what a report does not tell is assumed, so a miss may be the assumption's. */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/random.h"
#include "check/field_trials.h"
#include "check/open_data.h"
#include "job/job_open.h"
#include "job/survey.h"
#include "study/compare_tight.h"
#include "study/range.h"

enum {
  DRAWS = PW_RANGE_DRAWS,
  TWENTIETHS = 21,
  SETS = 1 + PW_COMPARE_PACKAGES_MAX,
  MONTHS = 24
};
static const double MORE = 0.2; /* of glass, in the second life of a job */

/* Ratios measured over computed, and how many values lie where. */
typedef struct tally {
  size_t n, inside, within; /* in all; in 10 to 90; in 5 to 95 */
  size_t meets;             /* whose own span has a part of our 10 to 90 */
  double ratio;             /* sum of those n_ratio */
  size_t n_ratio;
} tally;

enum { T_HEATING, T_COOLING, T_BOTH, T_AIR, T_COUNT };
static const char *const tally_text[T_COUNT] = {"heating", "cooling", "heating and cooling",
                                                "leakage"};

/* A job lived: as it stands, or with more glass. */
typedef struct lived {
  pw_compare compare;
  pw_range range;
  pw_compare_tight tight;
  pw_tight_drawn tight_drawn;
  double normal[DRAWS * SETS * MONTHS]; /* kWh bought, as the option normal_kwh has them */
} lived;

typedef struct desk {
  const pw_check_sink *sink;
  pw_field_trials trials;
  pw_field_facts facts;
  pw_open_job open;
  lived as_told, more;
  size_t pair[DRAWS];  /* draw of the tightness that goes with a draw of the range */
  double glass[DRAWS]; /* standard normal: whose windows are larger than told */
  double value[DRAWS], sort[2 * DRAWS];
  size_t n_trial, of_kind[PW_FIELD_KINDS];
  tally tally[2][T_COUNT]; /* of windows alone; of whole houses */
} desk;

static void shuffled(size_t order[], size_t n, uint64_t seed)
{
  for (size_t i = 0; i < n; i++)
    order[i] = i;
  for (size_t i = n - 1; i > 0; i--) {
    size_t k = (size_t)(pw_random_next(&seed) >> 33) % (i + 1), was = order[i];
    order[i] = order[k];
    order[k] = was;
  }
}

/* The sets of draws are of different unknowns, but of the same points: two are shuffled, always alike. */
static void shuffle(desk *d)
{
  size_t order[(int)DRAWS > (int)PW_TIGHT_DRAWS ? (int)DRAWS : (int)PW_TIGHT_DRAWS];
  shuffled(order, PW_TIGHT_DRAWS, 1);
  for (size_t i = 0; i < DRAWS; i++)
    d->pair[i] = order[i % PW_TIGHT_DRAWS];
  shuffled(order, DRAWS, 2);
  for (size_t i = 0; i < DRAWS; i++)
    d->glass[i] = gsl_cdf_ugaussian_Pinv(((double)order[i] + 0.5) / DRAWS);
}

/* ---------------------------------------------------------------- a job */

static pw_status live(const pw_open_job *open, lived *l, pw_err *err)
{
  pw_compare_options options = pw_job_options(open, PW_YEAR_DETAILED);
  pw_range_options range = {.n_draw = DRAWS,
                            .seed = 1,
                            .method = PW_RANGE_REDUCED,
                            .bands_only = 1,
                            .normal_kwh = l->normal};
  pw_status s = pw_compare_run(&open->job, open->weather, &options, NULL, &l->compare, err);
  if (s != PW_OK) return s;
  s = pw_compare_tight_draws(&l->compare, open->weather, &options, NULL, &l->tight,
                             &l->tight_drawn, err);
  return s == PW_OK
             ? pw_range_of(&l->compare, open->weather, PW_YEAR_DETAILED, &range, &l->range, err)
             : s;
}

/* The same job with MORE of glass: each opening higher and wider. */
static pw_status live_more(desk *d, pw_err *err)
{
  pw_job *job = &d->open.job;
  for (size_t i = 0; i < job->n_opening; i++)
    for (size_t k = 0; k < 3; k++) {
      job->opening[i].width[k] *= sqrt(1.0 + MORE);
      job->opening[i].height[k] *= sqrt(1.0 + MORE);
    }
  return live(&d->open, &d->more, err);
}

/* Energy bought by a set in a draw in the months of the measurement. */
static double bought(const lived *l, size_t draw, size_t set, int cooling,
                     const pw_field_value *v)
{
  const double *month = l->normal + (draw * (1 + l->compare.n_package) + set) * MONTHS;
  double sum = 0.0;
  for (int m = v->month_from;; m = m % 12 + 1) {
    sum += month[12 * cooling + m - 1];
    if (m == v->month_to) return sum;
  }
}

/* The share of the house's need that tightness saves; of the year, taken for any month of it. */
static double by_tightness(const lived *l, size_t pair, size_t package, int cooling)
{
  const pw_year_result *y = &l->compare.lived.existing_set.year;
  double need = cooling ? y->cooling_kwh : y->heating_kwh;
  return need > 0.0 ? l->tight_drawn.kwh[package][cooling][pair] / need : 0.0;
}

static double figure_of(const lived *l, size_t draw, size_t pair, size_t package,
                        const pw_field_value *v)
{
  double used = 0.0, saved = 0.0;
  if (v->what == PW_FIELD_AIR_SAVED) return l->tight_drawn.area[package][pair];
  int one = (int)v->what % 3; /* heating, cooling, both */
  for (int k = 0; k < 2; k++) {
    if (one != 2 && one != k) continue;
    const double now = bought(l, draw, 0, k, v);
    used += now;
    saved += now - bought(l, draw, 1 + package, k, v) + now * by_tightness(l, pair, package, k);
  }
  if (v->what >= PW_FIELD_HEATING_USED) return used;
  double meter = used + v->other_kwh;
  return !v->share ? saved : meter > 0.0 ? saved / meter : 0.0;
}

/* Straight between the two jobs where the report does not tell how large the windows are. */
static double figure(const desk *d, size_t draw, size_t package, const pw_field_value *v)
{
  const size_t pair = d->pair[draw];
  double told = figure_of(&d->as_told, draw, pair, package, v);
  if (!(v->glass_spread > 0.0)) return told;
  double more = figure_of(&d->more, draw, pair, package, v);
  return told + v->glass_spread * d->glass[draw] / MORE * (more - told);
}

/* ---------------------------------------------------------------- a measured value */

static void count(desk *d, const pw_field_value *v, const pw_check_band *b, double measured)
{
  tally *t =
      &d->tally[v->whole_house][v->what == PW_FIELD_AIR_SAVED ? T_AIR : (int)v->what % 3];
  t->n++;
  t->inside += measured >= b->p10 && measured <= b->p90;
  t->within += measured >= b->p5 && measured <= b->p95;
  t->meets += b->measured_high >= b->p10 && b->measured_low <= b->p90;
  if (!(b->p50 > 0.0)) return;
  t->ratio += measured / b->p50;
  t->n_ratio++;
}

static pw_status package_of(const desk *d, const pw_field_value *v, size_t *p, pw_err *err)
{
  pw_err why = {0};
  *p = 0;
  if (!v->package[0]) return PW_OK;
  pw_status s = pw_job_package_named(&d->open.job, v->package, p, &why);
  return s == PW_OK ? s
                    : pw_fail_at(err, PW_E_DATA, d->trials.csv.name, v->line, 2,
                                 "trial %s: %.300s", v->trial, why.text);
}

static pw_status measured(desk *d, const pw_field_value *v, pw_err *err)
{
  size_t p;
  double q[TWENTIETHS];
  pw_status s = package_of(d, v, &p, err);
  if (s != PW_OK) return s;
  if (v->what == PW_FIELD_AIR_SAVED && !d->as_told.tight.told)
    return pw_fail_at(err, PW_E_DATA, d->trials.csv.name, v->line, 6,
                      "trial %s: its job tells no leakage: want cfm50 or sash_leak", v->trial);
  for (size_t i = 0; i < DRAWS; i++)
    d->value[i] = figure(d, i, p, v);
  s = pw_quantiles_of(d->value, 1, DRAWS, NULL, d->sort, q, TWENTIETHS, err);
  if (s != PW_OK) return s;
  const double times = v->share ? 100.0 : 1.0, value = times * v->value;
  const pw_check_band b = {.measured_low = times * v->low,
                           .measured_high = times * v->high,
                           .p5 = times * q[1],
                           .p10 = times * q[2],
                           .p50 = times * q[10],
                           .p90 = times * q[18],
                           .p95 = times * q[19]};
  char text[400], id[100];
  const int places = v->share ? 1 : 0;
  snprintf(id, sizeof id, "%s%s%s", v->trial, v->package[0] ? " " : "", v->package);
  snprintf(text, sizeof text,
           "%s, %s, %.60s: measured %.*f (%.*f to %.*f); ours 10 to 90: %.*f to %.*f, 5 to 95: "
           "%.*f to %.*f",
           pw_field_what_text[v->what], pw_field_kind_text[v->kind], v->place, places, value,
           places, b.measured_low, places, b.measured_high, places, b.p10, places, b.p90,
           places, b.p5, places, b.p95);
  pw_check_give_as(d->sink, 1, id, text, v->share ? "%" : "kWh/y", b.p50, value,
                   value < b.p50 ? b.p50 - b.p10 : b.p90 - b.p50, v->source, v->how_known);
  if (d->sink->band) d->sink->band(d->sink->context, &b);
  count(d, v, &b, value);
  return PW_OK;
}

static int same_trial(const pw_field_value *a, const pw_field_value *b)
{
  return strcmp(a->trial, b->trial) == 0;
}

/* All that was measured in a trial: rows from on, *n of them. */
static pw_status trial(desk *d, size_t from, size_t *n, pw_err *err)
{
  const pw_field_value *v = &d->trials.value[from];
  char folder[64], dir[PW_CHECK_PATH];
  pw_err why = {0};
  snprintf(folder, sizeof folder, "field/%s", v->trial);
  pw_status s = pw_check_file(d->sink, "field", v->trial, dir, err);
  if (s == PW_OK) s = pw_field_count_facts(dir, &d->facts, &why);
  if (s == PW_OK) s = pw_job_open(dir, &d->open, &why);
  for (*n = 0; from + *n < d->trials.n && same_trial(v, v + *n); (*n)++)
    ;
  if (s == PW_OK) {
    size_t p;
    for (size_t i = 0; i < *n && s == PW_OK; i++)
      s = package_of(d, v + i, &p, &why);
    int spread = 0;
    for (size_t i = 0; i < *n; i++)
      spread |= v[i].glass_spread > 0.0;
    if (s == PW_OK) s = live(&d->open, &d->as_told, &why);
    if (s == PW_OK && spread) s = live_more(d, &why);
    for (size_t i = 0; i < *n && s == PW_OK; i++)
      s = measured(d, v + i, &why);
    pw_compare_free(&d->as_told.compare);
    pw_compare_free(&d->more.compare);
    pw_job_close(&d->open);
  }
  d->n_trial++;
  d->of_kind[v->kind]++;
  return s == PW_OK || err->text[0] ? s : pw_fail(err, s, NULL, "%s: %.400s", folder, why.text);
}

/* ---------------------------------------------------------------- all of them */

static void add(tally *to, const tally *t)
{
  to->n += t->n;
  to->inside += t->inside;
  to->within += t->within;
  to->meets += t->meets;
  to->ratio += t->ratio;
  to->n_ratio += t->n_ratio;
}

static void note(const desk *d, const char *text) { d->sink->note(d->sink->context, text); }

static void say(const desk *d, const char *of, const tally *t)
{
  char text[240];
  if (t->n == 0) return;
  snprintf(
      text, sizeof text,
      "%s: %zu measured, %zu inside 10 to 90, %zu inside 5 to 95, %zu with a span that meets "
      "10 to 90",
      of, t->n, t->inside, t->within, t->meets);
  if (t->n_ratio) {
    size_t used = strlen(text);
    snprintf(text + used, sizeof text - used, "; mean of measured over computed %.2f",
             t->ratio / (double)t->n_ratio);
  }
  note(d, text);
}

static void give(const desk *d, const char *what, double ours, double low, double high)
{
  pw_check_give_range(d->sink, "all", what, "-", ours, low, high, 1,
                      "set before any trial was looked at", "goal");
}

static void summed(const desk *d)
{
  static const char *const scope[] = {"windows alone", "whole houses"};
  tally all = {0}, one[T_COUNT] = {{0}};
  char text[240];
  snprintf(
      text, sizeof text,
      "%zu trials: %zu of lab houses, %zu of monitored homes, %zu studies of bills; facts of "
      "their jobs: %zu by the report, %zu from memory, %zu assumed",
      d->n_trial, d->of_kind[0], d->of_kind[1], d->of_kind[2], d->facts.report, d->facts.memory,
      d->facts.assumed);
  note(d, text);
  for (int w = 0; w < 2; w++)
    for (int k = 0; k < T_COUNT; k++) {
      snprintf(text, sizeof text, "%s, %s", scope[w], tally_text[k]);
      say(d, text, &d->tally[w][k]);
      add(&one[k], &d->tally[w][k]);
      add(&all, &d->tally[w][k]);
    }
  all.n_ratio = 0; /* of all together it says nothing */
  say(d, "all", &all);
  give(d, "measured values inside our 10 to 90 %, share of them",
       (double)all.inside / (double)all.n, 0.6, 1.0);
  for (int k = T_HEATING; k <= T_COOLING; k++) {
    if (one[k].n_ratio == 0) continue;
    snprintf(text, sizeof text, "%s: mean of measured over computed", tally_text[k]);
    give(d, text, one[k].ratio / (double)one[k].n_ratio, 0.8, 1.25);
  }
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  desk *d = calloc(1, sizeof *d);
  if (!d) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the trials");
  d->sink = sink;
  shuffle(d);
  pw_status s = pw_field_read(sink, &d->trials, err);
  for (size_t i = 0, n = 0; i < d->trials.n && s == PW_OK; i += n)
    s = trial(d, i, &n, err);
  if (s == PW_OK) summed(d);
  pw_field_free(&d->trials);
  free(d);
  return s;
}

const pw_check_group pw_check_field = {
    "field", "published trials of windows in houses, beside our range of the same figure", run};
