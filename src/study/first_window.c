#include "study/first_window.h"

#include <stdlib.h>

#include "panewright/bill.h"
#include "study/compare_price.h"

static int counts(const pw_compare *c, size_t i)
{
  return pw_compare_replaces(c->job, i) && !c->job->opening[i].unconditioned;
}

/* $ for a kWh of the windows' parts, so that they add up to what the house saves; where the two have not one sign, what the
 * existing windows' bill pays for a kWh of need. */
static double rate(double saved, double parts, double cost, double need)
{
  if (saved * parts > 0.0) return saved / parts;
  return need > 0.0 ? cost / need : 0.0;
}

static double heating_part(const pw_lived_set *old, const pw_lived_set *set, size_t i)
{
  return old->year.window[i].heating_part_kwh - set->year.window[i].heating_part_kwh;
}

static double cooling_part(const pw_lived_set *old, const pw_lived_set *set, size_t i)
{
  return old->year.window[i].cooling_part_kwh - set->year.window[i].cooling_part_kwh;
}

static pw_status price_without(const pw_compare *c, size_t p, size_t i, double *value,
                               pw_err *err)
{
  unsigned char only[PW_WINDOWS_MAX];
  pw_price price;
  for (size_t k = 0; k < c->n_opening; k++)
    only[k] = k != i;
  const pw_price_scope scope = {.only = only};
  pw_status status = pw_compare_price(c->job, &c->rated, p, &scope, &price, err);
  *value = status == PW_OK ? price.value : 0.0;
  return status;
}

pw_status pw_first_windows(const pw_compare *c, size_t p, pw_first_window first[], size_t *n,
                           pw_err *err)
{
  const pw_lived_set *old = &c->lived.existing_set, *set = &c->lived.package_set[p];
  const pw_billed_set *billed = &c->billed.package_set[p];
  const pw_bill *now = &c->billed.existing_set.bill, *then = &billed->bill;
  double share = pw_bill_share(billed->saving.bill_ratio), heat = 0.0, cool = 0.0;
  for (size_t i = 0; i < c->n_opening; i++)
    if (counts(c, i)) {
      heat += heating_part(old, set, i);
      cool += cooling_part(old, set, i);
    }
  heat = rate(now->heating_cost - then->heating_cost, heat, now->heating_cost,
              old->year.heating_kwh);
  cool = rate(now->cooling_cost - then->cooling_cost, cool, now->cooling_cost,
              old->year.cooling_kwh);
  *n = 0;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!counts(c, i)) continue;
    pw_first_window *w = &first[*n];
    *w = (pw_first_window){.opening = i};
    w->saving = share * (heat * heating_part(old, set, i) + cool * cooling_part(old, set, i));
    if (billed->price > 0.0) {
      double rest = 0.0;
      pw_status status = price_without(c, p, i, &rest, err);
      if (status != PW_OK) return status;
      w->price = billed->price - rest;
    }
    ++*n;
  }
  return PW_OK;
}

static double worth(const pw_first_window *w)
{
  return w->price > 0.0 ? w->saving / w->price : w->saving;
}

void pw_first_windows_sort(pw_first_window first[], size_t n)
{
  for (size_t i = 1; i < n; i++) {
    pw_first_window w = first[i];
    size_t k = i;
    for (; k > 0 && worth(&first[k - 1]) < worth(&w); k--)
      first[k] = first[k - 1];
    first[k] = w;
  }
}

pw_status pw_first_package(const pw_compare *c, size_t *package, pw_err *err)
{
  pw_first_window *first = malloc(c->n_opening * sizeof *first);
  pw_status status = first ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory");
  double best = 0.0;
  int found = 0;
  *package = 0;
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    size_t n = 0;
    double saving = 0.0, price = 0.0;
    status = pw_first_windows(c, p, first, &n, err);
    for (size_t k = 0; k < n; k++) {
      saving += first[k].saving;
      price += first[k].price;
    }
    if (!(price > 0.0) || (found && saving / price <= best)) continue;
    best = saving / price;
    *package = p;
    found = 1;
  }
  free(first);
  return status;
}
