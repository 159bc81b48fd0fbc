/* Sun on, through and into the panes of one window, hour by hour. */
#include <stdlib.h>
#include <string.h>

#include "house/site.h"

enum { COSINES = 64 };

/* The glazing's angular shares, laid out over the cosine of incidence. Linear in the cosine between
 * 64 points, each linear in the angle between the ten of the glazing. */
typedef struct angular {
  float t[COSINES + 2], a[COSINES + 2][PW_PANES_MAX];
  float t_diffuse, a_diffuse[PW_PANES_MAX]; /* even light */
  float t_band, a_band[PW_PANES_MAX];       /* from the horizon all along, onto a wall */
  size_t n_pane;
} angular;

double site_height(const pw_house_window *w)
{
  return w->height > 0.0 ? w->height : sqrt(w->area_glass);
}

double site_width(const pw_house_window *w)
{
  return w->width > 0.0 ? w->width : w->area_glass / site_height(w);
}

/* Light from all along the horizon meets a wall at its azimuth from the normal: the mean over that
 * angle, weighted by its cosine (trapezoid on the ten angles). */
static float band_mean(const double share[PW_ANGLES])
{
  double sum = 0.0, weight = 0.0;
  for (int k = 0; k < 10; k++) {
    double c = cos(pw_rad(10.0 * k)) * (k == 0 || k == 9 ? 0.5 : 1.0);
    sum += c * share[k];
    weight += c;
  }
  return (float)(sum / weight);
}

static void lay_out(const pw_light *light, angular *g)
{
  g->n_pane = light->n_pane;
  for (int i = 0; i < COSINES + 2; i++) {
    double c = fmin(i / (double)COSINES, 1.0), x = acos(c) * 18.0 / PW_PI; /* in steps of 10 */
    int k = x < 8.999 ? (int)x : 8;
    double part = x - k;
    g->t[i] = (float)(light->tau_e[k] + part * (light->tau_e[k + 1] - light->tau_e[k]));
    for (size_t p = 0; p < PW_PANES_MAX; p++) {
      const double *a = light->absorbed[p];
      g->a[i][p] = p < light->n_pane ? (float)(a[k] + part * (a[k + 1] - a[k])) : 0.0f;
    }
  }
  g->t_band = band_mean(light->tau_e);
  g->t_diffuse = (float)light->tau_e[PW_ANGLE_DIFFUSE];
  for (size_t p = 0; p < PW_PANES_MAX; p++) {
    g->a_diffuse[p] = p < light->n_pane ? (float)light->absorbed[p][PW_ANGLE_DIFFUSE] : 0.0f;
    g->a_band[p] = p < light->n_pane ? band_mean(light->absorbed[p]) : 0.0f;
  }
}

/* One hour with light: W/m2 from the sun's direction, even, and along the horizon. */
static inline void hour_sun(const angular *g, float beam, float even, float band, float cosine,
                            site_window *o, int i)
{
  float x = cosine > 0.0f ? cosine * COSINES : 0.0f;
  int k = (int)x;
  x -= (float)k;
  o->incident[i] = beam + even + band;
  o->beam[i] = beam * (g->t[k] + x * (g->t[k + 1] - g->t[k]));
  o->diffuse[i] = even * g->t_diffuse + band * g->t_band;
  for (size_t p = 0; p < PW_PANES_MAX; p++)
    o->pane[i][p] = beam * (g->a[k][p] + x * (g->a[k + 1][p] - g->a[k][p])) +
                    even * g->a_diffuse[p] + band * g->a_band[p];
}

static pw_status fill(pw_year_workspace *ws, const pw_house_window *w, const site_facade *f,
                      const site_shade *shade, site_window *out, pw_err *err)
{
  angular g;
  double pass = (w->screen > 0.0 ? w->screen : 1.0) * (1.0 - w->shade_factor);
  if (!(pass >= 0.0 && pass <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "shade_factor",
                   "screen %g and shade %g, want both within 0 and 1", w->screen,
                   w->shade_factor);
  lay_out(&w->glazing->light, &g);
  float all = (float)pass, dome = all, band = all, ground = all;
  if (shade) {
    dome *= (float)shade->factor.dome;
    band *= (float)shade->factor.horizon;
    ground *= (float)shade->factor.ground;
  }
  const pw_facade_year *y = &f->year;
  memset(out, 0, sizeof *out);
  for (size_t n = 0; n < ws->sky->sun.n; n++) {
    int i = ws->sky->sun.hour[n];
    float lit = shade ? all * shade->sunlit[i] : all;
    float near_sun = y->circumsolar[i] * lit, even = y->dome[i] * dome;
    float along = y->horizon[i] * band;
    if (near_sun + even + along < 0.0f) near_sun = even = along = 0.0f;
    hour_sun(&g, y->beam[i] * lit + near_sun, even + y->ground[i] * ground, along,
             y->cos_incidence[i], out, i);
  }
  return PW_OK;
}

pw_status site_window_of(pw_year_workspace *ws, size_t i, const pw_house_window *w,
                         double albedo, const site_facade **facade, pw_err *err)
{
  const site_facade *f;
  const site_shade *shade = NULL;
  double tilt = w->tilt_deg > 0.0 ? w->tilt_deg : 90.0;
  pw_status s = site_facade_of(ws, w->facing_deg, tilt, albedo, &f, err);
  if (s != PW_OK) return s;
  pw_shade key;
  memset(&key, 0, sizeof key);
  key.width = site_width(w);
  key.height = site_height(w);
  key.overhang_depth = w->overhang_depth;
  key.overhang_gap = w->overhang_gap;
  key.overhang_run[0] = key.overhang_run[1] = w->overhang_depth > 0.0 ? INFINITY : 0.0;
  key.fin_depth[0] = key.fin_depth[1] = w->fin_depth;
  key.reveal = w->reveal_depth;
  if (!pw_shade_none(&key)) {
    s = site_shade_of(ws, &key, f, &shade, err);
    if (s != PW_OK) return s;
  }
  while (ws->n_window <= i) {
    site_window *room = malloc(sizeof *room);
    if (!room) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sun on a window");
    ws->window[ws->n_window++] = room;
  }
  *facade = f;
  return fill(ws, w, f, shade, ws->window[i], err);
}
