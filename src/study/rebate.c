#include "panewright/rebate.h"

#include <math.h>

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
  pw_claim claim = {.cost = c->package_set[package].price};
  for (size_t i = 0; i < c->n_opening; i++) {
    double times = (double)c->job->opening[i].quantity;
    claim.n_opening += times;
    claim.area += times * c->existing[i].rating.area;
  }
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
