#include "house/room.h"
#include "house/site.h"
#include "panewright/units.h"

#include <string.h>

static const double frame_to_air = 0.4; /* convective share of a frame's inner film; 3.6 of 8
                                           W/(m2 K), ISO 10077-1 annex A, rounded; memory */

static double or_else(double value, double instead) { return value > 0.0 ? value : instead; }

/* Exchange of each face with one star point that stands for all others, so that faces of one plane
 * do not see each other. plane[i] is the first face of the plane that face i lies in.
 * Source: Carroll, 1980, mean radiant temperature method: F_i = 1 / (1 - A_i F_i / sum A F), here
 * for whole planes; from memory. */
static pw_status star(room *r, const double emit[], const size_t plane[], pw_err *err)
{
  double f[ROOM_FACES], area[ROOM_FACES] = {0};
  for (size_t i = 0; i < r->n; i++) {
    f[i] = 1.0;
    area[plane[i]] += r->area[i];
  }
  for (int round = 0; round < 200; round++) {
    double sum = 0.0, change = 0.0;
    for (size_t i = 0; i < r->n; i++)
      sum += area[i] * f[i];
    for (size_t i = 0; i < r->n; i++) {
      if (plane[i] != i) continue;
      double seen = 1.0 - area[i] * f[i] / sum;
      if (!(seen > 0.02))
        return pw_fail(err, PW_E_CONVERGE, "part",
                       "one inner plane (%.3g m2) outweighs all others", area[i]);
      double next = 1.0 / seen;
      change = fmax(change, fabs(next - f[i]));
      f[i] += 0.7 * (next - f[i]);
    }
    if (change < 1e-9) break;
  }
  for (size_t i = 0; i < r->n; i++)
    r->share[i] = 1.0 / ((1.0 - emit[i]) / emit[i] + 1.0 / f[plane[i]]);
  return PW_OK;
}

/* Walls and windows that look the same way share a plane; what stands in the room has its own. */
static void planes(const pw_house *house, const pw_house_window window[], size_t n,
                   size_t plane[])
{
  double tilt[ROOM_FACES], facing[ROOM_FACES];
  size_t np = house->n_part;
  for (size_t i = 0; i < np + n; i++) {
    const pw_house_part *p = &house->part[i < np ? i : 0];
    const pw_house_window *w = &window[i < np ? 0 : i - np];
    tilt[i] = i < np ? p->tilt_deg : w->tilt_deg > 0.0 ? w->tilt_deg : 90.0;
    facing[i] = tilt[i] == 0.0 || tilt[i] == 180.0 ? 0.0
                : i < np                           ? p->facing_deg
                                                   : w->facing_deg;
    plane[i] = i;
    if (i < np && p->outside == PW_OUTSIDE_SAME) tilt[i] = -1.0 - (double)i;
    for (size_t k = 0; k < i; k++)
      if (tilt[k] == tilt[i] && facing[k] == facing[i]) {
        plane[i] = plane[k];
        break;
      }
  }
}

/* Where the sun let in ends up. Beam falls on the floor; diffuse on all opaque faces alike (a pane
 * does not see itself). What they throw back goes round until it is absorbed or out through glass
 * (integrating sphere). absorb: share a face absorbs; leave: share that passes it. */
static void spread_sun(room *r, const double absorb[], const double leave[], const int floor[])
{
  double sum = 0.0, away = 0.0, floor_area = 0.0, floor_back = 0.0, area = 0.0, back = 0.0;
  for (size_t i = 0; i < r->n; i++) {
    double a = r->area[i], thrown = a * (1.0 - absorb[i] - leave[i]);
    sum += a - thrown;
    away += a * leave[i];
    floor_area += floor[i] ? a : 0.0;
    floor_back += floor[i] ? thrown : 0.0;
    area += i < r->n_part ? a : 0.0;
    back += i < r->n_part ? thrown : 0.0;
  }
  back /= area;
  floor_back = floor_area > 0.0 ? floor_back / floor_area : back;
  r->diffuse_out = back * away / sum;
  r->beam_out = floor_back * away / sum;
  for (size_t i = 0; i < r->n; i++) {
    double opaque = i < r->n_part ? absorb[i] / area : 0.0;
    double first = floor_area > 0.0 ? (floor[i] ? absorb[i] / floor_area : 0.0) : opaque;
    r->diffuse[i] = opaque + back * absorb[i] / sum;
    r->beam[i] = first + floor_back * absorb[i] / sum;
  }
}

