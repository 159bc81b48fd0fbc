#include "study/together.h"

#include <math.h>

static void add(pw_compare_set set, pw_together_set *sum)
{
  sum->heating_kwh += set.lived->year.heating_kwh;
  sum->cooling_kwh += set.lived->year.cooling_kwh;
  sum->cost += set.billed->bill.cost_year;
  sum->saving += set.billed->saving.cost_year;
  sum->co2_kg += set.billed->bill.co2_kg;
  sum->saving_co2_kg += set.billed->saving.co2_kg;
  sum->price += set.billed->price;
  sum->incentive += set.billed->invest.incentive;
}

void pw_together_of(const pw_compare *const compare[], size_t n, pw_together *sum)
{
  *sum = (pw_together){.n_package = compare[0]->n_package};
  for (size_t d = 0; d < n; d++) {
    const pw_compare *c = compare[d];
    add(pw_compare_set_of(c, PW_SET_EXISTING), &sum->existing);
    for (size_t p = 0; p < sum->n_package; p++)
      add(pw_compare_set_of(c, (int)p), &sum->package[p]);
    for (size_t i = 0; i < c->n_opening; i++)
      if (pw_compare_replaces(c->job, i)) sum->n_window += (double)c->job->opening[i].quantity;
  }
  sum->existing.payback = (double)NAN;
  for (size_t p = 0; p < sum->n_package; p++) {
    pw_together_set *s = &sum->package[p];
    s->payback = !(s->price > 0.0) ? (double)NAN
                 : s->saving > 0.0 ? (s->price - s->incentive) / s->saving
                                   : (double)INFINITY;
  }
}
