/* The comparison, fourth stage: bills of the years, what they save, the windows' price and worth. */
#include <math.h>
#include <stdlib.h>

#include "base/date.h"
#include "study/compare_impl.h"
#include "study/compare_price.h"
#include "window/frame_line.h"

pw_status pw_compare_bill(const pw_rates *rates, const char *name, const pw_needs *needs,
                          const float *hours, pw_bill *bill, pw_err *err)
{
  pw_needs n = *needs;
  double *kwh = NULL;
  if (hours) {
    kwh = malloc(2 * sizeof *kwh * PW_HOURS);
    if (!kwh) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hours");
    for (size_t h = 0; h < 2 * PW_HOURS; h++)
      kwh[h] = (double)hours[h] / 1000.0;
    n.heating_hour_kwh = kwh;
    n.cooling_hour_kwh = kwh + PW_HOURS;
  }
  pw_status status = pw_bill_of(&n, rates, bill, err);
  free(kwh);
  return pw_compare_blame(status, err, "bill with", name);
}

pw_status pw_compare_try(const pw_compare *c, const pw_house *house, const char *name,
                         pw_house_window window[], const pw_weather *weather,
                         const pw_compare_options *options, pw_year_workspace *workspace,
                         compare_trial *trial, pw_err *err)
{
  int hourly = options->method != PW_YEAR_QUICK && pw_compare_hourly(c->billed.rates.tariff);
  float *hours = hourly ? calloc(2 * PW_HOURS, sizeof *hours) : NULL;
  const compare_lane lane = {name, window, &trial->lived, hours};
  *trial = (compare_trial){0};
  pw_status status =
      hourly && !hours
          ? pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hours")
          : pw_compare_live(c->job, house, weather, options, workspace, &lane, 1, err);
  if (status == PW_OK)
    status =
        pw_compare_bill(&c->billed.rates, name, &trial->lived.needs, hours, &trial->bill, err);
  free(hours);
  return status;
}

/* Prices and efficiencies of the house, its ducts by their season where the job says where they lie. */
static pw_status rates_of(const pw_house_facts *facts, const pw_compare_lived *lived,
                          const pw_compare_options *options, pw_rates *rates, pw_err *err)
{
  pw_status status = pw_rates_of_house(facts, options->tariff, rates, err);
  pw_given *const to[2] = {rates->heats_by_duct ? &rates->heating_duct : NULL,
                           rates->cools_by_duct ? &rates->cooling_duct : NULL};
  for (int k = 0; status == PW_OK && facts->ducts != PW_DUCTS_BLANK && k < 2; k++)
    if (to[k])
      *to[k] = (pw_given){.value = lived->duct[k].delivers,
                          .origin = PW_ORIGIN_COMPUTED,
                          .source = "ASHRAE 152 form by season, table air/ducts, from memory"};
  return status;
}

static pw_status bills(const pw_job *job, const pw_compare_rated *rated,
                       const pw_compare_lived *lived, pw_compare_billed *b, pw_err *err)
{
  const float *hours = lived->hours;
  pw_status status =
      pw_compare_bill(&b->rates, rated->existing_set.name, &lived->existing_set.needs, hours,
                      &b->existing_set.bill, err);
  if (status == PW_OK)
    status = pw_compare_bill(&b->rates, rated->minimum_set.name, &lived->minimum_set.needs,
                             hours ? hours + 2 * PW_HOURS : NULL, &b->minimum_set.bill, err);
  for (size_t p = 0; status == PW_OK && p < job->n_package; p++)
    status = pw_compare_bill(
        &b->rates, rated->package_set[p].name, &lived->package_set[p].needs,
        hours ? hours + (2 + p) * 2 * PW_HOURS : NULL, &b->package_set[p].bill, err);
  return status;
}

/* The kind of old frame that most of the openings' area has. */
static pw_frame_kind usual_frame(const pw_job *job, const pw_compare_rated *rated)
{
  double area[PW_FRAME_KIND_COUNT] = {0};
  size_t most = 0;
  for (size_t i = 0; i < job->n_opening; i++)
    if (pw_compare_replaces(job, i))
      area[job->opening[i].existing_frame] +=
          (double)job->opening[i].quantity * rated->existing[i].rating.area;
  for (size_t k = 1; k < PW_FRAME_KIND_COUNT; k++)
    if (area[k] > area[most]) most = k;
  return (pw_frame_kind)most;
}

