#include "study/compare_tight.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "gen/reference.h"
#include "panewright/units.h"
#include "study/compare_impl.h"
#include "study/compare_tight_impl.h"
#include "study/sensitivity.h"
#include "window/opening_label.h"
#include "window/opening_package.h"

#define ROW(name) (&pw_ref_air_leakage[pw_ref_air_leakage__##name])

/* ---------------------------------------------------------------- openings */

static int asked(const pw_compare *c)
{
  const pw_house_facts *f = &c->job->house;
  if (f->cfm50.value > 0.0 || f->infiltration != PW_INFILTRATION_CONSTANT) return 1;
  for (size_t i = 0; i < c->n_opening; i++)
    if (c->job->opening[i].sash_leak != PW_SASH_BLANK) return 1;
  return 0;
}

static void add(pw_leak_span *to, const pw_leak_span *s, double times)
{
  to->low += times * s->low;
  to->usual += times * s->usual;
  to->high += times * s->high;
}

/* The insert that a package has in an opening with its joint; nothing where it is fixed as what it replaces. */
static pw_status insert(const pw_compare *c, size_t p, size_t i, pw_leak_span *span,
                        pw_err *err)
{
  const pw_opening *o = &c->job->opening[i];
  pw_label_row label;
  pw_package package;
  pw_status status = pw_opening_label(c->job, p, o, &label, err);
  if (status != PW_OK) return status;
  pw_opening_package(c->job, p, o, &package);
  double area = pw_compare_rating(&c->rated, (int)p, i)->area;
  const pw_leak_span sashes = pw_insert_leak(label.air_leakage.value, area);
  const pw_leak_span joint = pw_joint_leak(area, strcmp(package.filling, "air") != 0);
  *span = (pw_leak_span){0};
  add(span, &sashes, o->quantity);
  add(span, &joint, o->quantity);
  return PW_OK;
}

static int opens(const pw_opening *o)
{
  return pw_operator_opens(o->operator_existing) || pw_operator_opens(o->operator_insert);
}

static pw_status openings(const pw_compare *c, pw_compare_tight *t, pw_err *err)
{
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    pw_tight_opening *at = &t->opening[i];
    if (o->unconditioned) continue;
    at->counted = 1;
    at->replaced = pw_compare_replaces(c->job, i) && opens(o);
    pw_status status = PW_OK;
    if (pw_compare_is_old(c->job, -1, i)) {
      const pw_lites *lites = pw_compare_lites(c->job, &c->fitted, -1, i);
      const pw_leak_span one = pw_sash_leak(lites, o->existing_frame, o->sash_leak);
      at->crack = pw_sash_crack(lites);
      add(&at->now, &one, o->quantity);
      if (pw_operator_opens(o->operator_existing)) t->n_state[o->sash_leak] += o->quantity;
    } else if (opens(o)) { /* an insert of an earlier phase, before and after */
      status = insert(c, 0, i, &at->now, err);
    }
    for (size_t p = 0; status == PW_OK && at->replaced && p < c->n_package; p++) {
      pw_leak_span new;
      status = insert(c, p, i, &new, err);
      if (status == PW_OK) add(&t->package[p].inserts, &new, 1.0);
    }
    if (status != PW_OK) return pw_compare_blame(status, err, "opening", o->tag);
    t->by_table += at->now.usual;
    if (at->replaced) t->sashes_replaced += at->now.usual;
  }
  return PW_OK;
}

/* ---------------------------------------------------------------- the house */

static void house(const pw_compare *c, const pw_weather *weather, pw_compare_tight *t)
{
  const pw_house_facts *f = &c->job->house;
  const pw_infiltration_site site = pw_compare_air_site(&c->job->house, &c->lived.house);
  t->model = pw_compare_air_model(&c->job->house);
  t->air_changes = c->lived.house.air_changes;
  t->by_door = f->cfm50.value > 0.0;
  t->taped = t->by_door && f->cfm50_taped.value > 0.0;
  t->share_most = t->taped ? (double)INFINITY : ROW(share_windows)->high / 100.0;
  double mean = pw_infiltration_year(t->model, &site, weather, pw_c(c->rated.t_in), NULL);
  t->area = t->by_door ? pw_house_leak_area(f->cfm50.value)
                       : t->air_changes * c->lived.house.volume / 3600.0 / mean;
  double sum = t->by_table, most = t->share_most * t->area;
  t->held = sum > most;
  t->sashes = t->taped && sum > 0.0
                  ? t->area - pw_house_leak_area(f->cfm50_taped.value) /* what the tape shut */
                  : fmin(sum, most);
  t->sashes_replaced *= sum > 0.0 ? t->sashes / sum : 0.0;
  for (size_t p = 0; p < c->n_package; p++) {
    pw_tight_package *k = &t->package[p];
    k->area = t->area - (t->sashes_replaced - k->inserts.usual);
    k->air_changes = t->air_changes * (1.0 - tight_share(t, p));
  }
}

