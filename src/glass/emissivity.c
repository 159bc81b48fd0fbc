/* Emissivity from far-infrared reflectance. */
#include "panewright/unit.h"

/* EN 12898:2001 (from memory), the thirty wavelengths that part the radiation of a black body at 283 K
 * into equal shares, um (tests/test_unit.c holds them against Planck's law). */
static const double ordinate[] = {5.5,  6.7,  7.4,  8.1,  8.6,  9.2,  9.7,  10.2, 10.7, 11.3,
                                  11.8, 12.4, 12.9, 13.5, 14.2, 14.8, 15.6, 16.3, 17.2, 18.1,
                                  19.2, 20.3, 21.7, 23.3, 25.2, 27.7, 30.9, 35.7, 43.9, 50.0};
enum { N_ORDINATE = sizeof ordinate / sizeof ordinate[0] };

const double *pw_emissivity_ordinates(size_t *n)
{
  *n = N_ORDINATE;
  return ordinate;
}

/* Straight between the points; beyond the last its value stands, as the standard has it. */
static double at(const double nm[], const double v[], size_t n, double x)
{
  size_t k = 0;
  while (k + 1 < n && nm[k + 1] < x)
    k++;
  if (k + 1 == n) return v[k];
  return x <= nm[k] ? v[k] : v[k] + (v[k + 1] - v[k]) * (x - nm[k]) / (nm[k + 1] - nm[k]);
}

pw_status pw_emissivity_measured(const double nm[], const double t[], const double r[],
                                 size_t n, double *hemispherical, pw_err *err)
{
  if (n < 2 || !(nm[0] <= PW_FAR_FIRST_NM && nm[n - 1] >= PW_FAR_LAST_NM))
    return pw_fail(err, PW_E_DOMAIN, "wavelength_nm",
                   "far infrared from %g to %g nm is wanted for an emissivity",
                   (double)PW_FAR_FIRST_NM, (double)PW_FAR_LAST_NM);
  double sum = 0.0;
  for (size_t i = 0; i < N_ORDINATE; i++) {
    double x = 1e3 * ordinate[i];
    sum +=
        1.0 - at(nm, r, n, x) - at(nm, t, n, x); /* what is neither reflected nor let through */
  }
  double normal = sum / N_ORDINATE;
  return pw_emissivity_corrected(normal > 1.0 ? 1.0 : normal, hemispherical, err);
}
