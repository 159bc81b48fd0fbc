/* Sun on, through and into the panes of one window, hour by hour. */
#include <stdlib.h>
#include <string.h>

#include "glass/by_angle.h"
#include "house/site.h"

/* The windows of lanes as their hours take them: of each number one a lane. The glazing's angular shares are laid out
 * over the cosine of incidence. */
typedef struct lit_lanes {
  float t[PW_COSINES + 2][SITE_LANES], a[PW_COSINES + 2][PW_PANES_MAX][SITE_LANES];
  float t_diffuse[SITE_LANES], a_diffuse[PW_PANES_MAX][SITE_LANES]; /* even light */
  float t_band[SITE_LANES],
      a_band[PW_PANES_MAX][SITE_LANES]; /* from the horizon all along, onto a wall */
  float all[SITE_LANES], dome[SITE_LANES], band[SITE_LANES], ground[SITE_LANES];
  float covered[PW_COVERING_SEASONS][SITE_LANES]; /* what drapes and blinds leave */
  const pw_facade_year *year[SITE_LANES];
  const float *sunlit[SITE_LANES]; /* NULL: no shade */
} lit_lanes;

double site_height(const pw_house_window *w)
{
  return w->height > 0.0 ? w->height : sqrt(w->area_glass);
}

double site_width(const pw_house_window *w)
{
  return w->width > 0.0 ? w->width : w->area_glass / site_height(w);
}

static void lay_out(const pw_light *light, lit_lanes *g, size_t l)
{
  for (int i = 0; i < PW_COSINES + 2; i++) {
    double part;
    int k = pw_cosine_below(i, &part);
    g->t[i][l] = (float)pw_angle_share(light->tau_e, k, part);
    for (size_t p = 0; p < PW_PANES_MAX; p++)
      g->a[i][p][l] =
          p < light->n_pane ? (float)pw_angle_share(light->absorbed[p], k, part) : 0.0f;
  }
  g->t_band[l] = (float)pw_band_mean(light->tau_e);
  g->t_diffuse[l] = (float)light->tau_e[PW_ANGLE_DIFFUSE];
  for (size_t p = 0; p < PW_PANES_MAX; p++) {
    g->a_diffuse[p][l] = p < light->n_pane ? (float)light->absorbed[p][PW_ANGLE_DIFFUSE] : 0.0f;
    g->a_band[p][l] = p < light->n_pane ? (float)pw_band_mean(light->absorbed[p]) : 0.0f;
  }
}

/* One hour with light in n lanes of one facade from lane `first` on, W/m2; rows: of the panes that may absorb. n is known
 * where it is called, so that the lanes go side by side. */
static inline void fill_hour(const lit_lanes *w, size_t first, size_t n, int i, int season,
                             size_t rows, float *out, size_t lanes)
{
  const pw_facade_year *y = w->year[first];
  float beam[SITE_LANES], even[SITE_LANES], band[SITE_LANES];
  float x = y->cos_incidence[i] > 0.0f ? y->cos_incidence[i] * PW_COSINES : 0.0f;
  const int k = (int)x;
  x -= (float)k;
  for (size_t l = 0; l < n; l++) {
    const size_t at = first + l;
    float open = w->sunlit[at] ? w->all[at] * w->sunlit[at][i] : w->all[at];
    float near_sun = y->circumsolar[i] * open, dome = y->dome[i] * w->dome[at];
    band[l] = y->horizon[i] * w->band[at];
    if (near_sun + dome + band[l] < 0.0f) near_sun = dome = band[l] = 0.0f;
    beam[l] = y->beam[i] * open + near_sun;
    even[l] = dome + y->ground[i] * w->ground[at];
  }
  const float *pass = w->covered[season] + first;
  const float *t = w->t[k] + first, *t_next = w->t[k + 1] + first;
  out += first;
  for (size_t l = 0; l < n; l++)
    out[SITE_INCIDENT * lanes + l] = (beam[l] + even[l] + band[l]) * pass[l];
  for (size_t l = 0; l < n; l++)
    out[SITE_BEAM * lanes + l] = beam[l] * (t[l] + x * (t_next[l] - t[l])) * pass[l];
  for (size_t l = 0; l < n; l++)
    out[SITE_DIFFUSE * lanes + l] =
        (even[l] * w->t_diffuse[first + l] + band[l] * w->t_band[first + l]) * pass[l];
  for (size_t p = 0; p < rows; p++) {
    const float *a = w->a[k][p] + first, *a_next = w->a[k + 1][p] + first;
    const float *a_diffuse = w->a_diffuse[p] + first, *a_band = w->a_band[p] + first;
    for (size_t l = 0; l < n; l++)
      out[(SITE_ABSORBED + p) * lanes + l] = (beam[l] * (a[l] + x * (a_next[l] - a[l])) +
                                              even[l] * a_diffuse[l] + band[l] * a_band[l]) *
                                             pass[l];
  }
}

static void light_up(lit_lanes *o, size_t l, const pw_house_window *w, const site_facade *f,
                     const site_shade *shade)
{
  double pass = (w->screen > 0.0 ? w->screen : 1.0) * (1.0 - w->shade_factor);
  lay_out(&w->glazing->light, o, l);
  o->year[l] = &f->year;
  o->sunlit[l] = shade ? shade->sunlit : NULL;
  for (int k = 0; k < PW_COVERING_SEASONS; k++)
    o->covered[k][l] = w->covered.pass[k] > 0.0 ? (float)w->covered.pass[k] : 1.0f;
  o->all[l] = o->dome[l] = o->band[l] = o->ground[l] = (float)pass;
  if (shade) {
    o->dome[l] *= (float)shade->factor.dome;
    o->band[l] *= (float)shade->factor.horizon;
    o->ground[l] *= (float)shade->factor.ground;
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
                            size_t l, lit_lanes *out, pw_err *err)
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
  light_up(out, l, w, f, shade);
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
  lit_lanes lit;
  site_window *out = ws->window[i];
  const int south = ws->site.latitude_deg < 0.0;
  size_t panes = 0, alike = 1; /* lanes of the first one's facade */
  site_shade_room(ws, n);      /* all lanes borrow theirs until the hours are filled */
  for (size_t l = 0; l < n; l++) {
    *failed = l;
    pw_status s = light_lane(ws, &window[l][i], albedo[l], l, &lit, err);
    if (s != PW_OK) return s;
    const size_t has = window[l][i].glazing->light.n_pane;
    if (has > panes) panes = has;
    if (l == alike && lit.year[l] == lit.year[0]) alike++;
  }
  const size_t rows = panes > out->panes ? panes : out->panes; /* what stood there goes */
  const size_t lanes = out->lanes, whole = alike == n ? n : 0;
  for (size_t k = 0; k < ws->sky->sun.n; k++) {
    const int hour = ws->sky->sun.hour[k], season = season_of(hour, south);
    float *record = out->sun + (size_t)hour * SITE_SUN * lanes;
    if (whole == 8)
      fill_hour(&lit, 0, 8, hour, season, rows, record, lanes);
    else if (whole == 4)
      fill_hour(&lit, 0, 4, hour, season, rows, record, lanes);
    else if (whole == 2)
      fill_hour(&lit, 0, 2, hour, season, rows, record, lanes);
    else
      for (size_t l = 0; l < n; l++)
        fill_hour(&lit, l, 1, hour, season, rows, record, lanes);
  }
  out->panes = panes;
  return PW_OK;
}
