/* LANES houses at work side by side: every surface and window, one step at a time. Included by
 * year_lanes.h. Internal.
 *
 * Each surface is reduced to two numbers towards the room, what it takes per K of its inner face and
 * what it gives of itself (wall: conduction and what it remembers; glass: the chain of panes). Then
 * room air and the mean radiant temperature are two unknowns, solved at once, and the faces follow.
 * The houses have the same parts (by what lies behind them), as many windows, the same weather and
 * the same indoor form; all else is each one's own.
 */
#include "house/lane_wall.h"
#include "house/room.h"
#include "panewright/units.h"

enum { FACES_OF_GLASS = 2 * PW_PANES_MAX };

static const double frame_to_air = 0.4; /* convective share of a frame's inner film; 3.6 of 8
                                           W/(m2 K), ISO 10077-1 annex A, rounded; memory */

static const pane_gap no_gap; /* what a lane without it reads */

typedef struct lane_tilt {
  vd lively, still, up;
} lane_tilt;

/* The indoor form at a face, c |dt|^e, [1] lively; and where it serves at all. */
typedef struct lane_law {
  vd c[2], e[2];
  vm below, above; /* faces colder than the air; warmer */
} lane_law;

typedef struct lane_outer {
  lane_tilt tilt;
  vd plate, free, sky, near;
} lane_outer;

typedef struct lane_part {
  pw_outside outside;
  size_t n_mode;
  lane_outer outer;
  vd absorptance, direct[2][2], past[2][2];
  vd t_out, was[2], was_out; /* K: outer face; faces in the step before */
  lane_mode mode[PW_MODES_MAX];
} lane_part;

/* A row of windows' glass. Where a house has fewer panes, more[p] is off from its last on. */
typedef struct lane_glass {
  size_t n;                 /* most panes of a lane */
  vm more[PW_PANES_MAX];    /* lanes with a pane behind pane p */
  vm inner[FACES_OF_GLASS]; /* lanes whose innermost face it is */
  vd pane[PW_PANES_MAX], radiant[PW_PANES_MAX], emit_out, emit_in, film;
  const double *gap[PW_PANES_MAX - 1][LANES]; /* the first of its table */
  vd h_out, e_out; /* outer film of the step: W/(m2 K), and W/m2 at 0 K */
  vd t[FACES_OF_GLASS],
      was[FACES_OF_GLASS]; /* K, faces from outdoors; as the last step left them */
  vd inverse[FACES_OF_GLASS], e[FACES_OF_GLASS], link[FACES_OF_GLASS];
} lane_glass;

typedef struct lane_room {
  size_t n_part, n_window, n;
  double step;
  pw_film_in film_in;
  vd area[ROOM_FACES], share[ROOM_FACES], beam[ROOM_FACES], diffuse[ROOM_FACES];
  vd beam_out, diffuse_out, air_heat;
  lane_law law[ROOM_FACES];
  lane_tilt tilt[ROOM_FACES];
  lane_outer glass_outer;
  lane_part part[PW_PARTS_MAX];
  lane_glass glass[PW_WINDOWS_MAX];
  vd t_in[ROOM_FACES]; /* K, inner faces; between steps: guessed for the next */
  vd t_air, t_star;    /* K, the same */
  vd was_in[ROOM_FACES], was_air, was_star; /* K, as the last step left them */
} lane_room;

/* What drives a step. The weather is one for all. */
typedef struct lane_drive {
  double t_out, t_sky; /* K */
  double wind_glass;   /* W/(m2 K), forced part on smooth glass */
  double wind_root;    /* root of the wind at the wall, m/s; straight forms: the film */
  double density;      /* kg/m3 of air */
  vd t_ground;
  vd flow;                /* m3/s of outdoor air */
  vd gain_air, gain_star; /* W, to the air and as radiation */
  vd beam, diffuse;       /* W of sun let in */
  vd frame_ua;            /* W/K of frames at this hour's wind */
  vd frame_sun;           /* W, sun that frames hand inward */
  vd heat_set, cool_set;  /* K; NAN off */
  vd heat_max, cool_max;  /* W */
  vd heat_radiant;
  vd part_sun[PW_PARTS_MAX];             /* W/m2 on the outer face of each part */
  const float *pane_sun[PW_WINDOWS_MAX]; /* W/m2 absorbed, PW_PANES_MAX times LANES */
} lane_drive;

/* What came of it. */
typedef struct lane_flow {
  vd heat, cool;                 /* W, both positive */
  vd air, frame, gain;           /* W into the room: air exchange, frames' conduction, gains */
  vd sun_out;                    /* W let in that leaves again through glass */
  vd opaque;                     /* W into the outer faces of opaque parts, sun included */
  vd glass_out;                  /* W into the outer faces of glass by film, sun left out */
  vd stored;                     /* J taken up by the air */
  vd glass[PW_WINDOWS_MAX];      /* W/m2 from glass to room by film; sun passed not in it */
  vd glass_sun[PW_WINDOWS_MAX];  /* W/m2 of absorbed sun handed inward */
  vd glass_back[PW_WINDOWS_MAX]; /* W/m2 of sun let in that glass absorbs from inside */
} lane_flow;

