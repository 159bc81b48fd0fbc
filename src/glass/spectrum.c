#include "glass/spectrum.h"

#include <math.h>

#include "base/own_math.h"
#include "base/table.h"
#include "gen/reference.h"
#include "panewright/units.h"

_Static_assert((int)pw_ref_optics_spectral_weights_95__n == (int)PW_GRID,
               "a row a wavelength of the grid");

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

/* CIE 015: tristimulus weights by a plain sum in 10 nm steps, 380 to 780 nm, which the grid and D65 (5 nm) both have. */
static void colour_weights(pw_spectrum *s)
{
  const pw_ref_optics_spectral_cie_d65_row *light = pw_ref_optics_spectral_cie_d65;
  double sum = 0.0;
  size_t i = 0;
  for (size_t row = 0; row < pw_ref_optics_spectral_cie_1931_10nm__n; row++) {
    const pw_ref_optics_spectral_cie_1931_10nm_row *eye =
        &pw_ref_optics_spectral_cie_1931_10nm[row];
    while (s->nm[i] < eye->wavelength_nm)
      i++;
    while (light->wavelength_nm < eye->wavelength_nm)
      light++;
    s->w[PW_W_X][i] = light->S * eye->x;
    s->w[PW_W_Y][i] = light->S * eye->y;
    s->w[PW_W_Z][i] = light->S * eye->z;
    sum += s->w[PW_W_Y][i];
  }
  for (int c = 0; c < 3; c++)
    for (i = 0; i < PW_GRID; i++)
      s->w[PW_W_X + c][i] /= sum;
}

void pw_spectrum_init(pw_spectrum *spectrum)
{
  pw_spectrum s = {0};
  for (size_t i = 0; i < PW_LANE; i++) {
    const pw_ref_optics_spectral_weights_95_row *r =
        &pw_ref_optics_spectral_weights_95[i < PW_GRID ? i : PW_GRID - 1];
    const double w[] = {r->w_solar_global, r->w_solar_direct,   r->w_visible_D65V,
                        r->w_uv_300_380,   r->w_damage_300_600, r->w_damage_300_500};
    s.nm[i] = r->wavelength_nm;
    for (size_t c = 0; i < PW_GRID && c < PW_W_X; c++)
      s.w[c][i] = w[c];
  }
  for (size_t c = 0; c < PW_W_X; c++)
    normalise(s.w[c]);
  colour_weights(&s);
  *spectrum = s;
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
