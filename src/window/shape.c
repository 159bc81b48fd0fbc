#include "panewright/shape.h"
#include "base/own_math.h"

#include <math.h>

#include "panewright/lites.h"

enum { CUTS_MAX = 4 * PW_SHAPE_EDGES_MAX, PIECES_MAX = 2 * PW_SHAPE_EDGES_MAX };

static const double pi = 3.14159265358979323846;
static const double hair = 3e-14; /* m: a point on a bound counts as inside */
static const double speck = 1e-8; /* m or rad: less is rounding, no piece of an edge */

const char *pw_shape_name(pw_shape_kind kind)
{
  static const char *const name[PW_SHAPE_COUNT] = {"rectangle", "half_round", "quarter_round",
                                                   "arch",      "circle",     "octagon",
                                                   "triangle",  "trapezoid",  "gothic"};
  return (unsigned)kind < PW_SHAPE_COUNT ? name[kind] : "unknown";
}

int pw_shape_wants_template(pw_shape_kind kind)
{
  return kind == PW_SHAPE_HALF_ROUND || kind == PW_SHAPE_QUARTER_ROUND ||
         kind == PW_SHAPE_ARCH || kind == PW_SHAPE_GOTHIC;
}

static void move(pw_shape_edge *e, double inward)
{
  e->p -= inward;
  e->r -= inward;
}

pw_bounds pw_shape_inset(const pw_bounds *shape, double d)
{
  pw_bounds s = *shape;
  for (size_t i = 0; i < s.n; i++)
    move(&s.edge[i], d);
  return s;
}

pw_bounds pw_shape_grow(const pw_bounds *shape, double fin, double lip)
{
  pw_bounds s = *shape;
  for (size_t i = 0; i < s.n; i++) {
    pw_shape_edge *e = &s.edge[i];
    if (e->role == PW_EDGE_BASE)
      move(e, -lip);
    else if (e->role != PW_EDGE_OTHER || e->arc)
      move(e, -fin);
  }
  return s;
}

/* ---- the outline of what the bounds keep ---- */

/* An angle brought to from .. from + 2 pi. */
static double turned(double angle, double from)
{
  double a = fmod(angle - from, 2.0 * pi);
  return from + (a < 0.0 ? a + 2.0 * pi : a);
}

/* How far a point lies beyond a bound, m; below 0 inside. */
static double beyond(const pw_shape_edge *e, double x, double y)
{
  if (!e->arc) return e->nx * x + e->ny * y - e->p;
  double dx = x - e->x, dy = y - e->y;
  if (turned(pw_atan2(dy, dx), e->from) <= e->to) return pw_hypot(dx, dy) - e->r;
  return fmax(pw_cos(e->from) * dx + pw_sin(e->from) * dy,
              pw_cos(e->to) * dx + pw_sin(e->to) * dy) -
         e->r;
}

static int inside(const pw_bounds *s, size_t but, double x, double y)
{
  for (size_t j = 0; j < s->n; j++)
    if (j != but && beyond(&s->edge[j], x, y) > hair) return 0;
  return 1;
}

static void place(const pw_shape_edge *e, double at, double *x, double *y)
{
  if (e->arc) {
    *x = e->x + e->r * pw_cos(at);
    *y = e->y + e->r * pw_sin(at);
  } else { /* along the edge anticlockwise from the foot of the origin */
    *x = e->p * e->nx - at * e->ny;
    *y = e->p * e->ny + at * e->nx;
  }
}

/* A line, or another circle, as far from a centre as the circle reaches only touches it. Its two cuts would come
 * from the root of a rounding and lie 1e-8 to 1e-7 rad apart, in one machine's library of functions and not in
 * the next one's. */
static int touches(double away, double r) { return fabs(fabs(away) - r) < 1e-13 * (1.0 + r); }

/* Where a line cuts another, by its own length; where it cuts a circle. */
static size_t cut_line(const pw_shape_edge *e, const pw_shape_edge *o, double cut[])
{
  double x, y;
  place(e, 0.0, &x, &y);
  if (!o->arc) {
    double rate = -o->nx * e->ny + o->ny * e->nx;
    if (fabs(rate) < 1e-12) return 0;
    cut[0] = (o->p - o->nx * x - o->ny * y) / rate;
    return 1;
  }
  double away = e->nx * o->x + e->ny * o->y - e->p, square = o->r * o->r - away * away;
  double middle = -e->ny * (o->x - x) + e->nx * (o->y - y);
  if (!(o->r > 0.0)) return 0;
  if (touches(away, o->r)) {
    cut[0] = middle;
    return 1;
  }
  if (!(square >= 0.0)) return 0;
  cut[0] = middle - sqrt(square);
  cut[1] = middle + sqrt(square);
  return 2;
}

