/* The year hour by hour with layered walls and each window's own balance. */
#include <stdlib.h>
#include <string.h>

#include "house/year_impl.h"

/* Comfort class C of ISO 7730:2005 table A.5, sedentary: winter 22 +- 3, summer 24.5 +- 2.5 C,
 * operative; from memory. */
static const double comfort_low = 292.15, comfort_high = 300.15; /* K */

enum { WINDS = 24 };                 /* steps of the table below */
static const double wind_step = 2.0; /* W/(m2 K) of forced film */

typedef struct run {
  const year_case *c;
  room room;
  room_drive drive;
  float part_sun[PW_PARTS_MAX];
  double view[PW_WINDOWS_MAX];                /* of the glass from 1 m before its middle */
  double scale[PW_WINDOWS_MAX];               /* m2 of glass */
  double frame[PW_WINDOWS_MAX];               /* W/K of a row of windows, at this hour's wind */
  double frame_at[PW_WINDOWS_MAX][WINDS + 1]; /* the same over the forced film */
  int steps;
  double
      outer_in; /* J through the outer faces and with the air, for the closing of the balance */
  double t_sum;
} run;

static double view_at_1_m(const pw_house_window *w)
{
  double a = 0.5 * site_width(w), b = 0.5 * site_height(w);
  return atan(a * b / sqrt(a * a + b * b + 1.0)) /
         PW_PI; /* solid angle of a rectangle / 4 pi */
}

static void load_frames(run *q, double wind_glass)
{
  double x = fmin(wind_glass / wind_step, WINDS - 0.001), sum = 0.0;
  int k = (int)x;
  x -= k;
  for (size_t w = 0; w < q->c->n; w++) {
    const double *t = &q->frame_at[w][k];
    q->frame[w] = t[0] + x * (t[1] - t[0]);
    sum += q->frame[w];
  }
  q->drive.frame_ua = sum;
}

static pw_status set_up(run *q, const year_case *c, pw_err *err)
{
  room *r = &q->room;
  q->c = c;
  q->steps = c->options.steps_per_hour > 0 ? c->options.steps_per_hour : 1;
  r->step = 3600.0 / q->steps;
  const film_rated film =
      film_rated_of(c->house->film_out, c->house->film_in, site_thin(c->ws));
  if (c->ws->n_pane + c->n > SITE_PANES) site_forget_panes(c->ws);
  for (size_t w = 0; w < c->n; w++) {
    const pw_house_window *in = &c->window[w];
    pw_status s = site_pane_of(c->ws, in->glazing, site_height(in), &r->window[w].unit, err);
    if (s != PW_OK) return s;
    q->view[w] = view_at_1_m(in);
    q->scale[w] = in->area_glass * c->count[w];
    for (int k = 0; k <= WINDS; k++)
      q->frame_at[w][k] =
          c->count[w] * film_of_rated(in->ua_other, in->area_other, k * wind_step, &film);
  }
  for (size_t i = 0; i < c->house->n_part; i++) {
    const pw_wall *wall;
    pw_status s = site_wall_of(c->ws, &c->house->part[i].layers, r->step, &wall, err);
    if (s != PW_OK) return s;
    r->part[i].wall = *wall;
  }
  return room_faces(r, c->house, c->window, c->n, site_thin(c->ws), err);
}

static double unlimited(double w) { return w > 0.0 ? w : INFINITY; }

/* The drive of one hour. */
static void load_hour(run *q, int i)
{
  const year_case *c = q->c;
  const pw_house *h = c->house;
  room_drive *d = &q->drive;
  int clock = i % 24;
  d->t_out = (double)c->ws->t_out[i] + PW_KELVIN;
  d->t_sky = (double)c->ws->t_sky[i];
  d->t_ground = h->ground_c[pw_month_of_day(i / 24)] + PW_KELVIN;
  d->wind_glass = (double)c->ws->wind_glass[i];
  d->wind_root = (double)c->ws->wind_root[i];
  d->density = (double)c->ws->density[i];
  load_frames(q, d->wind_glass);
  d->flow = h->volume * (h->air_changes + h->vent_changes[clock]) / 3600.0;
  d->gain_star = h->gain_w * h->gain_radiant;
  d->gain_air = h->gain_w - d->gain_star;
  d->heat_set = h->heat_set_c[clock] + PW_KELVIN;
  d->cool_set = h->cool_set_c[clock] + PW_KELVIN;
  d->heat_max = unlimited(h->heat_max_w);
  d->cool_max = unlimited(h->cool_max_w);
  d->heat_radiant = h->heat_radiant;
  d->frame_t = d->t_out;
  d->beam = d->diffuse = d->frame_sun = 0.0;
  for (size_t p = 0; p < h->n_part; p++)
    q->part_sun[p] = c->part_sun[p] ? c->part_sun[p][i] : 0.0f;
  d->part_sun = q->part_sun;
  for (size_t w = 0; w < c->n; w++) {
    const site_window *s = c->ws->window[w];
    d->beam += q->scale[w] * (double)s->beam[i];
    d->diffuse += q->scale[w] * (double)s->diffuse[i];
    d->frame_sun += c->window[w].solar_other * c->count[w] * (double)s->incident[i];
    d->pane_sun[w] = s->pane[i];
  }
}

