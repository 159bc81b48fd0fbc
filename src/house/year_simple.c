/* The simple hourly and the monthly method on the same house, weather and sun. */
#include <string.h>

#include "house/monthly.h"
#include "house/simple.h"
#include "house/year_impl.h"
#include "panewright/units.h"

static const double r_se = 0.04; /* m2 K/W; ISO 13790 11.3.4 with ISO 6946; memory */
static const double h_r_sky =
    4.5; /* W/(m2 K): 5 times emissivity 0.9; ISO 13790 11.4.6; memory */
static const double dt_sky = 11.0; /* K, intermediate climate; ISO 13790 11.3.5; memory */

/* What both methods need of the house, constant over the year. */
typedef struct lumped {
  double h_opaque, h_ground, h_window; /* W/K */
  double u_window[PW_WINDOWS_MAX];     /* W/K of a row of windows */
  double inward[PW_WINDOWS_MAX]; /* share of absorbed sun that comes in, rating conditions */
  double air_per_change;         /* W/K for one change an hour */
  double sky_loss;               /* W, constant */
  double mass_area, mass_store;
  double sun[PW_PARTS_MAX]; /* m2: what of the sun on a part comes in */
} lumped;

static double sky_view(double tilt_deg)
{
  return tilt_deg < 45.0 ? 1.0 : tilt_deg > 135.0 ? 0.0 : 0.5; /* ISO 13790 11.4.6 */
}

static void lump(const year_case *c, lumped *l)
{
  const pw_house *h = c->house;
  double wind = 0.0; /* the mean of the year: a rated U is for 5.5 m/s */
  for (int i = 0; i < PW_HOURS; i++)
    wind += (double)c->ws->wind_glass[i] / PW_HOURS;
  const film_rated film = film_rated_of(h->film_out, h->film_in, site_thin(c->ws));
  memset(l, 0, sizeof *l);
  pw_house_ua(h, &l->h_opaque, &l->h_ground);
  for (size_t i = 0; i < h->n_part; i++) {
    const pw_house_part *p = &h->part[i];
    if (p->outside != PW_OUTSIDE_AIR) continue;
    double ua_se = pw_house_part_u(p) * p->area * r_se;
    l->sun[i] = ua_se * p->absorptance;
    l->sky_loss += ua_se * sky_view(p->tilt_deg) * h_r_sky * dt_sky;
  }
  for (size_t w = 0; w < c->n; w++) {
    const pw_house_window *in = &c->window[w];
    const pw_glazing *g = in->glazing;
    double absorbed = 0.0;
    for (size_t p = 0; p < g->light.n_pane; p++)
      absorbed += g->light.absorbed[p][0];
    l->inward[w] = absorbed > 0.0 ? fmax(g->shgc[0] - g->light.tau_e[0], 0.0) / absorbed : 0.0;
    l->u_window[w] = c->count[w] *
                     (film_of_rated(g->u_winter * in->area_glass, in->area_glass, wind, &film) +
                      film_of_rated(in->ua_other, in->area_other, wind, &film));
    l->h_window += l->u_window[w];
    l->sky_loss += l->u_window[w] * r_se * 0.5 * h_r_sky * dt_sky;
  }
  l->air_per_change =
      PW_AIR_HEAT * c->ws->pressure / (PW_AIR_GAS * PW_ROOM_T) * h->volume / 3600.0;
  l->mass_area = h->mass_area > 0.0 ? h->mass_area : 2.5 * h->floor_area;
  l->mass_store = h->mass_store > 0.0 ? h->mass_store : 110e3 * h->floor_area;
}

/* Air changes of an hour, without wanted ventilation, 1/h. */
static double air_at(const pw_house *h, int i)
{
  return h->air_changes * (h->air_shape ? (double)h->air_shape[i] : 1.0);
}

/* Sun gained through a row of windows in an hour, W. */
static double window_sun(const year_case *c, const lumped *l, size_t w, int i)
{
  const float *sun = site_sun(c->ws->window[w], (size_t)i, 0);
  double absorbed = 0.0;
  for (size_t p = 0; p < PW_PANES_MAX; p++)
    absorbed += (double)sun[SITE_ABSORBED + p];
  return c->count[w] *
         (c->window[w].area_glass *
              ((double)sun[SITE_BEAM] + (double)sun[SITE_DIFFUSE] + l->inward[w] * absorbed) +
          c->window[w].solar_other * (double)sun[SITE_INCIDENT]);
}