/* Where an arc is cut, by the angle. */
static size_t cut_arc(const pw_shape_edge *e, const pw_shape_edge *o, double cut[])
{
  double middle, cosine;
  if (o->arc) {
    double dx = o->x - e->x, dy = o->y - e->y, away = pw_hypot(dx, dy);
    if (!(away > 1e-12 && o->r > 0.0)) return 0;
    middle = pw_atan2(dy, dx);
    cosine = (e->r * e->r + away * away - o->r * o->r) / (2.0 * e->r * away);
  } else {
    middle = pw_atan2(o->ny, o->nx);
    cosine = (o->p - o->nx * e->x - o->ny * e->y) / e->r;
  }
  if (touches(cosine * e->r, e->r)) {
    cut[0] = turned(cosine > 0.0 ? middle : middle + pi, e->from);
    return 1;
  }
  if (!(fabs(cosine) <= 1.0)) return 0;
  cut[0] = turned(middle - pw_acos(cosine), e->from);
  cut[1] = turned(middle + pw_acos(cosine), e->from);
  return 2;
}

static void sort(double v[], size_t n)
{
  for (size_t i = 1; i < n; i++)
    for (size_t j = i; j > 0 && v[j] < v[j - 1]; j--) {
      double t = v[j];
      v[j] = v[j - 1];
      v[j - 1] = t;
    }
}

static size_t cuts_of(const pw_bounds *s, size_t i, double cut[CUTS_MAX])
{
  const pw_shape_edge *e = &s->edge[i];
  size_t n = 0;
  if (e->arc) {
    if (!(e->r > 0.0)) return 0;
    cut[n++] = e->from;
    cut[n++] = e->to;
  }
  for (size_t j = 0; j < s->n; j++) {
    double found[2];
    if (j == i) continue;
    const pw_shape_edge *o = &s->edge[j];
    size_t k = e->arc ? cut_arc(e, o, found) : cut_line(e, o, found);
    for (size_t m = 0; m < k; m++)
      if (!e->arc || (found[m] > e->from && found[m] < e->to)) cut[n++] = found[m];
    for (int end = 0; end < 2 && o->arc && !e->arc; end++) { /* where a line only touches it */
      double x, y;
      place(o, end ? o->to : o->from, &x, &y);
      cut[n++] = e->nx * y - e->ny * x;
    }
  }
  sort(cut, n);
  return n;
}

/* A part of an edge that bounds what is kept. */
typedef struct piece {
  size_t edge;
  double from, to; /* m along a straight edge, rad of an arc */
} piece;

static size_t pieces_of(const pw_bounds *s, piece p[PIECES_MAX])
{
  size_t n = 0;
  for (size_t i = 0; i < s->n; i++) {
    double cut[CUTS_MAX], x, y;
    size_t cuts = cuts_of(s, i, cut);
    for (size_t k = 0; k + 1 < cuts && n < PIECES_MAX; k++) {
      if (!(cut[k + 1] - cut[k] > speck)) continue;
      place(&s->edge[i], 0.5 * (cut[k] + cut[k + 1]), &x, &y);
      if (inside(s, i, x, y)) p[n++] = (piece){i, cut[k], cut[k + 1]};
    }
  }
  return n;
}

static int side_of_normal(double nx, double ny)
{
  if (fabs(ny) >= fabs(nx) - 1e-12) return ny > 0.0 ? PW_TOP : PW_BOTTOM;
  return nx > 0.0 ? PW_RIGHT : PW_LEFT;
}

static void reach(pw_outline *o, double x, double y, double peak[3])
{
  o->x_min = fmin(o->x_min, x);
  o->x_max = fmax(o->x_max, x);
  o->y_min = fmin(o->y_min, y);
  o->y_max = fmax(o->y_max, y);
  if (y > peak[0] + 1e-9) {
    peak[0] = y;
    peak[1] = peak[2] = x;
  } else if (y > peak[0] - 1e-9) {
    peak[1] = fmin(peak[1], x);
    peak[2] = fmax(peak[2], x);
  }
}

