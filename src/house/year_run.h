/* A year's run of LANES cases: what it holds, how it is set up, and what drives it in each hour. Included by year_lanes.h
 * after LANES is defined. Internal. */
#include <string.h>

#include "base/own_math.h"
#include "house/lane_step.h"
#include "house/lane_year.h"
#include "house/year_impl.h"

/* The record of an hour in the dark, which is not read from the windows' (they are long). */
static const float no_sun[SITE_SUN * LANES];

enum { WINDS = 24 };                 /* steps of the table below */
static const double wind_step = 2.0; /* W/(m2 K) of forced film */

typedef enum part_sun { SUN_NONE, SUN_ONE, SUN_EACH } part_sun; /* over the lanes */

typedef struct run {
  const year_case *const *c; /* LANES of them; those beyond n repeat the first */
  size_t n, n_window, n_part;
  const pw_year_workspace *ws;
  room plan[LANES];
  lane_room room;
  lane_drive drive;
  int steps;             /* an hour; HOUSE_CUT times as many in one that is cut */
  unsigned char cut[24]; /* by the clock */
  int month;             /* of the hour */
  lane_pace *pace;       /* NULL: no hour is */
  part_sun part_sun[PW_PARTS_MAX];
  const float *sun[PW_WINDOWS_MAX];       /* this hour's record, as of the site */
  vd view[PW_WINDOWS_MAX];                /* of the glass from 1 m before its middle */
  vd scale[PW_WINDOWS_MAX];               /* m2 of glass */
  vd frame_solar[PW_WINDOWS_MAX];         /* m2 */
  vd frame[PW_WINDOWS_MAX];               /* W/K of a row of windows, at this hour's wind */
  vd frame_at[PW_WINDOWS_MAX][WINDS + 1]; /* the same over the forced film */
  vd heat_set[24], heat_ramp[24], cool_set[24], flow[24], ground[12], warm_above;
  vd closed[PW_COVERING_TIMES][PW_WINDOWS_MAX], cover_r[PW_WINDOWS_MAX];
  int covered; /* 1: a window of a lane is */
  int shaped;  /* 1: the outdoor air of a lane follows the weather */
  int hours;   /* 1: a lane wants its hours */
  vm clock_open[24];
  vd dew_most;
  lane_year sum;
} run;

static double view_at_1_m(const pw_house_window *w)
{
  double a = 0.5 * site_width(w), b = 0.5 * site_height(w);
  return pw_atan(a * b / sqrt(a * a + b * b + 1.0)) /
         PW_PI; /* solid angle of a rectangle / 4 pi */
}

static double unlimited(double w) { return w > 0.0 ? w : INFINITY; }

/* The windows of a lane, and their glass of the workspace. */
static pw_status set_windows(run *q, size_t l, pw_err *err)
{
  const year_case *c = q->c[l];
  const film_rated film =
      film_rated_of(c->house->film_out, c->house->film_in, site_thin(c->ws));
  for (size_t w = 0; w < c->n; w++) {
    const pw_house_window *in = &c->window[w];
    pw_status s = site_pane_of(c->ws, in->glazing, site_height(in), &q->plan[l].unit[w], err);
    if (s != PW_OK) return s;
    v_put(&q->view[w], l, view_at_1_m(in));
    v_put(&q->scale[w], l, in->area_glass * c->count[w]);
    v_put(&q->frame_solar[w], l, in->solar_other * c->count[w]);
    for (int k = 0; k < PW_COVERING_TIMES; k++)
      v_put(&q->closed[k][w], l, in->covered.closed[k]);
    v_put(&q->cover_r[w], l, in->covered.resistance);
    if (in->covered.resistance > 0.0) q->covered = 1;
    for (int k = 0; k <= WINDS; k++)
      v_put(&q->frame_at[w][k], l,
            c->count[w] * film_of_rated(in->ua_other, in->area_other, k * wind_step, &film));
  }
  return PW_OK;
}

