/* The year hour by hour of LANES cases side by side: layered walls and each window's own balance. A file
 * defines LANES and YEAR_LANES (the name of what it gives) and includes this. Internal. */
#include "house/year_run.h"
#include <stdlib.h>

/* Comfort class C of ISO 7730:2005 table A.5, sedentary: winter 22 +- 3, summer 24.5 +- 2.5 C,
 * operative; from memory. */
static const double comfort_low = 292.15, comfort_high = 300.15; /* K */

/* Sums of one hour over its steps. */
typedef struct hour_sum {
  lane_flow flow;
  vd t_air, t_star;
} hour_sum;

static void run_steps(run *q, int clock, int cut, hour_sum *h)
{
  lane_flow f;
  const int steps = cut ? HOUSE_CUT * q->steps : q->steps;
  double share = 1.0 / steps;
  memset(h, 0, sizeof *h);
  for (int k = 0; k < steps; k++) {
    q->drive.heat_set = q->heat_set[clock] + ((k + 0.5) * share - 0.5) * q->heat_ramp[clock];
    if (cut && k % HOUSE_CUT == 0)
      lane_no_faces(&q->room, q->pace);
    else if (!cut && q->pace)
      lane_keep_faces(&q->room, q->pace);
    lane_step(&q->room, &q->drive, &f);
    if (cut) lane_add_faces(&q->room, q->pace);
    h->flow.heat += share * f.heat;
    h->flow.cool += share * f.cool;
    h->flow.air += share * f.air;
    h->flow.open += share * f.open;
    h->flow.aired += share * f.aired;
    h->flow.frame += share * f.frame;
    h->flow.gain += share * f.gain;
    h->flow.sun_out += share * f.sun_out;
    h->flow.opaque += share * f.opaque;
    h->flow.glass_out += share * f.glass_out;
    h->flow.stored += f.stored;
    for (size_t w = 0; w < q->n_window; w++) {
      h->flow.glass[w] += share * f.glass[w];
      h->flow.glass_sun[w] += share * f.glass_sun[w];
      h->flow.glass_back[w] += share * f.glass_back[w];
    }
    h->t_air += share * q->room.was_air;
    h->t_star += share * q->room.was_star;
  }
}

static void run_hour(run *q, int i, hour_sum *h)
{
  const int clock = i % 24, cut = q->cut[clock], next = q->cut[(clock + 1) % 24];
  if (q->steps == 1 && !cut) { /* no copying in the usual case */
    if (next) lane_keep_faces(&q->room, q->pace);
    lane_step(&q->room, &q->drive, &h->flow);
    h->t_air = q->room.was_air;
    h->t_star = q->room.was_star;
  } else {
    run_steps(q, clock, cut, h);
  }
  if (next && !cut) lane_quicken(&q->room, q->pace);
  if (cut && !next) lane_slow(&q->room, q->pace);
}

static inline void peak(vd *most, vd *hour, vd need, int i)
{
  vm above = v_less(*most, need);
  *most = v_pick(above, need, *most);
  *hour = v_pick(above, v_all(i), *hour);
}

/* Sum of what a step's hour absorbs in the panes of a window, W/m2. */
static inline vd absorbed_in(const float *pane, size_t n)
{
  vd sum = v_all(0.0);
  for (size_t p = 0; p < n; p++)
    sum += v_of(pane + p * LANES);
  return sum;
}

/* Writes an hourly series of the lanes that want it. */
static void put(run *q, size_t offset, int i, vd value)
{
  for (size_t l = 0; l < q->n; l++) {
    pw_year_hours *o = q->c[l]->options.hours;
    float **series = o ? (float **)((char *)o + offset) : NULL;
    if (series && *series) (*series)[i] = (float)v_get(value, l);
  }
}
#define PUT(member, value)                                                                     \
  if (q->hours) put(q, offsetof(pw_year_hours, member), i, value)

