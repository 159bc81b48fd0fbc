/* House years at a draw: the comparison's house and windows with every number moved. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "house/cut.h"
#include "house/film.h"
#include "house/wall.h"
#include "study/compare_impl.h"
#include "study/range_impl.h"

enum {
  RANGE_SKIES = 2, /* forms of the sky's light */
  RANGE_BESIDE = 8 /* draws side by side at most */
};

/* The windows of a set at a draw, and what a year with them gave. */
typedef struct year_set {
  pw_house_window window[PW_WINDOWS_MAX];
  pw_glazing glazing[PW_WINDOWS_MAX], minimum;
  pw_year_result result;
} year_set;

/* The house of a draw. */
typedef struct year_house {
  pw_house house;
  float air[PW_HOURS];
} year_house;

struct range_room {
  atomic_size_t *n_lane;                     /* of the case; NULL: not asked */
  pw_year_workspace *workspace[RANGE_SKIES]; /* each sky's sun stays as it is */
  year_house house[RANGE_BESIDE];
  pw_year_lane *lane; /* beside() * n_set */
  year_set *set;      /* the same */
};

static void count_lanes(const pw_year_workspace *workspace, atomic_size_t *n_lane)
{
  size_t lived, lanes;
  pw_year_workspace_use(workspace, &lived, &lanes);
  atomic_fetch_add(n_lane, lanes);
}

/* As many draws as there are lanes: these are full then, however many sets there are. */
static size_t beside(const range_case *rc)
{
  const int lanes = rc->lanes > 0 ? rc->lanes : pw_year_lanes();
  return lanes < RANGE_BESIDE ? (size_t)lanes : RANGE_BESIDE;
}

void *range_room_new(const void *context)
{
  const range_case *rc = context;
  range_room *room = calloc(1, sizeof *room);
  if (!room) return NULL;
  room->n_lane = rc->n_lane;
  room->lane = calloc(beside(rc) * rc->n_set, sizeof *room->lane);
  room->set = calloc(beside(rc) * rc->n_set, sizeof *room->set);
  int whole = room->lane && room->set;
  for (int k = 0; whole && k < RANGE_SKIES; k++)
    whole = (room->workspace[k] = pw_year_workspace_new()) != NULL;
  if (whole) return room;
  range_room_free(room);
  return NULL;
}

void range_room_free(void *room)
{
  range_room *r = room;
  if (!r) return;
  for (int k = 0; k < RANGE_SKIES; k++) {
    if (r->n_lane && r->workspace[k]) count_lanes(r->workspace[k], r->n_lane);
    pw_year_workspace_free(r->workspace[k]);
  }
  free(r->lane);
  free(r->set);
  free(r);
}

/* ---------------------------------------------------------------- house */

/* Scales the transmittance by the layer that insulates most. */
static void insulate(pw_house_part *part, double factor)
{
  size_t best = 0;
  double most = -1.0;
  for (size_t i = 0; i < part->layers.n_layer; i++) {
    double r = pw_wall_layer_resistance(&part->layers.layer[i]);
    if (r > most) {
      most = r;
      best = i;
    }
  }
  double wanted = most + (1.0 / factor - 1.0) / pw_house_part_u(part);
  double r = fmax(wanted, 0.1 * most);
  pw_wall_layer *l = &part->layers.layer[best];
  if (l->thickness > 0.0)
    l->conductivity = l->thickness / r;
  else
    l->resistance = r;
}

/* The enum's number of the form that a draw has. */
static int form_of(const double v[IN_COUNT], pw_form_kind kind)
{
  return pw_form_at(kind, (int)v[IN_FORM + kind]).code;
}

/* Rooms are cooled to so far over the heating set point of the draw. */
static void move_airing(const range_case *rc, const double v[IN_COUNT], pw_house *h)
{
  pw_airing *a = &h->airing;
  if (!a->hours) return;
  a->share = v[IN_AIRING_SHARE];
  a->flow = v[IN_AIRING_FLOW];
  a->over_out = v[IN_AIRING_OVER];
  a->dew_most_c = v[IN_AIRING_DEW];
  a->down_to_c += v[IN_HEAT_SET] + v[IN_AIRING_HEAT] - rc->input[IN_AIRING_HEAT].spread.mode;
  if (isfinite(h->cool_set_c[0]))
    a->down_to_c = fmin(a->down_to_c, h->cool_set_c[0] + v[IN_COOL_SET]);
}

