/* The reduced year: a surface in place of house years; what is known of its error. */
#include "study/range_reduced.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* $ of a kWh of need, heating and cooling, in the existing bill. */
static void need_prices(const pw_compare *c, double price[2])
{
  const pw_compare_set e = pw_compare_set_of(c, PW_SET_EXISTING);
  double need[2] = {0.0, 0.0};
  for (size_t m = 0; m < 12; m++) {
    need[0] += e.lived->needs.heating_kwh[m];
    need[1] += e.lived->needs.cooling_kwh[m];
  }
  price[0] = need[0] > 0.0 ? e.billed->bill.heating_cost / need[0] : 0.0;
  price[1] = need[1] > 0.0 ? e.billed->bill.cooling_cost / need[1] : 0.0;
}

pw_status range_reduced_fit(range_reduced *r, const pw_sobol *sobol, const double year[],
                            size_t n_run, pw_err *err)
{
  const range_case *rc = r->rc;
  size_t n_out = rc->n_set * RANGE_MONTHS;
  double *z = calloc(n_run * rc->n_year, sizeof *z), *focus = calloc(n_out, sizeof *focus);
  double *y = malloc(n_run * n_out * sizeof *y);
  pw_status status = PW_OK;
  if (!z || !focus || !y) status = pw_fail(err, PW_E_NOMEM, "draws", "no memory for the fit");
  for (size_t i = 0; status == PW_OK && i < n_run; i++) {
    double u[2 * IN_COUNT], v[IN_COUNT];
    pw_sobol_point(sobol, i, u);
    range_values(rc, u, v);
    range_scaled(rc, v, z + i * rc->n_year);
    memcpy(y + i * n_out, year + i * n_out, n_out * sizeof *y);
    range_forms_add(rc, r->forms, v, -1.0, y + i * n_out);
  }
  if (status == PW_OK) {
    double price[2];
    need_prices(rc->compare, price);
    for (size_t o = 0; o < n_out; o++) {
      double p = price[o % RANGE_MONTHS >= 12];
      focus[o] = p * p;
    }
    status = surface_fit(z, y, n_run, rc->n_year, n_out, focus, &r->surface, err);
  }
  free(z);
  free(focus);
  free(y);
  return status;
}

void range_reduced_errors(const range_reduced *r, pw_range *range)
{
  const surface *s = &r->surface;
  double price[2];
  need_prices(r->rc->compare, price);
  for (size_t p = 0; p < range->n_package; p++) {
    double sum = 0.0;
    for (size_t i = 0; i < s->n_run; i++) {
      const double *old = s->left_out + i * s->n_out, *new = old + (p + 1) * RANGE_MONTHS;
      double e = 0.0;
      for (size_t m = 0; m < 12; m++)
        e += (old[m] - new[m]) * price[0] + (old[12 + m] - new[12 + m]) * price[1];
      sum += e * e;
    }
    range->package[p].surface_error = sqrt(sum / (double)s->n_run);
  }
}

void range_reduced_year(const range_reduced *r, const double v[IN_COUNT], double year[])
{
  double z[IN_YEAR];
  range_scaled(r->rc, v, z);
  surface_at(&r->surface, z, year);
  range_forms_add(r->rc, r->forms, v, 1.0, year);
}

pw_status range_reduced_fan(const range_reduced *r, const double v[IN_COUNT],
                            const double other[IN_COUNT], double saving[], pw_err *err)
{
  const range_case *rc = r->rc;
  const size_t np = rc->n_set - 2;
  double z[IN_YEAR], z_other[IN_YEAR], at[RANGE_SETS * RANGE_MONTHS], moved[IN_COUNT];
  double year[RANGE_SETS * RANGE_MONTHS];
  range_scaled(rc, v, z);
  range_scaled(rc, other, z_other);
  surface_at(&r->surface, z, at);
  memcpy(moved, v, sizeof moved);
  pw_status s = PW_OK;
  for (size_t k = 0; k < rc->n_in && s == PW_OK; k++) {
    const size_t i = rc->which[k];
    if (k < rc->n_year)
      surface_moved(&r->surface, z, at, k, z_other[k], year);
    else
      memcpy(year, at, rc->n_set * RANGE_MONTHS * sizeof *year);
    moved[i] = other[i];
    range_forms_add(rc, r->forms, moved, 1.0, year);
    s = range_savings_at(rc, moved, year, saving + k * np, err);
    moved[i] = v[i];
  }
  return s;
}
