/* The painted plane made ready: regions, islands, direction of flow, sight line. */
#include <math.h>
#include <stdlib.h>

#include "frame/frame_impl.h"

static const size_t PAIRS = 100000000; /* air rectangles compared two by two at most */

static int fail_line(pw_err *err, int line)
{
  if (err) err->line = line;
  return 0;
}

static int overlap(const pw_section_part *a, const pw_section_part *b)
{
  return a->x0 < b->x1 && b->x0 < a->x1 && a->y0 < b->y1 && b->y0 < a->y1;
}

static int inside(const pw_section_part *a, const pw_section_part *b)
{
  return a->x0 >= b->x0 && a->x1 <= b->x1 && a->y0 >= b->y0 && a->y1 <= b->y1;
}

/* Outdoor and indoor zones may not overlap, but one may be cut out of the middle of another drawn
 * before it (a room drawn into an all-round outdoors). */
static pw_status zones_apart(const pw_section *s, pw_err *err)
{
  size_t n_air = 0;
  /* NOLINTNEXTLINE(bugprone-sizeof-expression): pointers */
  const pw_section_part **air = malloc((s->n_part + 1) * sizeof *air);
  if (!air) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for zones");
  for (size_t i = 0; i < s->n_part; i++) {
    pw_zone zone = s->material[s->part[i].material].zone;
    if (zone == PW_ZONE_OUTDOOR || zone == PW_ZONE_INDOOR || zone == PW_ZONE_INDOOR_REDUCED)
      air[n_air++] = &s->part[i];
  }
  pw_status status = PW_OK;
  size_t pairs = n_air > 1 ? n_air * (n_air - 1) / 2 : 0;
  for (size_t b = 1; b < n_air && pairs <= PAIRS && status == PW_OK; b++)
    for (size_t a = 0; a < b && status == PW_OK; a++) {
      int out_a = s->material[air[a]->material].zone == PW_ZONE_OUTDOOR;
      int out_b = s->material[air[b]->material].zone == PW_ZONE_OUTDOOR;
      if (out_a == out_b || !overlap(air[a], air[b])) continue;
      if (inside(air[b], air[a]) && !inside(air[a], air[b])) continue;
      status =
          pw_fail(err, PW_E_DATA, "section",
                  "the %s zone overlaps the %s zone of line %d (x %g to %g, y %g to %g mm)",
                  out_b ? "outdoor" : "indoor", out_a ? "outdoor" : "indoor", air[a]->line,
                  1e3 * fmax(air[a]->x0, air[b]->x0), 1e3 * fmin(air[a]->x1, air[b]->x1),
                  1e3 * fmax(air[a]->y0, air[b]->y0), 1e3 * fmin(air[a]->y1, air[b]->y1));
      fail_line(err, air[b]->line);
    }
  free(air);
  return status;
}

/* One region a material, and one for what nothing paints; cells hold regions from here on. */
static pw_status make_regions(const pw_section *s, const pw_section_options *o,
                              frame_plane *plane, pw_err *err)
{
  const pw_films *films = o->films ? o->films : &pw_films_iso10077;
  plane->n_region = s->n_material + 1;
  plane->region = calloc(plane->n_region, sizeof *plane->region);
  if (!plane->region) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for regions");
  for (size_t i = 0; i < s->n_material; i++) {
    const pw_section_material *m = &s->material[i];
    frame_region *r = &plane->region[i];
    *r = (frame_region){.zone = m->zone, .material = (int)i, .k = m->conductivity};
    r->theta = m->zone == PW_ZONE_OUTDOOR ? 0.0 : 1.0;
    r->r = m->zone == PW_ZONE_OUTDOOR  ? films->outdoor
           : m->zone == PW_ZONE_INDOOR ? films->indoor
                                       : films->reduced;
  }
  plane->region[s->n_material] = (frame_region){.zone = PW_ZONE_VOID, .material = -1};
  for (size_t c = 0; c < plane->n_x * plane->n_y; c++)
    if (plane->cell[c] < 0) plane->cell[c] = (int)s->n_material;
  return PW_OK;
}

static const frame_region *region_at(const frame_plane *p, size_t i, size_t j)
{
  return &p->region[p->cell[j * p->n_x + i]];
}

/* A face between two cells of the plane. */
typedef void face_visit(void *context, const frame_plane *plane, size_t low, size_t high,
                        int axis, double length);

