#include "panewright/rebate.h"

#include <math.h>

#include "panewright/compare_price.h"
#include "panewright/opening_package.h"

pw_status pw_rebate_openings(const pw_compare *c, size_t package, const pw_program *program,
                             const char *zone, unsigned char only[], pw_err *err)
{
  pw_date placed = 0;
  pw_status status = pw_date_read(c->job->house.install_date, &placed, err);
  for (size_t i = 0; status == PW_OK && i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    only[i] = o->standing == PW_REPLACED && !o->unconditioned;
    if (!only[i] || !pw_opening_has_own(o)) continue;
    pw_package own;
    pw_program_result result;
    pw_opening_package(c->job, package, o, &own);
    pw_label label = pw_label_of(&own);
    status = pw_program_judge(program, zone, &label, placed, &result, err);
    only[i] = result.verdict == PW_VERDICT_MEETS || result.verdict == PW_VERDICT_NO_DATE;
  }
  return status;
}

pw_status pw_rebate_of(const pw_compare *c, size_t package, const pw_program *program,
                       const char *zone, pw_rebate *rebate, pw_err *err)
{
  pw_date placed = 0;
  pw_rebate r = {0};
  pw_label label = pw_label_of(&c->job->package[package]);
  pw_status s = pw_date_read(c->job->house.install_date, &placed, err);
  if (s == PW_OK) s = pw_program_judge(program, zone, &label, placed, &r.result, err);
  if (s != PW_OK) return s;
  if (r.result.verdict == PW_VERDICT_ENDED || r.result.verdict == PW_VERDICT_EARLY)
    return pw_fail(err, PW_E_DOMAIN, "program", "%.100s: %.240s", program->file, r.result.text);
  unsigned char only[PW_WINDOWS_MAX];
  pw_price price;
  const pw_price_scope scope = {.only = only};
  s = pw_rebate_openings(c, package, program, zone, only, err);
  if (s == PW_OK) s = pw_compare_price(c, package, &scope, &price, err);
  if (s != PW_OK) return s;
  pw_claim claim = {.n_opening = price.n_opening, .area = price.area, .cost = price.value};
  s = pw_program_amount(program, zone, placed, &r.result, &claim, &r.amount, err);
  if (s == PW_OK) *rebate = r;
  return s;
}

pw_status pw_rebate_apply(pw_compare *c, size_t package, const pw_rebate *rebate, pw_err *err)
{
  pw_compare_set *set = &c->package_set[package];
  if (!(set->price > 0.0)) return PW_OK;
  set->invest.incentive = fmin(set->price, set->invest.incentive + rebate->amount.total);
  return pw_worth_of(&set->invest, &set->worth, err);
}
