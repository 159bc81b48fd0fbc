#include "frame/hollow.h"

#include <math.h>

#include "base/air.h"
#include "base/own_math.h"
#include "panewright/units.h"

/* Long-wave exchange of a rectangle's two facing sides, with the other two re-radiating. */
static double view(double depth, double breadth)
{
  double r = depth / breadth;
  return 0.5 * (1.0 + sqrt(1.0 + r * r) - r);
}

/* ISO 10077-2:2012 clause 6: C1 = 0.025, C2 = 0.73; METHODS.md 3 [S3]. */
static double iso10077(const pw_hollow *h)
{
  double conduction = 0.025 / h->depth;
  double h_a = h->breadth < 0.005 ? conduction : fmax(conduction, 0.73 * pw_root3(h->dt));
  double e = 1.0 / (1.0 / h->emit[0] + 1.0 / h->emit[1] - 1.0);
  double h_r = 4.0 * PW_SIGMA * pw_power(h->t_mean, 3.0) * e * view(h->depth, h->breadth);
  return h->depth * (h_a + h_r);
}

/* Air at t, ideal gas at 101325 Pa. */
static double rayleigh(const pw_hollow *h, double *lambda)
{
  static const pw_gas_fit air = PW_AIR_FIT;
  double t = h->t_mean;
  *lambda = air.k_a + air.k_b * t;
  double mu = air.mu_a + air.mu_b * t, c_p = air.cp_a + air.cp_b * t;
  double rho = 101325.0 * air.molar / (PW_GAS_CONSTANT * t);
  return rho * rho * pw_power(h->depth, 3.0) * PW_GRAVITY * c_p * h->dt / (t * mu * *lambda);
}

/* Shallow hollows: Bejan and Tien (1978), the asymptotes 1/362880 = 2.756e-6 and 0.623. Tall ones:
 * ElSherbiny, Raithby and Hollands (1982). Between 0.5 and 5 linear. ISO 15099 clause 6.6 joins
 * them so; its wording is from memory. */
static double nusselt_shallow(double ra, double aspect)
{
  double a = 2.756e-6 * ra * ra * pw_power(aspect, 8.0),
         b = 0.623 * pw_power(ra, 0.2) * pw_power(aspect, -0.4);
  if (!(a > 0.0)) return 1.0; /* still air, or so little that a is 0 */
  return 1.0 + pw_power(pw_power(a, -0.386) + pw_power(b, -0.386), -2.59);
}

static double nusselt_tall(double ra, double aspect)
{
  if (!(ra > 0.0)) return 1.0;
  double a = pw_root3(
      1.0 + pw_power(0.104 * pw_power(ra, 0.293) / (1.0 + pw_power(6310.0 / ra, 1.36)), 3.0));
  double b = 0.242 * pw_power(ra / aspect, 0.273), c = 0.0605 * pw_root3(ra);
  return fmax(a, fmax(b, c));
}

static double iso15099(const pw_hollow *h)
{
  double lambda, ra = rayleigh(h, &lambda);
  double aspect = h->tall ? 20.0 : h->breadth / h->depth; /* a jamb's hollow is as tall as it */
  double nu = aspect <= 0.5   ? nusselt_shallow(ra, aspect)
              : aspect >= 5.0 ? nusselt_tall(ra, aspect)
                              : nusselt_shallow(ra, 0.5) +
                                    (nusselt_tall(ra, 5.0) - nusselt_shallow(ra, 0.5)) *
                                        (aspect - 0.5) / 4.5;
  double f = view(h->depth, h->breadth);
  double h_r = 4.0 * PW_SIGMA * pw_power(h->t_mean, 3.0) /
               (1.0 / h->emit[0] + 1.0 / h->emit[1] - 2.0 + 1.0 / f);
  return h->depth * (nu * lambda / h->depth + h_r);
}

pw_status pw_hollow_conductivity(const pw_hollow *hollow, pw_hollow_method method,
                                 double *conductivity, pw_err *err)
{
  if (!(hollow->depth > 0.0 && hollow->depth < 100.0))
    return pw_fail(err, PW_E_DOMAIN, "depth", "hollow depth %g m, want 0 to 100",
                   hollow->depth);
  if (!(hollow->breadth > 0.0 && hollow->breadth < 100.0))
    return pw_fail(err, PW_E_DOMAIN, "breadth", "hollow breadth %g m, want 0 to 100",
                   hollow->breadth);
  if (!(hollow->dt >= 0.0 && hollow->dt < 200.0))
    return pw_fail(err, PW_E_DOMAIN, "dt", "%g K across a hollow, want 0 to 200", hollow->dt);
  if (!(hollow->t_mean > 150.0 && hollow->t_mean < 450.0))
    return pw_fail(err, PW_E_DOMAIN, "t_mean", "hollow at %g K, want 150 to 450",
                   hollow->t_mean);
  for (int i = 0; i < 2; i++)
    if (!(hollow->emit[i] > 0.0 && hollow->emit[i] <= 1.0))
      return pw_fail(err, PW_E_DOMAIN, "emit", "emissivity %g, want 0 to 1", hollow->emit[i]);
  *conductivity = method == PW_HOLLOW_ISO15099 ? iso15099(hollow) : iso10077(hollow);
  return PW_OK;
}