/* Straight forms of the wind hold free convection, and come whole by the hour. */
static int straight(const pw_house *house) { return house->film_out >= PW_FILM_OUT_LEE; }

static room_outer outer_of(double tilt_deg, double emit, double plate, double thin, double free)
{
  double up = cos(pw_rad(tilt_deg)), sky = 0.5 * (1.0 + up);
  /* The sky near the horizon is as warm as the air: its cold part weighs sqrt(view).
   * Source: Walton, NBSIR 83-2655; from memory. Ground is taken at air temperature. */
  double cold = sky * sqrt(sky);
  room_outer o = {film_of_tilt(up, thin), plate, free, emit * cold, emit * (1.0 - cold)};
  return o;
}

static double roughness(pw_rough rough)
{
  static const double factor[] = {1.52, 2.17, 1.67, 1.13, 1.11, 1.00}; /* as in enum order */
  return factor[rough];
}

pw_status room_faces(room *r, const pw_house *house, const pw_house_window window[], size_t n,
                     double thin, pw_err *err)
{
  double emit[ROOM_FACES], absorb[ROOM_FACES], leave[ROOM_FACES];
  int floor[ROOM_FACES];
  size_t plane[ROOM_FACES];
  const double free = straight(house) ? 0.0 : 1.0;
  r->film_in = house->film_in;
  r->thin = thin;
  r->n_part = house->n_part;
  r->n_window = n;
  r->n = r->n_part + n;
  for (size_t i = 0; i < r->n_part; i++) {
    const pw_house_part *p = &house->part[i];
    room_part *q = &r->part[i];
    int twice = p->outside == PW_OUTSIDE_SAME; /* both faces are in the room */
    r->area[i] = p->area * (twice ? 2.0 : 1.0);
    r->tilt[i] = film_of_tilt(-cos(pw_rad(p->tilt_deg)), thin);
    r->size[i] = sqrt(p->area);
    emit[i] = or_else(p->emittance_in, 0.9);
    absorb[i] = or_else(p->absorptance_in, 0.6);
    leave[i] = 0.0;
    floor[i] = p->floor;
    q->outside = p->outside;
    q->absorptance = p->absorptance;
    double plate = straight(house) ? 1.0 : film_wind_plate(p->area, roughness(p->rough), thin);
    q->outer = outer_of(p->tilt_deg, or_else(p->emittance, 0.9), plate, thin, free);
  }
  for (size_t w = 0; w < n; w++) {
    size_t i = r->n_part + w;
    const pw_light *light = &window[w].glazing->light;
    r->area[i] = window[w].area_glass * (window[w].count > 0 ? window[w].count : 1);
    r->tilt[i] = film_of_tilt(0.0, thin);
    r->size[i] = site_height(&window[w]);
    emit[i] = r->window[w].unit->emit_in;
    leave[i] = light->tau_e[PW_ANGLE_DIFFUSE]; /* the same both ways: reciprocity */
    absorb[i] = 1.0 - light->rho_e_in[PW_ANGLE_DIFFUSE] - leave[i];
    floor[i] = 0;
  }
  r->glass_outer = outer_of(90.0, 1.0, 0.0, thin, free);
  r->air_heat = PW_AIR_HEAT * house->volume * or_else(house->air_store, 1.0);
  spread_sun(r, absorb, leave, floor);
  planes(house, window, n, plane);
  return star(r, emit, plane, err);
}

