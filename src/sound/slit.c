#include "sound/slit.h"

#include <complex.h>
#include <math.h>

#include "panewright/units.h"

/* Air between two plates, 20 C: rho/mu, s/m2. */
static const double rho_over_mu = 1.205 / 1.81e-5;

static double rubbed(double width, double f)
{
  double complex s = 0.5 * width * csqrt(I * 2.0 * PW_PI * f * rho_over_mu);
  if (cabs(s) > 30.0) return 1.0; /* tanh is 1 there; its exponentials would overflow */
  double complex free = 1.0 - ctanh(s) / s;
  return creal(free) * creal(free) + cimag(free) * cimag(free);
}

double pw_slit_tau(const pw_slit *slit, double f, double c)
{
  double k = 2.0 * PW_PI * f * slit->width / c, x = slit->depth / slit->width;
  double e = (log(8.0 / k) - 0.57722) / PW_PI;
  double m = slit->normal ? 4.0 : 8.0, n = slit->mid ? 1.0 : 0.5;
  double ke = cos(k * e), s = sin(k * x + 2.0 * k * e);
  double end = 1.0 + cos(k * x) * cos(k * x + 2.0 * k * e);
  /* Both sides times cos^2(Ke), so that nothing is divided by it. */
  double tau = m * k * ke * ke * ke * ke /
               (2.0 * n * n * (s * s + k * k * ke * ke / (2.0 * n * n) * end));
  return slit->friction ? tau * rubbed(slit->width, f) : tau;
}
