/* From the solved fields to what is asked: band figures, coldest indoor surface, centre of glass,
 * probes. */
#include <math.h>

#include "frame/frame_impl.h"

static const double SNAP = 1e-7;

typedef struct gauge {
  const frame_grid *g;
  const double *cell_theta, *node_theta;
  double frame, edge; /* indoor heat up to the sight line, and over the band */
  double coldest, coldest_x, coldest_y;
} gauge;

/* Where along the section (growing towards the glass) the middle of an indoor face lies. */
static void add_heat(gauge *a, double s, double heat)
{
  const frame_plane *p = a->g->plane;
  double past = p->up * (s - p->sight), before = p->two ? p->up * (p->start - s) : -INFINITY;
  /* a face that looks at the glass from the sight line is the frame's */
  if (past < SNAP && before < SNAP)
    a->frame += heat;
  else if (fmax(past, before) < PW_EDGE_BAND)
    a->edge += heat;
}

static void look_node(gauge *a, size_t i, size_t j)
{
  double t = a->node_theta[j * (a->g->n_x + 1) + i];
  if (!(t < a->coldest)) return;
  a->coldest = t;
  a->coldest_x = a->g->x[i];
  a->coldest_y = a->g->y[j];
}

/* Heat of one indoor face by both schemes, weighed as the value is. */
static void look_face(gauge *a, size_t i, size_t j, int di, int dj)
{
  const frame_grid *g = a->g;
  double air, conductance = frame_face(g, i, j, di, dj, &air);
  if (isnan(air) || !(air > 0.5)) return;
  size_t m = g->n_x + 1, i1 = i + (di > 0), j1 = j + (dj > 0);
  size_t i2 = di ? i1 : i + 1, j2 = di ? j + 1 : j1;
  double length = di ? g->y[j + 1] - g->y[j] : g->x[i + 1] - g->x[i];
  double heat = conductance * (air - a->cell_theta[j * g->n_x + i]);
  const frame_region *zone =
      &g->plane->region[frame_at(g, (size_t)((ptrdiff_t)i + di), (size_t)((ptrdiff_t)j + dj))];
  double mean = 0.5 * (a->node_theta[j1 * m + i1] + a->node_theta[j2 * m + i2]);
  if (zone->r > 0.0) heat = frame_weigh(length * (air - mean) / zone->r, heat);
  int across_y = g->plane->axis == FRAME_X;
  add_heat(a, across_y ? 0.5 * (g->y[j1] + g->y[j2]) : 0.5 * (g->x[i1] + g->x[i2]), heat);
  look_node(a, i1, j1);
  look_node(a, i2, j2);
}

/* Layers in series on the last row of cells at the glass end; NAN where air or nothing intervenes.
 */
static double end_of_glass(const frame_grid *g)
{
  const frame_plane *p = g->plane;
  const double *line = p->axis == FRAME_X ? g->y : g->x;
  size_t n = p->axis == FRAME_X ? g->n_y : g->n_x, m = p->axis == FRAME_X ? g->n_x : g->n_y;
  size_t row = 0;
  for (size_t r = 0; r < n; r++)
    if (fabs((p->up > 0 ? line[r + 1] : line[r]) - p->end) < SNAP) row = r;
  double resistance = 0.0, r_in = NAN, r_out = NAN;
  const frame_region *before = NULL;
  for (size_t k = 0; k < m; k++) {
    size_t i = p->axis == FRAME_X ? k : row, j = p->axis == FRAME_X ? row : k;
    const frame_region *r = &p->region[frame_at(g, i, j)];
    double depth = p->axis == FRAME_X ? g->x[k + 1] - g->x[k] : g->y[k + 1] - g->y[k];
    if (frame_is_body(r)) {
      resistance += depth / r->k;
      if (before && frame_is_air(before))
        *(frame_is_indoor(before) ? &r_in : &r_out) = before->r;
    } else if (before && frame_is_body(before) && frame_is_air(r)) {
      *(frame_is_indoor(r) ? &r_in : &r_out) = r->r;
    }
    before = r;
  }
  return 1.0 / (resistance + r_in + r_out);
}