/* One piece of an edge that bounds the outline: Green's theorem for the area. */
static void add_piece(const pw_shape_edge *e, size_t i, double a, double b, pw_outline *o,
                      double peak[3])
{
  double x0, y0, x1, y1;
  place(e, a, &x0, &y0);
  place(e, b, &x1, &y1);
  reach(o, x0, y0, peak);
  reach(o, x1, y1, peak);
  double length = e->arc ? e->r * (b - a) : b - a;
  o->edge[i] += length;
  o->perimeter += length;
  if (!e->arc) {
    o->area += 0.5 * (x0 * y1 - x1 * y0);
    o->side[side_of_normal(e->nx, e->ny)] += length;
    return;
  }
  o->area += 0.5 * e->r *
             (e->r * (b - a) + e->x * (pw_sin(b) - pw_sin(a)) - e->y * (pw_cos(b) - pw_cos(a)));
  for (int k = -8; k <= 16; k++) { /* quarters of a turn about left, right, below, above */
    double low = fmax(a, (k - 0.5) * 0.5 * pi), high = fmin(b, (k + 0.5) * 0.5 * pi);
    double straight = k * 0.5 * pi, x, y;
    if (!(high > low)) continue;
    o->side[side_of_normal(pw_cos(straight), pw_sin(straight))] += e->r * (high - low);
    if (straight <= a || straight >= b) continue;
    place(e, straight, &x, &y);
    reach(o, x, y, peak);
  }
}

pw_status pw_shape_outline(const pw_bounds *s, pw_outline *outline, pw_err *err)
{
  pw_outline o = {.x_min = INFINITY, .x_max = -INFINITY, .y_min = INFINITY, .y_max = -INFINITY};
  double peak[3] = {-INFINITY, 0.0, 0.0};
  piece p[PIECES_MAX];
  size_t n = pieces_of(s, p);
  for (size_t k = 0; k < n; k++)
    add_piece(&s->edge[p[k].edge], p[k].edge, p[k].from, p[k].to, &o, peak);
  if (!(o.area > 1e-9))
    return pw_fail(err, PW_E_DOMAIN, "shape", "nothing is left of the %s",
                   pw_shape_name(s->kind));
  o.peak_x = 0.5 * (peak[1] + peak[2]);
  *outline = o;
  return PW_OK;
}

pw_shape_size pw_shape_measure(const pw_bounds *s, const pw_outline *o)
{
  pw_shape_size z = {
      .kind = s->kind, .width = o->x_max - o->x_min, .height = o->y_max - o->y_min};
  for (size_t i = 0; i < s->n; i++) {
    if (s->edge[i].role == PW_EDGE_LEG_LEFT) z.leg_left = o->edge[i];
    if (s->edge[i].role == PW_EDGE_LEG_RIGHT) z.leg_right = o->edge[i];
    if (s->edge[i].arc) z.radius = s->edge[i].r;
  }
  switch (s->kind) {
  case PW_SHAPE_TRIANGLE:
    z.peak_at = o->peak_x - o->x_min;
    break;
  case PW_SHAPE_QUARTER_ROUND:
    z.peak_at = o->peak_x - o->x_min > 0.5 * z.width ? z.width : 0.0;
    break;
  case PW_SHAPE_HALF_ROUND:
  case PW_SHAPE_ARCH:
  case PW_SHAPE_GOTHIC:
    z.rise = z.height - z.leg_left;
    break;
  case PW_SHAPE_RECTANGLE:
  case PW_SHAPE_CIRCLE:
  case PW_SHAPE_OCTAGON:
  case PW_SHAPE_TRAPEZOID:
  case PW_SHAPE_COUNT:
  default:
    break;
  }
  return z;
}

/* ---- one outline in another ---- */

enum { SAMPLES = 16 };

