#include "study/street.h"

#include <stdlib.h>

pw_status pw_street_house_new(pw_street_house *house, uint64_t key, size_t n_draw,
                              size_t n_package, pw_err *err)
{
  *house = (pw_street_house){.key = key, .n_draw = n_draw, .n_package = n_package};
  house->cost = calloc(n_draw, sizeof *house->cost);
  house->package = calloc(n_package * PW_STREET_FIGURES * n_draw, sizeof *house->package);
  if (house->cost && house->package) return PW_OK;
  pw_street_house_free(house);
  return pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n_draw);
}

void pw_street_house_free(pw_street_house *house)
{
  if (!house) return;
  free(house->cost);
  free(house->package);
  *house = (pw_street_house){0};
}

pw_status pw_street_sum_new(pw_street_sum *sum, size_t n_draw, pw_err *err)
{
  *sum = (pw_street_sum){.n_draw = n_draw, .draw = calloc(n_draw, sizeof *sum->draw)};
  return sum->draw ? PW_OK
                   : pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n_draw);
}

void pw_street_sum_free(pw_street_sum *sum)
{
  if (!sum) return;
  free(sum->draw);
  *sum = (pw_street_sum){0};
}

pw_status pw_street_sum_add(pw_street_sum *sum, const double value[], double work[],
                            pw_err *err)
{
  pw_band own;
  pw_status s = pw_band_of(value, 1, sum->n_draw, NULL, work, &own, err);
  if (s != PW_OK) return s;
  for (size_t i = 0; i < sum->n_draw; i++)
    sum->draw[i] += value[i];
  sum->n_house++;
  sum->low += own.p10;
  sum->high += own.p90;
  sum->variance_alone += own.sd * own.sd;
  return PW_OK;
}

pw_status pw_street_sum_band(const pw_street_sum *sum, double work[], pw_band *band,
                             pw_err *err)
{
  if (sum->n_house == 0) return pw_fail(err, PW_E_SHAPE, "street", "no house to sum up");
  return pw_band_of(sum->draw, 1, sum->n_draw, NULL, work, band, err);
}
