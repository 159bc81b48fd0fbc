#include "study/range.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/compare_impl.h"
#include "study/range_bills_impl.h"
#include "study/range_run.h"
#include "study/sobol.h"
#include "study/surface.h"

enum { SURFACE_RUNS_MAX = 512 };

/* ---------------------------------------------------------------- money of a draw */

/* U and SHGC of a set at a draw, from its sums: glass, frame and ring each moved as a whole. */
static void ratings_at(const range_case *rc, size_t set, const double v[IN_COUNT], double *u,
                       double *shgc)
{
  const pw_compare_set *s =
      set == 0 ? &rc->compare->existing_set : &rc->compare->package_set[set - 1];
  double glass_old = s->ua_old.center + s->ua_old.edge;
  double frame_old = s->ua_old.frame + s->ua_old.divider;
  double glass = s->ua.center + s->ua.edge - glass_old;
  double frame = s->ua.frame + s->ua.divider - frame_old;
  *u = (v[IN_GLASS_U_OLD] * glass_old + v[IN_GLASS_U_NEW] * glass +
        (v[IN_FRAME_U_OLD] * frame_old + v[IN_FRAME_U_NEW] * frame) +
        v[IN_FRAME_U_OLD] * s->ua.retained) /
       s->area;
  *shgc = s->shgc * (s->sun_old * v[IN_SHGC_OLD] + (1.0 - s->sun_old) * v[IN_SHGC_NEW]);
}

/* Needs of every set at a draw: the year's, times weather; years INFINITY: that of a normal year. What models disagree on about a house acts
 * on the existing windows' need, what they disagree on about a change of windows on the difference
 * to it: each as published, neither taken off the other. years: how many years' weather is averaged. */
static void needs_at(const range_case *rc, const double year[], const double v[IN_COUNT],
                     double years, pw_needs needs[])
{
  double spell = 1.0 / sqrt(years);
  double factor[2] = {(1.0 + (v[IN_WEATHER_HEAT] - 1.0) * spell) * v[IN_NORMALS_HEAT],
                      (1.0 + (v[IN_WEATHER_COOL] - 1.0) * spell) * v[IN_NORMALS_COOL]};
  double model[2] = {v[IN_MODEL_HEAT], v[IN_MODEL_COOL]};
  double effect[2] = {v[IN_EFFECT_HEAT], v[IN_EFFECT_COOL]};
  for (size_t s = 0; s < rc->n_set; s++) {
    needs[s] = (pw_needs){.heating_hour_kwh = NULL};
    for (size_t m = 0; m < RANGE_MONTHS; m++) {
      size_t k = m >= 12;
      double now = fmax(0.0, year[m]), here = fmax(0.0, year[s * RANGE_MONTHS + m]);
      double need = fmax(0.0, factor[k] * (model[k] * now + effect[k] * (here - now)));
      if (k)
        needs[s].cooling_kwh[m - 12] = need;
      else
        needs[s].heating_kwh[m] = need;
    }
  }
}

static void rates_at(const range_case *rc, const double v[IN_COUNT], pw_rates *rates)
{
  *rates = rc->rates;
  rates->heating_efficiency.value *= v[IN_HEAT_EFFICIENCY];
  rates->cooling_cop.value *= v[IN_COOL_COP];
  double duct = v[IN_DUCT] / rc->input[IN_DUCT].given.value;
  if (range_has_ducts(&rates->heating_duct)) rates->heating_duct.value *= duct;
  if (range_has_ducts(&rates->cooling_duct)) rates->cooling_duct.value *= duct;
}

static pw_status bill_at(const range_case *rc, size_t set, const pw_rates *rates,
                         const double v[IN_COUNT], const pw_needs *needs, pw_bill *bill,
                         pw_err *err)
{
  const double *mean = rc->mean_price[set];
  pw_status s = pw_bill_of(needs, rates, bill, err);
  int one = rates->heating_fuel == PW_FUEL_ELECTRICITY;
  if (isfinite(mean[0])) bill->heating_cost = bill->heating_fuel_kwh * mean[0];
  if (isfinite(mean[1])) bill->cooling_cost = bill->cooling_electricity_kwh * mean[1];
  bill->heating_cost *= v[one ? IN_PRICE_COOL : IN_PRICE_HEAT];
  bill->cooling_cost *= v[IN_PRICE_COOL];
  bill->cost_year = bill->heating_cost + bill->cooling_cost;
  return s;
}

/* The range of the installed price is one for all packages, as wide as each one's own. */
static double price_factor(const pw_compare *c, size_t p, double drawn)
{
  double widest = range_price_width(c, range_widest_price(c)), own = range_price_width(c, p);
  return widest > 0.0 && own > 0.0 ? 1.0 + (drawn - 1.0) * own / widest : drawn;
}

