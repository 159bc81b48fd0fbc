/* From the measures of a shape to its bounds. */
#include <math.h>

#include "base/own_math.h"
#include "panewright/shape.h"
#include "panewright/units.h"

static const double pi = 3.14159265358979323846;

/* The edge from one corner to the next, anticlockwise; one of no length is left out. */
static void add_line(pw_bounds *s, pw_shape_role role, double x0, double y0, double x1,
                     double y1)
{
  double dx = x1 - x0, dy = y1 - y0, length = pw_hypot(dx, dy);
  if (!(length > 1e-9)) return;
  pw_shape_edge e = {.role = role, .nx = dy / length, .ny = -dx / length};
  e.p = e.nx * x0 + e.ny * y0;
  s->edge[s->n++] = e;
}

static void add_arc(pw_bounds *s, double x, double y, double r, double from, double to)
{
  s->edge[s->n++] = (pw_shape_edge){
      .role = PW_EDGE_OTHER, .arc = 1, .x = x, .y = y, .r = r, .from = from, .to = to};
}

/* The line that touches an arc where its normal has that angle. */
static pw_shape_edge tangent_of(const pw_shape_edge *arc, double angle)
{
  pw_shape_edge e = {.role = PW_EDGE_TANGENT, .nx = pw_cos(angle), .ny = pw_sin(angle)};
  e.p = e.nx * arc->x + e.ny * arc->y + arc->r;
  return e;
}

static int same_line(const pw_shape_edge *a, const pw_shape_edge *b)
{
  return pw_hypot(a->nx - b->nx, a->ny - b->ny) < 1e-9 && fabs(a->p - b->p) < 1e-9;
}

/* Where an arc ends at a corner its tangent bounds what is grown outward; where another edge goes on in
 * the same direction that one does. */
static void add_tangents(pw_bounds *s)
{
  size_t n = s->n;
  for (size_t i = 0; i < n; i++) {
    const pw_shape_edge *arc = &s->edge[i];
    if (!arc->arc || arc->to - arc->from > 2.0 * pi - 1e-9) continue;
    for (int end = 0; end < 2; end++) {
      pw_shape_edge t = tangent_of(arc, end ? arc->to : arc->from);
      int goes_on = 0;
      for (size_t j = 0; j < s->n && !goes_on; j++) {
        pw_shape_edge other = s->edge[j];
        if (j == i) continue;
        if (other.arc) other = tangent_of(&s->edge[j], end ? other.from : other.to);
        goes_on = same_line(&t, &other);
      }
      if (!goes_on) s->edge[s->n++] = t;
    }
  }
}

static pw_status no_such(pw_err *err, const char *field, pw_shape_kind kind, const char *is,
                         double found, const char *want, double limit)
{
  return pw_fail(err, PW_E_DOMAIN, field, "%s: %s %.4g in, want %s %.4g in",
                 pw_shape_name(kind), is, found / PW_INCH, want, limit / PW_INCH);
}

static pw_status make_trapezoid(const pw_shape_size *z, double left, double right, pw_bounds *s,
                                pw_err *err)
{
  if (!(left >= 0.0 && right >= 0.0 && left + right > 0.0))
    return pw_fail(err, PW_E_DOMAIN, "leg_left",
                   "%s: leg_left and leg_right are wanted, one of them above 0",
                   pw_shape_name(z->kind));
  if (!(left < 100.0 && right < 100.0))
    return pw_fail(err, PW_E_DOMAIN, "leg_left", "%s: legs of %g and %g m",
                   pw_shape_name(z->kind), left, right);
  add_line(s, PW_EDGE_BASE, 0.0, 0.0, z->width, 0.0);
  add_line(s, PW_EDGE_LEG_RIGHT, z->width, 0.0, z->width, right);
  add_line(s, PW_EDGE_OTHER, z->width, right, 0.0, left);
  add_line(s, PW_EDGE_LEG_LEFT, 0.0, left, 0.0, 0.0);
  return PW_OK;
}

static pw_status make_triangle(const pw_shape_size *z, pw_bounds *s, pw_err *err)
{
  double peak = z->peak_at < 0.0 ? 0.5 * z->width : z->peak_at;
  if (!(peak <= z->width))
    return no_such(err, "peak_at", z->kind, "peak_at", peak, "at most the width of", z->width);
  add_line(s, PW_EDGE_BASE, 0.0, 0.0, z->width, 0.0);
  add_line(s, PW_EDGE_OTHER, z->width, 0.0, peak, z->height);
  add_line(s, PW_EDGE_OTHER, peak, z->height, 0.0, 0.0);
  return PW_OK;
}

