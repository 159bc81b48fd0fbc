#include "house/monthly.h"

#include <math.h>

#include "base/own_math.h"

/* (1 - g^a) / (1 - g^(a+1)) without overflow for large g. */
static double use(double g, double a)
{
  if (fabs(g - 1.0) < 1e-6) return a / (a + 1.0); /* closer the powers cancel */
  double r = g <= 1.0 ? g : 1.0 / g, power = pw_power(r, a), next = power * r;
  return g <= 1.0 ? (1.0 - power) / (1.0 - next) : (r - next) / (1.0 - next);
}

double pw_month_gain_use(double gamma, double a)
{
  if (gamma < 0.0) return 1.0 / gamma; /* the losses are negative: nothing to heat */
  return use(gamma, a);                /* ISO 13790 12.2.1.1 */
}

double pw_month_loss_use(double gamma, double a)
{
  if (gamma < 0.0) return 1.0;
  if (gamma == 0.0) return 0.0;
  return use(1.0 / gamma, a); /* ISO 13790 12.2.1.2 */
}

/* ISO 52016-1:2017 6.6 (from memory): no heating need where the gains are over twice the losses, no
 * cooling need where the losses are over twice the gains. The factors alone never reach 0: a month at a
 * constant 0 C would cool. */
static const double gamma_most = 2.0;

pw_status pw_month_need(const pw_month_balance *m, double *heating_kwh, double *cooling_kwh,
                        pw_err *err)
{
  double h = m->h_transmission + m->h_air;
  if (!(m->hours > 0.0 && m->hours < 8785.0))
    return pw_fail(err, PW_E_DOMAIN, "hours", "%g h, want above 0", m->hours);
  if (!(h > 0.0 && isfinite(h)))
    return pw_fail(err, PW_E_DOMAIN, "h_transmission", "%g W/K, want above 0", h);
  if (!(m->time_constant_h > 0.0))
    return pw_fail(err, PW_E_DOMAIN, "time_constant_h", "%g h, want above 0",
                   m->time_constant_h);
  if (!(fabs(m->t_out) <= 100.0))
    return pw_fail(err, PW_E_DOMAIN, "t_out", "%g C, want -100 to 100", m->t_out);
  if (!isfinite(m->gain_kwh))
    return pw_fail(err, PW_E_DOMAIN, "gain_kwh", "%g kWh, want a number", m->gain_kwh);
  if (!isfinite(m->extra_loss_kwh))
    return pw_fail(err, PW_E_DOMAIN, "extra_loss_kwh", "%g kWh, want a number",
                   m->extra_loss_kwh);
  double a = 1.0 + m->time_constant_h / 15.0, gain = m->gain_kwh;
  double heat = 0.0, cool = 0.0;
  if (!isnan(m->heat_set)) {
    double loss = h * (m->heat_set - m->t_out) * m->hours * 1e-3 + m->extra_loss_kwh;
    if (loss > 0.0 && gain <= gamma_most * loss)
      heat = loss - pw_month_gain_use(gain / loss, a) * gain;
  }
  if (!isnan(m->cool_set)) {
    double loss = h * (m->cool_set - m->t_out) * m->hours * 1e-3 + m->extra_loss_kwh;
    if (loss <= 0.0)
      cool = gain - loss;
    else if (loss <= gamma_most * gain)
      cool = gain - pw_month_loss_use(gain / loss, a) * loss;
  }
  *heating_kwh = fmax(heat, 0.0);
  *cooling_kwh = fmax(cool, 0.0);
  return PW_OK;
}