static void each_face(const frame_plane *p, face_visit *visit, void *context)
{
  for (size_t j = 0; j < p->n_y; j++)
    for (size_t i = 0; i < p->n_x; i++) {
      size_t c = j * p->n_x + i;
      if (i + 1 < p->n_x) visit(context, p, c, c + 1, FRAME_X, p->y[j + 1] - p->y[j]);
      if (j + 1 < p->n_y) visit(context, p, c, c + p->n_x, FRAME_Y, p->x[i + 1] - p->x[i]);
    }
}

typedef struct faces {
  double normal[2]; /* m, of the indoor faces, towards indoors */
  double indoor, outdoor;
  int touch; /* indoor air touches outdoor air, at x, y */
  double x, y;
} faces;

static void look_face(void *context, const frame_plane *p, size_t low, size_t high, int axis,
                      double length)
{
  faces *f = context;
  const frame_region *a = &p->region[p->cell[low]], *b = &p->region[p->cell[high]];
  if (frame_is_air(a) && frame_is_air(b)) {
    if (a->theta == b->theta || f->touch) return;
    f->touch = 1;
    f->x = p->x[high % p->n_x];
    f->y = p->y[high / p->n_x];
    return;
  }
  const frame_region *air = frame_is_air(a) ? a : b, *body = air == a ? b : a;
  if (!frame_is_air(air) || !frame_is_body(body)) return;
  if (frame_is_indoor(air)) {
    f->indoor += length;
    f->normal[axis] += air == b ? length : -length;
  } else {
    f->outdoor += length;
  }
}

static pw_status look_faces(frame_plane *plane, pw_err *err)
{
  static const char *const zone[2] = {"outdoor", "indoor"};
  int have[2] = {0, 0}, body = 0;
  for (size_t c = 0; c < plane->n_x * plane->n_y; c++) {
    const frame_region *r = &plane->region[plane->cell[c]];
    if (frame_is_air(r)) have[frame_is_indoor(r)] = 1;
    body |= frame_is_body(r);
  }
  for (int i = 0; i < 2; i++)
    if (!have[i])
      return pw_fail(err, PW_E_DATA, "section",
                     "no %s side: no row of material '%s' is left to see", zone[i], zone[i]);
  if (!body)
    return pw_fail(err, PW_E_DATA, "section",
                   "nothing is painted between indoors and outdoors: no solid at all");
  faces f = {0};
  each_face(plane, look_face, &f);
  if (f.touch)
    return pw_fail(
        err, PW_E_DATA, "section",
        "nothing is painted between indoors and outdoors at x %g, y %g mm: the two air "
        "zones touch",
        1e3 * f.x, 1e3 * f.y);
  for (int i = 0; i < 2; i++)
    if (!((i ? f.indoor : f.outdoor) > 0.0))
      return pw_fail(err, PW_E_DATA, "section", "no %s side: no solid face touches the %s zone",
                     zone[i], zone[i]);
  plane->axis = fabs(f.normal[FRAME_Y]) > fabs(f.normal[FRAME_X]) ? FRAME_Y : FRAME_X;
  return PW_OK;
}

/* Lists in queue[] every body cell that hangs together with queue[0]; returns bit 1: touches
 * outdoors, bit 2: touches indoors. */
static int spread(const frame_plane *p, unsigned char *seen, size_t *queue, size_t *n_queue)
{
  const size_t n_x = p->n_x, n_y = p->n_y;
  int touches = 0;
  size_t n = 1;
  seen[queue[0]] = 1;
  for (size_t at = 0; at < n; at++) {
    /* NOLINTNEXTLINE(clang-analyzer-core.DivideZero): a cell stands in a column */
    size_t c = queue[at], i = c % n_x, j = c / n_x;
    size_t near[4], n_near = 0;
    if (i > 0) near[n_near++] = c - 1;
    if (i + 1 < n_x) near[n_near++] = c + 1;
    if (j > 0) near[n_near++] = c - n_x;
    if (j + 1 < n_y) near[n_near++] = c + n_x;
    for (size_t e = 0; e < n_near; e++) {
      const frame_region *r = &p->region[p->cell[near[e]]];
      if (frame_is_air(r))
        touches |= frame_is_indoor(r) ? 2 : 1;
      else if (frame_is_body(r) && !seen[near[e]]) {
        seen[near[e]] = 1;
        queue[n++] = near[e];
      }
    }
  }
  *n_queue = n;
  return touches;
}