static double part_sun(const year_case *c, const lumped *l, int i)
{
  double sun = 0.0;
  for (size_t p = 0; p < c->house->n_part; p++)
    if (c->part_sun[p]) sun += l->sun[p] * (double)c->part_sun[p][i];
  return sun;
}

/* Sun of the year on and through the windows, kWh. */
static void count_sun(const year_case *c, pw_year_result *r)
{
  for (size_t w = 0; w < c->n; w++) {
    const site_window *s = c->ws->window[w];
    double incident = 0.0, passed = 0.0, scale = 1e-3 * c->window[w].area_glass * c->count[w];
    for (size_t i = 0; i < PW_HOURS; i++) {
      const float *sun = site_sun(s, i, 0);
      incident += (double)sun[SITE_INCIDENT];
      passed += (double)(sun[SITE_BEAM] + sun[SITE_DIFFUSE]);
    }
    r->window[w].incident_kwh = scale * incident;
    r->window[w].transmitted_kwh = scale * passed;
  }
}

/* What these methods cannot know is left as not a number. */
static void blank(const year_case *c, pw_year_result *r)
{
  r->residual_kwh = r->stored_kwh = r->opaque_loss_kwh = NAN;
  for (size_t w = 0; w < c->n; w++) {
    pw_year_window *q = &r->window[w];
    q->t_inner_min_c = q->t_inner_max_c = q->hours_uncomfortable = q->radiant_min_c = NAN;
  }
}

static void count_windows(const year_case *c, const lumped *l, const pw_simple_hour *h,
                          const double sun[], double t_out, int i, pw_year_result *r)
{
  int month = pw_month_of_day(i / 24);
  double sun_all = 0.0, net_all = 0.0;
  for (size_t w = 0; w < c->n; w++) {
    pw_year_window *q = &r->window[w];
    double lost = l->u_window[w] * (h->t_surface - t_out), net = sun[w] - lost;
    q->solar_month_kwh[month] += 1e-3 * sun[w];
    q->lost_month_kwh[month] += 1e-3 * lost;
    if (h->need > 0.0) q->heating_part_kwh -= 1e-3 * net;
    if (h->need < 0.0) q->cooling_part_kwh += 1e-3 * net;
    sun_all += sun[w];
    net_all += net;
  }
  pw_year_hours *o = c->options.hours;
  if (!o) return;
  if (o->heating_w) o->heating_w[i] = (float)fmax(h->need, 0.0);
  if (o->cooling_w) o->cooling_w[i] = (float)fmax(-h->need, 0.0);
  if (o->t_air_c) o->t_air_c[i] = (float)h->t_air;
  if (o->t_radiant_c) o->t_radiant_c[i] = (float)h->t_surface;
  if (o->solar_w) o->solar_w[i] = (float)sun_all;
  if (o->window_w) o->window_w[i] = (float)net_all;
  if (o->transmitted || o->incident) {
    double passed = 0.0, on = 0.0;
    for (size_t w = 0; w < c->n; w++) {
      const float *at = site_sun(c->ws->window[w], (size_t)i, 0);
      double area = c->window[w].area_glass * c->count[w];
      passed += area * ((double)at[SITE_BEAM] + (double)at[SITE_DIFFUSE]);
      on += area * (double)at[SITE_INCIDENT];
    }
    if (o->transmitted) o->transmitted[i] = (float)passed;
    if (o->incident) o->incident[i] = (float)on;
  }
}

/* Takes one hour's need (W, both positive) into the sums. */
static void count_need(pw_year_result *r, int hour, double heat, double cool)
{
  int month = pw_month_of_day(hour / 24);
  r->heating_month_kwh[month] += 1e-3 * heat;
  r->cooling_month_kwh[month] += 1e-3 * cool;
  if (heat > r->peak_heating_w) {
    r->peak_heating_w = heat;
    r->peak_heating_hour = hour;
  }
  if (cool > r->peak_cooling_w) {
    r->peak_cooling_w = cool;
    r->peak_cooling_hour = hour;
  }
}

/* Windows that may stand open, and what the hour is with them: as lane_step.h's air_out, the flow found by halving. */
typedef struct airing_hour {
  pw_simple s;
  pw_simple_net net;
  pw_simple_drive drive;
  double t_mass; /* at its start, then at its end */
  double open;   /* m3/s */
} airing_hour;

