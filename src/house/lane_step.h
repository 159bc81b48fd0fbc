/* One step of LANES houses. Included by year_lanes.h. Internal.
 *
 * Each surface is reduced to two numbers towards the room, what it takes per K of its inner face and
 * what it gives of itself (wall: conduction and what it remembers; glass: the chain of panes). Then
 * room air and the mean radiant temperature are two unknowns, solved at once, and the faces follow.
 */
#include "house/lane_pace.h"

static const double frame_to_air = 0.4; /* convective share of a frame's inner film; 3.6 of 8
                                           W/(m2 K), ISO 10077-1 annex A, rounded; memory */

/* film_natural, film_radiant on lanes. */
static inline vd lane_natural(const lane_tilt *f, vd dt)
{
  vd c = v_pick(v_less(v_all(0.0), dt * f->up), f->lively, f->still);
  return c * v_root3(v_abs(dt));
}

static inline vd lane_radiant(vd a, vd b) { return PW_SIGMA * (a + b) * (a * a + b * b); }

/* Convection in a cavity between faces at a and b; each lane reads its own table. */
static inline vd lane_gap_film(const double *const gap[], vd a, vd b)
{
  vd x = v_abs(a - b) * (1.0 / pane_gap_dt), none = v_all(0.0);
  vd y = (0.5 * (a + b) - pane_gap_t0) * (1.0 / pane_gap_tt);
  x = v_min(x, v_all(PANE_GAP_D - 1.001));
  y = v_max(v_min(y, v_all(PANE_GAP_T - 1.001)), none);
  vi i = v_whole(x), j = v_whole(y), at = j * PANE_GAP_D + i;
  x -= v_number(i);
  y -= v_number(j);
  vd h00 = x, h01 = x, h10 = x, h11 = x;
  for (size_t l = 0; l < LANES; l++) {
    const double *p = gap[l] + v_place(at, l);
    v_put(&h00, l, p[0]);
    v_put(&h01, l, p[1]);
    v_put(&h10, l, p[PANE_GAP_D]);
    v_put(&h11, l, p[PANE_GAP_D + 1]);
  }
  return (1.0 - y) * (h00 + x * (h01 - h00)) + y * (h10 + x * (h11 - h10));
}

/* Film and flow at 0 K of an outer face, given its convection: h (t - t_face) summed over air, sky,
 * ground. */
static inline void outer_film(const lane_outer *o, vd emit, vd c, vd t_face,
                              const lane_drive *d, vd *h, vd *e)
{
  vd sky = emit * o->sky * lane_radiant(t_face, v_all(d->t_sky));
  vd near = emit * o->near * lane_radiant(t_face, v_all(d->t_out));
  *h = c + sky + near;
  *e = (c + near) * d->t_out + sky * d->t_sky;
}

/* The way back to a part's outer face, and the flow into it: t = a + b t_inner, q = e - h t. */
typedef struct part_back {
  vd a, b, e, h;
} part_back;

/* What a part's inner face takes per K and gives. */
static inline void part_face(lane_part *p, const lane_drive *d, vd sun, vd *k, vd *j,
                             part_back *back)
{
  const vd(*direct)[2] = p->wall->direct;
  vd flux[2];
  lane_recall(p->wall, p->n_mode, p->was, p->value, flux);
  if (p->outside == PW_OUTSIDE_AIR) {
    vd h, e;
    vd c = p->outer.free * lane_natural(&p->outer.tilt, p->t_out - d->t_out) +
           p->outer.plate * d->wind_root;
    outer_film(&p->outer, v_all(1.0), c, p->t_out, d, &h, &e);
    e += p->absorptance * sun;
    vd f = 1.0 / (h + direct[0][0]);
    *back = (part_back){(e - flux[0]) * f, -direct[0][1] * f, e, h};
    *k = direct[1][1] + direct[1][0] * back->b;
    *j = -(flux[1] + direct[1][0] * back->a);
  } else if (p->outside == PW_OUTSIDE_GROUND) {
    /* the flow below is what the slab takes at its lower face: - h t_inner + e, see settle */
    vd t = d->t_ground;
    *back = (part_back){t, v_all(0.0), flux[0] + direct[0][0] * t, -direct[0][1]};
    *k = direct[1][1];
    *j = -(flux[1] + direct[1][0] * t);
  } else { /* both faces alike: each takes half of what the slab takes */
    *back = (part_back){v_all(0.0), v_all(1.0), v_all(0.0), v_all(0.0)};
    *k = 0.5 * (direct[0][0] + direct[0][1] + direct[1][0] + direct[1][1]);
    *j = -0.5 * (flux[0] + flux[1]);
  }
}

