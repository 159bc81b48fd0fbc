#include "study/range.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/compare_impl.h"
#include "study/range_bills_impl.h"
#include "study/range_reduced.h"
#include "study/range_run.h"

enum { SURFACE_RUNS_MAX = 512 };

/* ---------------------------------------------------------------- bands */

/* What a draw buys by month at normal weather; to[set][month] as the option normal_kwh. */
static pw_status buy_normal(const range_case *rc, const double v[IN_COUNT], const double year[],
                            double to[], pw_err *err)
{
  range_lived l;
  pw_status status = range_live_at(rc, v, year, (double)INFINITY, &l, err);
  for (size_t s = 0; status == PW_OK && s + 1 < rc->n_set; s++) {
    double need[2] = {0.0, 0.0};
    for (size_t m = 0; m < 12; m++) {
      need[0] += to[s * RANGE_MONTHS + m] = l.needs[s].heating_kwh[m];
      need[1] += to[s * RANGE_MONTHS + 12 + m] = l.needs[s].cooling_kwh[m];
    }
    const double bought[2] = {l.bill[s].heating_fuel_kwh, l.bill[s].cooling_electricity_kwh};
    for (size_t m = 0; m < RANGE_MONTHS; m++)
      if (need[m >= 12] > 0.0) to[s * RANGE_MONTHS + m] *= bought[m >= 12] / need[m >= 12];
  }
  return status;
}

/* year[] as in bands; normal_kwh as the option, of d->n draws. */
static pw_status draw(const range_reduced *r, const pw_sobol *sobol, const double year[],
                      const range_near *near, double *normal_kwh, range_drawn *d, pw_err *err)
{
  const range_case *rc = r->rc;
  size_t nf = rc->n_set * F_COUNT, ny = rc->n_set * RANGE_MONTHS;
  pw_status s = PW_OK;
  d->near = near != NULL;
  for (size_t i = 0; i < d->n && s == PW_OK; i++) {
    double u[2 * IN_COUNT], v[IN_COUNT], at[RANGE_SETS * RANGE_MONTHS];
    pw_sobol_point(sobol, i, u);
    if (near)
      d->ratio[i] = range_near_draw(near, u, d->z + i * rc->n_in);
    else if (d->z)
      range_near_z(u, rc->n_in, d->z + i * rc->n_in);
    range_values(rc, u, v);
    if (!year) range_reduced_year(r, v, at);
    if (normal_kwh)
      s = buy_normal(rc, v, year ? year + i * ny : at,
                     normal_kwh + i * (rc->n_set - 1) * RANGE_MONTHS, err);
    if (s != PW_OK) return s;
    s = range_figures_at(rc, v, year ? year + i * ny : at, d->f + i * nf,
                         d->need ? &d->need[i] : NULL, err);
  }
  return s;
}

static pw_status draw_by_surface(const void *context, const pw_sobol *sobol,
                                 const range_near *near, range_drawn *d, pw_err *err)
{
  return draw(context, sobol, NULL, near, NULL, d, err);
}

/* The bands by the bill of a year that the job gives; those of before where it contradicts the draws. */
static pw_status weigh_by_year(const range_case *rc, const range_drawn *d, double given,
                               double beat, pw_range *range, pw_err *err)
{
  pw_range_conditioned *b = &range->bill_year;
  *b = (pw_range_conditioned){.before_cost = range->existing.cost_year};
  for (size_t p = 0; p < range->n_package; p++)
    b->before_saving[p] = range->package[p].saving_cost;
  pw_status s =
      range_bill_weights(d->f + F_COST, rc->n_set * F_COUNT, d->n, given, d->weight, b, err);
  if (s != PW_OK || !b->used) return s;
  range->n_worth = b->condition.effective;
  return range_all_bands(rc, d->f, d->n, d->weight, beat, d->sort, range, err);
}

/* year[] holds every draw's months, or is NULL: by the surface. */
static pw_status bands(const range_reduced *r, const pw_sobol *sobol, const double year[],
                       const pw_range_options *options, pw_range *range, pw_err *err)
{
  const range_case *rc = r->rc;
  size_t n = range->n_draw;
  double given = rc->compare->job->house.bill_year.value;
  range_drawn d;
  pw_status s = range_drawn_new(rc, n, options->bills != NULL, &d, err);
  if (s == PW_OK) s = draw(r, sobol, year, NULL, options->normal_kwh, &d, err);
  int weigh = given > 0.0 && !pw_compare_is_later(rc->compare->job);
  range->n_worth = (double)n;
  if (s == PW_OK) s = range_all_bands(rc, d.f, n, NULL, options->beat, d.sort, range, err);
  if (s == PW_OK && weigh) s = weigh_by_year(rc, &d, given, options->beat, range, err);
  if (s == PW_OK && options->bills)
    s = range_bills_bands(rc, options, r->daily, &d, year ? NULL : draw_by_surface, r, range,
                          err);
  range_drawn_free(&d);
  return s;
}