static void count_windows(run *q, const hour_sum *h, int i, int month)
{
  const lane_flow *f = &h->flow;
  const vd none = v_all(0.0);
  vd inside = 0.4 * h->t_air + 0.6 * h->t_star - q->drive.t_out;
  vd sun_all = none, into_all = none;
  vd stay_beam = 1.0 - q->room.beam_out, stay_diffuse = 1.0 - q->room.diffuse_out;
  vm heats = v_less(none, f->heat), cools = v_less(none, f->cool);
  for (size_t w = 0; w < q->n_window; w++) {
    lane_window *p = &q->sum.window[w];
    vd incident = v_of(q->sun[w] + SITE_INCIDENT * LANES);
    vd beam = v_of(q->sun[w] + SITE_BEAM * LANES);
    vd diffuse = v_of(q->sun[w] + SITE_DIFFUSE * LANES);
    vd frame_sun = q->frame_solar[w] * incident;
    vd passed = beam * stay_beam + diffuse * stay_diffuse;
    vd sun = q->scale[w] * (passed + f->glass_sun[w]) + frame_sun;
    vd lost =
        q->scale[w] * (f->glass_sun[w] + f->glass_back[w] - f->glass[w]) + q->frame[w] * inside;
    vd net = sun - lost, t = q->room.was_in[q->room.n_part + w];
    p->solar_month[month] += 1e-3 * sun;
    p->lost_month[month] += 1e-3 * lost;
    p->heating_part -= v_pick(heats, 1e-3 * net, none);
    p->cooling_part += v_pick(cools, 1e-3 * net, none);
    vd radiant = h->t_star + q->view[w] * (t - h->t_star);
    vd operative = 0.5 * (h->t_air + radiant);
    p->uncomfortable +=
        v_one(v_less(operative, v_all(comfort_low)) | v_less(v_all(comfort_high), operative));
    p->t_min = v_min(p->t_min, t);
    p->t_max = v_max(p->t_max, t);
    p->radiant_min = v_min(p->radiant_min, radiant);
    p->incident += incident;
    p->passed += beam + diffuse;
    sun_all += sun;
    into_all += net;
  }
  PUT(window_w, into_all);
  PUT(solar_w, sun_all);
}

static void count_hour(run *q, const hour_sum *h, int i)
{
  const lane_flow *f = &h->flow;
  lane_year *r = &q->sum;
  const int month = q->month;
  vd operative = 0.5 * (h->t_air + h->t_star), absorbed = v_all(0.0), on_glass = v_all(0.0);
  r->heating_month[month] += 1e-3 * f->heat;
  r->cooling_month[month] += 1e-3 * f->cool;
  peak(&r->peak_heating, &r->peak_heating_hour, f->heat, i);
  peak(&r->peak_cooling, &r->peak_cooling_hour, f->cool, i);
  count_windows(q, h, i, month);
  for (size_t w = 0; w < q->n_window; w++) {
    absorbed += q->scale[w] * absorbed_in(q->drive.pane_sun[w], q->room.glass[w].n);
    on_glass += q->scale[w] * v_of(q->sun[w] + SITE_INCIDENT * LANES);
  }
  vd let_in = q->drive.beam + q->drive.diffuse;
  r->outer_in +=
      3600.0 * (f->heat - f->cool + f->gain + f->air + f->frame + q->drive.frame_sun +
                f->opaque + f->glass_out + absorbed + let_in - f->sun_out) -
      f->stored;
  r->stored += f->stored / 3.6e6;
  r->opaque_loss -= 1e-3 * f->opaque;
  r->air_loss -= 1e-3 * f->air;
  r->gain += 1e-3 * f->gain;
  r->hours_open += v_one(v_less(v_all(0.0), f->open));
  r->aired -= 1e-3 * f->aired;
  r->open += f->open;
  r->cold += v_one(v_less(operative, v_all(comfort_low)));
  r->overheated += v_one(v_less(v_all(comfort_high), operative));
  r->hours_warm += v_one(v_less(q->warm_above, h->t_air));
  r->t_min = v_min(r->t_min, h->t_air);
  r->t_max = v_max(r->t_max, h->t_air);
  r->t_sum += h->t_air;
  PUT(heating_w, f->heat);
  PUT(cooling_w, f->cool);
  PUT(t_air_c, h->t_air - PW_KELVIN);
  PUT(t_radiant_c, h->t_star - PW_KELVIN);
  PUT(transmitted, let_in);
  PUT(incident, on_glass);
}

/* The sums of lane l as a result; walls: J taken up by them. */
static pw_status close_sums(const run *q, size_t l, double walls, pw_year_result *o,
                            pw_err *err)
{
  const lane_year *r = &q->sum;
  for (int m = 0; m < 12; m++) {
    o->heating_month_kwh[m] = v_get(r->heating_month[m], l);
    o->cooling_month_kwh[m] = v_get(r->cooling_month[m], l);
  }
  o->peak_heating_w = v_get(r->peak_heating, l);
  o->peak_cooling_w = v_get(r->peak_cooling, l);
  o->peak_heating_hour = (int)v_get(r->peak_heating_hour, l);
  o->peak_cooling_hour = (int)v_get(r->peak_cooling_hour, l);
  o->hours_cold = v_get(r->cold, l);
  o->hours_overheated = v_get(r->overheated, l);
  o->hours_warm = v_get(r->hours_warm, l);
  o->opaque_loss_kwh = v_get(r->opaque_loss, l);
  o->air_loss_kwh = v_get(r->air_loss, l);
  o->gain_kwh = v_get(r->gain, l);
  o->hours_open = v_get(r->hours_open, l);
  o->airing_kwh = v_get(r->aired, l);
  o->open_m3_s = o->hours_open > 0.0 ? v_get(r->open, l) / o->hours_open : 0.0;
  o->stored_kwh = v_get(r->stored, l) + walls / 3.6e6;
  o->residual_kwh = (v_get(r->outer_in, l) - walls) / 3.6e6;
  o->t_air_min_c = v_get(r->t_min, l) - PW_KELVIN;
  o->t_air_max_c = v_get(r->t_max, l) - PW_KELVIN;
  o->t_air_mean_c = v_get(r->t_sum, l) / PW_HOURS - PW_KELVIN;
  for (size_t w = 0; w < q->n_window; w++) {
    const lane_window *p = &r->window[w];
    pw_year_window *to = &o->window[w];
    double scale = 1e-3 * v_get(q->scale[w], l);
    to->incident_kwh = scale * v_get(p->incident, l);
    to->transmitted_kwh = scale * v_get(p->passed, l);
    for (int m = 0; m < 12; m++) {
      to->solar_month_kwh[m] = v_get(p->solar_month[m], l);
      to->lost_month_kwh[m] = v_get(p->lost_month[m], l);
    }
    to->heating_part_kwh = v_get(p->heating_part, l);
    to->cooling_part_kwh = v_get(p->cooling_part, l);
    to->hours_uncomfortable = v_get(p->uncomfortable, l);
    to->t_inner_min_c = v_get(p->t_min, l) - PW_KELVIN;
    to->t_inner_max_c = v_get(p->t_max, l) - PW_KELVIN;
    to->radiant_min_c = v_get(p->radiant_min, l) - PW_KELVIN;
  }
  if (!(fabs(o->t_air_mean_c) < 200.0))
    return pw_fail(err, PW_E_CONVERGE, NULL, "the house did not settle: mean air %g C",
                   o->t_air_mean_c);
  return PW_OK;
}