/* Needs and bills of every set at a draw. */
typedef struct lived {
  pw_needs needs[RANGE_SETS];
  pw_bill bill[RANGE_SETS];
} lived;

static pw_status live_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                         double years, lived *l, pw_err *err)
{
  pw_rates rates;
  pw_status status = PW_OK;
  rates_at(rc, v, &rates);
  needs_at(rc, year, v, years, l->needs);
  for (size_t s = 0; s < rc->n_set && status == PW_OK; s++)
    status = bill_at(rc, s, &rates, v, &l->needs[s], &l->bill[s], err);
  return status;
}

/* As the draw has it: a given bill weighs the draw (bill_weights) and scales nothing. */
static pw_status saving_at(const lived *l, size_t from, size_t to, pw_saving *saving,
                           pw_err *err)
{
  return pw_saving_of(&l->needs[from], &l->bill[from], &l->needs[to], &l->bill[to], 0.0, saving,
                      err);
}

/* one: the year itself; mean: the mean over the horizon, of which payback and worth are made; normal: a year of normal
 * weather, of which a promise is made that meters are held against. */
static pw_status package_at(const range_case *rc, size_t p, const lived *one, const lived *mean,
                            const lived *normal, const double v[IN_COUNT], double f[F_COUNT],
                            pw_err *err)
{
  const pw_compare *c = rc->compare;
  const pw_compare_set *set = &c->package_set[p];
  pw_saving saving, over_code, lasting;
  pw_status s = saving_at(one, 0, p + 1, &saving, err);
  if (s == PW_OK) s = saving_at(one, rc->n_set - 1, p + 1, &over_code, err);
  if (s == PW_OK) s = saving_at(mean, 0, p + 1, &lasting, err);
  if (s != PW_OK) return s;
  f[F_SAVING] = saving.cost_year;
  f[F_MINIMUM] = over_code.cost_year;
  f[F_NEED] = saving.need_kwh;
  f[F_FUEL] = saving.fuel_kwh;
  const pw_bill *now = &normal->bill[0], *then = &normal->bill[p + 1];
  f[F_HEATING_FUEL] = now->heating_fuel_kwh - then->heating_fuel_kwh;
  f[F_COOLING_POWER] = now->cooling_electricity_kwh - then->cooling_electricity_kwh;
  f[F_NORMAL_FUEL] = f[F_HEATING_FUEL] + f[F_COOLING_POWER];
  f[F_PAYBACK] = (double)INFINITY;
  if (!(set->price > 0.0)) return PW_OK;
  pw_invest invest = set->invest;
  pw_worth worth;
  invest.price *= price_factor(c, p, v[IN_INSTALLED]);
  invest.saving_year = lasting.cost_year;
  invest.escalation += v[IN_ESCALATION];
  invest.without_rate = 1;
  s = pw_worth_of(&invest, &worth, err);
  if (s != PW_OK) return s;
  f[F_PAYBACK] = worth.simple_payback;
  f[F_WORTH] = worth.net_present_worth;
  return PW_OK;
}

/* What the draw says of the existing windows, for bills: their weather is known, so that of single years is
 * left out, and so is what normals miss. */
static void need_at(const lived *one, const double v[IN_COUNT], const double year[],
                    range_need *need)
{
  double sum[2] = {0.0, 0.0};
  for (size_t m = 0; m < 12; m++) {
    need->month[0][m] = fmax(0.0, year[m] * v[IN_MODEL_HEAT]);
    need->month[1][m] = fmax(0.0, year[12 + m] * v[IN_MODEL_COOL]);
    sum[0] += one->needs[0].heating_kwh[m];
    sum[1] += one->needs[0].cooling_kwh[m];
  }
  need->per_need[0] = sum[0] > 0.0 ? one->bill[0].heating_fuel_kwh / sum[0] : 0.0;
  need->per_need[1] = sum[1] > 0.0 ? one->bill[0].cooling_electricity_kwh / sum[1] : 0.0;
}