static pw_status make_octagon(const pw_shape_size *z, pw_bounds *s, pw_err *err)
{
  double w = z->width, h = z->height;
  if (!(z->leg_left > 0.0) && fabs(w - h) > 0.5 * PW_INCH)
    return no_such(err, "leg_left", z->kind,
                   "without leg_left (its upright side) it is regular; width", w,
                   "a height alike, not", h);
  double leg = z->leg_left > 0.0 ? z->leg_left : h - fmin(w, h) * (2.0 - sqrt(2.0));
  double cut = 0.5 * (h - leg);
  if (!(leg <= h))
    return no_such(err, "leg_left", z->kind, "leg_left", leg, "at most the height of", h);
  if (!(2.0 * cut < w))
    return no_such(err, "leg_left", z->kind, "leg_left", leg, "more than", h - w);
  add_line(s, PW_EDGE_BASE, cut, 0.0, w - cut, 0.0);
  add_line(s, PW_EDGE_OTHER, w - cut, 0.0, w, cut);
  add_line(s, PW_EDGE_LEG_RIGHT, w, cut, w, h - cut);
  add_line(s, PW_EDGE_OTHER, w, h - cut, w - cut, h);
  add_line(s, PW_EDGE_OTHER, w - cut, h, cut, h);
  add_line(s, PW_EDGE_OTHER, cut, h, 0.0, h - cut);
  add_line(s, PW_EDGE_LEG_LEFT, 0.0, h - cut, 0.0, cut);
  add_line(s, PW_EDGE_OTHER, 0.0, cut, cut, 0.0);
  return PW_OK;
}

static pw_status make_arch(const pw_shape_size *z, pw_bounds *s, pw_err *err)
{
  double a = 0.5 * z->width, h = z->height, rise = z->rise;
  int gothic = z->kind == PW_SHAPE_GOTHIC;
  if (!(rise > 0.0) && z->kind == PW_SHAPE_HALF_ROUND) rise = fmin(a, h);
  if (!(rise > 0.0))
    return pw_fail(err, PW_E_DOMAIN, "rise", "%s: the rise of its arc is wanted",
                   pw_shape_name(z->kind));
  if (!(rise <= h + 1e-9))
    return no_such(err, "rise", z->kind, "rise", rise, "at most the height of", h);
  if (!gothic && !(rise <= a + 1e-9))
    return no_such(err, "rise", z->kind, "rise", rise, "at most half the width, ", a);
  if (gothic && !(rise >= a - 1e-9))
    return no_such(err, "rise", z->kind, "rise", rise, "at least half the width, ", a);
  double leg = fmax(h - rise, 0.0);
  add_line(s, PW_EDGE_BASE, 0.0, 0.0, z->width, 0.0);
  add_line(s, PW_EDGE_LEG_RIGHT, z->width, 0.0, z->width, leg);
  if (gothic) {
    double r = fmax(0.5 * (a * a + rise * rise) / a, a);
    double up = pw_atan2(rise, a - (z->width - r));
    add_arc(s, z->width - r, leg, r, 0.0, up);
    add_arc(s, r, leg, r, pi - up, pi);
  } else {
    double r = 0.5 * (a * a + rise * rise) / rise, y = leg + rise - r;
    double from = pw_atan2(leg - y, a);
    if (fabs(from) < 1e-9) from = 0.0;
    add_arc(s, a, y, r, from, pi - from);
  }
  add_line(s, PW_EDGE_LEG_LEFT, 0.0, leg, 0.0, 0.0);
  return PW_OK;
}

/* Left for right: what was seen from outside as from inside. */
static void mirror(pw_bounds *s, double width)
{
  for (size_t i = 0; i < s->n; i++) {
    pw_shape_edge *e = &s->edge[i];
    e->p -= e->nx * width;
    e->nx = -e->nx;
    e->x = width - e->x;
    double from = e->from;
    e->from = pi - e->to;
    e->to = pi - from;
    if (e->role == PW_EDGE_LEG_LEFT)
      e->role = PW_EDGE_LEG_RIGHT;
    else if (e->role == PW_EDGE_LEG_RIGHT)
      e->role = PW_EDGE_LEG_LEFT;
  }
}

