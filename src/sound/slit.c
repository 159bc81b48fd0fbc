#include "panewright/slit.h"

#include <math.h>

#include "panewright/units.h"

double pw_slit_tau(const pw_slit *slit, double f, double c)
{
  double k = 2.0 * PW_PI * f * slit->width / c, x = slit->depth / slit->width;
  double e = (log(8.0 / k) - 0.57722) / PW_PI;
  double m = slit->normal ? 4.0 : 8.0, n = slit->mid ? 1.0 : 0.5;
  double ke = cos(k * e), s = sin(k * x + 2.0 * k * e);
  double end = 1.0 + cos(k * x) * cos(k * x + 2.0 * k * e);
  /* Both sides times cos^2(Ke), so that nothing is divided by it. */
  return m * k * ke * ke * ke * ke /
         (2.0 * n * n * (s * s + k * k * ke * ke / (2.0 * n * n) * end));
}
