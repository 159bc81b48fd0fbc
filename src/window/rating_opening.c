/* From a fitted opening to what is rated: lights, frame by side, meeting rails, retained ring. */
#include <math.h>
#include <string.h>

#include "frame/catalogue.h"
#include "panewright/rating.h"

_Static_assert((int)PW_CATALOGUE_PANES == (int)PW_PANES_MAX, "panes of the catalogue");

enum { PARTS_MAX = PW_SIDE_COUNT + 5 };

/* A window made ready for pw_rating_window; input points into the same struct. */
typedef struct draft {
  pw_rating_lite lite[PW_LITES_MAX];
  pw_lite_round round[PW_LITES_MAX];
  pw_rating_part part[PARTS_MAX];
  pw_rating_input input;
  pw_given frame, edge, ring, face;
  double face_area; /* m2, of an old face that stays */
} draft;

static int side_of(const pw_lites *w, const pw_lite *l, int k)
{
  if (w->n_meeting > 0 && l->face[k] == 0.0) return PW_SIDE_MEETING;
  return k == PW_BOTTOM ? PW_SIDE_SILL : k == PW_TOP ? PW_SIDE_HEAD : PW_SIDE_JAMB;
}

static void add_part(draft *d, pw_part_kind kind, double area, double u, double absorptance)
{
  if (area <= 0.0) return;
  /* The wetted outdoor face of a frame is about 1.2 of its projection (optics/METHODS.md 7). */
  d->part[d->input.n_part++] = (pw_rating_part){kind, area, u, absorptance, 1.2};
}

/* How the frame's area divides into sill, head and jambs: strips along the lights, the corner
 * rectangles halved by their mitre. */
static void side_weights(const pw_lites *w, double weight[PW_SIDE_COUNT])
{
  memset(weight, 0, PW_SIDE_COUNT * sizeof weight[0]);
  for (size_t i = 0; i < w->n_lite; i++) {
    const pw_lite *l = &w->lite[i];
    if (l->round.perimeter > 0.0) {
      weight[PW_SIDE_SILL] += l->round.frame[PW_BOTTOM];
      weight[PW_SIDE_HEAD] += l->round.frame[PW_TOP];
      weight[PW_SIDE_JAMB] += l->round.frame[PW_LEFT] + l->round.frame[PW_RIGHT];
      continue;
    }
    double across = l->width + 0.5 * (l->face[PW_LEFT] + l->face[PW_RIGHT]);
    double up = l->height + 0.5 * (l->face[PW_BOTTOM] + l->face[PW_TOP]);
    weight[PW_SIDE_SILL] += l->face[PW_BOTTOM] * across;
    weight[PW_SIDE_HEAD] += l->face[PW_TOP] * across;
    weight[PW_SIDE_JAMB] += (l->face[PW_LEFT] + l->face[PW_RIGHT]) * up;
  }
  double sum = weight[PW_SIDE_SILL] + weight[PW_SIDE_HEAD] + weight[PW_SIDE_JAMB];
  for (int s = 0; s < PW_SIDE_MEETING; s++)
    weight[s] = sum > 0.0 ? weight[s] / sum : 1.0 / 3.0;
}

static void draft_lites(draft *d, const pw_lites *w, const pw_frame_values *values)
{
  for (size_t i = 0; i < w->n_lite; i++) {
    d->lite[i].width = w->lite[i].width;
    d->lite[i].height = w->lite[i].height;
    d->round[i] = w->lite[i].round;
    for (int k = 0; k < 4; k++) {
      double own = values ? values->side[side_of(w, &w->lite[i], k)].u_edge : 0.0;
      d->lite[i].u_edge[k] = own > 0.0 ? own : d->edge.value;
    }
  }
  d->input.lite = d->lite;
  d->input.round = d->round;
  d->input.n_lite = w->n_lite;
  d->input.part = d->part;
}

/* Frame of that area in all, meeting rails included. */
static void draft_frame(draft *d, const pw_lites *w, double frame_area, double absorptance,
                        const pw_frame_values *values)
{
  double weight[PW_SIDE_COUNT], around = frame_area - w->meeting_area;
  side_weights(w, weight);
  for (int s = 0; s < PW_SIDE_COUNT; s++) {
    double own = values ? values->side[s].u_frame : 0.0, u = own > 0.0 ? own : d->frame.value;
    if (s == PW_SIDE_MEETING)
      add_part(d, PW_PART_DIVIDER, w->meeting_area, u, absorptance);
    else
      add_part(d, PW_PART_FRAME, around * weight[s], u, absorptance);
  }
}