/* Shelter, terrain and where it leaks, where the air hangs on them. */
static void move_air(const range_case *rc, const double v[IN_COUNT], year_house *h)
{
  if (!pw_compare_air_drawn(&rc->compare->job->house)) return;
  h->house.air_changes *= pw_compare_air_at(rc->compare, rc->weather, v[IN_AIR_SHIELD],
                                            v[IN_AIR_TERRAIN], v[IN_AIR_LEVEL], h->air);
  if (h->house.air_shape) h->house.air_shape = h->air;
}

static void move_set_points(const range_case *rc, const double v[IN_COUNT], pw_house *h)
{
  double lower = v[IN_SETBACK] - rc->compare->job->house.setback_k.value;
  for (int i = 0; i < 24; i++) {
    h->heat_set_c[i] += v[IN_HEAT_SET] - (pw_house_is_night(i) ? lower : 0.0);
    h->cool_set_c[i] += v[IN_COOL_SET];
    if (h->heat_set_c[i] > h->cool_set_c[i] - 0.5) h->heat_set_c[i] = h->cool_set_c[i] - 0.5;
  }
}

static void move_house(const range_case *rc, const double ground[12], const double v[IN_COUNT],
                       pw_house *h)
{
  *h = rc->compare->lived.house;
  h->air_changes *= v[IN_AIR];
  h->gain_w *= v[IN_GAIN] * v[IN_FLOOR];
  h->floor_area *= v[IN_FLOOR];
  h->volume *= v[IN_FLOOR] * v[IN_CEILING];
  h->film_in = (pw_film_in)form_of(v, PW_FORM_FILM_IN);
  h->film_out = (pw_film_out)form_of(v, PW_FORM_FILM_OUT);
  memcpy(h->ground_c, ground, sizeof h->ground_c);
  move_airing(rc, v, h);
  h->air_store = (h->air_store > 0.0 ? h->air_store : 1.0) * v[IN_MASS];
  move_set_points(rc, v, h);
  for (size_t i = 0; i < h->n_part; i++) {
    pw_house_part *p = &h->part[i];
    /* A larger floor is a larger plan: floor and roof by it, walls by its root and the height. */
    int level = p->tilt_deg < 45.0 || p->tilt_deg > 135.0 || p->outside == PW_OUTSIDE_SAME;
    p->area *= level ? v[IN_FLOOR] : sqrt(v[IN_FLOOR]) * v[IN_CEILING];
    p->absorptance = fmin(0.98, p->absorptance * v[IN_SUN]);
    if (p->outside != PW_OUTSIDE_SAME) insulate(p, v[IN_UA]);
    for (size_t l = 0; l < p->layers.n_layer; l++)
      p->layers.layer[l].density *= v[IN_MASS];
  }
}

/* ---------------------------------------------------------------- windows */

/* What moves a window of a set: factors of its glass, frame, ring; m of its sight lines. */
typedef struct moves {
  double glass, frame, ring, sun, sight, tape, shade;
} moves;

static moves moves_of(const double v[IN_COUNT], int existing)
{
  moves m = {.glass = v[existing ? IN_GLASS_U_OLD : IN_GLASS_U_NEW],
             .frame = v[existing ? IN_FRAME_U_OLD : IN_FRAME_U_NEW],
             .ring = v[IN_FRAME_U_OLD], /* the retained ring is the old frame */
             .sun = v[IN_SUN] * v[existing ? IN_SHGC_OLD : IN_SHGC_NEW],
             .sight = v[existing ? IN_SIGHT_OLD : IN_SIGHT_NEW],
             .tape = v[IN_TAPE],
             .shade = v[IN_SHADE]};
  return m;
}

