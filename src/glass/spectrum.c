#include "glass/spectrum.h"

#include <math.h>

#include "base/own_math.h"
#include "base/table.h"
#include "panewright/units.h"

static const char *const weight_column[] = {"w_solar_global",   "w_solar_direct",
                                            "w_visible_D65V",   "w_uv_300_380",
                                            "w_damage_300_600", "w_damage_300_500"};
enum { N_COLUMN = sizeof weight_column / sizeof weight_column[0] };

double pw_spectrum_mean(const pw_spectrum *spectrum, pw_weight weight, const double v[PW_LANE])
{
  const double *w = spectrum->w[weight];
  double s[8] = {0}; /* eight partial sums in a fixed order, so that the loop vectorises */
  for (size_t i = 0; i < PW_LANE; i += 8)
    for (size_t j = 0; j < 8; j++)
      s[j] += w[i + j] * v[i + j];
  return ((s[0] + s[4]) + (s[1] + s[5])) + ((s[2] + s[6]) + (s[3] + s[7]));
}

/* The printed weights are rounded: bring their sum back to 1. */
static void normalise(double w[PW_LANE])
{
  double sum = 0.0;
  for (size_t i = 0; i < PW_LANE; i++)
    sum += w[i];
  for (size_t i = 0; i < PW_LANE && sum > 0.0; i++)
    w[i] /= sum;
}

/* Linear value of a two-column table at x; flat beyond the ends. */
static double table_at(const pw_table *table, int col, double x)
{
  size_t i = 1;
  while (i + 1 < table->n_row && pw_table_number(table, i, 0) < x)
    i++;
  double x0 = pw_table_number(table, i - 1, 0), x1 = pw_table_number(table, i, 0);
  double y0 = pw_table_number(table, i - 1, col), y1 = pw_table_number(table, i, col);
  if (x <= x0) return y0;
  if (x >= x1) return y1;
  return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
}

/* CIE 015: tristimulus weights by a plain sum in 10 nm steps, 380 to 780 nm. */
static pw_status colour_weights(pw_spectrum *s, pw_err *err)
{
  const pw_table *cmf = pw_table_find("optics/spectral/cie_1931_10nm");
  const pw_table *d65 = pw_table_find("optics/spectral/cie_d65");
  if (!cmf || !d65 || d65->n_row < 2 || cmf->n_col != 4)
    return pw_fail(err, PW_E_DATA, "colour", "a colour table is missing");
  double sum = 0.0;
  size_t row = 0;
  for (size_t i = 0; i < PW_GRID && row < cmf->n_row; i++) {
    if (fabs(s->nm[i] - pw_table_number(cmf, row, 0)) > 1e-6) continue;
    double e = table_at(d65, 1, s->nm[i]);
    for (int c = 0; c < 3; c++)
      s->w[PW_W_X + c][i] = e * pw_table_number(cmf, row, c + 1);
    sum += s->w[PW_W_Y][i];
    row++;
  }
  if (row != cmf->n_row || !(sum > 0.0))
    return pw_fail(err, PW_E_DATA, "colour", "colour table and grid do not meet");
  for (int c = 0; c < 3; c++)
    for (size_t i = 0; i < PW_GRID; i++)
      s->w[PW_W_X + c][i] /= sum;
  return PW_OK;
}

pw_status pw_spectrum_init(pw_spectrum *spectrum, pw_err *err)
{
  const pw_table *table = pw_table_find("optics/spectral/weights_95");
  if (!table || table->n_row != PW_GRID)
    return pw_fail(err, PW_E_DATA, "weights", "the table of weights is not there");
  pw_spectrum s = {0};
  for (size_t i = 0; i < PW_LANE; i++)
    s.nm[i] = pw_table_number(table, i < PW_GRID ? i : PW_GRID - 1, 0);
  for (size_t c = 0; c < N_COLUMN; c++) {
    int col = pw_table_column(table, weight_column[c]);
    if (col < 0) return pw_fail(err, PW_E_DATA, "weights", "no column %s", weight_column[c]);
    for (size_t i = 0; i < PW_GRID; i++)
      s.w[c][i] = pw_table_number(table, i, col);
    normalise(s.w[c]);
  }
  pw_status status = colour_weights(&s, err);
  if (status == PW_OK) *spectrum = s;
  return status;
}

void pw_spectrum_resample(const pw_spectrum *spectrum, const double nm[], const double v[],
                          size_t n, double out[PW_LANE])
{
  size_t k = 0;
  for (size_t i = 0; i < PW_LANE; i++) {
    double x = spectrum->nm[i];
    while (k + 1 < n && nm[k + 1] < x)
      k++;
    if (x <= nm[k] || k + 1 == n)
      out[i] = v[k];
    else
      out[i] = v[k] + (v[k + 1] - v[k]) * (x - nm[k]) / (nm[k + 1] - nm[k]);
  }
}

/* The line through rows row and row + 1, also used beyond the table's ends: of n (column 1) as it
 * stands, of k (column 2) in its logarithm. */
static double line(const pw_table *table, size_t row, int col, double um)
{
  double x0 = pw_table_number(table, row, 0), x1 = pw_table_number(table, row + 1, 0);
  double y0 = pw_table_number(table, row, col), y1 = pw_table_number(table, row + 1, col);
  double s = (um - x0) / (x1 - x0);
  return col == 2 ? pw_log(y0) + (pw_log(y1) - pw_log(y0)) * s : y0 + (y1 - y0) * s;
}

static double log_scale(double nm, double visible, double infrared)
{
  double s = (nm - 600.0) / 200.0;
  s = s < 0.0 ? 0.0 : s > 1.0 ? 1.0 : s;
  return (1.0 - s) * pw_log(visible) + s * pw_log(infrared);
}

pw_status pw_spectrum_glass(const pw_spectrum *spectrum, const char *table,
                            double scale_visible, double scale_infrared, double n[PW_LANE],
                            double kappa[PW_LANE], pw_err *err)
{
  const pw_table *nk = pw_table_find(table);
  if (!nk || nk->n_col != 3 || nk->n_row < 2 || !(scale_visible > 0.0) ||
      !(scale_infrared > 0.0))
    return pw_fail(err, PW_E_DATA, "kind", "no optical constants in %s", table);
  size_t row = 0;
  for (size_t i = 0; i < PW_LANE; i++) {
    double um = spectrum->nm[i] * 1e-3;
    while (row + 2 < nk->n_row && pw_table_number(nk, row + 1, 0) < um)
      row++;
    double k = pw_exp(line(nk, row, 2, um) +
                      log_scale(spectrum->nm[i], scale_visible, scale_infrared));
    n[i] = line(nk, row, 1, um);
    kappa[i] = 4.0 * PW_PI * k / (um * 1e-6);
    if (!(n[i] > 1.0 && kappa[i] >= 0.0))
      return pw_fail(err, PW_E_DATA, "kind", "%s: no value at %g um", table, um);
  }
  return PW_OK;
}
