#include "panewright/compare_price.h"

#include "panewright/opening_package.h"
#include "panewright/worth.h"

int pw_price_covers(const pw_compare *c, size_t opening, const pw_price_scope *scope)
{
  const pw_opening *o = &c->job->opening[opening];
  if (o->standing != PW_REPLACED) return 0;
  if (!scope) return 1;
  if (scope->only && !scope->only[opening]) return 0;
  if (scope->phase > 0 && pw_phase_of(o) != scope->phase) return 0;
  return !(scope->conditioned && o->unconditioned);
}

/* The openings of one row of packages.csv. */
static void count(const pw_compare *c, size_t column, size_t row, const pw_price_scope *scope,
                  pw_price *sum)
{
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    if (!pw_price_covers(c, i, scope) || pw_opening_package_row(o, column) != row) continue;
    sum->n_opening += (double)o->quantity;
    sum->area += (double)o->quantity * c->existing[i].rating.area;
  }
}

pw_status pw_compare_price(const pw_compare *c, size_t package, const pw_price_scope *scope,
                           pw_price *price, pw_err *err)
{
  *price = (pw_price){0};
  for (size_t row = 0; row < c->n_package; row++) {
    const pw_package *k = &c->job->package[row];
    pw_price one = {0};
    count(c, package, row, scope, &one);
    if (!(one.n_opening > 0.0)) continue;
    pw_status status = pw_installed_price(k->price_per_opening.value, k->price_per_area.value,
                                          one.n_opening, one.area, &one.value, err);
    if (status != PW_OK) return status;
    price->n_opening += one.n_opening;
    price->area += one.area;
    price->value += one.value;
    price->spread +=
        one.n_opening * k->price_per_opening.spread + one.area * k->price_per_area.spread;
  }
  return PW_OK;
}
