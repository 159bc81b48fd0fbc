#include "house/leakage.h"

#include <math.h>

#include "base/own_math.h"
#include "panewright/units.h"

static const double reference_pressure = 4.0; /* Pa */
static const double test_pressure = 75.0;     /* Pa */
static const double exponent = 0.65;          /* 0.6 to 0.7 in tests of joints */
static const double density = 1.2;            /* kg/m3 at which areas are told */

/* (L/s)2 / (cm4 K) and (L/s)2 / (cm4 (m/s)2), by storeys and shelter. METHODS.md section 8. */
static const double stack[3] = {0.000145, 0.000290, 0.000435};
static const double wind[3][5] = {{0.000319, 0.000246, 0.000174, 0.000104, 0.000032},
                                  {0.000420, 0.000325, 0.000231, 0.000137, 0.000042},
                                  {0.000494, 0.000382, 0.000271, 0.000161, 0.000049}};

double pw_leak_area_of(double flow, double dp, double n)
{
  return flow * pw_power(reference_pressure / dp, n) / sqrt(2.0 * reference_pressure / density);
}

double pw_leak_area(double flow_75)
{
  return pw_leak_area_of(flow_75, test_pressure, exponent);
}

static pw_status check(const pw_leak_site *s, pw_err *err)
{
  if (!(s->storeys >= 0 && s->storeys <= 3))
    return pw_fail(err, PW_E_DOMAIN, "storeys", "%d storeys, want 1 to 3", s->storeys);
  if (!(s->shelter >= 0 && s->shelter <= 5))
    return pw_fail(err, PW_E_DOMAIN, "shelter", "shelter class %d, want 1 to 5", s->shelter);
  if (!(s->t_in >= -50.0 && s->t_in <= 60.0))
    return pw_fail(err, PW_E_DOMAIN, "t_in", "%g C indoors, want -50 to 60", s->t_in);
  return PW_OK;
}

static double inside(const pw_leak_site *s) { return s->t_in == 0.0 ? 20.0 : s->t_in; }

pw_status pw_leak_flow(double area, const pw_leak_site *site, const pw_hour *hour, double *flow,
                       pw_err *err)
{
  pw_status s = check(site, err);
  if (s != PW_OK) return s;
  if (!(area >= 0.0 && area < 10.0))
    return pw_fail(err, PW_E_DOMAIN, "area", "leakage area %g m2, want 0 to 10", area);
  double t = (double)hour->t_air, v = (double)hour->wind;
  if (!(t > -90.0 && t < 70.0 && v >= 0.0 && v < 120.0))
    return pw_fail(err, PW_E_DOMAIN, "hour", "%g C and wind %g m/s: out of range", t, v);
  int n = site->storeys > 0 ? site->storeys - 1 : 0,
      k = site->shelter > 0 ? site->shelter - 1 : 2;
  /* handbook: Q[m3/s] = A_L[cm2] / 1000 sqrt(Cs dT + Cw v2) */
  *flow = area * 1e4 / 1000.0 * sqrt(stack[n] * fabs(inside(site) - t) + wind[n][k] * v * v);
  return PW_OK;
}

pw_status pw_leak_of_year(double flow_75, const pw_leak_site *site, const pw_weather *weather,
                          double volume, pw_leak_year *year, pw_err *err)
{
  if (!(flow_75 >= 0.0 && flow_75 < 10.0))
    return pw_fail(err, PW_E_DOMAIN, "flow_75", "%g m3/s at 75 Pa, want 0 to 10", flow_75);
  if (!(volume >= 0.0 && volume < 1e7))
    return pw_fail(err, PW_E_DOMAIN, "volume", "%g m3, want 0 or more", volume);
  double area = pw_leak_area(flow_75), t_in = inside(site);
  pw_leak_year y = {0};
  for (int i = 0; i < PW_HOURS; i++) {
    const pw_hour *h = &weather->hour[i];
    double flow;
    pw_status s = pw_leak_flow(area, site, h, &flow, err);
    if (s != PW_OK) return s;
    double mass = flow * (double)h->pressure / (PW_AIR_GAS * pw_k(t_in));
    y.flow_mean += flow / PW_HOURS;
    y.heat_kwh += 1e-3 * mass * PW_AIR_HEAT * fmax(t_in - (double)h->t_air, 0.0);
  }
  y.changes_1_h = volume > 0.0 ? y.flow_mean * 3600.0 / volume : 0.0;
  *year = y;
  return PW_OK;
}
