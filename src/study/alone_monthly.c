/* The room month by month, with the sun of each facade shared out beforehand to ten angles of
 * incidence and ten slopes of the sun. */
#include <math.h>
#include <string.h>

#include "base/own_math.h"
#include "glass/by_angle.h"
#include "house/monthly.h"
#include "panewright/units.h"
#include "study/alone_impl.h"

const float alone_slope[ALONE_SLOPES] = {0.0f, 0.3f, 0.6f, 0.9f, 1.2f,
                                         1.6f, 2.2f, 3.2f, 5.0f, 10.0f};

/* The lower node and the share of the next. */
static int slope_node(float slope, float *share)
{
  int i = 0;
  while (i < ALONE_SLOPES - 2 && slope >= alone_slope[i + 1])
    i++;
  float x = (slope - alone_slope[i]) / (alone_slope[i + 1] - alone_slope[i]);
  *share = x < 0.0f ? 0.0f : x < 1.0f ? x : 1.0f;
  return i;
}

static void share_out(const alone_sun *s, double azimuth_deg, float to[12][ALONE_SLOPES][10],
                      float open[12][10])
{
  const float e = (float)pw_sin(pw_rad(azimuth_deg)), n = (float)pw_cos(pw_rad(azimuth_deg));
  for (size_t i = 0; i < s->n; i++) {
    float c = e * s->east[i] + n * s->north[i], x;
    if (c <= 0.0f) continue;
    int m = pw_month_of_day(s->hour[i] / 24), j = slope_node(s->up[i] / c, &x);
    float kwh = 1e-3f * (s->beam[i] + s->ring[i]) * c;
    float angle = acosf(c < 1.0f ? c : 1.0f) * (float)(18.0 / PW_PI);
    double part;
    int k = pw_angle_below((double)angle, &part);
    float y = (float)part;
    open[m][k] += kwh * (1.0f - y);
    open[m][k + 1] += kwh * y;
    to[m][j][k] += kwh * (1.0f - x) * (1.0f - y);
    to[m][j][k + 1] += kwh * (1.0f - x) * y;
    to[m][j + 1][k] += kwh * x * (1.0f - y);
    to[m][j + 1][k + 1] += kwh * x * y;
  }
}

void alone_moments_of(const alone_sun *s, alone_moments *moments)
{
  for (int f = 0; f < ALONE_FACADES; f++)
    share_out(s, 10.0 * f, moments->direct[f], moments->open[f]);
  for (size_t i = 0; i < s->n; i++) {
    int m = pw_month_of_day(s->hour[i] / 24);
    moments->dome[m] += 1e-3f * s->dome[i];
    moments->band[m] += 1e-3f * s->band[i];
    moments->ground[m] += 1e-3f * s->ground[i];
  }
}

/* What stands for all months: the two facades a window faces between, and what is shaded of it at each slope. */
typedef struct lit_window {
  int facade[2];
  double x; /* the share of the second */
  int from; /* the first slope with shade; ALONE_SLOPES: none */
  float shaded[ALONE_SLOPES];
} lit_window;

static lit_window light_of(const alone_lane *l)
{
  double turn = fmod(fmod(l->facing_deg, 360.0) + 360.0, 360.0) / 10.0;
  int f = (int)turn % ALONE_FACADES;
  lit_window w = {{f, (f + 1) % ALONE_FACADES}, turn - floor(turn), ALONE_SLOPES, {0.0f}};
  while (l->deep > 0.0f && w.from > 0) { /* the steeper the sun, the more */
    float drop = l->deep * alone_slope[w.from - 1] - l->gap;
    if (!(drop > 0.0f)) break;
    w.shaded[--w.from] = drop < 1.0f ? drop : 1.0f;
  }
  return w;
}

/* Direct sun by angle in a month on facade f, the shade taken off. */
static void lit_by_angle(const alone_moments *q, int f, int m, const lit_window *w,
                         float out[10])
{
  memcpy(out, q->open[f][m], 10 * sizeof *out);
  for (int j = w->from; j < ALONE_SLOPES; j++) {
    const float *direct = q->direct[f][m][j], shaded = w->shaded[j];
    for (int k = 0; k < 8; k++) /* eight at once */
      out[k] -= shaded * direct[k];
    out[8] -= shaded * direct[8];
    out[9] -= shaded * direct[9];
  }
}

/* Sun gained in a month, kWh a m2 of floor. */
static double gain(const alone_moments *q, int m, const alone_lane *l, const lit_window *w,
                   double band_g)
{
  double through = 0.0, on = 0.0;
  float first[10], second[10];
  const float *a = first, *b = w->x > 0.0 ? second : first; /* N, E, S, W stand on a facade */
  lit_by_angle(q, w->facade[0], m, w, first);
  if (b == second) lit_by_angle(q, w->facade[1], m, w, second);
  const double *g = l->glazing->shgc;
  for (int k = 0; k < 10; k++) {
    double kwh = (1.0 - w->x) * (double)a[k] + w->x * (double)b[k];
    on += kwh;
    through += kwh * g[k];
  }
  double even = (double)q->dome[m] * (double)l->dome + (double)q->ground[m];
  double band = (double)q->band[m];
  return l->glass * (through + even * g[PW_ANGLE_DIFFUSE] + band * band_g) +
         l->other * (on + even + band);
}

static pw_status one(const pw_alone_place *p, const alone_lane *l, alone_need *need,
                     pw_err *err)
{
  const alone_room *r = &p->room;
  double h = r->simple.h_opaque + l->h_window;
  double band_g = l->glazing ? pw_band_mean(l->glazing->shgc) : 0.0;
  lit_window lit = {0};
  if (l->glazing) lit = light_of(l);
  *need = (alone_need){0};
  for (int m = 0; m < 12; m++) {
    pw_month_balance b = {.hours = p->month_hours[m],
                          .t_out = p->month_t[m],
                          .heat_set = r->heat_set,
                          .cool_set = r->cool_set,
                          .h_transmission = h,
                          .h_air = r->simple.h_air,
                          .gain_kwh = 1e-3 * p->month_hours[m] * r->gain,
                          .time_constant_h =
                              r->simple.mass_store / 3600.0 / (h + r->simple.h_air)};
    double heat, cool;
    if (l->glazing) b.gain_kwh += gain(p->moments, m, l, &lit, band_g);
    pw_status status = pw_month_need(&b, &heat, &cool, err);
    if (status != PW_OK) return status;
    need->heating += heat;
    need->cooling += cool;
  }
  return PW_OK;
}

pw_status alone_monthly(const pw_alone_place *p, const alone_lane lane[ALONE_LANES],
                        alone_need need[ALONE_LANES], pw_err *err)
{
  for (size_t l = 0; l < ALONE_LANES; l++) {
    pw_status status = one(p, &lane[l], &need[l], err);
    if (status != PW_OK) return status;
  }
  return PW_OK;
}