/* An old face that stays on all sides of the pocket, by its own table. */
static pw_status draft_face(draft *d, const pw_fit *fit, pw_cover cover, pw_err *err)
{
  double w = fit->retained_face;
  pw_status s = pw_catalogue_retained(cover, w, &d->face, err);
  if (s != PW_OK || !(w > 0.0)) return s;
  double inside = fit->shape.kind == PW_SHAPE_RECTANGLE
                      ? (fit->opening_width - 2.0 * w) * (fit->opening_height - 2.0 * w)
                      : fit->bare_area;
  d->face_area = fit->opening_area - fit->mullion_area - inside;
  add_part(d, PW_PART_RETAINED, d->face_area, d->face.value / w, 0.0);
  return PW_OK;
}

/* The ring of clearance, fins and lip, side by side; where a section covers it, with the frame's U of
 * that side. */
static pw_status draft_ring(draft *d, const pw_fit *fit, const char *filling,
                            const pw_frame_values *values, pw_err *err)
{
  double ua = 0.0, held = 0.0, weight = 0.0, face = fit->retained_face;
  for (int k = 0; k < 4; k++) {
    int side = k == PW_BOTTOM ? PW_SIDE_SILL : k == PW_TOP ? PW_SIDE_HEAD : PW_SIDE_JAMB;
    double width = fmax(fit->retained_width[k] - face, 0.0), own = 0.0;
    double along =
        (k == PW_LEFT || k == PW_RIGHT ? fit->opening_height : fit->opening_width) - 2.0 * face;
    if (fit->shape.kind != PW_SHAPE_RECTANGLE) along = fit->bare_side[k];
    if (values && values->with_ring) own = values->side[side].u_frame;
    weight += along * width;
    if (own > 0.0) {
      held += along * own * width;
      continue;
    }
    pw_status s = pw_catalogue_ring(filling, width, &d->ring, err);
    if (s != PW_OK) return s;
    ua += along * d->ring.value;
  }
  double area = fit->retained_area - d->face_area;
  if (!(area > 1e-9 * fit->opening_area)) return PW_OK;
  if (weight > 0.0) ua += held * area / weight;
  add_part(d, PW_PART_RETAINED, area, ua / area, 0.0);
  return PW_OK;
}

static int has_low_e(const pw_unit *unit)
{
  for (size_t i = 0; i < unit->n_pane; i++)
    for (int side = 0; side < 2; side++) {
      double e = unit->pane[i].emit[side];
      if (e > 0.0 && e < 0.5) return 1;
    }
  return 0;
}

/* Sections where they are drawn, the relation for what is not. */
static pw_status coldest(const pw_lites *lites, const pw_frame_values *values,
                         pw_frame_kind kind, pw_spacer spacer, pw_rating *r, pw_err *err)
{
  pw_coldest *to[2] = {&r->cold, &r->cold_meeting};
  for (int m = 0; m < 2; m++) {
    pw_cold_relation c;
    pw_status s = pw_catalogue_coldest(kind, m, spacer, &c, err);
    if (s != PW_OK) return s;
    *to[m] = (pw_coldest){0.0, values != NULL, c.base, c.slope, c.below, c.above};
    for (int k = m ? PW_SIDE_MEETING : 0; k < (m ? PW_SIDE_COUNT : PW_SIDE_MEETING); k++) {
      double f = values ? values->side[k].f_rsi : 0.0;
      if (!(f > 0.0))
        to[m]->all_drawn = 0;
      else if (to[m]->f_rsi == 0.0 || f < to[m]->f_rsi)
        to[m]->f_rsi = f;
    }
  }
  if (lites->n_meeting == 0) r->cold_meeting = (pw_coldest){0};
  return PW_OK;
}