/* How far it is from a point straight along a direction to the first bound that it meets. */
static double along(const pw_bounds *s, double x, double y, double nx, double ny)
{
  double least = INFINITY;
  for (size_t i = 0; i < s->n; i++) {
    const pw_shape_edge *e = &s->edge[i];
    double t = INFINITY;
    if (e->arc) {
      double dx = x - e->x, dy = y - e->y, b = dx * nx + dy * ny;
      double square = b * b - dx * dx - dy * dy + e->r * e->r;
      if (square < 0.0) continue;
      t = sqrt(square) - b;
      if (!(turned(pw_atan2(dy + t * ny, dx + t * nx), e->from) <= e->to)) continue;
    } else if (e->nx * nx + e->ny * ny > 1e-6) {
      t = (e->p - e->nx * x - e->ny * y) / (e->nx * nx + e->ny * ny);
    }
    if (t > -1e-3) least = fmin(least, t); /* set a little beyond it is still this bound */
  }
  return isfinite(least) ? least : 0.0;
}

void pw_shape_gap(const pw_bounds *outer, const pw_bounds *inner, double gap[4])
{
  piece p[PIECES_MAX];
  size_t n = pieces_of(inner, p);
  double a[2][2] = {{0.0}}, b[2] = {0.0}, shift[2] = {0.0};
  pw_outline big, small;
  if (pw_shape_outline(outer, &big, NULL) == PW_OK &&
      pw_shape_outline(inner, &small, NULL) == PW_OK) { /* in the middle first */
    shift[0] = 0.5 * (big.x_min + big.x_max - small.x_min - small.x_max);
    shift[1] = 0.5 * (big.y_min + big.y_max - small.y_min - small.y_max);
  }
  for (int pass = 0;; pass++) { /* the shift, then what is left a side */
    double sum[4] = {0.0}, weight[4] = {0.0};
    for (size_t k = 0; k < n; k++) {
      const pw_shape_edge *in = &inner->edge[p[k].edge];
      double step = (p[k].to - p[k].from) / SAMPLES, w = in->arc ? in->r * step : step;
      for (int m = 0; m < SAMPLES; m++) {
        double x, y, at = p[k].from + (m + 0.5) * step;
        double nx = in->arc ? pw_cos(at) : in->nx, ny = in->arc ? pw_sin(at) : in->ny;
        place(in, at, &x, &y);
        double g = along(outer, x + shift[0], y + shift[1], nx, ny);
        int side = side_of_normal(nx, ny);
        sum[side] += w * g;
        weight[side] += w;
        a[0][0] += w * nx * nx;
        a[0][1] += w * nx * ny;
        a[1][1] += w * ny * ny;
        b[0] += w * nx * g;
        b[1] += w * ny * g;
      }
    }
    double all = weight[0] + weight[1] + weight[2] + weight[3];
    double mean = (sum[0] + sum[1] + sum[2] + sum[3]) / (all > 0.0 ? all : 1.0);
    for (int k = 0; k < 4; k++)
      gap[k] = fmax(weight[k] > 0.0 ? sum[k] / weight[k] : mean, 0.0);
    double det = a[0][0] * a[1][1] - a[0][1] * a[0][1];
    if (pass || !(det > 1e-12)) return;
    shift[0] += (b[0] * a[1][1] - b[1] * a[0][1]) / det;
    shift[1] += (b[1] * a[0][0] - b[0] * a[0][1]) / det;
  }
}

size_t pw_shape_points(const pw_bounds *s, double x[], double y[], size_t max)
{
  piece p[PIECES_MAX];
  double angle[512], cx = 0.0, cy = 0.0;
  size_t n = pieces_of(s, p), count = 0;
  if (max > sizeof angle / sizeof angle[0]) max = sizeof angle / sizeof angle[0];
  for (size_t k = 0; k < n; k++) {
    const pw_shape_edge *e = &s->edge[p[k].edge];
    int steps = e->arc ? 2 + (int)(16.0 * (p[k].to - p[k].from)) : 1;
    for (int m = 0; m <= steps && count < max; m++) {
      place(e, p[k].from + (p[k].to - p[k].from) * m / steps, &x[count], &y[count]);
      cx += x[count];
      cy += y[count++];
    }
  }
  for (size_t i = 0; i < count; i++) /* convex: in order about any point inside */
    angle[i] = pw_atan2(y[i] - cy / (double)count, x[i] - cx / (double)count);
  for (size_t i = 1; i < count; i++)
    for (size_t j = i; j > 0 && angle[j] < angle[j - 1]; j--) {
      double t[3] = {angle[j], x[j], y[j]};
      angle[j] = angle[j - 1];
      x[j] = x[j - 1];
      y[j] = y[j - 1];
      angle[j - 1] = t[0];
      x[j - 1] = t[1];
      y[j - 1] = t[2];
    }
  return count;
}