/* Bodies that touch no air are left out (their temperature is anyone's guess). */
static pw_status drop_islands(const pw_section *s, frame_plane *p, pw_err *err)
{
  size_t n = p->n_x * p->n_y;
  unsigned char *seen = calloc(n, 1);
  size_t *queue = malloc(n * sizeof *queue), n_queue = 0;
  int through = 0, memory = seen && queue;
  for (size_t c = 0; memory && c < n; c++) {
    if (seen[c] || !frame_is_body(&p->region[p->cell[c]])) continue;
    queue[0] = c;
    int touches = spread(p, seen, queue, &n_queue);
    through |= touches == 3;
    if (touches) continue;
    p->island = 1;
    for (size_t k = 0; k < n_queue; k++)
      p->cell[queue[k]] = (int)s->n_material;
  }
  free(seen);
  free(queue);
  if (!memory) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu cells", n);
  if (!through)
    return pw_fail(
        err, PW_E_DATA, "section",
        "nothing is painted between indoors and outdoors: no solid reaches from the one "
        "to the other");
  return PW_OK;
}

/* What a look from both sides sees of one row across the flow. */
typedef struct outline {
  double low, high;
  int low_region, high_region, glazed;
} outline;

static outline outline_of(const frame_plane *p, const pw_section *s, size_t row)
{
  outline o = {NAN, NAN, -1, -1, 0};
  size_t n = p->axis == FRAME_X ? p->n_x : p->n_y;
  for (size_t k = 0; k < n; k++) {
    size_t i = p->axis == FRAME_X ? k : row, j = p->axis == FRAME_X ? row : k;
    const frame_region *r = region_at(p, i, j);
    if (!frame_is_body(r)) continue;
    const double *line = p->axis == FRAME_X ? p->x : p->y;
    if (o.low_region < 0) {
      o.low = line[k];
      o.low_region = p->cell[j * p->n_x + i];
    }
    o.high = line[k + 1];
    o.high_region = p->cell[j * p->n_x + i];
    pw_material_kind kind = s->material[r->material].kind;
    if (kind == PW_MATERIAL_GLASS || kind == PW_MATERIAL_PANEL) o.glazed = 1;
  }
  return o;
}

static int same_outline(const outline *a, const outline *b)
{
  return a->low == b->low && a->high == b->high && a->low_region == b->low_region &&
         a->high_region == b->high_region;
}

/* Where the outline stops being that of row `from` on the way to row `to`; NAN when it never does. */
static double outline_change(const frame_plane *p, const pw_section *s, size_t from, size_t to)
{
  const double *line = p->axis == FRAME_X ? p->y : p->x;
  outline glass = outline_of(p, s, from);
  for (size_t r = from; r != to;) {
    size_t next = from < to ? r + 1 : r - 1;
    outline o = outline_of(p, s, next);
    if (!same_outline(&o, &glass)) return from < to ? line[next] : line[r];
    r = next;
  }
  return (double)NAN;
}

static pw_status sight_outside(const pw_section *s, double low, double high, pw_err *err)
{
  pw_status bad = pw_fail(err, PW_E_DATA, "sightline",
                          "the sight line at %g mm is outside the section (%g to %g mm)",
                          1e3 * s->sight_line, 1e3 * low, 1e3 * high);
  fail_line(err, s->sight_line_line);
  return bad;
}

/* Glass at both ends: the frame lies between the two places where the outline becomes that of the
 * glass alone. A sight line given says more of the one it lies near; one amid the frame says nothing. */
static pw_status find_two(const pw_section *s, frame_plane *p, double low, double high,
                          double first, double last, pw_err *err)
{
  double given = s->sight_line, near = 0.25 * (high - low);
  p->two = 1;
  p->sight_found = isnan(given);
  if (!p->sight_found && !(given > first && given < last))
    return sight_outside(s, first, last, err);
  int at_low = fabs(given - low) < near, at_high = fabs(given - high) < near;
  if (!p->sight_found && !at_low && !at_high) {
    pw_status bad = pw_fail(err, PW_E_DATA, "sightline",
                            "glass lies at both ends and the sight line at %g mm is near "
                            "neither: want about %g or %g mm, or no sight line",
                            1e3 * given, 1e3 * low, 1e3 * high);
    fail_line(err, s->sight_line_line);
    return bad;
  }
  p->up = at_low ? -1 : 1;
  p->sight = p->sight_found ? high : given;
  p->start = at_low ? high : low;
  p->end = at_low ? first : last;
  return PW_OK;
}