/* What stands open in a lane when its windows do. */
static void set_airing(run *q, size_t l)
{
  const year_case *c = q->c[l];
  const pw_airing *a = &c->house->airing;
  const pw_airing_flow flow = pw_year_open_flow(c->house, c->window, c->n);
  lane_drive *d = &q->drive;
  if (a->hours) d->airs = 1;
  for (int clock = 0; clock < 24; clock++)
    v_put_mask(&q->clock_open[clock], l, (a->hours >> clock & 1u) != 0);
  v_put(&q->dew_most, l, a->dew_most_c);
  v_put(&d->open_wind, l, flow.wind);
  v_put(&d->open_stack, l, flow.stack);
  v_put(&d->open_still, l, flow.still);
  v_put(&d->open_most, l, a->most_changes * c->house->volume / 3600.0);
  v_put(&d->open_over, l, a->over_out);
  v_put(&d->open_down, l, a->down_to_c + PW_KELVIN);
}

/* What the house does by the clock and the month. */
static void set_house(run *q, size_t l)
{
  const pw_house *h = q->c[l]->house;
  lane_drive *d = &q->drive;
  double gain_star = h->gain_w * h->gain_radiant;
  for (int clock = 0; clock < 24; clock++) {
    double heat = h->heat_set_c[clock], cool = h->cool_set_c[clock]; /* NaN: never reached */
    v_put(&q->heat_set[clock], l, isnan(heat) ? -(double)INFINITY : heat + PW_KELVIN);
    v_put(&q->heat_ramp[clock], l, h->heat_ramp_k[clock]);
    v_put(&q->cool_set[clock], l, isnan(cool) ? (double)INFINITY : cool + PW_KELVIN);
    v_put(&q->flow[clock], l, h->volume * (h->air_changes + h->vent_changes[clock]) / 3600.0);
  }
  for (int m = 0; m < 12; m++)
    v_put(&q->ground[m], l, h->ground_c[m] + PW_KELVIN);
  v_put(&q->warm_above, l, year_warm_above(h) + PW_KELVIN);
  v_put(&d->gain_star, l, gain_star);
  v_put(&d->gain_air, l, h->gain_w - gain_star);
  v_put(&d->heat_max, l, unlimited(h->heat_max_w));
  v_put(&d->cool_max, l, unlimited(h->cool_max_w));
  v_put(&d->heat_radiant, l, h->heat_radiant);
}

static pw_status set_up(run *q, size_t l, pw_err *err)
{
  const year_case *c = q->c[l];
  room *r = &q->plan[l];
  r->step = 3600.0 / q->steps;
  pw_status s = set_windows(q, l, err);
  const double cut = q->pace ? r->step / HOUSE_CUT : r->step;
  for (size_t i = 0; s == PW_OK && i < c->house->n_part; i++) {
    const pw_wall_layers *layers = &c->house->part[i].layers;
    s = site_wall_of(c->ws, layers, r->step, cut, &r->part[i].wall, err);
    if (s == PW_OK) s = site_wall_of(c->ws, layers, cut, cut, &r->part[i].wall_cut, err);
  }
  if (s == PW_OK) s = room_faces(r, c->house, c->window, c->n, site_thin(c->ws), err);
  if (s != PW_OK) return s;
  lane_put_room(&q->room, l, r);
  if (q->pace) lane_put_pace(q->pace, l, r);
  for (size_t i = 0; i < c->house->n_part; i++)
    if (c->part_sun[i] != q->c[0]->part_sun[i])
      q->part_sun[i] = SUN_EACH;
    else if (l == 0)
      q->part_sun[i] = c->part_sun[i] ? SUN_ONE : SUN_NONE;
  if (c->options.hours) q->hours = 1;
  if (c->house->air_shape) q->shaped = 1;
  set_house(q, l);
  set_airing(q, l);
  return PW_OK;
}