/* Both methods. */
static pw_status finish(const draft *d, const pw_lites *lites, const pw_glazing *glazing,
                        pw_frame_kind kind, pw_spacer spacer, const pw_frame_values *values,
                        pw_rating *rating, pw_err *err)
{
  pw_rating r;
  pw_given psi;
  pw_unit_result en;
  size_t n = glazing->unit.n_pane;
  pw_status s = pw_rating_window(&d->input, &r, err);
  if (s == PW_OK) s = pw_catalogue_psi(kind, spacer, n, has_low_e(&glazing->unit), &psi, err);
  if (s == PW_OK) s = pw_unit_en673(&glazing->unit, &en, err);
  if (s == PW_OK) s = pw_rating_u_psi(&d->input, en.u, psi.value, &r.u_psi, err);
  if (s == PW_OK) s = coldest(lites, values, kind, spacer, &r, err);
  if (s != PW_OK) return s;
  r.u_center.source = "heat balance of the unit, ISO 15099";
  const char *section = values && values->source ? values->source : "computed section";
  int own_frame = 0, own_edge = 0;
  for (int k = 0; values && k < PW_SIDE_COUNT; k++) {
    own_frame |= values->side[k].u_frame > 0.0;
    own_edge |= values->side[k].u_edge > 0.0;
  }
  r.u_frame.origin = own_frame ? PW_ORIGIN_COMPUTED : d->frame.origin;
  r.u_frame.source = own_frame ? section : d->frame.source;
  r.u_edge.origin = own_edge ? PW_ORIGIN_COMPUTED : d->edge.origin;
  r.u_edge.source = own_edge ? section : d->edge.source;
  int ring_in_section = own_frame && values->with_ring;
  r.u_retained.origin = ring_in_section ? PW_ORIGIN_COMPUTED : d->ring.origin;
  r.u_retained.source = ring_in_section ? section : d->ring.source;
  *rating = r;
  return PW_OK;
}

static void draft_set(draft *d, const pw_fit *fit, const pw_glazing *glazing)
{
  *d = (draft){.input = {.width = fit->opening_width,
                         .height = fit->opening_height,
                         .area = fit->opening_area,
                         .u_center = glazing->u_winter,
                         .shgc = glazing->shgc[0],
                         .vt = glazing->light.tau_v[0]}};
}

pw_status pw_rating_existing(const pw_opening *opening, const pw_fit *fit,
                             const pw_glazing *glazing, const pw_frame_values *values,
                             pw_rating *rating, pw_err *err)
{
  draft d;
  size_t n = glazing->unit.n_pane;
  pw_frame_kind kind = opening->existing_frame;
  draft_set(&d, fit, glazing);
  pw_status s =
      pw_catalogue_frame_u(kind, opening->operator_existing, n, PW_SPACER_METAL, &d.frame, err);
  if (s == PW_OK) s = pw_catalogue_edge_u(PW_SPACER_METAL, n, glazing->u_winter, &d.edge, err);
  if (s != PW_OK) return s;
  draft_lites(&d, &fit->existing, values);
  /* The face that stays is the same metal before and after: bare, until the job covers it. */
  if (kind == PW_FRAME_ALUMINIUM || kind == PW_FRAME_STEEL)
    s = draft_face(&d, fit, PW_COVER_BARE, err);
  if (s != PW_OK) return s;
  draft_frame(&d, &fit->existing, fit->existing_frame_area - d.face_area, 0.0, values);
  s = finish(&d, &fit->existing, glazing, kind, PW_SPACER_METAL, values, rating, err);
  if (s == PW_OK && rating->u_frame.origin == PW_ORIGIN_ASSUMED)
    rating->u_frame.spread = d.frame.spread;
  return s;
}

pw_status pw_rating_insert(const pw_fit *fit, const pw_package *package,
                           const pw_frame_line *line, const pw_glazing *glazing,
                           const pw_frame_values *values, pw_rating *rating, pw_err *err)
{
  draft d;
  size_t n = glazing->unit.n_pane;
  draft_set(&d, fit, glazing);
  pw_status s = PW_OK;
  if (line->frame_u.value > 0.0)
    d.frame = line->frame_u;
  else
    s = pw_catalogue_frame_u(line->kind, fit->insert.operator_, n, package->spacer, &d.frame,
                             err);
  if (s == PW_OK) s = pw_catalogue_edge_u(package->spacer, n, glazing->u_winter, &d.edge, err);
  if (s != PW_OK) return s;
  draft_lites(&d, &fit->insert, values);
  double absorptance = fit->absorptance > 0.0    ? fit->absorptance
                       : line->absorptance > 0.0 ? line->absorptance
                                                 : 0.0; /* the default of a part */
  draft_frame(&d, &fit->insert, fit->insert.frame_area + fit->mullion_area, absorptance,
              values);
  s = draft_face(&d, fit, fit->retained_cover, err);
  if (s == PW_OK) s = draft_ring(&d, fit, package->filling, values, err);
  pw_rating r;
  if (s == PW_OK)
    s = finish(&d, &fit->insert, glazing, line->kind, package->spacer, values, &r, err);
  if (s == PW_OK)
    s = pw_rating_add_bars(&fit->grille, &fit->insert, glazing, absorptance, &r, err);
  if (s == PW_OK) *rating = r;
  return s;
}