double tight_share(const pw_compare_tight *t, size_t p)
{
  return (t->sashes_replaced - t->package[p].inserts.usual) / t->area;
}

/* ---------------------------------------------------------------- years */

/* The year of the windows there now in a house whose air is less by a share. */
static pw_status live(const pw_compare *c, const pw_weather *weather,
                      const pw_compare_options *options, pw_year_workspace *workspace,
                      double share, compare_trial *trial, pw_err *err)
{
  pw_house tighter = c->lived.house; /* borrows all that it points to */
  pw_house_window *window = calloc(c->n_opening, sizeof *window);
  if (!window) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the tighter house");
  tighter.air_changes *= 1.0 - share;
  pw_compare_windows(c->job, &c->fitted, &c->rated, -1, window);
  pw_status status =
      pw_compare_try(c, &tighter, "tighter", window, weather, options, workspace, trial, err);
  free(window);
  return status;
}

static pw_status saving(const pw_compare *c, size_t p, const compare_trial *then,
                        pw_saving *saving, pw_err *err)
{
  pw_status status = pw_saving_of(&c->lived.existing_set.needs, &c->billed.existing_set.bill,
                                  &then->lived.needs, &then->bill, 0.0, saving, err);
  if (status == PW_OK) pw_saving_hold(&c->billed.package_set[p].saving, saving);
  return status;
}

double tight_curve_at(const tight_curve *k, const double saved[2], double share)
{
  double x = k->share != 0.0 ? share / k->share : 0.0;
  return x * (4.0 * saved[0] - saved[1]) + x * x * (2.0 * saved[1] - 4.0 * saved[0]);
}

/* Room for the years and the draws. */
typedef struct desk {
  compare_trial trial;
  double share[PW_COMPARE_PACKAGES_MAX * PW_TIGHT_DRAWS];
  double area[PW_COMPARE_PACKAGES_MAX * PW_TIGHT_DRAWS];
  double value[PW_TIGHT_DRAWS], sort[2 * PW_TIGHT_DRAWS];
} desk;

static pw_status curve_of(const pw_compare *c, const pw_weather *weather,
                          const pw_compare_options *options, pw_year_workspace *workspace,
                          desk *d, tight_curve *k, pw_err *err)
{
  *k = (tight_curve){0};
  for (size_t i = 0; i < c->n_package * PW_TIGHT_DRAWS; i++)
    if (fabs(d->share[i]) > fabs(k->share)) k->share = d->share[i];
  for (int i = 0; k->share != 0.0 && i < 2; i++) {
    pw_saving s;
    pw_status status =
        live(c, weather, options, workspace, i ? k->share : 0.5 * k->share, &d->trial, err);
    if (status == PW_OK) status = saving(c, 0, &d->trial, &s, err);
    if (status != PW_OK) return status;
    k->cost[i] = s.cost_computed;
    k->need[i] = s.need_kwh;
    k->heating[i] = c->lived.existing_set.year.heating_kwh - d->trial.lived.year.heating_kwh;
    k->cooling[i] = c->lived.existing_set.year.cooling_kwh - d->trial.lived.year.cooling_kwh;
  }
  return PW_OK;
}

/* Ten and ninety per cent of what is saved, never inside the likely value; without a bill to hold it to a quarter of that
 * either side at least, as every saving on a sheet. */
