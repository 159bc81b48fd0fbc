#include "study/rebate.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "study/compare_price.h"
#include "window/opening_label.h"

static int meets(const pw_program_result *r)
{
  return r->verdict == PW_VERDICT_MEETS || r->verdict == PW_VERDICT_NO_DATE;
}

static pw_status judge(const pw_compare *c, size_t p, size_t i, const pw_program *program,
                       const char *zone, pw_date date, pw_program_result *result, pw_err *err)
{
  pw_label_row row;
  pw_status s = pw_opening_label(c->job, p, &c->job->opening[i], &row, err);
  if (s != PW_OK) return s;
  const pw_label label = pw_label_of(&row);
  return pw_program_judge(program, zone, &label, date, result, err);
}

/* Before another result stands what is met by more windows, then a failure, then a missing label. */
static int stands_before(const pw_program_result *a, int windows_a, const pw_program_result *b,
                         int windows_b)
{
  if (meets(a) != meets(b)) return meets(a);
  if (meets(a)) return windows_a > windows_b;
  return a->verdict == PW_VERDICT_FAILS && b->verdict != PW_VERDICT_FAILS;
}

static int alike(const pw_program_result *a, const pw_program_result *b)
{
  return a->verdict == b->verdict && strcmp(a->group, b->group) == 0;
}

/* Whether a program looks at an opening at all; inside: only at rooms that are heated or cooled. */
static int claims(const pw_compare *c, int inside, size_t i)
{
  const pw_price_scope scope = {.conditioned = inside};
  return pw_price_covers(c->job, i, &scope);
}

/* Windows whose label comes to the same as one; all[] is of those that are claimed. */
static int windows_like(const pw_compare *c, int inside, const pw_program_result all[],
                        const pw_program_result *one)
{
  int windows = 0;
  for (size_t i = 0; i < c->n_opening; i++)
    if (claims(c, inside, i) && alike(one, &all[i])) windows += c->job->opening[i].quantity;
  return windows;
}

pw_status pw_rebate_count_of(const pw_compare *c, size_t p, const pw_program *program,
                             const char *zone, pw_date date, pw_rebate_count *count,
                             pw_err *err)
{
  pw_rebate_count k = {0};
  pw_program_result one[PW_WINDOWS_MAX] = {0};
  const pw_program_result *best = NULL;
  int most = 0, other_group = 0;
  int inside = k.conditioned = pw_program_conditioned(program, zone, date);
  pw_status s = PW_OK;
  for (size_t i = 0; s == PW_OK && i < c->n_opening; i++)
    if (claims(c, inside, i)) s = judge(c, p, i, program, zone, date, &one[i], err);
  for (size_t i = 0; s == PW_OK && i < c->n_opening; i++) {
    if (!claims(c, inside, i)) continue;
    int windows = windows_like(c, inside, one, &one[i]);
    if (best && !stands_before(&one[i], windows, best, most)) continue;
    best = &one[i];
    most = windows;
  }
  if (s == PW_OK && !best) { /* nothing to claim: any opening tells of the program */
    s = judge(c, p, c->n_opening - 1, program, zone, date, one, err);
    best = one;
  }
  if (s != PW_OK) return s;
  k.result = *best;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!claims(c, inside, i)) continue;
    k.counted[i] = (unsigned char)(!meets(best) || alike(&one[i], best));
    k.n += k.counted[i] ? c->job->opening[i].quantity : 0;
    k.of += c->job->opening[i].quantity;
    other_group |= !k.counted[i] && meets(&one[i]);
  }
  if (k.of == 0) {
    k.result.verdict = PW_VERDICT_FAILS;
    k.result.says = PW_SAYS_PLAIN(PW_SAY_NOTHING_TO_CLAIM);
  } else if (k.n < k.of) {
    k.result.counted =
        PW_SAYS(other_group ? PW_SAY_COUNTED_OTHER_GROUP : PW_SAY_COUNTED_OTHERS_FAIL,
                PW_INT(k.n), PW_INT(k.of));
  }
  *count = k;
  return PW_OK;
}

pw_status pw_rebate_cost(const pw_compare *c, size_t p, const pw_rebate_count *count,
                         double *cost, pw_err *err)
{
  const pw_price_scope scope = {.only = count->counted};
  pw_price price;
  pw_status s = pw_compare_price(c->job, &c->rated, p, &scope, &price, err);
  if (s == PW_OK) *cost = price.value;
  return s;
}

pw_status pw_rebate_of(const pw_compare *c, size_t package, const pw_program *program,
                       const char *zone, pw_rebate *rebate, pw_err *err)
{
  pw_date placed = 0;
  pw_rebate r = {0};
  pw_rebate_count count;
  pw_status s = pw_date_read(c->job->house.install_date, &placed, err);
  if (s == PW_OK) s = pw_rebate_count_of(c, package, program, zone, placed, &count, err);
  if (s != PW_OK) return s;
  r.result = count.result;
  s = pw_program_open(program, &r.result, err);
  if (s != PW_OK) return s;
  pw_claim claim = {0};
  s = pw_rebate_cost(c, package, &count, &claim.cost, err);
  if (s != PW_OK) return s;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!count.counted[i]) continue;
    double times = (double)c->job->opening[i].quantity;
    claim.n_opening += times;
    claim.area += times * c->rated.existing[i].rating.area;
  }
  s = pw_program_amount(program, zone, placed, &r.result, &claim, &r.amount, err);
  if (s == PW_OK) *rebate = r;
  return s;
}

pw_status pw_rebate_apply(pw_billed_set *set, const pw_rebate *rebate, pw_err *err)
{
  if (!(set->price > 0.0)) return PW_OK;
  set->invest.incentive = fmin(set->price, set->invest.incentive + rebate->amount.total);
  return pw_worth_of(&set->invest, &set->worth, err);
}