void room_start(room *r, double t_in, double t_out, double t_ground)
{
  for (size_t i = 0; i < r->n_part; i++) {
    room_part *p = &r->part[i];
    double far = p->outside == PW_OUTSIDE_AIR      ? t_out
                 : p->outside == PW_OUTSIDE_GROUND ? t_ground
                                                   : t_in;
    double t[2] = {far + 0.1 * (t_in - far), t_in - 0.1 * (t_in - far)};
    pw_wall_steady(&p->wall, t, p->state);
    p->t_out = p->was[0] = p->was_out = t[0];
    r->t_in[i] = r->was_in[i] = p->was[1] = t[1];
  }
  for (size_t w = 0; w < r->n_window; w++) {
    pane_window *p = &r->window[w];
    size_t faces = 2 * p->unit->n;
    for (size_t m = 0; m < faces; m++)
      p->t[m] = t_out + (t_in - t_out) * ((double)m + 0.5) / (double)faces;
    memcpy(p->was, p->t, sizeof p->t);
    r->t_in[r->n_part + w] = r->was_in[r->n_part + w] = p->t[faces - 1];
  }
  r->t_air = r->t_star = r->was_air = r->was_star = t_in;
}

double room_content(const room *r)
{
  double sum = 0.0;
  for (size_t i = 0; i < r->n_part; i++)
    sum += pw_wall_content(&r->part[i].wall, r->part[i].state) *
           (r->part[i].outside == PW_OUTSIDE_SAME ? 0.5 : 1.0) * r->area[i];
  return sum;
}

/* Film and flow at 0 K of an outer face, given its convection: h (t - t_face) summed over air, sky,
 * ground. */
static inline void outer_film(const room_outer *o, double emit, double c, double t_face,
                              const room_drive *d, double *h, double *e)
{
  double sky = emit * o->sky * film_radiant(t_face, d->t_sky);
  double near = emit * o->near * film_radiant(t_face, d->t_out);
  *h = c + sky + near;
  *e = (c + near) * d->t_out + sky * d->t_sky;
}

/* The way back to a part's outer face, and the flow into it: t = a + b t_inner, q = e - h t. */
typedef struct part_back {
  double a, b, e, h;
} part_back;

/* What a part's inner face takes per K and gives. */
static inline void part_face(const room_part *p, const room_drive *d, double sun, double *k,
                             double *j, part_back *back)
{
  double flux[2];
  const pw_wall *w = &p->wall;
  pw_wall_recall(w, p->state, p->was, flux);
  if (p->outside == PW_OUTSIDE_AIR) {
    double h, e;
    double c = p->outer.free * film_natural(&p->outer.tilt, p->t_out - d->t_out) +
               p->outer.plate * d->wind_root;
    outer_film(&p->outer, 1.0, c, p->t_out, d, &h, &e);
    e += p->absorptance * sun;
    double f = 1.0 / (h + w->direct[0][0]);
    *back = (part_back){(e - flux[0]) * f, -w->direct[0][1] * f, e, h};
    *k = w->direct[1][1] + w->direct[1][0] * back->b;
    *j = -(flux[1] + w->direct[1][0] * back->a);
  } else if (p->outside == PW_OUTSIDE_GROUND) {
    /* the flow below is what the slab takes at its lower face: - h t_inner + e, see room_step */
    double t = d->t_ground;
    *back = (part_back){t, 0.0, flux[0] + w->direct[0][0] * t, -w->direct[0][1]};
    *k = w->direct[1][1];
    *j = -(flux[1] + w->direct[1][0] * t);
  } else { /* both faces alike: each takes half of what the slab takes */
    *back = (part_back){0.0, 1.0, 0.0, 0.0};
    *k = 0.5 * (w->direct[0][0] + w->direct[0][1] + w->direct[1][0] + w->direct[1][1]);
    *j = -0.5 * (flux[0] + flux[1]);
  }
}

/* Need at the set points, or none; t_air follows. a t_air = b + reach * need. */
static double control(const room_drive *d, double a, double b, double reach_heat, double *t_air)
{
  double t = b / a, need = 0.0;
  if (t < d->heat_set) {
    need = fmin((d->heat_set * a - b) / reach_heat, d->heat_max);
    t = (b + reach_heat * need) / a;
  } else if (t > d->cool_set) {
    need = fmax(d->cool_set * a - b, -d->cool_max);
    t = (b + need) / a;
  }
  *t_air = t;
  return need;
}

