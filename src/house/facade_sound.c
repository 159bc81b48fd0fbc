#include "house/facade_sound.h"

#include <math.h>

#include "sound/thirds.h"

static const double t0 = 0.5;        /* s, reference reverberation time */
static const double sabine = 0.16;   /* s/m */
static const double small_area = 10; /* m2, that D_n,e is told for */

pw_status pw_facade_reduction(const pw_facade_part part[], size_t n, const double small[],
                              size_t m, double *r, double *area, pw_err *err)
{
  double sum = 0.0, through = 0.0;
  if (n == 0) return pw_fail(err, PW_E_SHAPE, "part", "no part, want at least one");
  for (size_t i = 0; i < n; i++) {
    if (!(part[i].area >= 0.0))
      return pw_fail(err, PW_E_DOMAIN, "part", "%g m2, want 0 or more", part[i].area);
    sum += part[i].area;
    if (part[i].area > 0.0) through += part[i].area * pw_sound_tau(part[i].r);
  }
  if (!(sum > 0.0)) return pw_fail(err, PW_E_DOMAIN, "area", "the facade has no area");
  for (size_t j = 0; j < m; j++)
    through += small_area * pw_sound_tau(small[j]);
  *r = -10.0 * log10(through / sum);
  *area = sum;
  return PW_OK;
}

double pw_facade_d2m(double r, double shape, double volume, double area)
{
  return r + shape + 10.0 * log10(sabine * volume / (t0 * area));
}

double pw_facade_level(double level_2m, double d2m, double reverberation)
{
  return level_2m - d2m + 10.0 * log10(reverberation / t0);
}