/* The largest miss of the surface beside its band. */
static void error_of_band(pw_range *range)
{
  range->error_of_band = 0.0;
  for (size_t p = 0; p < range->n_package; p++) {
    const pw_range_set *set = &range->package[p];
    double width = set->saving_cost.p90 - set->saving_cost.p10;
    range->error_of_band = fmax(range->error_of_band, set->surface_error / fmax(width, 1e-9));
  }
}

/* ---------------------------------------------------------------- at a place of the chances */

/* Figures of every set at u[n_in], by the surface. */
static pw_status figures_by_surface(const void *context, const double u[], double f[],
                                    pw_err *err)
{
  const range_reduced *r = context;
  double v[IN_COUNT], year[RANGE_SETS * RANGE_MONTHS];
  range_values(r->rc, u, v);
  range_reduced_year(r, v, year);
  return range_figures_at(r->rc, v, year, f, NULL, err);
}

/* ---------------------------------------------------------------- the whole */

/* Years of the first draws, one after the other as they are asked for. */
typedef struct lived {
  const range_case *rc;
  const pw_range_options *options;
  pw_sobol sobol;
  size_t n;  /* draws lived */
  size_t to; /* draws there will be when the run in hand is done */
  double *y; /* [n * n_set * RANGE_MONTHS]; owned */
} lived;

static void point(const void *context, size_t k, double u[])
{
  const lived *l = context;
  double both[2 * IN_COUNT];
  pw_sobol_point(&l->sobol, l->n + k, both);
  memcpy(u, both, l->rc->n_in * sizeof *u);
}

static int progress(void *context, size_t done, size_t all)
{
  const lived *l = context;
  (void)all;
  return l->options->progress(l->options->progress_context, l->n + done, l->to);
}

static pw_status live_up_to(lived *l, size_t n, pw_range *range, pw_err *err)
{
  const size_t more = n > l->n ? n - l->n : 0, n_out = l->rc->n_set * RANGE_MONTHS;
  if (!more) return PW_OK;
  double *y = realloc(l->y, n * n_out * sizeof *y);
  if (!y) return pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n);
  l->y = y;
  l->to = n;
  pw_range_plan plan = range_years_plan(l->rc, more, l->options->n_thread);
  plan.point = point;
  plan.point_context = l;
  if (l->options->progress) {
    plan.progress = progress;
    plan.progress_context = l;
  }
  pw_range_result years;
  pw_status s = pw_range_run(&plan, &years, err);
  if (s != PW_OK) return s;
  range->stopped = years.stopped;
  if (years.stopped) return PW_OK;
  memcpy(l->y + l->n * n_out, years.y, more * n_out * sizeof *y);
  l->n = n;
  range->n_year += more * l->rc->n_set;
  pw_range_free(&years);
  return PW_OK;
}

/* Fits the surface to the first n years. */
static pw_status fit(range_reduced *r, lived *l, size_t n, pw_range *range, pw_err *err)
{
  pw_status s = live_up_to(l, n, range, err);
  if (s != PW_OK || range->stopped) return s;
  surface_free(&r->surface);
  s = range_reduced_fit(r, &l->sobol, l->y, n < SURFACE_RUNS_MAX ? n : SURFACE_RUNS_MAX, err);
  if (s == PW_OK) range_reduced_errors(r, range);
  return s;
}

/* The figures by the surface, or full: by the years of all draws themselves. */
static pw_status tell(const range_reduced *r, const lived *l, int full,
                      const pw_range_options *options, pw_range *range, pw_err *err)
{
  range->reduced = !full;
  pw_status s = bands(r, &l->sobol, full ? l->y : NULL, options, range, err);
  error_of_band(range);
  return s;
}