/* Eliminates all faces but the innermost: it then takes *k per K and gives *j, W/m2, of which *sun
 * stems from the absorbed sun. h_out and e_out must be set. */
static inline void glass_chain(lane_glass *w, const float absorbed[], vd *k, vd *j, vd *sun)
{
  vd g = w->h_out, e = w->e_out, s = v_all(0.0);
  size_t m = 0;
  vm more = {0};
  for (size_t p = 0;; p++) {
    vd half = 0.5 * v_of(absorbed + p * LANES);
    vd e0 = e + half, s0 = s + half;
    vd link = w->pane[p], inverse = 1.0 / (g + link), f = link * inverse;
    w->inverse[m] = inverse;
    w->e[m] = e0;
    w->link[m++] = link;
    vd g1 = g * f, e1 = e0 * f + half, s1 = s0 * f + half;
    g = p == 0 ? g1 : v_pick(more, g1, g);
    e = p == 0 ? e1 : v_pick(more, e1, e);
    s = p == 0 ? s1 : v_pick(more, s1, s);
    if (p + 1 == w->n) break;
    more = w->more[p];
    vd a = w->t[m], b = w->t[m + 1];
    link = lane_gap_film(w->gap[p], a, b) + w->radiant[p] * lane_radiant(a, b);
    inverse = 1.0 / (g + link);
    f = link * inverse;
    w->inverse[m] = inverse;
    w->e[m] = e;
    w->link[m++] = link;
    g = v_pick(more, g * f, g);
    e = v_pick(more, e * f, e);
    s = v_pick(more, s * f, s);
  }
  *k = g;
  *j = e;
  *sun = s;
}

/* The way back, once the innermost face is known. */
static inline void glass_faces(lane_glass *w, vd t_inner)
{
  size_t m = 2 * w->n - 1;
  w->t[m] = t_inner;
  while (m-- > 0)
    w->t[m] =
        v_pick(w->inner[m], t_inner, (w->e[m] + w->link[m] * w->t[m + 1]) * w->inverse[m]);
}

/* Need at the set points, or none; t_air follows. a t_air = b + reach * need. */
static inline vd control(const lane_drive *d, vd a, vd b, vd reach_heat, vd *t_air)
{
  vd t = b / a, none = v_all(0.0);
  vm cold = v_less(t, d->heat_set), warm = v_less(d->cool_set, t);
  vd heat = v_min((d->heat_set * a - b) / reach_heat, d->heat_max);
  vd cool = v_max(d->cool_set * a - b, -d->cool_max);
  vd need = v_pick(cold, heat, v_pick(warm, cool, none));
  *t_air = (b + v_pick(cold, reach_heat * need, need)) / a;
  return need;
}

/* Windows that stand open: a t_air = b without them, need and *t_air with them shut. Returns the need; *open m3/s. */
static inline vd air_out(const lane_drive *d, vd a, vd b, vd was_air, vd need, vd *t_air,
                         vd *open)
{
  const double heat = PW_AIR_HEAT * d->density;
  vd none = v_all(0.0), t = b / a, dt = v_max(was_air - d->t_out, none);
  vd flow = v_root(d->open_wind * d->wind2 + d->open_stack * dt + d->open_still);
  vd x = heat * v_min(flow, d->open_most), aired = (b + x * d->t_out) / (a + x);
  vm helps = d->may_open & v_less(d->open_down, t) & v_less(d->open_over, t - d->t_out);
  vm drawn_to = v_less(aired, d->open_down); /* only so far as the rooms should cool */
  x = v_pick(drawn_to, (b - a * d->open_down) / (d->open_down - d->t_out), x);
  aired = v_pick(drawn_to, d->open_down, aired);
  vm opens = helps & ~v_less(d->cool_set, aired);
  *open = v_pick(opens, x / heat, none);
  *t_air = v_pick(opens, aired, *t_air);
  return v_pick(opens, none, need);
}

/* Sums of the two balances, air and star point: aa t_air - am t_star = ba and so on. */
typedef struct room_sums {
  vd aa, am, mm, ba, bm;
} room_sums;

