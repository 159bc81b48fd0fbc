/* LANES houses side by side: what they are, what drives a step of them and what comes of it. Included
 * after LANES is defined. Internal.
 *
 * The houses have the same parts (by what lies behind them), as many windows, the same weather and
 * the same outdoor form; all else is each one's own.
 */
#include "house/lane_wall.h"
#include "house/room.h"
#include "panewright/units.h"

enum { FACES_OF_GLASS = 2 * PW_PANES_MAX };

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
  vd absorptance;
  vd t_out, was[2], was_out; /* K: outer face; faces in the step before */
  const lane_wall *wall; /* of the width being taken: own, or the short steps' (lane_pace.h) */
  vd value[PW_MODES_MAX];
  lane_wall own;
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
  int film_needs; /* the most of film_in_needs over the lanes */
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
  vd heat_set, cool_set;  /* K; infinitely far: off */
  vd heat_max, cool_max;  /* W */
  vd heat_radiant;
  const vd *closed;  /* [n_window] share of glass behind closed drapes and blinds; NULL: none */
  const vd *cover_r; /* m2 K/W that those add */
  int airs;          /* 1: a lane's windows may stand open; else none of the next */
  double wind2;      /* (m/s)^2 at the mast */
  vm may_open;       /* by the clock and the damp outdoors */
  vd open_wind, open_stack, open_still, open_most; /* flow^2 of v^2, of K, of itself; m3/s */
  vd open_over, open_down;               /* K over outdoors; K that rooms are cooled to */
  vd part_sun[PW_PARTS_MAX];             /* W/m2 on the outer face of each part */
  const float *pane_sun[PW_WINDOWS_MAX]; /* W/m2 absorbed, PW_PANES_MAX times LANES */
} lane_drive;

/* What came of it. */
typedef struct lane_flow {
  vd heat, cool;            /* W, both positive */
  vd air, frame, gain;      /* W into the room: air exchange, frames' conduction, gains */
  vd sun_out;               /* W let in that leaves again through glass */
  vd opaque;                /* W into the outer faces of opaque parts, sun included */
  vd glass_out;             /* W into the outer faces of glass by film, sun left out */
  vd open, aired;           /* m3/s through open windows; W into the room by it, part of air */
  vd stored;                /* J taken up by the air */
  vd glass[PW_WINDOWS_MAX]; /* W/m2 from glass to room by film; sun passed not in it */
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
  if (w->n_mode > p->n_mode) p->n_mode = w->n_mode;
  p->wall = &p->own;
  lane_put_wall(&p->own, l, w);
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
  if (film_in_needs(r->film_in) > to->film_needs) to->film_needs = film_in_needs(r->film_in);
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
    const vd face[2] = {v_all(t[0]), v_all(t[1])};
    for (size_t k = 0; k < r->part[i].wall->n_mode; k++)
      v_put(&p->value[k], l, state[k] - v_get(lane_leads(p->wall, k, face), l));
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
    const lane_part *p = &to->part[i];
    for (size_t k = 0; k < w->n_mode; k++)
      state[k] = v_get(p->value[k] + lane_leads(p->wall, k, p->was), l);
    sum += pw_wall_content(w, state) * (r->part[i].outside == PW_OUTSIDE_SAME ? 0.5 : 1.0) *
           r->area[i];
  }
  return sum;
}
