#include "study/together.h"

#include <math.h>

static void add(const pw_compare_set *set, pw_together_set *sum)
{
  sum->heating_kwh += set->year.heating_kwh;
  sum->cooling_kwh += set->year.cooling_kwh;
  sum->cost += set->bill.cost_year;
  sum->saving += set->saving.cost_year;
  sum->co2_kg += set->bill.co2_kg;
  sum->saving_co2_kg += set->saving.co2_kg;
  sum->price += set->price;
  sum->incentive += set->invest.incentive;
}

void pw_together_of(const pw_compare *const compare[], size_t n, pw_together *sum)
{
  *sum = (pw_together){.n_package = compare[0]->n_package};
  for (size_t d = 0; d < n; d++) {
    const pw_compare *c = compare[d];
    add(&c->existing_set, &sum->existing);
    for (size_t p = 0; p < sum->n_package; p++)
      add(&c->package_set[p], &sum->package[p]);
    for (size_t i = 0; i < c->n_opening; i++)
      if (pw_compare_replaces(c, i)) sum->n_window += (double)c->job->opening[i].quantity;
  }
  sum->existing.payback = (double)NAN;
  for (size_t p = 0; p < sum->n_package; p++) {
    pw_together_set *s = &sum->package[p];
    s->payback = !(s->price > 0.0) ? (double)NAN
                 : s->saving > 0.0 ? (s->price - s->incentive) / s->saving
                                   : (double)INFINITY;
  }
}