static pw_status ends(const pw_compare *c, desk *d, const tight_curve *k, const double saved[2],
                      const double share[], double times, double likely, double *low,
                      double *high, pw_err *err)
{
  const double aside = c->job->house.bill_year.value > 0.0 ? 0.0 : 0.25 * fabs(likely);
  pw_band band = {0};
  for (size_t i = 0; i < PW_TIGHT_DRAWS; i++)
    d->value[i] = times * tight_curve_at(k, saved, share[i]);
  pw_status status = pw_band_of(d->value, 1, PW_TIGHT_DRAWS, NULL, d->sort, &band, err);
  *low = fmin(band.p10, likely - aside);
  *high = fmax(band.p90, likely + aside);
  return status;
}

static pw_status package(const pw_compare *c, size_t p, const pw_weather *weather,
                         const pw_compare_options *options, pw_year_workspace *workspace,
                         const tight_curve *k, desk *d, pw_compare_tight *t, pw_err *err)
{
  pw_tight_package *to = &t->package[p];
  const double *share = d->share + p * PW_TIGHT_DRAWS;
  pw_band band = {0};
  pw_status status = live(c, weather, options, workspace, tight_share(t, p), &d->trial, err);
  if (status == PW_OK) status = saving(c, p, &d->trial, &to->saving, err);
  if (status != PW_OK) return status;
  to->heating_kwh = d->trial.lived.year.heating_kwh;
  to->cooling_kwh = d->trial.lived.year.cooling_kwh;
  status = ends(c, d, k, k->cost, share, pw_bill_share(to->saving.bill_ratio),
                to->saving.cost_year, &to->cost_low, &to->cost_high, err);
  if (status == PW_OK)
    status = ends(c, d, k, k->need, share, 1.0, to->saving.need_kwh, &to->need_low,
                  &to->need_high, err);
  if (status == PW_OK) status = pw_band_of(share, 1, PW_TIGHT_DRAWS, NULL, d->sort, &band, err);
  to->air_low = fmin(t->air_changes * (1.0 - band.p90), to->air_changes);
  return status;
}

static void drawn_of(const desk *d, const tight_curve *k, size_t p, pw_tight_drawn *drawn)
{
  for (size_t i = 0; i < PW_TIGHT_DRAWS; i++) {
    const double share = d->share[p * PW_TIGHT_DRAWS + i];
    drawn->area[p][i] = d->area[p * PW_TIGHT_DRAWS + i];
    drawn->kwh[p][0][i] = tight_curve_at(k, k->heating, share);
    drawn->kwh[p][1][i] = tight_curve_at(k, k->cooling, share);
  }
}

pw_status pw_compare_tight_of(const pw_compare *c, const pw_weather *weather,
                              const pw_compare_options *options, pw_year_workspace *workspace,
                              pw_compare_tight *t, pw_err *err)
{
  return pw_compare_tight_draws(c, weather, options, workspace, t, NULL, err);
}

pw_status pw_compare_tight_draws(const pw_compare *c, const pw_weather *weather,
                                 const pw_compare_options *options,
                                 pw_year_workspace *workspace, pw_compare_tight *t,
                                 pw_tight_drawn *drawn, pw_err *err)
{
  static const pw_compare_options defaults = {0};
  tight_curve curve;
  *t = (pw_compare_tight){.told = asked(c)};
  if (drawn) memset(drawn, 0, sizeof *drawn);
  if (!t->told) return PW_OK;
  if (!options) options = &defaults;
  pw_year_workspace *own = workspace ? NULL : pw_year_workspace_new();
  desk *d = calloc(1, sizeof *d);
  pw_status status = d && (workspace || own)
                         ? PW_OK
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the tightness");
  if (!workspace) workspace = own;
  if (status == PW_OK) status = openings(c, t, err);
  if (status == PW_OK) house(c, weather, t);
  if (status == PW_OK) status = tight_draw(c, weather, t, d->share, d->area, err);
  if (status == PW_OK) status = curve_of(c, weather, options, workspace, d, &curve, err);
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++)
    status = package(c, p, weather, options, workspace, &curve, d, t, err);
  for (size_t p = 0; status == PW_OK && drawn && p < c->n_package; p++)
    drawn_of(d, &curve, p, drawn);
  if (status == PW_OK) tight_cautions(c, t);
  pw_year_workspace_free(own);
  free(d);
  return status;
}
