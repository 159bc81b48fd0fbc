#include "glass/cavity.h"

#include <math.h>

#include "base/air.h"
#include "base/own_math.h"
#include "panewright/units.h"

static const double gas_constant_k =
    1e3 * PW_GAS_CONSTANT; /* times 1000 g/kg, for M in g/mol */
static const double ra_crit =
    1.0626652869543193e11;       /* ISO 15099 8.3: 2.5e5 (exp(0.72 * 90))^0.2, upright */
static const double join = 0.02; /* half width, in ln Ra, of the passage between two branches */

pw_status cavity_set(cavity *c, const pw_gap *gap, double height, double pressure,
                     double emit_out, double emit_in, pw_err *err)
{
  pw_status s = gas_law_set(&gap->mix, &c->law, err);
  if (s != PW_OK) return s;
  double rho_t = pressure * c->law.molar * 1e3 / gas_constant_k; /* density times temperature */
  double l = gap->thickness;
  c->thickness = l;
  c->ra_scale = rho_t * rho_t * l * l * l * PW_GRAVITY;
  c->ln_slender = pw_log(l / height);
  c->radiation = PW_SIGMA / (1.0 / emit_out + 1.0 / emit_in - 1.0); /* ISO 15099 5.3, opaque */
  return PW_OK;
}

/* The branches of Nu1, ISO 15099 5.3.3, with their slopes in ln Ra. */
static double nu_conduction(double ln_ra, double *slope)
{
  double rise = pw_exp(2.2984755 * ln_ra - 22.46072588870592); /* 1.7596678e-10 Ra^2.2984755 */
  *slope = 2.2984755 * rise;
  return 1.0 + rise;
}
static double nu_transition(double ln_ra, double *slope)
{
  double nu = pw_exp(0.4134 * ln_ra - 3.5700658385763635); /* 0.028154 Ra^0.4134 */
  *slope = 0.4134 * nu;
  return nu;
}
static double nu_turbulent(double ln_ra, double *slope)
{
  double nu = 0.0673838 * pw_exp(ln_ra / 3.0);
  *slope = nu / 3.0;
  return nu;
}

typedef double (*nu_branch)(double ln_ra, double *slope);

/* From a to b as x goes from -join to +join. */
static double passage(nu_branch a, nu_branch b, double x, double ln_ra, double *slope)
{
  double slope_a, slope_b, nu_a = a(ln_ra, &slope_a), nu_b = b(ln_ra, &slope_b);
  double s = 0.5 * (x / join + 1.0), w = s * s * (3.0 - 2.0 * s);
  double w_slope = 6.0 * s * (1.0 - s) * 0.5 / join;
  *slope = slope_a + w * (slope_b - slope_a) + w_slope * (nu_b - nu_a);
  return nu_a + w * (nu_b - nu_a);
}

double cavity_nusselt(double ra, double ln_slender, double *slope)
{
  static const double ln_1e4 = 9.210340371976184, ln_5e4 = 10.819778284410283;
  *slope = 0.0;
  if (!(ra > 1e-6)) return 1.0;
  double ln_ra = pw_log(ra), nu1 = 0.0;
  if (ln_ra < ln_1e4 - join)
    nu1 = nu_conduction(ln_ra, slope);
  else if (ln_ra < ln_1e4 + join)
    nu1 = passage(nu_conduction, nu_transition, ln_ra - ln_1e4, ln_ra, slope);
  else if (ln_ra < ln_5e4 - join)
    nu1 = nu_transition(ln_ra, slope);
  else if (ln_ra < ln_5e4 + join)
    nu1 = passage(nu_transition, nu_turbulent, ln_ra - ln_5e4, ln_ra, slope);
  else
    nu1 = nu_turbulent(ln_ra, slope);
  double nu2 = 0.242 * pw_exp(0.272 * (ln_ra + ln_slender));
  if (nu2 <= nu1) return nu1;
  *slope = 0.272 * nu2;
  return nu2;
}

void cavity_flow(const cavity *c, double t_out, double t_in, heat_flow *flow)
{
  gas_point gas;
  double t = 0.5 * (t_out + t_in), d = t_in - t_out, slope = 0.0;
  gas_law_at(&c->law, t, &gas);
  double ra = c->ra_scale * gas.cp * fabs(d) / (gas.mu * gas.k * t * t * t);
  double nu = cavity_nusselt(ra, c->ln_slender, &slope), unit = gas.k / c->thickness;
  double ra_slope = c->law.cp_b / gas.cp - 3.0 / t - gas.mu_slope - gas.k_slope;
  double by_d = unit * (nu + slope);
  double by_t = 0.5 * d * unit * (nu * gas.k_slope + slope * ra_slope);
  double out2 = t_out * t_out, in2 = t_in * t_in;
  flow->nusselt = nu;
  flow->h_conv = nu * unit; /* ISO 15099 5.3.3: h = Nu k/L */
  flow->q = d * (flow->h_conv + c->radiation * (out2 + in2) * (t_out + t_in));
  flow->by_in = by_d + by_t + 4.0 * c->radiation * in2 * t_in;
  flow->by_out = by_d - by_t + 4.0 * c->radiation * out2 * t_out;
}

void indoor_film_flow(const gas_law *air, double height, double pressure, double t_surface,
                      double t_air, heat_flow *flow)
{
  gas_point gas;
  double d = t_air - t_surface, t = t_air - 0.25 * d; /* ISO 15099 8.3, film temperature */
  gas_law_at(air, t, &gas);
  double rho = pressure * air->molar * 1e3 / (gas_constant_k * t);
  double ra = rho * rho * height * height * height * PW_GRAVITY * gas.cp * fabs(d) /
              (gas.mu * gas.k * t);
  double power = 0.25, nu = 0.56 * sqrt(sqrt(ra));
  if (ra > ra_crit) {
    double turbulent = 0.13 * pw_root3(ra);
    nu = turbulent - 0.13 * pw_root3(ra_crit) + 0.56 * sqrt(sqrt(ra_crit));
    power = turbulent / (3.0 * nu);
  }
  double h = nu * gas.k / height;
  double by_film = 0.25 * (gas.k_slope +
                           power * (air->cp_b / gas.cp - 3.0 / t - gas.mu_slope - gas.k_slope));
  flow->nusselt = nu;
  flow->h_conv = h;
  flow->q = h * d;
  flow->by_out = h * (1.0 + power) - h * d * by_film;
  flow->by_in = h * (1.0 + power) + 3.0 * h * d * by_film;
}
