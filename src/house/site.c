#include "house/site.h"
#include "glass/same.h"
#include "house/wall.h"
#include "panewright/units.h"

#include <stdlib.h>
#include <string.h>

pw_year_workspace *pw_year_workspace_new(void) { return calloc(1, sizeof(pw_year_workspace)); }

static void forget_panes(pw_year_workspace *ws)
{
  for (size_t i = 0; i < ws->n_pane; i++)
    free(ws->pane[i]);
  ws->n_pane = 0;
}

static void forget_walls(pw_year_workspace *ws)
{
  for (size_t i = 0; i < ws->n_wall; i++)
    free(ws->wall[i]);
  ws->n_wall = 0;
}

static void drop_facades(pw_year_workspace *ws)
{
  for (size_t i = 0; i < ws->n_facade; i++)
    free(ws->facade[i]);
  for (size_t i = 0; i < ws->n_shade; i++)
    free(ws->shade[i]);
  ws->n_facade = ws->n_shade = 0;
}

void pw_year_workspace_free(pw_year_workspace *ws)
{
  if (!ws) return;
  drop_facades(ws);
  forget_walls(ws);
  forget_panes(ws);
  for (size_t i = 0; i < ws->n_window; i++) {
    free(ws->window[i]->sun);
    free(ws->window[i]);
  }
  for (size_t l = 0; l < SITE_LANES; l++)
    for (size_t i = 0; i < PW_PARTS_MAX; i++)
      free(ws->part[l][i]);
  free(ws->sky);
  free(ws->t_out);
  free(ws->t_sky);
  free(ws->density);
  free(ws->wind);
  free(ws->wind_glass);
  free(ws->wind_root);
  free(ws);
}

void pw_year_workspace_use(const pw_year_workspace *ws, size_t *lived, size_t *lanes)
{
  *lived = ws->n_lived;
  *lanes = ws->n_lane;
}

void site_make_room(pw_year_workspace *ws, size_t houses, size_t parts, size_t windows)
{
  if (ws->n_pane + houses * windows > SITE_PANES) forget_panes(ws);
  if (ws->n_wall + 2 * houses * parts > SITE_WALLS) forget_walls(ws);
}

static pw_status no_memory(pw_err *err)
{
  return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
}

static pw_status make_room(pw_year_workspace *ws, pw_err *err)
{
  if (!ws->sky) ws->sky = malloc(sizeof *ws->sky);
  if (!ws->t_out) ws->t_out = malloc(PW_HOURS * sizeof *ws->t_out);
  if (!ws->t_sky) ws->t_sky = malloc(PW_HOURS * sizeof *ws->t_sky);
  if (!ws->density) ws->density = malloc(PW_HOURS * sizeof *ws->density);
  if (!ws->wind) ws->wind = malloc(PW_HOURS * sizeof *ws->wind);
  if (!ws->wind_glass) ws->wind_glass = malloc(PW_HOURS * sizeof *ws->wind_glass);
  if (!ws->wind_root) ws->wind_root = malloc(PW_HOURS * sizeof *ws->wind_root);
  return ws->sky && ws->t_out && ws->t_sky && ws->density && ws->wind && ws->wind_glass &&
                 ws->wind_root
             ? PW_OK
             : no_memory(err);
}

/* Mean over hour i of a state whose readings are taken `late` h after the middle of their hour. */
static float mean_of(float before, float reading, double late)
{
  return (float)((1.0 - late) * (double)reading + late * (double)before);
}