/* Sums of one hour over its steps. */
typedef struct hour_sum {
  room_flow flow;
  double t_air, t_star;
} hour_sum;

static void run_hour(run *q, hour_sum *h)
{
  room_flow f;
  double share = 1.0 / q->steps;
  if (q->steps == 1) { /* no copying in the usual case */
    room_step(&q->room, &q->drive, &h->flow);
    h->t_air = q->room.was_air;
    h->t_star = q->room.was_star;
    return;
  }
  memset(h, 0, sizeof *h);
  for (int k = 0; k < q->steps; k++) {
    room_step(&q->room, &q->drive, &f);
    h->flow.heat += share * f.heat;
    h->flow.cool += share * f.cool;
    h->flow.air += share * f.air;
    h->flow.frame += share * f.frame;
    h->flow.gain += share * f.gain;
    h->flow.sun_out += share * f.sun_out;
    h->flow.opaque += share * f.opaque;
    h->flow.glass_out += share * f.glass_out;
    h->flow.stored += f.stored;
    for (size_t w = 0; w < q->c->n; w++) {
      h->flow.glass[w] += share * f.glass[w];
      h->flow.glass_sun[w] += share * f.glass_sun[w];
      h->flow.glass_back[w] += share * f.glass_back[w];
    }
    h->t_air += share * q->room.was_air;
    h->t_star += share * q->room.was_star;
  }
}

static void count_windows(run *q, const hour_sum *h, int i, int month, pw_year_result *r)
{
  const room_flow *f = &h->flow;
  double inside = 0.4 * h->t_air + 0.6 * h->t_star - q->drive.t_out;
  double sun_all = 0.0, into_all = 0.0;
  double stay_beam = 1.0 - q->room.beam_out, stay_diffuse = 1.0 - q->room.diffuse_out;
  for (size_t w = 0; w < q->c->n; w++) {
    const site_window *s = q->c->ws->window[w];
    pw_year_window *p = &r->window[w];
    double frame_sun = q->c->window[w].solar_other * q->c->count[w] * (double)s->incident[i];
    double passed = (double)s->beam[i] * stay_beam + (double)s->diffuse[i] * stay_diffuse;
    double sun = q->scale[w] * (passed + f->glass_sun[w]) + frame_sun;
    double lost =
        q->scale[w] * (f->glass_sun[w] + f->glass_back[w] - f->glass[w]) + q->frame[w] * inside;
    double net = sun - lost, t = q->room.was_in[q->room.n_part + w];
    p->solar_month_kwh[month] += 1e-3 * sun;
    p->lost_month_kwh[month] += 1e-3 * lost;
    if (f->heat > 0.0) p->heating_part_kwh -= 1e-3 * net;
    if (f->cool > 0.0) p->cooling_part_kwh += 1e-3 * net;
    double radiant = h->t_star + q->view[w] * (t - h->t_star);
    double operative = 0.5 * (h->t_air + radiant);
    p->hours_uncomfortable += operative < comfort_low || operative > comfort_high;
    p->t_inner_min_c = fmin(p->t_inner_min_c, t);
    p->t_inner_max_c = fmax(p->t_inner_max_c, t);
    p->radiant_min_c = fmin(p->radiant_min_c, radiant);
    sun_all += sun;
    into_all += net;
  }
  const pw_year_hours *o = q->c->options.hours;
  if (!o) return;
  if (o->window_w) o->window_w[i] = (float)into_all;
  if (o->solar_w) o->solar_w[i] = (float)sun_all;
}

static void put(float *series, int i, double value)
{
  if (series) series[i] = (float)value;
}

