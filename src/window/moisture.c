#include "window/moisture.h"

#include <math.h>

#include "base/own_math.h"
#include "panewright/units.h"

/* ISO 13788:2012 Annex E: p = 610.5 exp(a t/(b + t)), t in C; water from 0 C, ice below. */
static const double p_zero = 610.5;
static const double water_a = 17.269, water_b = 237.3, ice_a = 21.875, ice_b = 265.5;
static const double h_out = 25.0; /* W/(m2 K), EN 673:2011, for the bare sheet of note 1 */

static double saturation(double t)
{
  double c = pw_c(t);
  return c >= 0.0 ? p_zero * pw_exp(water_a * c / (water_b + c))
                  : p_zero * pw_exp(ice_a * c / (ice_b + c));
}

pw_status pw_saturation_pressure(double t, double *p, pw_err *err)
{
  pw_status s = pw_in_range(t, 203.15, 373.15, "t", " K", err);
  if (s == PW_OK) *p = saturation(t);
  return s;
}

pw_status pw_saturation_temperature(double p, double *t, pw_err *err)
{
  pw_status s = pw_in_range(p, 0.2, 1.1e5, "p", " Pa", err);
  if (s != PW_OK) return s;
  double x = pw_log(p / p_zero);
  *t = pw_k(x >= 0.0 ? water_b * x / (water_a - x) : ice_b * x / (ice_a - x));
  return PW_OK;
}

static pw_status air_check(double t, double rh, pw_err *err)
{
  pw_status s = pw_in_range(t, 203.15, 373.15, "t", " K", err);
  if (s == PW_OK) s = pw_in_range(rh, 1e-3, 1.0, "rh", "", err);
  return s;
}

pw_status pw_dew_point(double t, double rh, double *t_dew, pw_err *err)
{
  pw_status s = air_check(t, rh, err);
  if (s == PW_OK) s = pw_saturation_temperature(rh * saturation(t), t_dew, err);
  return s;
}

pw_status pw_humidity_ratio(double t, double rh, double pressure, double *ratio, pw_err *err)
{
  pw_status s = air_check(t, rh, err);
  if (s == PW_OK) s = pw_in_range(pressure, 2e4, 1.2e5, "pressure", " Pa", err);
  if (s != PW_OK) return s;
  double p = rh * saturation(t);
  if (!(p < 0.9 * pressure))
    return pw_fail(err, PW_E_DOMAIN, "pressure", "vapour of %g Pa in air of %g Pa", p,
                   pressure);
  *ratio = 0.621945 * p / (pressure - p); /* ASHRAE Fundamentals, psychrometrics */
  return PW_OK;
}

pw_status pw_sweat_humidity(double t_surface, double t_in, double *rh, pw_err *err)
{
  pw_status s = pw_in_range(t_surface, 203.15, 373.15, "t_surface", " K", err);
  if (s == PW_OK) s = pw_in_range(t_in, 203.15, 373.15, "t_in", " K", err);
  if (s == PW_OK) *rh = fmin(1.0, saturation(t_surface) / saturation(t_in));
  return s;
}

static pw_status spot_set(pw_sweat_spot *spot, double t, double t_in, pw_err *err)
{
  spot->t = t;
  return pw_sweat_humidity(t, t_in, &spot->rh, err);
}

static double surface(double u, double h_in, double t_in, double t_out)
{
  return t_in - fmin(u / h_in, h_out / (h_in + h_out)) * (t_in - t_out);
}

/* 1 - f of the coldest point; shift: the relation moved by that. */
static double cold_drop(const pw_coldest *c, double center, double shift)
{
  double drawn = c->f_rsi > 0.0 ? 1.0 - c->f_rsi : 0.0;
  double by_relation = c->all_drawn ? 0.0 : c->base + c->slope * center + shift;
  return fmin(fmax(drawn, by_relation), 1.0);
}

/* The points that are colder than the means. */
static pw_status cold_spots(const pw_rating *rating, double t_in, double t_out, pw_sweat *w,
                            pw_err *err)
{
  double span = t_in - t_out, center = span != 0.0 ? (t_in - w->center.t) / span : 0.0;
  double mean = fmin(w->center.t, fmin(w->edge.t, w->frame.t));
  const pw_coldest *c = &rating->cold, *rail = &rating->cold_meeting;
  const double shift[3] = {0.0, c->above, -c->below};
  pw_status s = PW_OK;
  for (int i = 2; i >= 0 && s == PW_OK; i--) {
    double t = t_in - cold_drop(c, center, shift[i]) * span;
    s = spot_set(&w->coldest, c->all_drawn ? t : fmin(mean, t), t_in, err);
    if (i > 0) w->coldest_rh[i - 1] = w->coldest.rh;
  }
  double rails = rating->areas.divider - rating->bars_area; /* bars in the glass are no rail */
  if (s != PW_OK || !(rails > 1e-9 * rating->areas.divider)) return s;
  double t = t_in - cold_drop(rail, center, 0.0) * span;
  double u = (rating->ua.divider - rating->bars_ua) / rails;
  if (!rail->all_drawn) t = fmin(t, surface(u, w->h_in, t_in, t_out));
  return spot_set(&w->meeting, t, t_in, err);
}

pw_status pw_sweat_window(const pw_unit *unit, const pw_rating *rating, double t_in,
                          double t_out, double wind, double h_in, pw_sweat *sweat, pw_err *err)
{
  pw_unit_result r;
  pw_sweat w = {
      .h_in = h_in == 0.0 ? 1.0 / 0.13 : h_in, .retained = {NAN, NAN}, .meeting = {NAN, NAN}};
  const pw_env env = {.t_out = t_out, .t_in = t_in, .wind = wind};
  pw_status s = pw_in_range(w.h_in, 1.0, 50.0, "h_in", " W/(m2 K)", err);
  if (s == PW_OK) s = pw_unit_balance(unit, &env, NULL, &r, err);
  if (s == PW_OK) s = spot_set(&w.center, r.t[2 * unit->n_pane - 1], t_in, err);
  if (s == PW_OK)
    s = spot_set(&w.edge, surface(rating->u_edge.value, w.h_in, t_in, t_out), t_in, err);
  if (s == PW_OK)
    s = spot_set(&w.frame, surface(rating->u_frame.value, w.h_in, t_in, t_out), t_in, err);
  if (s == PW_OK && rating->areas.retained > 0.0)
    s = spot_set(&w.retained, surface(rating->u_retained.value, w.h_in, t_in, t_out), t_in,
                 err);
  if (s == PW_OK) s = cold_spots(rating, t_in, t_out, &w, err);
  if (s == PW_OK) *sweat = w;
  return s;
}