/* Parts of the same layers in every lane (the walls to all sides) read one wall: a step's numbers should stay near. */
static void share_walls(run *q)
{
  for (size_t i = 1; i < q->n_part; i++)
    for (size_t k = 0; k < i; k++) {
      size_t l = 0;
      while (l < LANES && q->plan[l].part[i].wall == q->plan[l].part[k].wall)
        l++;
      if (l < LANES) continue;
      q->room.part[i].wall = q->room.part[k].wall;
      if (q->pace) q->pace->other[i] = q->pace->other[k];
      break;
    }
}

static void load_frames(run *q, double wind_glass)
{
  double x = fmin(wind_glass / wind_step, WINDS - 0.001);
  vd sum = v_all(0.0);
  int k = (int)x;
  x -= k;
  for (size_t w = 0; w < q->n_window; w++) {
    const vd *t = &q->frame_at[w][k];
    q->frame[w] = t[0] + x * (t[1] - t[0]);
    sum += q->frame[w];
  }
  q->drive.frame_ua = sum;
}

/* Outdoor air of one hour; a lane whose rate follows the weather has its own. */
static void load_air(run *q, int i, int clock)
{
  q->drive.flow = q->flow[clock];
  for (size_t l = 0; q->shaped && l < LANES; l++) {
    const pw_house *h = q->c[l]->house;
    if (h->air_shape)
      v_put(&q->drive.flow, l,
            h->volume * (h->air_changes * (double)h->air_shape[i] + h->vent_changes[clock]) /
                3600.0);
  }
  if (!q->drive.airs) return;
  const pw_weather *weather = q->c[0]->weather;
  double v = (double)q->ws->wind[i];
  q->drive.wind2 = v * v;
  q->drive.may_open =
      q->clock_open[clock] & ~v_less(q->dew_most, v_all((double)weather->hour[i].t_dew));
}

/* Sun on the outer face of part p: of most none or one for all lanes. */
static void load_part_sun(run *q, size_t p, int i)
{
  vd *to = &q->drive.part_sun[p];
  const float *first = q->c[0]->part_sun[p];
  if (q->part_sun[p] == SUN_ONE) *to = v_all((double)first[i]);
  if (q->part_sun[p] != SUN_EACH) return;
  for (size_t l = 0; l < LANES; l++) {
    const float *sun = q->c[l]->part_sun[p];
    v_put(to, l, sun ? (double)sun[i] : 0.0);
  }
}

/* The drive of one hour. */
static void load_hour(run *q, int i)
{
  lane_drive *d = &q->drive;
  int clock = i % 24;
  d->t_out = (double)q->ws->t_out[i] + PW_KELVIN;
  d->t_sky = (double)q->ws->t_sky[i];
  d->wind_glass = (double)q->ws->wind_glass[i];
  d->wind_root = (double)q->ws->wind_root[i];
  d->density = (double)q->ws->density[i];
  if (clock == 0)
    q->month = pw_month_of_day(i / 24); /* a year begins, and is warmed up, at midnight */
  d->t_ground = q->ground[q->month];
  const int night = clock < 7 || clock >= 19;
  d->closed = q->covered ? q->closed[night ? PW_COVERING_NIGHT : PW_COVERING_DAY] : NULL;
  d->cover_r = q->cover_r;
  load_frames(q, d->wind_glass);
  load_air(q, i, clock);
  d->heat_set = q->heat_set[clock];
  d->cool_set = q->cool_set[clock];
  d->beam = d->diffuse = d->frame_sun = v_all(0.0);
  for (size_t p = 0; p < q->n_part; p++)
    load_part_sun(q, p, i);
  const int dark = q->ws->dark[i];
  for (size_t w = 0; w < q->n_window; w++) {
    const float *sun = dark ? no_sun : q->ws->window[w]->sun + (size_t)i * SITE_SUN * LANES;
    q->sun[w] = sun;
    d->pane_sun[w] = sun + SITE_ABSORBED * LANES;
    if (dark) continue;
    d->beam += q->scale[w] * v_of(sun + SITE_BEAM * LANES);
    d->diffuse += q->scale[w] * v_of(sun + SITE_DIFFUSE * LANES);
    d->frame_sun += q->frame_solar[w] * v_of(sun + SITE_INCIDENT * LANES);
  }
}