static void count_hour(run *q, const hour_sum *h, int i, pw_year_result *r)
{
  const room_flow *f = &h->flow;
  int month = pw_month_of_day(i / 24);
  double operative = 0.5 * (h->t_air + h->t_star), absorbed = 0.0, on_glass = 0.0;
  year_count_need(r, i, f->heat, f->cool);
  count_windows(q, h, i, month, r);
  for (size_t w = 0; w < q->c->n; w++) {
    const site_window *s = q->c->ws->window[w];
    double sum = 0.0;
    for (size_t p = 0; p < PW_PANES_MAX; p++)
      sum += (double)s->pane[i][p];
    absorbed += q->scale[w] * sum;
    on_glass += q->scale[w] * (double)s->incident[i];
  }
  double let_in = q->drive.beam + q->drive.diffuse;
  q->outer_in +=
      3600.0 * (f->heat - f->cool + f->gain + f->air + f->frame + q->drive.frame_sun +
                f->opaque + f->glass_out + absorbed + let_in - f->sun_out) -
      f->stored;
  r->stored_kwh += f->stored / 3.6e6;
  r->opaque_loss_kwh -= 1e-3 * f->opaque;
  r->air_loss_kwh -= 1e-3 * f->air;
  r->gain_kwh += 1e-3 * f->gain;
  r->hours_cold += operative < comfort_low;
  r->hours_overheated += operative > comfort_high;
  r->hours_warm += year_is_warm(q->c->house, h->t_air - PW_KELVIN);
  r->t_air_min_c = fmin(r->t_air_min_c, h->t_air);
  r->t_air_max_c = fmax(r->t_air_max_c, h->t_air);
  q->t_sum += h->t_air;
  const pw_year_hours *o = q->c->options.hours;
  if (!o) return;
  put(o->heating_w, i, f->heat);
  put(o->cooling_w, i, f->cool);
  put(o->t_air_c, i, h->t_air - PW_KELVIN);
  put(o->t_radiant_c, i, h->t_star - PW_KELVIN);
  put(o->transmitted, i, let_in);
  put(o->incident, i, on_glass);
}

static void open_extremes(const year_case *c, pw_year_result *r)
{
  r->t_air_min_c = 1e9;
  r->t_air_max_c = -1e9;
  for (size_t w = 0; w < c->n; w++) {
    r->window[w].t_inner_min_c = r->window[w].radiant_min_c = 1e9;
    r->window[w].t_inner_max_c = -1e9;
  }
}

static void close_extremes(const year_case *c, pw_year_result *r)
{
  r->t_air_min_c -= PW_KELVIN;
  r->t_air_max_c -= PW_KELVIN;
  for (size_t w = 0; w < c->n; w++) {
    r->window[w].t_inner_min_c -= PW_KELVIN;
    r->window[w].radiant_min_c -= PW_KELVIN;
    r->window[w].t_inner_max_c -= PW_KELVIN;
  }
}

/* A guess of the first day's temperatures: the set points where they hold, else outdoors and sun. */
static void start(run *q, int first)
{
  const year_case *c = q->c;
  double out = 0.0, in = c->house->heat_set_c[12];
  for (int i = 0; i < 24; i++)
    out += (double)c->ws->t_out[(first + i) % PW_HOURS] / 24.0;
  if (isnan(in)) in = out + 10.0;
  room_start(&q->room, in + PW_KELVIN, out + PW_KELVIN,
             c->house->ground_c[pw_month_of_day(first / 24)] + PW_KELVIN);
}

pw_status year_detailed(const year_case *c, pw_year_result *r, pw_err *err)
{
  run *q = calloc(1, sizeof *q);
  if (!q) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
  hour_sum h;
  int warm = 24 * (c->options.warm_up_days > 0 ? c->options.warm_up_days : 14);
  pw_status s = set_up(q, c, err);
  if (s == PW_OK) {
    start(q, PW_HOURS - warm);
    for (int i = PW_HOURS - warm; i < PW_HOURS; i++) {
      load_hour(q, i);
      run_hour(q, &h);
    }
    open_extremes(c, r);
    double before = room_content(&q->room);
    for (int i = 0; i < PW_HOURS; i++) {
      load_hour(q, i);
      run_hour(q, &h);
      count_hour(q, &h, i, r);
    }
    double walls = room_content(&q->room) - before;
    r->stored_kwh += walls / 3.6e6;
    r->residual_kwh = (q->outer_in - walls) / 3.6e6;
    r->t_air_mean_c = q->t_sum / PW_HOURS - PW_KELVIN;
    close_extremes(c, r);
    if (!(fabs(r->t_air_mean_c) < 200.0))
      s = pw_fail(err, PW_E_CONVERGE, NULL, "the house did not settle: mean air %g C",
                  r->t_air_mean_c);
  }
  free(q);
  return s;
}
