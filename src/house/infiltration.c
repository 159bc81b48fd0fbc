#include "house/infiltration.h"

#include <math.h>

#include "base/own_math.h"
#include "gen/reference.h"
#include "house/leakage.h"
#include "panewright/units.h"

static const double t_zero = 293.15;

#define ROW(name) ((size_t)pw_ref_air_infiltration__##name)

static double number(size_t first, int class_from_1)
{
  return pw_ref_air_infiltration[first + (size_t)class_from_1 - 1].value;
}

pw_status pw_infiltration_check(const pw_infiltration_site *s, pw_err *err)
{
  const struct {
    const char *name;
    double value, low, high;
  } row[] = {{"height", s->height, 1.0, 30.0}, {"storeys", s->storeys, 1.0, 3.0},
             {"shield", s->shield, 1.0, 5.0},  {"terrain", s->terrain, 1.0, 5.0},
             {"level", s->level, 0.0, 1.0},    {"uneven", s->uneven, -1.0, 1.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (!(row[i].value >= row[i].low && row[i].value <= row[i].high))
      return pw_fail(err, PW_E_DOMAIN, row[i].name, "infiltration: %s %g, want %g to %g",
                     row[i].name, row[i].value, row[i].low, row[i].high);
  return PW_OK;
}

void pw_infiltration_factors(const pw_infiltration_site *s, double *stack, double *wind)
{
  double even = 1.0 - s->uneven * s->uneven / ((2.0 - s->level) * (2.0 - s->level));
  *stack = (1.0 + 0.5 * s->level) / 3.0 * pw_power(even, 1.5) *
           sqrt(PW_GRAVITY * s->height / t_zero);
  *wind = number(ROW(shield_1), s->shield) * pw_root3(1.0 - s->level) *
          number(ROW(terrain_a_1), s->terrain) *
          pw_power(s->height / 10.0, number(ROW(terrain_b_1), s->terrain));
}

double pw_sherman_grimsrud(double area, const pw_infiltration_site *s, double dt, double v)
{
  double fs, fw;
  pw_infiltration_factors(s, &fs, &fw);
  return area * sqrt(fs * fs * fabs(dt) + fw * fw * v * v);
}

double pw_aim2_c(double area)
{
  return area / pw_leak_area_of(1.0, 1.0, pw_ref_air_infiltration[ROW(aim2_n)].value);
}

double pw_aim2(double c, const pw_infiltration_site *s, double dt, double v)
{
  double n = pw_ref_air_infiltration[ROW(aim2_n)].value;
  double cs = number(s->flue ? ROW(aim2_cs_flue_1) : ROW(aim2_cs_plain_1), s->storeys);
  double cw =
      number(s->crawl ? (s->flue ? ROW(aim2_cw_crawl_flue_1) : ROW(aim2_cw_crawl_plain_1))
                      : (s->flue ? ROW(aim2_cw_slab_flue_1) : ROW(aim2_cw_slab_plain_1)),
             s->storeys);
  double shelter = number(s->flue ? ROW(aim2_s_flue_1) : ROW(aim2_s_plain_1), s->shield);
  double local = shelter * number(ROW(aim2_g_at_1), s->storeys) * v;
  return c * pw_hypot(cs * pw_power(fabs(dt), n), cw * pw_power(local, 2.0 * n));
}

double pw_infiltration_year(pw_infiltration model, const pw_infiltration_site *site,
                            const pw_weather *weather, double t_in, float hour[])
{
  double fs, fw, sum = 0.0, c = pw_aim2_c(1.0);
  pw_infiltration_factors(site, &fs, &fw);
  for (int i = 0; i < PW_HOURS; i++) {
    double dt = t_in - (double)weather->hour[i].t_air, v = (double)weather->hour[i].wind;
    double flow = model == PW_INFILTRATION_AIM2 ? pw_aim2(c, site, dt, v)
                                                : sqrt(fs * fs * fabs(dt) + fw * fw * v * v);
    sum += flow;
    if (hour) hour[i] = (float)flow;
  }
  return sum / PW_HOURS;
}