/* Light scaled alike at every angle, never above what falls on the pane. */
static void scale_light(const pw_light *from, double factor, pw_light *to)
{
  double most = 0.0;
  for (int a = 0; a < PW_ANGLES; a++) {
    double taken = from->tau_e[a];
    for (size_t p = 0; p < from->n_pane; p++)
      taken += from->absorbed[p][a];
    most = fmax(most, taken);
  }
  if (most * factor > 1.0) factor = 1.0 / most;
  for (int a = 0; a < PW_ANGLES; a++) {
    to->tau_e[a] = factor * from->tau_e[a];
    for (size_t p = 0; p < from->n_pane; p++)
      to->absorbed[p][a] = factor * from->absorbed[p][a];
  }
}

static void move_window(const pw_rating *r, const pw_fit *fit, const moves *m,
                        pw_house_window *w, pw_glazing *glazing)
{
  /* Glass lost to a wider sight line is frame gained; the tape moves the whole opening. */
  double shift = fmax(-r->glass_perimeter * m->sight, -0.5 * w->area_glass);
  double whole = 1.0 + m->tape * (1.0 / fit->opening_width + 1.0 / fit->opening_height);
  double u_frame = r->areas.frame > 0.0 ? r->ua.frame / r->areas.frame : r->u_frame.value;
  double u_glass = w->glazing->u_winter, glass = whole * (w->area_glass + shift);
  double edge = r->ua.edge - u_glass * r->areas.edge;
  w->ua_other = whole * (m->glass * edge + m->frame * (r->ua.frame + r->ua.divider) +
                         m->ring * r->ua.retained - m->frame * u_frame * shift) +
                (m->glass - 1.0) * u_glass * glass;
  w->solar_other = whole * fmax(0.0, w->solar_other - r->shgc_opaque * shift) * m->sun;
  w->area_glass = glass;
  w->shade_factor = fmin(0.95, fmax(0.0, w->shade_factor + m->shade));
  *glazing = *w->glazing;
  scale_light(&w->glazing->light, m->sun, &glazing->light);
  w->glazing = glazing;
}

/* Coverings of a draw: the same before and after. */
static void move_covering(const double v[IN_COUNT], pw_covered *k)
{
  for (int s = 0; s < PW_COVERING_SEASONS; s++)
    k->pass[s] = fmax(0.05, 1.0 - (1.0 - k->pass[s]) * v[IN_COVER_CLOSED] * v[IN_COVER_SUN]);
  for (int t = 0; t < PW_COVERING_TIMES; t++)
    k->closed[t] = fmin(1.0, k->closed[t] * v[IN_COVER_CLOSED]);
  k->resistance *= v[IN_COVER_R];
}

static void move_one(const pw_compare *c, int package, size_t i, const double v[IN_COUNT],
                     pw_house_window window[], pw_glazing glazing[])
{
  const moves m = moves_of(v, pw_compare_is_old(c->job, package, i));
  const pw_fit *fit = &c->fitted.fit[package < 0 ? 0 : package][i];
  move_window(pw_compare_rating(&c->rated, package, i), fit, &m, &window[i], &glazing[i]);
  if (c->lived.covered) move_covering(v, &window[i].covered);
}

static size_t move_windows(const pw_compare *c, int package, const double v[IN_COUNT],
                           pw_house_window window[], pw_glazing glazing[])
{
  size_t n = pw_compare_windows(c->job, &c->fitted, &c->rated, package, window);
  for (size_t i = 0; i < n; i++)
    move_one(c, package, i, v, window, glazing);
  return pw_compare_inside(c->job, window);
}

/* Windows of the code are what the code says: only sun and shade move them. */
static size_t move_minimum(const pw_compare *c, const double v[IN_COUNT],
                           pw_house_window window[], pw_glazing glazing[], pw_glazing *minimum)
{
  size_t n = pw_compare_minimum_windows(c->job, &c->fitted, &c->rated, window);
  *minimum = c->rated.minimum_glass;
  scale_light(&c->rated.minimum_glass.light, v[IN_SUN], &minimum->light);
  for (size_t i = 0; i < n; i++) {
    pw_house_window *w = &window[i];
    if (!pw_compare_replaces(c->job, i)) { /* it moves as in every set */
      move_one(c, -1, i, v, window, glazing);
      continue;
    }
    w->glazing = minimum;
    w->solar_other *= v[IN_SUN];
    if (c->lived.covered) move_covering(v, &w->covered);
    w->shade_factor = fmin(0.95, fmax(0.0, w->shade_factor + v[IN_SHADE]));
  }
  return pw_compare_inside(c->job, window);
}