/* Sums of the two balances, air and star point: aa t_air - am t_star = ba and so on. */
typedef struct room_sums {
  double aa, am, mm, ba, bm;
} room_sums;

/* Per face: films, and what is left of it once its own temperature is eliminated. */
typedef struct room_work {
  double k[ROOM_FACES], j[ROOM_FACES], hc[ROOM_FACES], hr[ROOM_FACES], y[ROOM_FACES];
  double sun[PW_WINDOWS_MAX]; /* absorbed sun in j of the glass */
  part_back back[PW_PARTS_MAX];
} room_work;

/* Convection of inner face i. */
static inline double indoor_film(const room *r, size_t i)
{
  double dt = r->t_in[i] - r->t_air, up = r->tilt[i].up;
  int glass = i >= r->n_part;
  if (film_in_serves(r->film_in, up, dt))
    return film_in_form(r->film_in, up, dt, r->size[i], glass, r->thin);
  if (!glass) return film_natural(&r->tilt[i], dt);
  /* ISO 15099:2003 8.3.2.2: Nu = 0.56 Ra^(1/4), flow along a standing pane */
  return r->window[i - r->n_part].unit->room * sqrt(sqrt(fabs(dt)));
}

static inline void reduce(room *r, const room_drive *d, room_work *w)
{
  const size_t np = r->n_part;
  for (size_t i = 0; i < np; i++) {
    part_face(&r->part[i], d, (double)d->part_sun[i], &w->k[i], &w->j[i], &w->back[i]);
    w->hc[i] = indoor_film(r, i);
  }
  for (size_t g = 0; g < r->n_window; g++) {
    pane_window *p = &r->window[g];
    size_t i = np + g;
    double free = r->glass_outer.free * film_natural(&r->glass_outer.tilt, p->t[0] - d->t_out);
    double c = sqrt(free * free + d->wind_glass * d->wind_glass); /* Yazdanian & Klems 1994 */
    outer_film(&r->glass_outer, p->unit->emit_out, c, p->t[0], d, &p->h_out, &p->e_out);
    pane_chain(p, d->pane_sun[g], &w->k[i], &w->j[i], &w->sun[g]);
    w->hc[i] = indoor_film(r, i);
  }
}

static inline room_sums sum_up(const room *r, const room_drive *d, room_work *w)
{
  room_sums s = {0};
  for (size_t i = 0; i < r->n; i++) {
    double hc = w->hc[i], hr = film_radiant(r->t_in[i], r->t_star) * r->share[i];
    double j = w->j[i] + r->beam[i] * d->beam + r->diffuse[i] * d->diffuse;
    double y = 1.0 / (hc + hr + w->k[i]), ac = r->area[i] * hc, ar = r->area[i] * hr;
    w->hr[i] = hr;
    w->j[i] = j;
    w->y[i] = y;
    s.aa += ac * (1.0 - hc * y);
    s.am += ac * hr * y;
    s.mm += ar * (1.0 - hr * y);
    s.ba += ac * j * y;
    s.bm += ar * j * y;
  }
  return s;
}

/* Air and star point at the end of the round, and the need. */
static inline double balance(room *r, const room_drive *d, room_sums s)
{
  double store = r->air_heat * d->density / r->step;
  double exchange = PW_AIR_HEAT * d->density * d->flow;
  double frame_air = frame_to_air * d->frame_ua, frame_star = d->frame_ua - frame_air;
  s.mm += frame_star;
  s.bm += frame_star * d->frame_t + (1.0 - frame_to_air) * d->frame_sun + d->gain_star;
  s.aa += store + exchange + frame_air;
  s.ba += store * r->was_air + exchange * d->t_out + frame_air * d->frame_t +
          frame_to_air * d->frame_sun + d->gain_air;
  double lead = s.am / s.mm;
  double reach = 1.0 - d->heat_radiant + d->heat_radiant * lead;
  double need = control(d, s.aa - lead * s.am, s.ba + lead * s.bm, reach, &r->t_air);
  double radiant = need > 0.0 ? d->heat_radiant * need : 0.0;
  r->t_star = (s.bm + s.am * r->t_air + radiant) / s.mm;
  return need;
}