static int end_is_panel(const pw_section *section, const frame_plane *p)
{
  const double *line = p->axis == FRAME_X ? p->y : p->x;
  size_t n = p->axis == FRAME_X ? p->n_y : p->n_x, m = p->axis == FRAME_X ? p->n_x : p->n_y;
  int panel = 0;
  for (size_t r = 0; r < n; r++) {
    if (fabs((p->up > 0 ? line[r + 1] : line[r]) - p->end) >= SNAP) continue;
    for (size_t k = 0; k < m; k++) {
      size_t c = p->axis == FRAME_X ? r * p->n_x + k : k * p->n_x + r;
      const frame_region *region = &p->region[p->cell[c]];
      if (region->zone == PW_ZONE_SOLID)
        panel |= section->material[region->material].kind == PW_MATERIAL_PANEL;
    }
  }
  return panel;
}

/* Temperature at a point by the elements (bilinear); NAN off the body. */
static double probe(const frame_grid *g, const double *theta, double x, double y)
{
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      if (x < g->x[i] - SNAP || x > g->x[i + 1] + SNAP || y < g->y[j] - SNAP ||
          y > g->y[j + 1] + SNAP || !frame_is_body(&g->plane->region[frame_at(g, i, j)]))
        continue;
      const double *t = theta + j * (g->n_x + 1) + i;
      double u = (x - g->x[i]) / (g->x[i + 1] - g->x[i]);
      double v = (y - g->y[j]) / (g->y[j + 1] - g->y[j]);
      size_t m = g->n_x + 1;
      return (1.0 - v) * ((1.0 - u) * t[0] + u * t[1]) + v * ((1.0 - u) * t[m] + u * t[m + 1]);
    }
  return NAN;
}

void frame_gauge(const pw_section *section, const pw_section_options *o, const frame_grid *g,
                 const frame_solution *volumes, const frame_solution *elements,
                 pw_section_result *r)
{
  const frame_plane *p = g->plane;
  gauge a = {
      .g = g, .cell_theta = volumes->theta, .node_theta = elements->theta, .coldest = INFINITY};
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      if (!frame_is_body(&p->region[frame_at(g, i, j)])) continue;
      look_face(&a, i, j, -1, 0);
      look_face(&a, i, j, 1, 0);
      look_face(&a, i, j, 0, -1);
      look_face(&a, i, j, 0, 1);
    }
  /* each face's share of what both schemes let through, of the value that their bubbles gave */
  const double better = r->l2d / frame_weigh(elements->q, volumes->q);
  double span = o->t_in - o->t_out;
  r->f_rsi = a.coldest;
  r->coldest = o->t_out + span * a.coldest;
  r->coldest_x = a.coldest_x;
  r->coldest_y = a.coldest_y;
  r->q = r->l2d * span;
  r->sight_line = p->sight;
  r->glass_end = p->end;
  r->frame_start = p->start;
  r->other_sight_line = p->two ? p->start : (double)NAN;
  r->b_frame = fabs(p->sight - p->start);
  r->b_glass = fabs(p->end - p->sight);
  r->u_frame = better * a.frame / r->b_frame;
  int band = r->b_glass >= PW_EDGE_BAND - SNAP;
  r->u_edge = band ? better * a.edge / (p->two ? 2.0 * PW_EDGE_BAND : PW_EDGE_BAND) : NAN;
  r->u_glass = o->u_glass > 0.0 ? o->u_glass : end_of_glass(g);
  r->u_panel_frame = NAN;
  if (end_is_panel(section, p) && !p->two) /* ISO 10077-2:2012 Annex C; METHODS.md 1 */
    r->u_panel_frame = (r->l2d - end_of_glass(g) * r->b_glass) / r->b_frame;
  r->notes |= (band || isnan(p->sight) ? 0u : PW_SECTION_NO_BAND) |
              (p->sight_found && !isnan(p->sight) ? PW_SECTION_SIGHT : 0u) |
              (p->island ? PW_SECTION_ISLAND : 0u) | (p->below ? PW_SECTION_BELOW : 0u);
  r->flow_axis = p->axis;
  for (size_t k = 0; k < o->n_probe; k++)
    o->t_probe[k] =
        o->t_out + span * probe(g, elements->theta, o->probe[2 * k], o->probe[2 * k + 1]);
}
