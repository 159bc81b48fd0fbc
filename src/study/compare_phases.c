#include "study/compare_phases.h"

#include <math.h>
#include <stdlib.h>

#include "study/compare_impl.h"
#include "study/compare_price.h"
#include "window/opening_package.h"

static void list_phases(const pw_compare *c, pw_compare_phases *out)
{
  for (int k = 1; k <= PW_PHASES_MAX; k++) {
    const pw_price_scope scope = {.phase = k};
    int n = 0;
    double area = 0.0;
    for (size_t i = 0; i < c->n_opening; i++) {
      const pw_opening *o = &c->job->opening[i];
      if (!pw_price_covers(c->job, i, &scope)) continue;
      n += o->quantity;
      area += (double)o->quantity * c->rated.existing[i].rating.area;
    }
    if (n == 0) continue;
    out->number[out->n_phase] = k;
    out->n_window[out->n_phase] = n;
    out->area[out->n_phase++] = area;
  }
}

/* Room for one year of a house that is half done. */
typedef struct desk {
  pw_house_window window[PW_WINDOWS_MAX], new_window[PW_WINDOWS_MAX];
  compare_trial before, after;
} desk;

static pw_status live_after(const pw_compare *c, size_t p, int phase, const pw_weather *weather,
                            const pw_compare_options *options, pw_year_workspace *workspace,
                            desk *d, pw_err *err)
{
  pw_compare_windows(c->job, &c->fitted, &c->rated, -1, d->window);
  pw_compare_windows(c->job, &c->fitted, &c->rated, (int)p, d->new_window);
  for (size_t i = 0; i < c->n_opening; i++)
    if (pw_compare_replaces(c->job, i) && pw_phase_of(&c->job->opening[i]) <= phase)
      d->window[i] = d->new_window[i];
  return pw_compare_try(c, &c->lived.house, "", d->window, weather, options, workspace,
                        &d->after, err);
}

/* $ of all phases up to one, so that what is paid once for the job is paid in the first. */
static pw_status price_up_to(const pw_compare *c, size_t p, int phase, double *dollars,
                             pw_err *err)
{
  unsigned char only[PW_WINDOWS_MAX];
  const pw_price_scope scope = {.only = only};
  pw_price price;
  for (size_t i = 0; i < c->n_opening; i++)
    only[i] = pw_phase_of(&c->job->opening[i]) <= phase;
  pw_status status = pw_compare_price(c->job, &c->rated, p, &scope, &price, err);
  *dollars = status == PW_OK ? price.value : 0.0;
  return status;
}

/* What one phase does, from the set before it to the set after; *paid: $ of the phases before, then with it. */
static pw_status step_of(const pw_compare *c, size_t p, int phase, const compare_trial *before,
                         const compare_trial *after, double *paid, pw_phase_step *step,
                         int *paid_once, pw_err *err)
{
  const pw_price_scope scope = {.phase = phase};
  pw_price alone;
  double all = 0.0;
  pw_status status = pw_saving_of(&before->lived.needs, &before->bill, &after->lived.needs,
                                  &after->bill, 0.0, &step->saving, err);
  if (status == PW_OK) status = price_up_to(c, p, phase, &all, err);
  if (status == PW_OK) status = pw_compare_price(c->job, &c->rated, p, &scope, &alone, err);
  if (status != PW_OK) return status;
  pw_saving_hold(&c->billed.package_set[p].saving, &step->saving);
  step->price = all - *paid;
  *paid = all;
  *paid_once |= alone.value - step->price > 0.005;
  step->heating_kwh = after->lived.year.heating_kwh;
  step->cooling_kwh = after->lived.year.cooling_kwh;
  step->cost_year = after->bill.cost_year;
  step->payback = !(step->price > 0.0)           ? (double)NAN
                  : step->saving.cost_year > 0.0 ? step->price / step->saving.cost_year
                                                 : (double)INFINITY;
  return PW_OK;
}

pw_status pw_compare_phases_of(const pw_compare *c, const pw_weather *weather,
                               const pw_compare_options *options, pw_year_workspace *workspace,
                               pw_compare_phases *out, pw_err *err)
{
  *out = (pw_compare_phases){0};
  list_phases(c, out);
  if (out->n_phase < 2) return PW_OK;
  desk *d = calloc(1, sizeof *d);
  pw_status status = d ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the phases");
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    double paid = 0.0;
    d->before = (compare_trial){c->lived.existing_set, c->billed.existing_set.bill};
    for (size_t k = 0; status == PW_OK && k < out->n_phase; k++) {
      if (k + 1 < out->n_phase)
        status = live_after(c, p, out->number[k], weather, options, workspace, d, err);
      else /* the last phase is the whole */
        d->after = (compare_trial){c->lived.package_set[p], c->billed.package_set[p].bill};
      if (status == PW_OK)
        status = step_of(c, p, out->number[k], &d->before, &d->after, &paid, &out->step[p][k],
                         &out->paid_once, err);
      d->before = d->after;
    }
    if (status != PW_OK) pw_compare_blame(status, err, "package", c->rated.package_set[p].name);
  }
  free(d);
  return status;
}