/* Temperatures of all faces, once air and star point are known. */
static inline void follow(room *r, const room_work *w)
{
  const size_t np = r->n_part;
  for (size_t i = 0; i < r->n; i++)
    r->t_in[i] = (w->hc[i] * r->t_air + w->hr[i] * r->t_star + w->j[i]) * w->y[i];
  for (size_t i = 0; i < np; i++)
    r->part[i].t_out = w->back[i].a + w->back[i].b * r->t_in[i];
  for (size_t g = 0; g < r->n_window; g++)
    pane_faces(&r->window[g], r->t_in[np + g]);
}

/* Takes the walls to the end of the step and tells the flows. */
static inline void settle(room *r, const room_drive *d, const room_work *w, room_flow *flow)
{
  const size_t np = r->n_part;
  flow->opaque = flow->glass_out = 0.0;
  for (size_t i = 0; i < np; i++) {
    room_part *p = &r->part[i];
    const part_back *b = &w->back[i];
    const double t[2] = {p->t_out, r->t_in[i]};
    pw_wall_step(&p->wall, p->was, t, p->state);
    p->was[0] = t[0];
    p->was[1] = t[1];
    flow->opaque += r->area[i] * (b->e - b->h * t[p->outside == PW_OUTSIDE_GROUND]);
  }
  for (size_t g = 0; g < r->n_window; g++) {
    size_t i = np + g;
    const pane_window *p = &r->window[g];
    double film = w->hc[i] + w->hr[i];
    flow->glass[g] = film * r->t_in[i] - w->hc[i] * r->t_air - w->hr[i] * r->t_star;
    flow->glass_back[g] = r->beam[i] * d->beam + r->diffuse[i] * d->diffuse;
    flow->glass_sun[g] = film * w->y[i] * w->sun[g];
    flow->glass_out += r->area[i] * (p->e_out - p->h_out * p->t[0]);
  }
  double exchange = PW_AIR_HEAT * d->density * d->flow, frame_air = frame_to_air * d->frame_ua;
  flow->air = exchange * (d->t_out - r->t_air);
  flow->frame = frame_air * (d->frame_t - r->t_air) +
                (d->frame_ua - frame_air) * (d->frame_t - r->t_star);
  flow->gain = d->gain_air + d->gain_star;
  flow->sun_out = r->beam_out * d->beam + r->diffuse_out * d->diffuse;
  flow->stored = r->air_heat * d->density * (r->t_air - r->was_air);
}

/* Films of the next step are taken at temperatures that go on as they went: of second order, where
 * the last step's own would lag behind the sun by a step. */
static inline double go_on(double *was, double now)
{
  double next = now + (now - *was);
  *was = now;
  return next;
}

static inline void look_ahead(room *r)
{
  for (size_t i = 0; i < r->n; i++)
    r->t_in[i] = go_on(&r->was_in[i], r->t_in[i]);
  for (size_t i = 0; i < r->n_part; i++)
    r->part[i].t_out = go_on(&r->part[i].was_out, r->part[i].t_out);
  for (size_t g = 0; g < r->n_window; g++) {
    pane_window *p = &r->window[g];
    for (size_t m = 0; m < 2 * p->unit->n; m++)
      p->t[m] = go_on(&p->was[m], p->t[m]);
  }
  r->t_air = go_on(&r->was_air, r->t_air);
  r->t_star = go_on(&r->was_star, r->t_star);
}

void room_step(room *r, const room_drive *d, room_flow *flow)
{
  room_work w;
  reduce(r, d, &w);
  double need = balance(r, d, sum_up(r, d, &w));
  follow(r, &w);
  settle(r, d, &w, flow);
  flow->heat = need > 0.0 ? need : 0.0;
  flow->cool = need < 0.0 ? -need : 0.0;
  look_ahead(r);
}