/* The draw's house and the windows of each set, n_set lanes; returns how many windows. */
static size_t move_all(const range_case *rc, const double v[IN_COUNT], year_house *h,
                       year_set set[], pw_year_lane lane[])
{
  double ground[12];
  size_t n = 0;
  pw_house_ground(&rc->compare->lived.house, rc->weather,
                  (pw_ground_form)form_of(v, PW_FORM_GROUND), ground);
  move_house(rc, ground, v, &h->house);
  move_air(rc, v, h);
  for (size_t s = 0; s < rc->n_set; s++) {
    year_set *o = &set[s];
    n = s + 1 == rc->n_set ? move_minimum(rc->compare, v, o->window, o->glazing, &o->minimum)
                           : move_windows(rc->compare, (int)s - 1, v, o->window, o->glazing);
    lane[s] = (pw_year_lane){&h->house, o->window, NULL, &o->result};
  }
  return n;
}

/* What houses that stand side by side have in common: film and both skies outdoors, and the hours that are cut. Films indoors
 * that need no power by themselves: beside another its lanes would work out the other's. */
static uint64_t kind_of(const void *context, const double u[])
{
  static const pw_form_kind kind[] = {PW_FORM_FILM_OUT, PW_FORM_SKY_LIGHT, PW_FORM_SKY_COLD};
  const range_case *rc = context;
  double v[IN_COUNT];
  unsigned char cut[24];
  pw_house h = rc->compare->lived.house;
  uint64_t number = 0;
  range_values(context, u, v);
  for (size_t k = 0; k < sizeof kind / sizeof kind[0]; k++)
    number = number * RANGE_FORMS_MAX + (uint64_t)v[IN_FORM + kind[k]];
  number = 3 * number + (uint64_t)film_in_needs((pw_film_in)form_of(v, PW_FORM_FILM_IN));
  move_set_points(rc, v, &h);
  house_cut(&h, cut);
  for (size_t i = 0; i < 24; i++)
    number = 2 * number + cut[i];
  return number;
}

static void tell_months(const pw_year_result *r, double y[])
{
  for (size_t m = 0; m < 12; m++) {
    y[m] = fmax(0.0, r->heating_month_kwh[m]);
    y[12 + m] = fmax(0.0, r->cooling_month_kwh[m]);
  }
}

static pw_status years(const void *context, void *space, size_t n, const double u[],
                       double *const y[], pw_err *err)
{
  const range_case *rc = context;
  range_room *room = space;
  double v[IN_COUNT] = {0.0};
  size_t n_window = 0;
  for (size_t i = 0; i < n; i++) {
    range_values(rc, u + i * rc->n_in, v);
    n_window =
        move_all(rc, v, &room->house[i], room->set + i * rc->n_set, room->lane + i * rc->n_set);
  }
  const pw_year_options options = {.method = rc->method,
                                   .lanes = rc->lanes,
                                   .sky = (pw_sky_model)form_of(v, PW_FORM_SKY_LIGHT),
                                   .clear = (pw_clear_sky)form_of(v, PW_FORM_SKY_COLD)};
  pw_status status = pw_year_run_beside(room->lane, n * rc->n_set, rc->weather, n_window,
                                        &options, room->workspace[options.sky], NULL, err);
  for (size_t k = 0; status == PW_OK && k < n * rc->n_set; k++)
    tell_months(&room->set[k].result, y[k / rc->n_set] + k % rc->n_set * RANGE_MONTHS);
  return status;
}

pw_range_plan range_years_plan(const range_case *rc, size_t n_draw, int n_thread)
{
  return (pw_range_plan){.n_dim = rc->n_in,
                         .n_out = rc->n_set * RANGE_MONTHS,
                         .n_draw = n_draw,
                         .n_thread = n_thread,
                         .many = years,
                         .beside = beside(rc),
                         .kind = kind_of,
                         .context = rc,
                         .workspace_new = range_room_new,
                         .workspace_free = range_room_free};
}
