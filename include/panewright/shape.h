/* The outline of an opening that is no rectangle: straight edges and arcs of circles, always convex.
 *
 * Seen from outside, the level base lies on y = 0 and the leftmost point on x = 0. An outline is kept
 * as what bounds it: a straight edge keeps points with n . (x, y) <= p, an arc keeps points with
 * n(a) . ((x, y) - centre) <= r for every outward normal n(a) of its range. A parallel outline at
 * distance d inside is the same bounds with p - d and r - d, which is exact for any convex outline;
 * corners are mitred outward (d below 0), so that in and out again is the same outline.
 *
 *   area(d) = A - P d + c d^2 while no edge vanishes (Steiner, of mitred corners)
 */
#ifndef PANEWRIGHT_SHAPE_H
#define PANEWRIGHT_SHAPE_H

#include <stddef.h>

#include "panewright/opening.h"
#include "panewright/status.h"

enum { PW_SHAPE_EDGES_MAX = 12 };

/* The measures of a shape, m. What a kind does not use is 0.
 *
 *   rectangle      width, height
 *   trapezoid      width, leg_left, leg_right; height is the higher leg
 *   triangle       width, height, peak_at (from the left end of the base; below 0: in the middle)
 *   octagon        width, height, leg_left (upright side; 0: of a regular one); corners cut at 45 degrees
 *   circle         width (the diameter)
 *   arch           width, height, rise of the arc; legs of height - rise below it
 *   half_round     as arch; rise 0: half the width
 *   gothic         as arch, two arcs with centres on the spring line; rise at least half the width
 *   quarter_round  width, height, peak_at 0 (high on the left) or the width; leg_left, leg_right the low
 *                  leg on the other side; radius (0: the least that fits, of a true quarter the width) */
typedef struct pw_shape_size {
  pw_shape_kind kind;
  double width, height, rise, leg_left, leg_right, peak_at, radius;
} pw_shape_size;

typedef enum pw_shape_role {
  PW_EDGE_BASE = 0,
  PW_EDGE_LEG_LEFT,
  PW_EDGE_LEG_RIGHT,
  PW_EDGE_OTHER,
  PW_EDGE_TANGENT /* at the end of an arc, of no length: mitres it outward */
} pw_shape_role;

typedef struct pw_shape_edge {
  pw_shape_role role;
  int arc;
  double nx, ny, p;         /* straight: outward normal, distance from the origin */
  double x, y, r, from, to; /* arc: centre, radius, outward normals from..to, rad, from < to */
} pw_shape_edge;

typedef struct pw_bounds {
  pw_shape_kind kind;
  size_t n;
  pw_shape_edge edge[PW_SHAPE_EDGES_MAX];
} pw_bounds;

typedef struct pw_outline {
  double area, perimeter; /* m2, m */
  double side[4];         /* m, of the perimeter: normals within 45 degrees of left, right,
                                          bottom, top, in the order of lites.h */
  double edge[PW_SHAPE_EDGES_MAX];   /* m, what is left of each edge */
  double x_min, x_max, y_min, y_max; /* m */
  double peak_x;                     /* m, where it is highest (middle of a level top) */
} pw_outline;

/* Makes the bounds of a shape from its measures.
 *
 * Status  PW_OK; PW_E_DOMAIN measures that are no such shape: err->field names the column of
 *         openings.csv, the text says what was found and what is accepted
 * Notes   1) A triangle with peak_at 0 is a trapezoid with one leg 0; a trapezoid with equal legs and an
 *            octagon whose leg is its height are rectangles; a half round is an arch of rise width / 2. */
pw_status pw_shape_make(const pw_shape_size *size, pw_bounds *shape, pw_err *err);

/* The same outline moved inward by d, m; below 0 outward. */
pw_bounds pw_shape_inset(const pw_bounds *shape, double d);

/* What cutting makes larger, m: fin where fins are, on legs and arcs; lip on the level base. */
pw_bounds pw_shape_grow(const pw_bounds *shape, double fin, double lip);

/* Area, perimeter and extents. Status PW_E_DOMAIN (field "shape") when nothing is left of it. */
pw_status pw_shape_outline(const pw_bounds *shape, pw_outline *outline, pw_err *err);

/* The measures that a shape has now, as moved. */
pw_shape_size pw_shape_measure(const pw_bounds *shape, const pw_outline *outline);

/* The gap between an outline and a smaller one of its kind, as even as it can be set, m, by side
 * (length-weighted over each side, least squares over all); the mean where there is no such side. */
void pw_shape_gap(const pw_bounds *outer, const pw_bounds *inner, double gap[4]);

/* Points on the outline, in order, for a drawing; n at least 2 an edge. Returns how many, at most max. */
size_t pw_shape_points(const pw_bounds *shape, double x[], double y[], size_t max);

/* "half_round", ... as in openings.csv; never NULL. */
const char *pw_shape_name(pw_shape_kind kind);

/* Whether a maker would ask for a template: arcs but a whole circle. Common practice, no source. */
int pw_shape_wants_template(pw_shape_kind kind);

#endif