pw_status range_figures_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                           double f[], range_need *need, pw_err *err)
{
  lived one, mean, normal;
  double years = fmax(1.0, rc->compare->package_set[0].invest.horizon);
  pw_status status = live_at(rc, v, year, 1.0, &one, err);
  if (status == PW_OK) status = live_at(rc, v, year, years, &mean, err);
  if (status == PW_OK) status = live_at(rc, v, year, (double)INFINITY, &normal, err);
  if (status != PW_OK) return status;
  memset(f, 0, rc->n_set * F_COUNT * sizeof *f);
  for (size_t s = 0; s + 1 < rc->n_set; s++) {
    ratings_at(rc, s, v, &f[s * F_COUNT + F_U], &f[s * F_COUNT + F_SHGC]);
    f[s * F_COUNT + F_COST] = one.bill[s].cost_year;
  }
  for (size_t p = 0; p + 2 < rc->n_set && status == PW_OK; p++)
    status = package_at(rc, p, &one, &mean, &normal, v, f + (p + 1) * F_COUNT, err);
  if (need) need_at(&one, v, year, need);
  return status;
}

/* ---------------------------------------------------------------- the reduced year */

typedef struct reduced {
  const range_case *rc;
  range_forms *forms; /* the surface tells what they leave */
  surface surface;
  double *daily; /* of range_bills_live */
} reduced;

/* $ of a kWh of need, heating and cooling, in the existing bill. */
static void need_prices(const pw_compare *c, double price[2])
{
  const pw_compare_set *e = &c->existing_set;
  double need[2] = {0.0, 0.0};
  for (size_t m = 0; m < 12; m++) {
    need[0] += e->needs.heating_kwh[m];
    need[1] += e->needs.cooling_kwh[m];
  }
  price[0] = need[0] > 0.0 ? e->bill.heating_cost / need[0] : 0.0;
  price[1] = need[1] > 0.0 ? e->bill.cooling_cost / need[1] : 0.0;
}

/* y[] is taken less what the forms make of it. */
static pw_status fit_surface(reduced *r, const pw_sobol *sobol, double y[], size_t n_run,
                             pw_err *err)
{
  const range_case *rc = r->rc;
  size_t n_out = rc->n_set * RANGE_MONTHS;
  double *z = calloc(n_run * rc->n_year, sizeof *z), *focus = calloc(n_out, sizeof *focus);
  pw_status status = PW_OK;
  if (!z || !focus) status = pw_fail(err, PW_E_NOMEM, "draws", "no memory for the fit");
  for (size_t i = 0; status == PW_OK && i < n_run; i++) {
    double u[2 * IN_COUNT], v[IN_COUNT];
    pw_sobol_point(sobol, i, u);
    range_values(rc, u, v);
    range_scaled(rc, v, z + i * rc->n_year);
    range_forms_add(rc, r->forms, v, -1.0, y + i * n_out);
  }
  if (status == PW_OK) {
    double price[2];
    need_prices(rc->compare, price);
    for (size_t o = 0; o < n_out; o++) {
      double p = price[o % RANGE_MONTHS >= 12];
      focus[o] = p * p;
    }
    status = surface_fit(z, y, n_run, rc->n_year, n_out, focus, &r->surface, err);
  }
  free(z);
  free(focus);
  return status;
}

/* What the surface misses of each package's saving, $ a year, root mean square over its runs. */
static void surface_errors(const reduced *r, pw_range *range)
{
  const surface *s = &r->surface;
  double price[2];
  need_prices(r->rc->compare, price);
  for (size_t p = 0; p < range->n_package; p++) {
    double sum = 0.0;
    for (size_t i = 0; i < s->n_run; i++) {
      const double *old = s->left_out + i * s->n_out, *new = old + (p + 1) * RANGE_MONTHS;
      double e = 0.0;
      for (size_t m = 0; m < 12; m++)
        e += (old[m] - new[m]) * price[0] + (old[12 + m] - new[12 + m]) * price[1];
      sum += e * e;
    }
    range->package[p].surface_error = sqrt(sum / (double)s->n_run);
  }
}

static void year_by_surface(const reduced *r, const double v[IN_COUNT], double year[])
{
  double z[IN_YEAR], term[1 + IN_YEAR + IN_YEAR * (IN_YEAR + 1) / 2];
  range_scaled(r->rc, v, z);
  surface_at(&r->surface, z, term, year);
  range_forms_add(r->rc, r->forms, v, 1.0, year);
}

/* ---------------------------------------------------------------- bands */