static pw_status with_flow(airing_hour *a, const pw_simple *shut, double per_flow, double flow,
                           double t_mass, pw_simple_hour *hour, pw_err *err)
{
  a->s = *shut;
  a->s.h_air += per_flow * flow;
  a->t_mass = t_mass;
  a->open = flow;
  pw_status status = pw_simple_init(&a->s, &a->net, err);
  if (status == PW_OK) pw_simple_step(&a->s, &a->net, &a->drive, &a->t_mass, hour);
  return status;
}

static pw_status air_out(const year_case *c, const pw_airing_flow *f, const pw_simple *shut,
                         const pw_simple_drive *d, int i, double per_flow, double was_air,
                         double *t_mass, pw_simple_hour *hour, double *open, pw_err *err)
{
  const pw_airing *rule = &c->house->airing;
  const double v = (double)c->ws->wind[i], dt = fmax(0.0, was_air - d->t_out);
  double most = rule->most_changes * c->house->volume / 3600.0, least = 0.0, before = *t_mass;
  airing_hour a = {.drive = *d};
  pw_simple_hour now;
  *open = 0.0;
  a.drive.cool_set = (double)NAN;
  pw_status status = with_flow(&a, shut, per_flow, 0.0, before, &now, err);
  if (status != PW_OK || !(now.t_air > rule->down_to_c) ||
      !(now.t_air - d->t_out > rule->over_out))
    return status;
  most = fmin(most, sqrt(f->wind * v * v + f->stack * dt + f->still));
  status = with_flow(&a, shut, per_flow, most, before, &now, err);
  int drawn_to = now.t_air < rule->down_to_c;
  for (int k = 0; status == PW_OK && drawn_to && k < 30; k++) {
    status = with_flow(&a, shut, per_flow, 0.5 * (least + most), before, &now, err);
    *(now.t_air < rule->down_to_c ? &most : &least) = a.open;
  }
  if (status != PW_OK || now.t_air > d->cool_set) return status;
  *open = a.open;
  *hour = now;
  *t_mass = a.t_mass;
  return PW_OK;
}

static void count_hour(const year_case *c, const pw_simple_hour *h, int i, pw_year_result *r)
{
  count_need(r, i, fmax(h->need, 0.0), fmax(-h->need, 0.0));
  r->t_air_min_c = fmin(r->t_air_min_c, h->t_air);
  r->t_air_max_c = fmax(r->t_air_max_c, h->t_air);
  r->t_air_mean_c += h->t_air / PW_HOURS;
  r->hours_cold += h->t_operative < 19.0; /* ISO 7730 class C, as in the detailed method */
  r->hours_overheated += h->t_operative > 27.0;
  r->hours_warm += h->t_air > year_warm_above(c->house);
}

pw_status year_simple(const year_case *c, pw_year_result *r, pw_err *err)
{
  const pw_house *h = c->house;
  lumped l;
  lump(c, &l);
  pw_simple s = {.floor_area = h->floor_area,
                 .mass_area = l.mass_area,
                 .mass_store = l.mass_store,
                 .h_opaque = l.h_opaque + l.h_ground,
                 .h_window = l.h_window,
                 .h_air = -1.0};
  pw_simple_net net = {0};
  pw_simple_hour hour;
  const pw_airing_flow flow = pw_year_open_flow(h, c->window, c->n);
  double t_mass = 20.0, was_air = t_mass, per_flow = l.air_per_change * 3600.0 / h->volume;
  int warm = 24 * (c->options.warm_up_days > 0 ? c->options.warm_up_days : 14);
  blank(c, r);
  count_sun(c, r);
  r->t_air_min_c = 1e9;
  r->t_air_max_c = -1e9;
  for (int k = -warm; k < PW_HOURS; k++) {
    int i = k < 0 ? k + PW_HOURS : k, clock = i % 24;
    double sun[PW_WINDOWS_MAX], all = part_sun(c, &l, i) - l.sky_loss;
    double t_out = (double)c->ws->t_out[i];
    double h_air = l.air_per_change * (air_at(h, i) + h->vent_changes[clock]);
    if (h_air != s.h_air) {
      s.h_air = h_air;
      pw_status status = pw_simple_init(&s, &net, err);
      if (status != PW_OK) return status;
    }
    for (size_t w = 0; w < c->n; w++)
      all += sun[w] = window_sun(c, &l, w, i);
    /* The method knows one outdoor temperature: what the ground differs goes in as a flow. */
    all += l.h_ground * (h->ground_c[pw_month_of_day(i / 24)] - t_out);
    pw_simple_drive d = {
        t_out, t_out, h->gain_w, all, h->heat_set_c[clock], h->cool_set_c[clock]};
    double started = t_mass, open = 0.0;
    pw_simple_step(&s, &net, &d, &t_mass, &hour);
    if ((h->airing.hours >> clock & 1u) &&
        (double)c->weather->hour[i].t_dew <= h->airing.dew_most_c) {
      pw_simple_hour aired = hour;
      double end = started;
      pw_status status =
          air_out(c, &flow, &s, &d, i, per_flow, was_air, &end, &aired, &open, err);
      if (status != PW_OK) return status;
      if (open > 0.0) {
        t_mass = end;
        hour = aired;
      }
    }
    was_air = hour.t_air;
    if (k < 0) continue;
    count_windows(c, &l, &hour, sun, t_out, i, r);
    count_hour(c, &hour, i, r);
    r->gain_kwh += 1e-3 * h->gain_w;
    double aired = 1e-3 * per_flow * open * (hour.t_air - t_out);
    r->air_loss_kwh += 1e-3 * h_air * (hour.t_air - t_out) + aired;
    r->airing_kwh += aired;
    r->hours_open += open > 0.0;
    r->open_m3_s += open;
  }
  if (r->hours_open > 0.0) r->open_m3_s /= r->hours_open;
  return PW_OK;
}