/* The savings of a set against the existing one, held to the bill that the job gives. */
static pw_status savings(const pw_job *job, const pw_needs *needs_now, const pw_bill *bill_now,
                         double cost_before, const pw_needs *needs, pw_billed_set *set,
                         pw_err *err)
{
  double given = pw_given_or(&job->house.bill_year, 0.0);
  pw_status status =
      pw_saving_of(needs_now, bill_now, needs, &set->bill, given, &set->saving, err);
  if (status != PW_OK || !(cost_before > 0.0 && given > 0.0)) return status;
  const pw_saving held = {.bill_ratio = cost_before / given};
  set->saving.notes &= ~(unsigned)(PW_BILL_SCALED | PW_BILL_FAR_FROM_GIVEN);
  pw_saving_hold(&held, &set->saving);
  return PW_OK;
}

static pw_status price_and_worth(const pw_job *job, const pw_compare_rated *rated,
                                 const pw_compare_lived *lived,
                                 const pw_compare_options *options, double cost_before,
                                 pw_compare_billed *b, pw_err *err)
{
  const pw_house_facts *facts = &job->house;
  const pw_needs *now = &lived->existing_set.needs, *minimum = &lived->minimum_set.needs;
  pw_date placed = 0;
  pw_status dated = pw_date_read(facts->install_date, &placed, err);
  if (dated != PW_OK) return dated;
  b->residual_life =
      pw_residual_life(usual_frame(job, rated), facts->year_built, placed / 10000);
  for (size_t p = 0; p < job->n_package; p++) {
    pw_billed_set *set = &b->package_set[p];
    const pw_needs *needs = &lived->package_set[p].needs;
    const pw_package *package = &job->package[p];
    pw_status status = savings(job, now, &b->existing_set.bill, cost_before, needs, set, err);
    if (status == PW_OK)
      status = pw_saving_of(minimum, &b->minimum_set.bill, needs, &set->bill, 0.0,
                            &set->saving_minimum, err);
    if (status == PW_OK) pw_saving_hold(&set->saving, &set->saving_minimum);
    if (status == PW_OK) status = pw_compare_price(job, rated, p, NULL, &set->parts, err);
    if (status == PW_OK) set->price = set->parts.value;
    if (status == PW_OK && set->price > 0.0) {
      const pw_frame_line *line =
          pw_frame_line_pick(job->frame_line, job->n_frame_line, package->frame_line,
                             job->opening[0].operator_insert);
      set->invest = (pw_invest){
          .price = set->price,
          .incentive = fmin(options->incentive[p], set->price),
          .saving_year = set->saving.cost_year,
          .residual = b->residual_life.value,
          .escalation = pw_given_or(&facts->escalation, 0.0),
          .discount = pw_given_or(&facts->discount, 0.0),
          .horizon = pw_positive_or(&facts->horizon_years, PW_YEARS_DEFAULT),
          .life = pw_positive_or(&facts->window_life_years,
                                 pw_window_life(line ? line->kind : PW_FRAME_VINYL).value),
      };
      status = pw_worth_of(&set->invest, &set->worth, err);
    }
    if (status != PW_OK) return pw_compare_blame(status, err, "package", package->name);
  }
  return savings(job, now, &b->existing_set.bill, cost_before, minimum, &b->minimum_set, err);
}

pw_status pw_compare_make_billed(const pw_job *job, const pw_compare_rated *rated,
                                 const pw_compare_lived *lived, const pw_weather *weather,
                                 const pw_compare_options *options,
                                 pw_year_workspace *workspace, pw_compare_billed *b,
                                 pw_err *err)
{
  double cost_before = 0.0;
  pw_status status = rates_of(&job->house, lived, options, &b->rates, err);
  if (status == PW_OK) status = bills(job, rated, lived, b, err);
  if (status == PW_OK && pw_compare_is_later(job))
    status = pw_compare_cost_before(job, weather, options, workspace, &cost_before, err);
  if (status != PW_OK) return status;
  return price_and_worth(job, rated, lived, options, cost_before, b, err);
}
