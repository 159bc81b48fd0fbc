/* Sun on, through and into the panes of one window, hour by hour. */
#include <stdlib.h>
#include <string.h>

#include "glass/by_angle.h"
#include "house/site.h"

/* The glazing's angular shares, laid out over the cosine of incidence. */
typedef struct angular {
  float t[PW_COSINES + 2], a[PW_COSINES + 2][PW_PANES_MAX];
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

static void lay_out(const pw_light *light, angular *g)
{
  g->n_pane = light->n_pane;
  for (int i = 0; i < PW_COSINES + 2; i++) {
    double part;
    int k = pw_cosine_below(i, &part);
    g->t[i] = (float)pw_angle_share(light->tau_e, k, part);
    for (size_t p = 0; p < PW_PANES_MAX; p++)
      g->a[i][p] =
          p < light->n_pane ? (float)pw_angle_share(light->absorbed[p], k, part) : 0.0f;
  }
  g->t_band = (float)pw_band_mean(light->tau_e);
  g->t_diffuse = (float)light->tau_e[PW_ANGLE_DIFFUSE];
  for (size_t p = 0; p < PW_PANES_MAX; p++) {
    g->a_diffuse[p] = p < light->n_pane ? (float)light->absorbed[p][PW_ANGLE_DIFFUSE] : 0.0f;
    g->a_band[p] = p < light->n_pane ? (float)pw_band_mean(light->absorbed[p]) : 0.0f;
  }
}

/* A lane's window as its hours take it. */
typedef struct lit {
  angular glass;
  const pw_facade_year *year;
  const float *sunlit; /* NULL: no shade */
  float all, dome, band, ground;
  float covered[PW_COVERING_SEASONS]; /* what drapes and blinds leave */
} lit;

/* One hour with light: W/m2 from the sun's direction, even, and along the horizon; pass: what drapes and blinds leave;
 * rows: of the panes that may absorb. */
static inline void hour_sun(const angular *g, float beam, float even, float band, float cosine,
                            float pass, size_t rows, float *out, size_t lanes)
{
  float x = cosine > 0.0f ? cosine * PW_COSINES : 0.0f;
  int k = (int)x;
  x -= (float)k;
  out[SITE_INCIDENT * lanes] = (beam + even + band) * pass;
  out[SITE_BEAM * lanes] = beam * (g->t[k] + x * (g->t[k + 1] - g->t[k])) * pass;
  out[SITE_DIFFUSE * lanes] = (even * g->t_diffuse + band * g->t_band) * pass;
  for (size_t p = 0; p < rows; p++)
    out[(SITE_ABSORBED + p) * lanes] =
        (beam * (g->a[k][p] + x * (g->a[k + 1][p] - g->a[k][p])) + even * g->a_diffuse[p] +
         band * g->a_band[p]) *
        pass;
}

static inline void fill_hour(const lit *w, int i, float pass, size_t rows, float *out,
                             size_t lanes)
{
  const pw_facade_year *y = w->year;
  float open = w->sunlit ? w->all * w->sunlit[i] : w->all;
  float near_sun = y->circumsolar[i] * open, even = y->dome[i] * w->dome;
  float along = y->horizon[i] * w->band;
  if (near_sun + even + along < 0.0f) near_sun = even = along = 0.0f;
  hour_sun(&w->glass, y->beam[i] * open + near_sun, even + y->ground[i] * w->ground, along,
           y->cos_incidence[i], pass, rows, out, lanes);
}

static void light_up(lit *o, const pw_house_window *w, const site_facade *f,
                     const site_shade *shade)
{
  double pass = (w->screen > 0.0 ? w->screen : 1.0) * (1.0 - w->shade_factor);
  lay_out(&w->glazing->light, &o->glass);
  o->year = &f->year;
  o->sunlit = shade ? shade->sunlit : NULL;
  for (int k = 0; k < PW_COVERING_SEASONS; k++)
    o->covered[k] = w->covered.pass[k] > 0.0 ? (float)w->covered.pass[k] : 1.0f;
  o->all = o->dome = o->band = o->ground = (float)pass;
  if (shade) {
    o->dome *= (float)shade->factor.dome;
    o->band *= (float)shade->factor.horizon;
    o->ground *= (float)shade->factor.ground;
  }
}

/* Memory for so many lanes; the hours without sun are set to none once a sky. */
static pw_status lay_window(const pw_year_workspace *ws, site_window *s, size_t lanes,
                            pw_err *err)
{
  const size_t n = (size_t)SITE_SUN * PW_HOURS * lanes;
  if (!s->sun || s->room < lanes) {
    float *room = realloc(s->sun, n * sizeof *room);
    if (!room) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sun on a window");
    s->sun = room;
    s->room = lanes;
  } else if (s->lanes == lanes && s->sky == ws->n_sky) {
    return PW_OK;
  }
  s->lanes = lanes;
  s->sky = ws->n_sky;
  s->panes = 0;
  memset(s->sun, 0, n * sizeof *s->sun);
  return PW_OK;
}

pw_status site_lay_windows(pw_year_workspace *ws, size_t n, size_t lanes, pw_err *err)
{
  for (size_t i = 0; i < n; i++) {
    if (i == ws->n_window) {
      site_window *one = calloc(1, sizeof *one);
      if (!one) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sun on a window");
      ws->window[ws->n_window++] = one;
    }
    pw_status s = lay_window(ws, ws->window[i], lanes, err);
    if (s != PW_OK) return s;
  }
  return PW_OK;
}

static pw_status light_lane(pw_year_workspace *ws, const pw_house_window *w, double albedo,
                            lit *out, pw_err *err)
{
  const site_facade *f;
  const site_shade *shade = NULL;
  double tilt = w->tilt_deg > 0.0 ? w->tilt_deg : 90.0;
  pw_status s = site_facade_of(ws, w->facing_deg, tilt, albedo, &f, err);
  if (s != PW_OK) return s;
  pw_shade key = {0};
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
  light_up(out, w, f, shade);
  return PW_OK;
}

/* By the months: the six warm ones are as summer. */
static int season_of(int hour, int south)
{
  const int month = pw_month_of_day(hour / 24);
  return (month >= 3 && month < 9) != south ? PW_COVERING_SUMMER : PW_COVERING_WINTER;
}

pw_status site_window_of(pw_year_workspace *ws, size_t i, size_t n,
                         const pw_house_window *const window[], const double albedo[],
                         size_t *failed, pw_err *err)
{
  lit lane[SITE_LANES];
  site_window *out = ws->window[i];
  const int south = ws->site.latitude_deg < 0.0;
  size_t panes = 0;
  site_shade_room(ws, n); /* all lanes borrow theirs until the hours are filled */
  for (size_t l = 0; l < n; l++) {
    *failed = l;
    pw_status s = light_lane(ws, &window[l][i], albedo[l], &lane[l], err);
    if (s != PW_OK) return s;
    if (lane[l].glass.n_pane > panes) panes = lane[l].glass.n_pane;
  }
  const size_t rows = panes > out->panes ? panes : out->panes; /* what stood there goes */
  for (size_t k = 0; k < ws->sky->sun.n; k++) {
    const int hour = ws->sky->sun.hour[k], season = season_of(hour, south);
    float *record = out->sun + (size_t)hour * SITE_SUN * out->lanes;
    for (size_t l = 0; l < n; l++)
      fill_hour(&lane[l], hour, lane[l].covered[season], rows, record + l, out->lanes);
  }
  out->panes = panes;
  return PW_OK;
}