static pw_status read_hours(pw_year_workspace *ws, const pw_weather *weather, pw_err *err)
{
  double sum = 0.0, late = weather->state_late_h;
  if (!(late >= 0.0 && late <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "state_late_h", "%g h, want 0 to 1", late);
  for (int i = 0; i < PW_HOURS; i++) {
    const pw_hour *before = &weather->hour[(i + PW_HOURS - 1) % PW_HOURS];
    pw_hour h = weather->hour[i];
    if (!(h.t_air > -90.0f && h.t_air < 70.0f && h.pressure > 3e4f && h.pressure < 1.2e5f &&
          h.wind >= 0.0f && h.wind < 120.0f))
      return pw_fail(err, PW_E_DOMAIN, "weather",
                     "hour %d: %g C, %g Pa, wind %g m/s: out of range", i, (double)h.t_air,
                     (double)h.pressure, (double)h.wind);
    h.t_air = mean_of(before->t_air, h.t_air, late);
    ws->t_out[i] = h.t_air;
    ws->wind[i] = mean_of(before->wind, h.wind, late);
    ws->density[i] = (float)((double)h.pressure / (PW_AIR_GAS * PW_ROOM_T));
    sum += (double)h.pressure;
  }
  ws->pressure = sum / PW_HOURS;
  return PW_OK;
}

static int same_site(const pw_site *a, const pw_site *b)
{
  return strcmp(a->name, b->name) == 0 && a->latitude_deg == b->latitude_deg &&
         a->longitude_deg == b->longitude_deg && a->tz_h == b->tz_h &&
         a->elevation == b->elevation;
}

/* The cold of the sky, by the form asked for; of the means of the hours, as all else. */
static void read_sky(pw_year_workspace *ws, const pw_weather *weather, pw_clear_sky clear)
{
  double late = weather->state_late_h;
  for (int i = 0; i < PW_HOURS; i++) {
    const pw_hour *before = &weather->hour[(i + PW_HOURS - 1) % PW_HOURS];
    pw_hour h = weather->hour[i];
    h.t_air = ws->t_out[i];
    h.t_dew = mean_of(before->t_dew, h.t_dew, late);
    ws->t_sky[i] = (float)pw_sky_temperature(&h, i % 24, clear);
  }
  ws->clear = clear;
}

double site_thin(const pw_year_workspace *ws) { return ws->pressure / 101325.0; }

/* The wind's part of the outer films, by the form of the house. */
static void read_wind(pw_year_workspace *ws, double share, pw_film_out form)
{
  const double thin = site_thin(ws);
  for (int i = 0; i < PW_HOURS; i++) {
    double site = (double)ws->wind[i], wall = site * share, glass, root = sqrt(wall);
    switch (form) {
    case PW_FILM_OUT_LEE:
      glass = root = film_wind_lee(site, thin);
      break;
    case PW_FILM_OUT_PLAIN:
      glass = root = film_wind_plain(wall, thin);
      break;
    case PW_FILM_OUT_SHELTERED:
      glass = film_wind_glass(wall, thin);
      break;
    default:
      glass = film_wind_glass(site, thin);
      break;
    }
    ws->wind_glass[i] = (float)glass;
    ws->wind_root[i] = (float)root;
  }
  ws->wind_share = share;
  ws->film_out = form;
}

/* Share of the mast's wind that reaches the middle of the walls. */
static double wind_share(const pw_house *h)
{
  return film_wind_share(h->height > 0.0 ? h->height : 1.5,
                         h->terrain > 0.0 ? h->terrain : 0.22);
}

pw_status site_open(pw_year_workspace *ws, const pw_weather *weather,
                    const pw_year_options *options, const pw_house *house, pw_err *err)
{
  const pw_sky_model model = options->sky;
  const double share = wind_share(house);
  pw_status s = make_room(ws, err);
  if (s != PW_OK) return s;
  if (ws->n_facade > SITE_FACADES_KEPT) drop_facades(ws); /* many houses in a row: begin anew */
  int known = ws->weather == weather && same_site(&ws->site, &weather->site);
  if (!known || ws->model != model) {
    ws->weather = NULL;
    drop_facades(ws);
    s = pw_sky_of_year(weather, model, ws->sky, err);
    if (s != PW_OK) return s;
    memset(ws->dark, 1, sizeof ws->dark);
    for (size_t k = 0; k < ws->sky->sun.n; k++)
      ws->dark[ws->sky->sun.hour[k]] = 0;
    ws->model = model;
    ws->n_sky++;
  }
  if (!known) {
    double before = ws->pressure;
    s = read_hours(ws, weather, err);
    if (s != PW_OK) return s;
    if (ws->pressure != before) forget_panes(ws); /* cavities hold the air of the place */
  }
  if (!known || ws->clear != options->clear) read_sky(ws, weather, options->clear);
  if (!known || ws->wind_share != share || ws->film_out != house->film_out)
    read_wind(ws, share, house->film_out);
  ws->weather = weather;
  ws->site = weather->site;
  return PW_OK;
}

pw_status site_facade_of(pw_year_workspace *ws, double facing_deg, double tilt_deg,
                         double albedo, const site_facade **out, pw_err *err)
{
  pw_facade key = {tilt_deg == 0.0 || tilt_deg == 180.0 ? 0.0 : facing_deg, tilt_deg, albedo};
  for (size_t i = 0; i < ws->n_facade; i++) {
    const pw_facade *k = &ws->facade[i]->key;
    if (k->azimuth_deg == key.azimuth_deg && k->tilt_deg == key.tilt_deg &&
        k->albedo == key.albedo) {
      *out = ws->facade[i];
      return PW_OK;
    }
  }
  if (ws->n_facade == SITE_FACADES)
    return pw_fail(err, PW_E_SHAPE, "facing_deg", "more than %d different facades",
                   SITE_FACADES);
  site_facade *f = malloc(sizeof *f);
  if (!f) return no_memory(err);
  f->key = key;
  pw_status s = pw_facade_of_year(ws->sky, &key, &f->year, err);
  if (s != PW_OK) {
    free(f);
    return s;
  }
  const pw_facade_year *y = &f->year;
  for (int i = 0; i < PW_HOURS; i++) {
    float sky = y->circumsolar[i] + y->dome[i] + y->horizon[i];
    f->all[i] = y->beam[i] + (sky > 0.0f ? sky : 0.0f) + y->ground[i];
  }
  ws->facade[ws->n_facade++] = f;
  *out = f;
  return PW_OK;
}

static int same_layers(const pw_wall_layers *a, const pw_wall_layers *b)
{
  if (a->n_layer != b->n_layer) return 0;
  for (size_t i = 0; i < a->n_layer; i++) {
    const pw_wall_layer *p = &a->layer[i], *q = &b->layer[i];
    if (p->thickness != q->thickness || p->conductivity != q->conductivity ||
        p->density != q->density || p->heat != q->heat || p->resistance != q->resistance)
      return 0;
  }
  return 1;
}

pw_status site_wall_of(pw_year_workspace *ws, const pw_wall_layers *layers, double step,
                       double least, const pw_wall **out, pw_err *err)
{
  for (size_t i = 0; i < ws->n_wall; i++)
    if (ws->wall[i]->step == step && ws->wall[i]->least == least &&
        same_layers(&ws->wall[i]->key, layers)) {
      *out = &ws->wall[i]->wall;
      return PW_OK;
    }
  if (ws->n_wall == SITE_WALLS)
    return pw_fail(err, PW_E_SHAPE, "layers", "more than %d different walls", SITE_WALLS);
  site_wall *w = malloc(sizeof *w);
  if (!w) return no_memory(err);
  w->key = *layers;
  w->step = step;
  w->least = least;
  pw_status s = pw_wall_init_cut(layers, step, least, &w->wall, err);
  if (s != PW_OK) {
    free(w);
    return s;
  }
  ws->wall[ws->n_wall++] = w;
  *out = &w->wall;
  return PW_OK;
}

pw_status site_pane_of(pw_year_workspace *ws, const pw_glazing *glazing, double height,
                       const pane_unit **out, pw_err *err)
{
  for (size_t i = 0; i < ws->n_pane; i++)
    if (ws->pane[i]->height == height && unit_same(&ws->pane[i]->key, &glazing->unit)) {
      *out = &ws->pane[i]->unit;
      return PW_OK;
    }
  if (ws->n_pane == SITE_PANES)
    return pw_fail(err, PW_E_SHAPE, "glazing", "more than %d different units", SITE_PANES);
  site_pane *p = malloc(sizeof *p);
  if (!p) return no_memory(err);
  p->key = glazing->unit;
  p->height = height;
  pw_status s = pane_unit_of(glazing, height, ws->pressure, &p->unit, err);
  if (s != PW_OK) {
    free(p);
    return s;
  }
  ws->pane[ws->n_pane++] = p;
  *out = &p->unit;
  return PW_OK;
}