/* Mean of the hours in which it is on; NAN when always off. */
static double mean_set(const double set[24])
{
  double sum = 0.0;
  int n = 0;
  for (int i = 0; i < 24; i++)
    if (!isnan(set[i])) {
      sum += set[i];
      n++;
    }
  return n > 0 ? sum / n : NAN;
}

pw_status year_quick(const year_case *c, pw_year_result *r, pw_err *err)
{
  const pw_house *h = c->house;
  lumped l;
  double vent = 0.0;
  lump(c, &l);
  blank(c, r);
  count_sun(c, r);
  r->t_air_min_c = r->t_air_max_c = r->t_air_mean_c = NAN;
  r->hours_cold = r->hours_overheated = r->hours_warm = NAN;
  r->hours_open = r->airing_kwh = r->open_m3_s = NAN; /* its windows stay shut */
  for (size_t w = 0; w < c->n; w++)
    r->window[w].heating_part_kwh = r->window[w].cooling_part_kwh = NAN;
  for (int i = 0; i < 24; i++)
    vent += h->vent_changes[i] / 24.0;
  pw_month_balance b = {.heat_set = mean_set(h->heat_set_c),
                        .cool_set = mean_set(h->cool_set_c),
                        .h_transmission = l.h_opaque + l.h_ground + l.h_window,
                        .h_air = l.air_per_change * (h->air_changes + vent)};
  b.time_constant_h = l.mass_store / 3600.0 / (b.h_transmission + b.h_air);
  double inside = isnan(b.heat_set) ? b.cool_set : b.heat_set;
  for (int m = 0; m < 12; m++) {
    int first = 24 * pw_month_start[m], last = first + 24 * pw_month_days[m];
    double t = 0.0, sun = 0.0, sun_parts = 0.0;
    b.hours = last - first;
    if (h->air_shape) { /* the month's mean; the time constant stays the year's */
      double air = 0.0;
      for (int i = first; i < last; i++)
        air += air_at(h, i) / b.hours;
      b.h_air = l.air_per_change * (air + vent);
    }
    for (int i = first; i < last; i++) {
      t += (double)c->ws->t_out[i] / b.hours;
      sun_parts += 1e-3 * part_sun(c, &l, i);
      for (size_t w = 0; w < c->n; w++) {
        double s = 1e-3 * window_sun(c, &l, w, i);
        r->window[w].solar_month_kwh[m] += s;
        sun += s;
      }
    }
    for (size_t w = 0; w < c->n; w++)
      r->window[w].lost_month_kwh[m] = 1e-3 * b.hours * l.u_window[w] * (inside - t);
    b.t_out = t;
    b.gain_kwh = 1e-3 * b.hours * h->gain_w + sun + sun_parts;
    b.extra_loss_kwh = 1e-3 * b.hours * (l.sky_loss + l.h_ground * (t - h->ground_c[m]));
    pw_status s = pw_month_need(&b, &r->heating_month_kwh[m], &r->cooling_month_kwh[m], err);
    if (s != PW_OK) return s;
    r->gain_kwh += 1e-3 * b.hours * h->gain_w;
    r->air_loss_kwh += 1e-3 * b.hours * b.h_air * (inside - t);
  }
  r->peak_heating_w = r->peak_cooling_w = NAN;
  return PW_OK;
}