/* ---------------------------------------------------------------- making it */

static inline void lane_put_tilt(lane_tilt *t, size_t l, const film_tilt *f)
{
  v_put(&t->lively, l, f->lively);
  v_put(&t->still, l, f->still);
  v_put(&t->up, l, f->up);
}

static inline void lane_put_outer(lane_outer *o, size_t l, const room_outer *from)
{
  lane_put_tilt(&o->tilt, l, &from->tilt);
  v_put(&o->plate, l, from->plate);
  v_put(&o->free, l, from->free);
  v_put(&o->sky, l, from->sky);
  v_put(&o->near, l, from->near);
}

static inline void lane_put_part(lane_part *p, size_t l, const room_part *from)
{
  const pw_wall *w = from->wall;
  p->outside = from->outside;
  v_put(&p->absorptance, l, from->absorptance);
  lane_put_outer(&p->outer, l, &from->outer);
  for (int i = 0; i < 2; i++)
    for (int j = 0; j < 2; j++) {
      v_put(&p->direct[i][j], l, w->direct[i][j]);
      v_put(&p->past[i][j], l, w->past[i][j]);
    }
  if (w->n_mode > p->n_mode) p->n_mode = w->n_mode;
  lane_put_modes(p->mode, l, w);
}

static inline void lane_put_glass(lane_glass *g, size_t l, const pane_unit *u)
{
  if (u->n > g->n) g->n = u->n;
  v_put(&g->emit_out, l, u->emit_out);
  v_put(&g->emit_in, l, u->emit_in);
  v_put(&g->film, l, u->room);
  for (size_t m = 0; m < FACES_OF_GLASS; m++)
    v_put_mask(&g->inner[m], l, m + 1 == 2 * u->n);
  for (size_t p = 0; p < PW_PANES_MAX; p++) {
    int more = p + 1 < u->n;
    v_put_mask(&g->more[p], l, more);
    v_put(&g->pane[p], l, p < u->n ? u->pane[p] : 1.0);
    v_put(&g->radiant[p], l, more ? u->radiant[p] : 1.0);
    if (p + 1 < PW_PANES_MAX) g->gap[p][l] = more ? u->gap[p].h[0] : no_gap.h[0];
  }
}

static inline void lane_put_law(lane_law *to, size_t l, const room *r, size_t i)
{
  for (int k = 0; k < 2; k++) {
    v_put(&to->c[k], l, r->law[i][k].c);
    v_put(&to->e[k], l, r->law[i][k].e);
  }
  v_put_mask(&to->below, l, film_in_serves(r->film_in, r->tilt[i].up, -1.0));
  v_put_mask(&to->above, l, film_in_serves(r->film_in, r->tilt[i].up, 1.0));
}

/* House r takes its lane; r must be zeroed before the first. */
static inline void lane_put_room(lane_room *to, size_t l, const room *r)
{
  to->n_part = r->n_part;
  to->n_window = r->n_window;
  to->n = r->n;
  to->step = r->step;
  to->film_in = r->film_in;
  v_put(&to->beam_out, l, r->beam_out);
  v_put(&to->diffuse_out, l, r->diffuse_out);
  v_put(&to->air_heat, l, r->air_heat);
  lane_put_outer(&to->glass_outer, l, &r->glass_outer);
  for (size_t i = 0; i < r->n; i++) {
    v_put(&to->area[i], l, r->area[i]);
    v_put(&to->share[i], l, r->share[i]);
    v_put(&to->beam[i], l, r->beam[i]);
    v_put(&to->diffuse[i], l, r->diffuse[i]);
    if (r->film_in != PW_FILM_IN_STILL) lane_put_law(&to->law[i], l, r, i);
    lane_put_tilt(&to->tilt[i], l, &r->tilt[i]);
  }
  for (size_t i = 0; i < r->n_part; i++)
    lane_put_part(&to->part[i], l, &r->part[i]);
  for (size_t w = 0; w < r->n_window; w++)
    lane_put_glass(&to->glass[w], l, r->unit[w]);
}

/* Sets every temperature of a lane from a steady guess. */
static inline void lane_start(lane_room *to, size_t l, const room *r, double t_in, double t_out,
                              double t_ground)
{
  for (size_t i = 0; i < r->n_part; i++) {
    lane_part *p = &to->part[i];
    double state[PW_MODES_MAX];
    double far = p->outside == PW_OUTSIDE_AIR      ? t_out
                 : p->outside == PW_OUTSIDE_GROUND ? t_ground
                                                   : t_in;
    double t[2] = {far + 0.1 * (t_in - far), t_in - 0.1 * (t_in - far)};
    pw_wall_steady(r->part[i].wall, t, state);
    for (size_t k = 0; k < r->part[i].wall->n_mode; k++)
      v_put(&p->mode[k].state, l, state[k]);
    v_put(&p->t_out, l, t[0]);
    v_put(&p->was[0], l, t[0]);
    v_put(&p->was_out, l, t[0]);
    v_put(&p->was[1], l, t[1]);
    v_put(&to->t_in[i], l, t[1]);
    v_put(&to->was_in[i], l, t[1]);
  }
  for (size_t w = 0; w < r->n_window; w++) {
    lane_glass *g = &to->glass[w];
    size_t faces = 2 * r->unit[w]->n;
    double t = t_in;
    for (size_t m = 0; m < 2 * g->n; m++) {
      if (m < faces) t = t_out + (t_in - t_out) * ((double)m + 0.5) / (double)faces;
      v_put(&g->t[m], l, t);
      v_put(&g->was[m], l, t);
    }
    v_put(&to->t_in[r->n_part + w], l, t);
    v_put(&to->was_in[r->n_part + w], l, t);
  }
  v_put(&to->t_air, l, t_in);
  v_put(&to->t_star, l, t_in);
  v_put(&to->was_air, l, t_in);
  v_put(&to->was_star, l, t_in);
}