/* The end of the glass, the sight line (given, or where the outline changes) and the opening edge. */
static pw_status find_sight(const pw_section *s, frame_plane *p, pw_err *err)
{
  const double *line = p->axis == FRAME_X ? p->y : p->x;
  size_t n = p->axis == FRAME_X ? p->n_y : p->n_x, first = n, last = 0;
  for (size_t r = 0; r < n; r++)
    if (outline_of(p, s, r).low_region >= 0) {
      if (first == n) first = r;
      last = r;
    }
  outline top = outline_of(p, s, last), bottom = outline_of(p, s, first);
  if (top.glazed && bottom.glazed) {
    double low = outline_change(p, s, first, last), high = outline_change(p, s, last, first);
    if (!isnan(low) && low < high)
      return find_two(s, p, low, high, line[first], line[last + 1], err);
  }
  p->up = !top.glazed && bottom.glazed ? -1 : 1;
  p->end = p->up > 0 ? line[last + 1] : line[first];
  double begin = p->up > 0 ? line[first] : line[last + 1];
  double found =
      p->up > 0 ? outline_change(p, s, last, first) : outline_change(p, s, first, last);
  p->sight = found;
  p->sight_found = isnan(s->sight_line);
  if (!p->sight_found) {
    if (!(s->sight_line > line[first] && s->sight_line < line[last + 1]))
      return sight_outside(s, line[first], line[last + 1], err);
    p->sight = s->sight_line;
  }
  p->below = p->up * begin < 0.0 && p->up * p->sight > 0.0;
  p->start = p->below ? 0.0 : begin;
  return PW_OK;
}

static pw_status cut_lines(const pw_section_options *o, frame_plane *p, pw_err *err)
{
  int across = p->axis == FRAME_X ? FRAME_Y : FRAME_X;
  pw_status status = PW_OK;
  if (!isnan(p->sight)) {
    status = frame_plane_cut(p, across, p->sight, err);
    if (status == PW_OK)
      status = frame_plane_cut(p, across, p->sight + p->up * PW_EDGE_BAND, err);
    if (status == PW_OK && p->two)
      status = frame_plane_cut(p, across, p->start - p->up * PW_EDGE_BAND, err);
  }
  for (size_t i = 0; i < o->n_probe && status == PW_OK; i++) {
    status = frame_plane_cut(p, FRAME_X, o->probe[2 * i], err);
    if (status == PW_OK) status = frame_plane_cut(p, FRAME_Y, o->probe[2 * i + 1], err);
  }
  return status;
}

pw_status frame_gaps_set(const pw_section *s, const frame_plane *p, pw_err *err)
{
  for (size_t c = 0; c < p->n_x * p->n_y; c++) {
    const frame_region *r = &p->region[p->cell[c]];
    if (r->zone != PW_ZONE_SOLID || !isnan(r->k)) continue;
    const pw_section_material *m = &s->material[r->material];
    if (m->gap)
      return pw_fail(err, PW_E_DATA, "glass",
                     "%s stands for a gap of a glass build-up: name the build-up, or give "
                     "conductivity_w_mk",
                     m->name);
    return pw_fail(err, PW_E_DATA, m->stands == PW_STANDS_SPACER ? "spacer" : "filling",
                   "%s stands for what a package has: name the %s, or give conductivity_w_mk",
                   m->name, m->name);
  }
  return PW_OK;
}

pw_status frame_plane_make(const pw_section *section, const pw_section_options *options,
                           frame_plane *plane, pw_err *err)
{
  pw_status status = zones_apart(section, err);
  if (status != PW_OK) return status;
  status = frame_paint(section, plane, err);
  if (status == PW_OK) status = make_regions(section, options, plane, err);
  if (status == PW_OK) status = look_faces(plane, err);
  if (status == PW_OK) status = drop_islands(section, plane, err);
  if (status == PW_OK) status = find_sight(section, plane, err);
  if (status == PW_OK) status = cut_lines(options, plane, err);
  if (status == PW_OK) status = frame_find_hollows(section, options, plane, err);
  if (status != PW_OK) frame_plane_free(plane);
  return status;
}

pw_status pw_section_check(const pw_section *section, pw_err *err)
{
  frame_plane plane;
  pw_status status = frame_plane_make(section, &(pw_section_options){0}, &plane, err);
  if (status == PW_OK) frame_plane_free(&plane);
  return status;
}
