#include "odd_bills.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "limits.h"

/* Scatter below this share of the mean is the rounding of the figures, not a house. */
static const double ROUNDING = 5e-4;

pw_status odd_bill(const pw_change_data *data, unsigned char leave_out[], int may_cool,
                   odd_one *odd, pw_err *err)
{
  *odd = (odd_one){0};
  for (size_t k = 0; k < data->n; k++) {
    pw_change_fit fit;
    if (leave_out[k]) continue;
    leave_out[k] = 1;
    pw_status status = pw_change_point_choose(data, leave_out, may_cool, &fit, NULL, err);
    leave_out[k] = 0;
    if (status == PW_E_SHAPE) return PW_OK; /* too few to judge one by the others */
    if (status != PW_OK) return status;
    double said = pw_change_point_at(&fit, data, k);
    double off = (data->per_day[k] - said) / fmax(fit.s, ROUNDING * fit.mean);
    if (fabs(off) > fabs(odd->t)) *odd = (odd_one){k, off, said, fit.mean};
  }
  return PW_OK;
}

pw_status odd_break(const pw_change_data *data, const unsigned char leave_out[],
                    pw_change_model model, size_t *k, double *f, double *shift, pw_err *err)
{
  pw_change_fit all, side[2];
  unsigned char *out = malloc(2 * data->n);
  const size_t side_least = (size_t)METER_LIMIT(break_side);
  *k = 0;
  *f = *shift = 0.0;
  if (!out) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", data->n);
  pw_status status = pw_change_point_fit(data, leave_out, model, &all, err);
  for (size_t b = 1; status == PW_OK && b < data->n; b++) {
    size_t count[2] = {0, 0};
    for (size_t i = 0; i < data->n; i++) {
      int later = i >= b;
      out[i] = leave_out[i] || later;
      out[data->n + i] = leave_out[i] || !later;
      if (!leave_out[i]) count[later]++;
    }
    if (leave_out[b] || count[0] < side_least || count[1] < side_least) continue;
    for (int s = 0; status == PW_OK && s < 2; s++)
      status = pw_change_point_fit(data, out + (size_t)s * data->n, model, &side[s], err);
    if (status == PW_E_SHAPE) {
      status = PW_OK;
      continue;
    }
    if (status != PW_OK) break;
    double sse = side[0].sse + side[1].sse, p = (double)all.p;
    double floor = ROUNDING * all.mean;
    sse = fmax(sse, floor * floor * (double)all.n);
    double ratio = ((all.sse - sse) / p) / (sse / ((double)all.n - 2.0 * p));
    if ((double)all.n > 2.0 * p && ratio > *f) {
      *f = ratio;
      *k = b;
      *shift = sqrt(fmax(all.sse - sse, 0.0) / (double)all.n) / all.mean;
    }
  }
  free(out);
  return status;
}