/* High on the left; from (width, low) an arc of that radius to (0, height). */
static pw_status make_quarter(const pw_shape_size *z, pw_bounds *s, pw_err *err)
{
  double w = z->width, h = z->height;
  int right = z->peak_at > 0.5 * w;
  double low = right ? z->leg_left : z->leg_right;
  if (!(z->peak_at >= 0.0))
    return pw_fail(
        err, PW_E_DOMAIN, "peak_at",
        "quarter_round: which side is high is wanted: peak_at 0 for the left, the width "
        "for the right (seen from outside)");
  if (!(h - low > 0.0))
    return no_such(err, "leg_left", z->kind, "the low leg", low, "less than the height of", h);
  if (!(z->radius > 0.0) && fabs(h - low - w) > 0.5 * PW_INCH)
    return no_such(err, "width", z->kind, "width", w, "the rise of its arc,", h - low);
  /* The least radius by which the arc bulges over neither leg nor top: that of a true quarter is its width. */
  double dx = -w, dy = h - low, chord = pw_hypot(dx, dy);
  double r = fmax(z->radius, 0.5 * chord * chord / fmin(w, dy));
  double back = sqrt(fmax(r * r - 0.25 * chord * chord, 0.0));
  double x = 0.5 * w - back * dy / chord, y = 0.5 * (h + low) + back * dx / chord;
  double from = pw_atan2(low - y, w - x), to = pw_atan2(h - y, -x);
  if (fabs(from) < 1e-9) from = 0.0;
  if (fabs(to - 0.5 * pi) < 1e-9) to = 0.5 * pi;
  add_line(s, PW_EDGE_BASE, 0.0, 0.0, w, 0.0);
  add_line(s, PW_EDGE_LEG_RIGHT, w, 0.0, w, low);
  add_arc(s, x, y, r, from, to);
  add_line(s, PW_EDGE_LEG_LEFT, 0.0, h, 0.0, 0.0);
  if (right) mirror(s, w);
  return PW_OK;
}

pw_status pw_shape_make(const pw_shape_size *z, pw_bounds *shape, pw_err *err)
{
  pw_bounds s = {.kind = z->kind};
  pw_status status = PW_OK;
  double height = z->kind == PW_SHAPE_TRAPEZOID ? fmax(z->leg_left, z->leg_right)
                  : z->kind == PW_SHAPE_CIRCLE  ? z->width
                                                : z->height;
  if (!(z->width > 1e-3 && z->width < 100.0))
    return pw_fail(err, PW_E_DOMAIN, "width_bottom", "%s: width %g m, want above 0",
                   pw_shape_name(z->kind), z->width);
  if (z->kind != PW_SHAPE_TRAPEZOID && !(height > 1e-3 && height < 100.0))
    return pw_fail(err, PW_E_DOMAIN, "height_middle", "%s: height %g m, want above 0",
                   pw_shape_name(z->kind), height);
  switch (z->kind) {
  case PW_SHAPE_RECTANGLE:
    status = make_trapezoid(z, height, height, &s, err);
    break;
  case PW_SHAPE_TRAPEZOID:
    status = make_trapezoid(z, z->leg_left, z->leg_right, &s, err);
    break;
  case PW_SHAPE_TRIANGLE:
    status = make_triangle(z, &s, err);
    break;
  case PW_SHAPE_OCTAGON:
    status = make_octagon(z, &s, err);
    break;
  case PW_SHAPE_CIRCLE:
    add_arc(&s, 0.5 * z->width, 0.5 * z->width, 0.5 * z->width, 0.0, 2.0 * pi);
    break;
  case PW_SHAPE_QUARTER_ROUND:
    status = make_quarter(z, &s, err);
    break;
  case PW_SHAPE_HALF_ROUND:
  case PW_SHAPE_ARCH:
  case PW_SHAPE_GOTHIC:
    status = make_arch(z, &s, err);
    break;
  case PW_SHAPE_COUNT:
  default:
    return pw_fail(err, PW_E_DOMAIN, "shape", "no shape has number %d", (int)z->kind);
  }
  if (status != PW_OK) return status;
  add_tangents(&s);
  *shape = s;
  return PW_OK;
}