/* A guess of the first day's temperatures: the set points where they hold, else outdoors and sun. */
static void start(run *q, size_t l, int first)
{
  const pw_house *h = q->c[l]->house;
  double out = 0.0, in = h->heat_set_c[12];
  for (int i = 0; i < 24; i++)
    out += (double)q->ws->t_out[(first + i) % PW_HOURS] / 24.0;
  if (isnan(in)) in = out + 10.0;
  lane_start(&q->room, l, &q->plan[l], in + PW_KELVIN, out + PW_KELVIN,
             h->ground_c[pw_month_of_day(first / 24)] + PW_KELVIN);
}

static void live(run *q, double walls[])
{
  hour_sum h;
  int days = q->c[0]->options.warm_up_days, warm = 24 * (days > 0 ? days : 14);
  for (size_t l = 0; l < LANES; l++)
    start(q, l, PW_HOURS - warm);
  if (q->cut[0]) {
    lane_keep_faces(&q->room, q->pace);
    lane_swap_pace(&q->room, q->pace);
  }
  for (int i = PW_HOURS - warm; i < PW_HOURS; i++) {
    load_hour(q, i);
    run_hour(q, i, &h);
  }
  lane_open_year(&q->sum, q->n_window);
  for (size_t l = 0; l < q->n; l++)
    walls[l] = lane_content(&q->room, l, &q->plan[l]);
  for (int i = 0; i < PW_HOURS; i++) {
    load_hour(q, i);
    run_hour(q, i, &h);
    count_hour(q, &h, i);
  }
  for (size_t l = 0; l < q->n; l++)
    walls[l] = lane_content(&q->room, l, &q->plan[l]) - walls[l];
}

/* Zeroed, for whole lanes. */
static void *room_for(size_t size)
{
  const size_t lane = 8 * LANES, whole = (size + lane - 1) / lane * lane;
  void *p = aligned_alloc(lane, whole);
  return p ? memset(p, 0, whole) : NULL;
}

/* Room for short steps where an hour has them. */
static pw_status open_pace(run *q, pw_err *err)
{
  house_cut(q->c[0]->house, q->cut);
  if (!memchr(q->cut, 1, sizeof q->cut)) return PW_OK;
  q->pace = room_for(sizeof *q->pace);
  return q->pace ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
}

pw_status YEAR_LANES(const year_case *const c[], size_t n, pw_year_result *const result[],
                     size_t *failed, pw_err *err)
{
  const year_case *lane[LANES];
  double walls[LANES];
  for (size_t l = 0; l < LANES; l++)
    lane[l] = c[l < n ? l : 0];
  run *q = room_for(sizeof *q);
  if (!q) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
  q->c = lane;
  q->n = n;
  q->n_window = c[0]->n;
  q->n_part = c[0]->house->n_part;
  q->ws = c[0]->ws;
  q->steps = c[0]->options.steps_per_hour > 0 ? c[0]->options.steps_per_hour : 1;
  pw_status s = open_pace(q, err);
  for (size_t l = 0; s == PW_OK && l < LANES; l++) {
    *failed = l < n ? l : 0;
    s = set_up(q, l, err);
  }
  if (s == PW_OK) {
    share_walls(q);
    live(q, walls);
  }
  for (size_t l = 0; s == PW_OK && l < n; l++) {
    *failed = l;
    s = close_sums(q, l, walls[l], result[l], err);
  }
  free(q->pace);
  free(q);
  return s;
}