/* By a surface of few years; *poor: it misses too much. Bills, which take time, only where it does not without them. */
static pw_status try_few(range_reduced *r, lived *l, double limit, pw_range *range, int *poor,
                         pw_err *err)
{
  pw_range_options plain = *l->options;
  plain.bills = NULL;
  pw_status s = fit(r, l, PW_RANGE_FIT_FIRST, range, err);
  if (s == PW_OK && !range->stopped) s = tell(r, l, 0, &plain, range, err);
  if (s == PW_OK && !range->stopped && l->options->bills && range->error_of_band <= limit)
    s = tell(r, l, 0, l->options, range, err);
  *poor = range->error_of_band > limit;
  return s;
}

/* A surface of few years where that misses little enough, else of more, else every draw its year. */
static pw_status run_all(range_reduced *r, pw_range *range, const pw_range_options *options,
                         pw_err *err)
{
  lived l = {.rc = r->rc, .options = options};
  const double limit = options->error_limit > 0.0 ? options->error_limit : 0.1;
  const size_t most = range->n_draw > PW_RANGE_FIT_RUNS ? range->n_draw : PW_RANGE_FIT_RUNS;
  int full = options->method == PW_RANGE_FULL, poor = 0;
  pw_status s = pw_sobol_init(&l.sobol, 2 * r->rc->n_in, most, range->seed, err);
  if (s == PW_OK && !full) s = try_few(r, &l, 0.5 * limit, range, &poor, err);
  if (s == PW_OK && poor && !range->stopped) {
    s = fit(r, &l, PW_RANGE_FIT_RUNS, range, err);
    if (s == PW_OK && !range->stopped) s = tell(r, &l, 0, options, range, err);
    full = options->method == PW_RANGE_AUTO && range->error_of_band > limit;
  }
  if (s == PW_OK && full && !range->stopped) {
    s = fit(r, &l, range->n_draw, range, err);
    if (s == PW_OK && !range->stopped) s = tell(r, &l, 1, options, range, err);
  }
  if (s == PW_OK && !range->stopped && options->street)
    s = range_street_draws(r->rc, range->seed, figures_by_surface, r, err);
  free(l.y);
  return s;
}

static pw_status check(const pw_range_options *o, pw_err *err)
{
  if (!(o->n_draw == 0 || (o->n_draw >= 64 && o->n_draw <= 65536)))
    return pw_fail(err, PW_E_SHAPE, "draws", "%zu draws, want 64 to 65536", o->n_draw);
  if (!(o->n_thread >= 0 && o->n_thread <= PW_THREADS_MAX))
    return pw_fail(err, PW_E_SHAPE, "threads", "%d threads, want 1 to %d", o->n_thread,
                   PW_THREADS_MAX);
  return PW_OK;
}

pw_status pw_range_of(const pw_compare *compare, const pw_weather *weather,
                      pw_year_method method, const pw_range_options *options, pw_range *out,
                      pw_err *err)
{
  pw_status s = check(options, err);
  if (s != PW_OK) return s;
  pw_range range = {.n_package = compare->n_package,
                    .n_draw = options->n_draw ? options->n_draw : PW_RANGE_DRAWS,
                    .seed = options->seed,
                    .beat = options->beat};
  range_case rc;
  atomic_size_t n_lane = 0;
  range_reduced r = {.rc = &rc, .forms = NULL};
  const pw_street_house *street = options->street;
  if (street && (street->n_draw != range.n_draw || street->n_package != range.n_package))
    return pw_fail(err, PW_E_SHAPE, "street",
                   "room for %zu draws of %zu packages, want %zu, %zu", street->n_draw,
                   street->n_package, range.n_draw, range.n_package);
  s = range_case_of(compare, weather, method, options->like, &rc, err);
  rc.street = options->street;
  rc.lanes = options->lanes;
  rc.n_lane = &n_lane;
  if (s != PW_OK) return s;
  range.n_input = rc.n_in;
  for (size_t k = 0; k < rc.n_in; k++)
    range.input[k] = rc.input[rc.which[k]];
  s = range_forms_of(&rc, options->n_thread, &r.forms, err);
  if (s != PW_OK) return s;
  range.n_year = r.forms->n_year;
  if (options->bills) s = range_bills_live(&rc, options->bills, &r.daily, err);
  if (s == PW_OK) s = run_all(&r, &range, options, err);
  if (s == PW_OK && !range.stopped && !options->bands_only)
    s = range_drivers(&r, options, &range, err);
  range.n_lane = atomic_load(&n_lane);
  surface_free(&r.surface);
  range_forms_free(r.forms);
  free(r.daily);
  if (s == PW_OK) *out = range;
  return s;
}
