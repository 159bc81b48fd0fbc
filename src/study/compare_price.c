#include "study/compare_price.h"

#include "window/opening_package.h"

int pw_price_covers(const pw_compare *c, size_t opening, const pw_price_scope *scope)
{
  const pw_opening *o = &c->job->opening[opening];
  if (o->standing != PW_REPLACED) return 0;
  if (!scope) return 1;
  if (scope->only && !scope->only[opening]) return 0;
  if (scope->phase > 0 && pw_phase_of(o) != scope->phase) return 0;
  return !(scope->conditioned && o->unconditioned);
}

pw_status pw_compare_price(const pw_compare *c, size_t package, const pw_price_scope *scope,
                           pw_price *price, pw_err *err)
{
  double area[PW_WINDOWS_MAX];
  int counts[PW_WINDOWS_MAX];
  for (size_t i = 0; i < c->n_opening; i++) {
    area[i] = c->existing[i].rating.area;
    counts[i] = pw_price_covers(c, i, scope) ? c->job->opening[i].quantity : 0;
  }
  return pw_price_of(c->job, package, area, counts, price, err);
}