/* Per face: films, and what is left of it once its own temperature is eliminated. */
typedef struct room_work {
  vd k[ROOM_FACES], j[ROOM_FACES], hc[ROOM_FACES], hr[ROOM_FACES], y[ROOM_FACES];
  vd sun[PW_WINDOWS_MAX]; /* absorbed sun in j of the glass */
  part_back back[PW_PARTS_MAX];
} room_work;

/* Convection of inner face i by still air's forms. */
static inline vd still_film(const lane_room *r, size_t i, vd dt)
{
  if (i < r->n_part) return lane_natural(&r->tilt[i], dt);
  /* ISO 15099:2003 8.3.2.2: Nu = 0.56 Ra^(1/4), flow along a standing pane */
  return r->glass[i - r->n_part].film * v_root(v_root(v_abs(dt)));
}

static inline vd indoor_film(const lane_room *r, size_t i)
{
  vd dt = r->t_in[i] - r->t_air, h = still_film(r, i, dt), none = v_all(0.0);
  if (r->film_needs == FILM_IN_NOTHING) return h;
  const lane_law *w = &r->law[i];
  vm lively = v_less(none, dt * r->tilt[i].up), cold = v_less(dt, none);
  vd law = v_pick(lively, w->c[1], w->c[0]);
  if (r->film_needs == FILM_IN_POWERS) /* a constant beside it: x^0 is 1 */
    law *= v_power(v_abs(dt), v_pick(lively, w->e[1], w->e[0]));
  return v_pick((cold & w->below) | (~cold & w->above), law, h);
}

static inline void reduce(lane_room *r, const lane_drive *d, room_work *w)
{
  const size_t np = r->n_part;
  for (size_t i = 0; i < np; i++) {
    part_face(&r->part[i], d, d->part_sun[i], &w->k[i], &w->j[i], &w->back[i]);
    w->hc[i] = indoor_film(r, i);
  }
  for (size_t g = 0; g < r->n_window; g++) {
    lane_glass *p = &r->glass[g];
    size_t i = np + g;
    vd free = r->glass_outer.free * lane_natural(&r->glass_outer.tilt, p->t[0] - d->t_out);
    vd c = v_root(free * free + d->wind_glass * d->wind_glass); /* Yazdanian & Klems 1994 */
    outer_film(&r->glass_outer, p->emit_out, c, p->t[0], d, &p->h_out, &p->e_out);
    glass_chain(p, d->pane_sun[g], &w->k[i], &w->j[i], &w->sun[g]);
    w->hc[i] = indoor_film(r, i);
  }
}

/* What the films at the glass of window g are where part of it is covered indoors: the covering's resistance stands
 * between glass and room, through radiation and convection alike. */
static inline vd covered_film(const lane_drive *d, size_t g, vd film)
{
  return 1.0 - d->closed[g] + d->closed[g] / (1.0 + d->cover_r[g] * film);
}