/* What a draw buys by month at normal weather; to[set][month] as the option normal_kwh. */
static pw_status buy_normal(const range_case *rc, const double v[IN_COUNT], const double year[],
                            double to[], pw_err *err)
{
  lived l;
  pw_status status = live_at(rc, v, year, (double)INFINITY, &l, err);
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
static pw_status draw(const reduced *r, const pw_sobol *sobol, const double year[],
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
    if (!year) year_by_surface(r, v, at);
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
static pw_status bands(const reduced *r, const pw_sobol *sobol, const double year[],
                       const pw_range_options *options, pw_range *range, pw_err *err)
{
  const range_case *rc = r->rc;
  size_t n = range->n_draw;
  double given = rc->compare->job->house.bill_year.value;
  range_drawn d;
  pw_status s = range_drawn_new(rc, n, options->bills != NULL, &d, err);
  if (s == PW_OK) s = draw(r, sobol, year, NULL, options->normal_kwh, &d, err);
  int weigh = given > 0.0 && !pw_compare_is_later(rc->compare);
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
  const reduced *r = context;
  double v[IN_COUNT], year[RANGE_SETS * RANGE_MONTHS];
  range_values(r->rc, u, v);
  year_by_surface(r, v, year);
  return range_figures_at(r->rc, v, year, f, NULL, err);
}

static pw_status savings_by_surface(const void *context, void *space, const double u[],
                                    double y[], pw_err *err)
{
  (void)space;
  const reduced *r = context;
  double f[RANGE_SETS * F_COUNT];
  pw_status s = figures_by_surface(r, u, f, err);
  for (size_t k = 1; k + 1 < r->rc->n_set; k++)
    y[k - 1] = f[k * F_COUNT + F_SAVING];
  return s;
}

/* ---------------------------------------------------------------- the whole */

/* Runs n years, fits the surface to them and draws the figures; full: from the years themselves. */
static pw_status run(reduced *r, size_t n, int full, const pw_range_options *options,
                     pw_range *range, pw_err *err)
{
  const range_case *rc = r->rc;
  pw_range_plan plan = {.n_dim = rc->n_in,
                        .n_out = rc->n_set * RANGE_MONTHS,
                        .n_draw = n,
                        .seed = range->seed,
                        .n_thread = options->n_thread,
                        .model = range_year,
                        .context = rc,
                        .workspace_new = range_room_new,
                        .workspace_free = range_room_free,
                        .progress = options->progress,
                        .progress_context = options->progress_context};
  pw_range_result years;
  pw_sobol sobol;
  pw_status s = pw_range_run(&plan, &years, err);
  if (s != PW_OK) return s;
  range->stopped = years.stopped;
  if (years.stopped) return PW_OK;
  range->n_year += n * rc->n_set;
  range->reduced = !full;
  surface_free(&r->surface);
  /* As pw_range_run makes them, so that draw i is draw i whatever the number of draws. */
  s = pw_sobol_init(&sobol, 2 * rc->n_in, range->n_draw > n ? range->n_draw : n, range->seed,
                    err);
  if (s == PW_OK && full) s = bands(r, &sobol, years.y, options, range, err);
  if (s == PW_OK)
    s = fit_surface(r, &sobol, years.y, n < SURFACE_RUNS_MAX ? n : SURFACE_RUNS_MAX, err);
  if (s == PW_OK) {
    surface_errors(r, range);
    if (!full) s = bands(r, &sobol, NULL, options, range, err);
    error_of_band(range);
  }
  if (s == PW_OK && options->street)
    s = range_street_draws(rc, range->seed, figures_by_surface, r, err);
  pw_range_free(&years);
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
  reduced r = {.rc = &rc, .forms = NULL};
  const pw_street_house *street = options->street;
  if (street && (street->n_draw != range.n_draw || street->n_package != range.n_package))
    return pw_fail(err, PW_E_SHAPE, "street",
                   "room for %zu draws of %zu packages, want %zu, %zu", street->n_draw,
                   street->n_package, range.n_draw, range.n_package);
  s = range_case_of(compare, weather, method, options->like, &rc, err);
  rc.street = options->street;
  if (s != PW_OK) return s;
  range.n_input = rc.n_in;
  for (size_t k = 0; k < rc.n_in; k++)
    range.input[k] = rc.input[rc.which[k]];
  int full = options->method == PW_RANGE_FULL;
  s = range_forms_of(&rc, &r.forms, err);
  if (s != PW_OK) return s;
  range.n_year = r.forms->n_year;
  if (options->bills) s = range_bills_live(&rc, options->bills, &r.daily, err);
  if (s == PW_OK)
    s = run(&r, full ? range.n_draw : PW_RANGE_FIT_RUNS, full, options, &range, err);
  if (s == PW_OK && !range.stopped && options->method == PW_RANGE_AUTO &&
      range.error_of_band > (options->error_limit > 0.0 ? options->error_limit : 0.1))
    s = run(&r, range.n_draw, 1, options, &range, err);
  if (s == PW_OK && !range.stopped && !options->bands_only)
    s = range_drivers(savings_by_surface, &r, options, &range, err);
  surface_free(&r.surface);
  range_forms_free(r.forms);
  free(r.daily);
  if (s == PW_OK) *out = range;
  return s;
}