/* J in the walls of a lane, above 0 K. */
static inline double lane_content(const lane_room *to, size_t l, const room *r)
{
  double sum = 0.0;
  for (size_t i = 0; i < r->n_part; i++) {
    double state[PW_MODES_MAX];
    const pw_wall *w = r->part[i].wall;
    for (size_t k = 0; k < w->n_mode; k++)
      state[k] = v_get(to->part[i].mode[k].state, l);
    sum += pw_wall_content(w, state) * (r->part[i].outside == PW_OUTSIDE_SAME ? 0.5 : 1.0) *
           r->area[i];
  }
  return sum;
}

/* ---------------------------------------------------------------- a step */

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
static inline void part_face(const lane_part *p, const lane_drive *d, vd sun, vd *k, vd *j,
                             part_back *back)
{
  vd flux[2];
  lane_recall(p->n_mode, p->mode, p->past, p->was, flux);
  if (p->outside == PW_OUTSIDE_AIR) {
    vd h, e;
    vd c = p->outer.free * lane_natural(&p->outer.tilt, p->t_out - d->t_out) +
           p->outer.plate * d->wind_root;
    outer_film(&p->outer, v_all(1.0), c, p->t_out, d, &h, &e);
    e += p->absorptance * sun;
    vd f = 1.0 / (h + p->direct[0][0]);
    *back = (part_back){(e - flux[0]) * f, -p->direct[0][1] * f, e, h};
    *k = p->direct[1][1] + p->direct[1][0] * back->b;
    *j = -(flux[1] + p->direct[1][0] * back->a);
  } else if (p->outside == PW_OUTSIDE_GROUND) {
    /* the flow below is what the slab takes at its lower face: - h t_inner + e, see settle */
    vd t = d->t_ground;
    *back = (part_back){t, v_all(0.0), flux[0] + p->direct[0][0] * t, -p->direct[0][1]};
    *k = p->direct[1][1];
    *j = -(flux[1] + p->direct[1][0] * t);
  } else { /* both faces alike: each takes half of what the slab takes */
    *back = (part_back){v_all(0.0), v_all(1.0), v_all(0.0), v_all(0.0)};
    *k = 0.5 * (p->direct[0][0] + p->direct[0][1] + p->direct[1][0] + p->direct[1][1]);
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
  if (r->film_in == PW_FILM_IN_STILL) return h;
  const lane_law *w = &r->law[i];
  vm lively = v_less(none, dt * r->tilt[i].up), cold = v_less(dt, none);
  vd law =
      v_pick(lively, w->c[1], w->c[0]) * v_power(v_abs(dt), v_pick(lively, w->e[1], w->e[0]));
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

static inline room_sums sum_up(const lane_room *r, const lane_drive *d, room_work *w)
{
  vd none = v_all(0.0);
  room_sums s = {none, none, none, none, none};
  for (size_t i = 0; i < r->n; i++) {
    vd hc = w->hc[i], hr = lane_radiant(r->t_in[i], r->t_star) * r->share[i];
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
static inline vd balance(lane_room *r, const lane_drive *d, room_sums s)
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
  vd need = control(d, s.aa - lead * s.am, s.ba + lead * s.bm, reach, &r->t_air);
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

/* Takes the walls to the end of the step and tells the flows. */
static inline void settle(lane_room *r, const lane_drive *d, const room_work *w,
                          lane_flow *flow)
{
  const size_t np = r->n_part;
  flow->opaque = flow->glass_out = v_all(0.0);
  for (size_t i = 0; i < np; i++) {
    lane_part *p = &r->part[i];
    const part_back *b = &w->back[i];
    const vd t[2] = {p->t_out, r->t_in[i]};
    lane_advance(p->n_mode, p->mode, p->was, t);
    p->was[0] = t[0];
    p->was[1] = t[1];
    flow->opaque += r->area[i] * (b->e - b->h * t[p->outside == PW_OUTSIDE_GROUND]);
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
  flow->air = exchange * (d->t_out - r->t_air);
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
  vd need = balance(r, d, sum_up(r, d, &w)), none = v_all(0.0);
  follow(r, &w);
  settle(r, d, &w, flow);
  flow->heat = v_pick(v_less(none, need), need, none);
  flow->cool = v_pick(v_less(need, none), -need, none);
  look_ahead(r);
}