static inline room_sums sum_up(const lane_room *r, const lane_drive *d, room_work *w)
{
  vd none = v_all(0.0);
  room_sums s = {none, none, none, none, none};
  for (size_t i = 0; i < r->n; i++) {
    vd hc = w->hc[i], hr = lane_radiant(r->t_in[i], r->t_star) * r->share[i];
    if (d->closed && i >= r->n_part) {
      vd less = covered_film(d, i - r->n_part, hc + hr);
      w->hc[i] = hc = hc * less;
      hr = hr * less;
    }
    vd j = w->j[i] + r->beam[i] * d->beam + r->diffuse[i] * d->diffuse;
    vd y = 1.0 / (hc + hr + w->k[i]), ac = r->area[i] * hc, ar = r->area[i] * hr;
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
static inline vd balance(lane_room *r, const lane_drive *d, room_sums s, vd *open)
{
  vd store = r->air_heat * d->density / r->step;
  vd exchange = PW_AIR_HEAT * d->density * d->flow;
  vd frame_air = frame_to_air * d->frame_ua, frame_star = d->frame_ua - frame_air;
  s.mm += frame_star;
  s.bm += frame_star * d->t_out + (1.0 - frame_to_air) * d->frame_sun + d->gain_star;
  s.aa += store + exchange + frame_air;
  s.ba += store * r->was_air + exchange * d->t_out + frame_air * d->t_out +
          frame_to_air * d->frame_sun + d->gain_air;
  vd lead = s.am / s.mm;
  vd reach = 1.0 - d->heat_radiant + d->heat_radiant * lead;
  vd a = s.aa - lead * s.am, b = s.ba + lead * s.bm;
  vd need = control(d, a, b, reach, &r->t_air);
  *open = v_all(0.0);
  if (d->airs) need = air_out(d, a, b, r->was_air, need, &r->t_air, open);
  vd radiant = v_pick(v_less(v_all(0.0), need), d->heat_radiant * need, v_all(0.0));
  r->t_star = (s.bm + s.am * r->t_air + radiant) / s.mm;
  return need;
}

/* Temperatures of all faces, once air and star point are known. */
static inline void follow(lane_room *r, const room_work *w)
{
  const size_t np = r->n_part;
  for (size_t i = 0; i < r->n; i++)
    r->t_in[i] = (w->hc[i] * r->t_air + w->hr[i] * r->t_star + w->j[i]) * w->y[i];
  for (size_t i = 0; i < np; i++)
    r->part[i].t_out = w->back[i].a + w->back[i].b * r->t_in[i];
  for (size_t g = 0; g < r->n_window; g++)
    glass_faces(&r->glass[g], r->t_in[np + g]);
}

/* Keeps the faces for what the walls remember and tells the flows. */
static inline void settle(lane_room *r, const lane_drive *d, const room_work *w,
                          lane_flow *flow)
{
  const size_t np = r->n_part;
  flow->opaque = flow->glass_out = v_all(0.0);
  for (size_t i = 0; i < np; i++) {
    lane_part *p = &r->part[i];
    const part_back *b = &w->back[i];
    p->was[0] = p->t_out;
    p->was[1] = r->t_in[i];
    flow->opaque += r->area[i] * (b->e - b->h * p->was[p->outside == PW_OUTSIDE_GROUND]);
  }
  for (size_t g = 0; g < r->n_window; g++) {
    size_t i = np + g;
    const lane_glass *p = &r->glass[g];
    vd film = w->hc[i] + w->hr[i];
    flow->glass[g] = film * r->t_in[i] - w->hc[i] * r->t_air - w->hr[i] * r->t_star;
    flow->glass_back[g] = r->beam[i] * d->beam + r->diffuse[i] * d->diffuse;
    flow->glass_sun[g] = film * w->y[i] * w->sun[g];
    flow->glass_out += r->area[i] * (p->e_out - p->h_out * p->t[0]);
  }
  vd exchange = PW_AIR_HEAT * d->density * d->flow, frame_air = frame_to_air * d->frame_ua;
  flow->aired = PW_AIR_HEAT * d->density * flow->open * (d->t_out - r->t_air);
  flow->air = exchange * (d->t_out - r->t_air) + flow->aired;
  flow->frame =
      frame_air * (d->t_out - r->t_air) + (d->frame_ua - frame_air) * (d->t_out - r->t_star);
  flow->gain = d->gain_air + d->gain_star;
  flow->sun_out = r->beam_out * d->beam + r->diffuse_out * d->diffuse;
  flow->stored = r->air_heat * d->density * (r->t_air - r->was_air);
}

/* Films of the next step are taken at temperatures that go on as they went: of second order, where
 * the last step's own would lag behind the sun by a step. */
static inline vd go_on(vd *was, vd now)
{
  vd next = now + (now - *was);
  *was = now;
  return next;
}

static inline void look_ahead(lane_room *r)
{
  for (size_t i = 0; i < r->n; i++)
    r->t_in[i] = go_on(&r->was_in[i], r->t_in[i]);
  for (size_t i = 0; i < r->n_part; i++)
    r->part[i].t_out = go_on(&r->part[i].was_out, r->part[i].t_out);
  for (size_t g = 0; g < r->n_window; g++) {
    lane_glass *p = &r->glass[g];
    for (size_t m = 0; m < 2 * p->n; m++)
      p->t[m] = go_on(&p->was[m], p->t[m]);
  }
  r->t_air = go_on(&r->was_air, r->t_air);
  r->t_star = go_on(&r->was_star, r->t_star);
}

static inline void lane_step(lane_room *r, const lane_drive *d, lane_flow *flow)
{
  room_work w;
  reduce(r, d, &w);
  vd need = balance(r, d, sum_up(r, d, &w), &flow->open), none = v_all(0.0);
  follow(r, &w);
  settle(r, d, &w, flow);
  flow->heat = v_pick(v_less(none, need), need, none);
  flow->cool = v_pick(v_less(need, none), -need, none);
  look_ahead(r);
}
