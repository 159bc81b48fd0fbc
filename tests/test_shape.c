/* window/shape against closed forms (textbook areas of segments, sectors, tangential polygons; Steiner's
 * formula for parallel curves) and against a second way: the outline as a polygon of thousands of
 * half planes, each moved, its width integrated line by line. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "panewright/lites.h"
#include "panewright/shape.h"
#include "panewright/units.h"

static const double pi = 3.14159265358979323846;

static pw_bounds shape_of(pw_shape_size z)
{
  pw_bounds s;
  pw_err err = {0};
  if (pw_shape_make(&z, &s, &err) != PW_OK) fail_msg("%s", err.text);
  return s;
}

static pw_outline outline_of(const pw_bounds *s, double d)
{
  pw_bounds in = pw_shape_inset(s, d);
  pw_outline o;
  pw_err err = {0};
  if (pw_shape_outline(&in, &o, &err) != PW_OK) fail_msg("%g: %s", d, err.text);
  return o;
}

/* Every kind, some twice: on legs and without, leaning left and right. */
static const pw_shape_size all[] = {{PW_SHAPE_RECTANGLE, 1.2, 0.9, 0, 0, 0, 0, 0},
                                    {PW_SHAPE_HALF_ROUND, 1.2, 0.6, 0, 0, 0, 0, 0},
                                    {PW_SHAPE_HALF_ROUND, 1.2, 1.5, 0, 0, 0, 0, 0},
                                    {PW_SHAPE_QUARTER_ROUND, 0.9, 0.9, 0, 0, 0, 0, 0},
                                    {PW_SHAPE_QUARTER_ROUND, 0.9, 1.3, 0, 0.4, 0, 0.9, 0},
                                    {PW_SHAPE_ARCH, 1.2, 1.4, 0.25, 0, 0, 0, 0},
                                    {PW_SHAPE_ARCH, 1.8, 0.4, 0.4, 0, 0, 0, 0},
                                    {PW_SHAPE_CIRCLE, 0.8, 0.8, 0, 0, 0, 0, 0},
                                    {PW_SHAPE_OCTAGON, 0.8, 0.8, 0, 0, 0, 0, 0},
                                    {PW_SHAPE_OCTAGON, 0.8, 1.2, 0, 0.9, 0, 0, 0},
                                    {PW_SHAPE_TRIANGLE, 1.4, 0.8, 0, 0, 0, 0.3, 0},
                                    {PW_SHAPE_TRIANGLE, 1.4, 0.8, 0, 0, 0, -1.0, 0},
                                    {PW_SHAPE_TRAPEZOID, 1.4, 0, 0, 0.5, 0.95, 0, 0},
                                    {PW_SHAPE_TRAPEZOID, 1.4, 0, 0, 0.9, 0, 0, 0},
                                    {PW_SHAPE_GOTHIC, 0.9, 0.9, 0.9, 0, 0, 0, 0},
                                    {PW_SHAPE_GOTHIC, 0.9, 1.6, 0.7, 0, 0, 0, 0}};
enum { ALL = sizeof all / sizeof all[0] };

/* ---- closed forms ---- */

static double segment(double r, double away)
{
  return r * r * acos(away / r) - away * sqrt(r * r - away * away);
}

/* Integral of sqrt(r^2 - u^2) from a to b. */
static double under_arc(double r, double a, double b)
{
  return 0.5 * (b * sqrt(r * r - b * b) + r * r * asin(b / r) - a * sqrt(r * r - a * a) -
                r * r * asin(a / r));
}

static void areas_and_perimeters_meet_closed_forms(void **state)
{
  (void)state;
  static const double at[] = {0.0, 0.01, 0.0635, 0.12};
  for (size_t i = 0; i < sizeof at / sizeof at[0]; i++) {
    double d = at[i], eps = 1e-12;
    pw_bounds s = shape_of(all[0]);
    pw_outline o = outline_of(&s, d);
    pw_assert_near(o.area, (1.2 - 2 * d) * (0.9 - 2 * d), eps, "rectangle", "sides");
    pw_assert_near(o.perimeter, 2 * (1.2 + 0.9) - 8 * d, eps, "rectangle", "sides");
    pw_assert_near(o.side[PW_LEFT], 0.9 - 2 * d, eps, "left", "its side");
    pw_assert_near(o.side[PW_TOP], 1.2 - 2 * d, eps, "top", "its side");

    double r = 0.6 - d, half = sqrt(r * r - d * d);
    s = shape_of(all[1]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, segment(r, d), eps, "half round", "segment of a circle");
    pw_assert_near(o.perimeter, 2 * r * acos(d / r) + 2 * half, eps, "half round",
                   "arc, chord");
    pw_assert_near(o.x_max - o.x_min, 2 * half, eps, "half round", "chord");

    r = 0.9 - d;
    half = sqrt(r * r - d * d);
    s = shape_of(all[3]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, 0.5 * r * r * (acos(d / r) - asin(d / r)) - d * (half - d), eps,
                   "quarter round", "sector less two triangles");
    pw_assert_near(o.perimeter, r * (acos(d / r) - asin(d / r)) + 2 * (half - d), eps,
                   "quarter round", "arc, two legs");

    double R = 0.5 * (0.36 + 0.0625) / 0.25, yc = 1.4 - R, b = 0.6 - d, rho = R - d;
    s = shape_of(all[5]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, (yc - d) * 2 * b + under_arc(rho, -b, b), eps, "arch", "integral");
    double leg = yc + sqrt(rho * rho - b * b) - d;
    pw_assert_near(o.perimeter, 2 * b + 2 * leg + 2 * rho * asin(b / rho), eps, "arch", "arc");

    s = shape_of(all[7]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, pi * (0.4 - d) * (0.4 - d), eps, "circle", "pi r2");
    pw_assert_near(o.perimeter, 2 * pi * (0.4 - d), eps, "circle", "2 pi r");
    for (int k = 0; k < 4; k++)
      pw_assert_near(o.side[k], 0.5 * pi * (0.4 - d), eps, "circle", "a quarter a side");

    s = shape_of(all[8]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, 2 * (sqrt(2.0) - 1) * (0.8 - 2 * d) * (0.8 - 2 * d), eps, "octagon",
                   "2 (sqrt 2 - 1) w2");
    pw_assert_near(o.perimeter, 8 * (sqrt(2.0) - 1) * (0.8 - 2 * d), eps, "octagon", "8 sides");

    double sides = 1.4 + hypot(0.3, 0.8) + hypot(1.1, 0.8), in = 1.4 * 0.8 / sides;
    s = shape_of(all[10]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, 0.56 * (1 - d / in) * (1 - d / in), eps, "triangle", "similar");
    pw_assert_near(o.perimeter, sides * (1 - d / in), eps, "triangle", "similar");
    pw_assert_near(o.peak_x - o.x_min, 0.3 * (1 - d / in), eps, "peak", "similar");

    double slope = atan2(0.45, 1.4), p = 1.4 + 0.5 + 0.95 + hypot(1.4, 0.45);
    double cot = 2.0 + 1 / tan(0.5 * (0.5 * pi + slope)) + 1 / tan(0.5 * (0.5 * pi - slope));
    s = shape_of(all[12]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, 1.4 * 0.725 - p * d + cot * d * d, eps, "trapezoid", "Steiner");
    pw_assert_near(o.perimeter, p - 2 * cot * d, eps, "trapezoid", "Steiner");

    R = 0.5 * (0.2025 + 0.81) / 0.45;
    rho = R - d;
    double end = sqrt(rho * rho - d * d);
    s = shape_of(all[14]);
    o = outline_of(&s, d);
    pw_assert_near(o.area, 2 * (under_arc(rho, R - 0.45, end) - d * (end - R + 0.45)), eps,
                   "gothic", "two arcs over half the base");
    double up = acos((R - 0.45) / rho) - asin(d / rho);
    pw_assert_near(o.perimeter, 2 * (end - R + 0.45) + 2 * rho * up, eps, "gothic", "two arcs");
  }
}

/* Any arch and half round in sixteenths, inset as an order is: rectangle and segment of a circle. Where the tangent
 * of an arc's end, or a leg, touches the arc, the root of a rounding is no piece of it: an area keeps its digits. */
static void arches_in_sixteenths_meet_closed_forms(void **state)
{
  (void)state;
  static const double at[] = {0.0, 0.25, 1.0 / 3.0, 0.5, 1.75, 2.5};
  for (int k = 0; k < 4000; k++) {
    double w = (160 + k * 37 % 1100) / 16.0, h = w + k % 13;
    double rise = k % 5 ? (40 + k * 53 % 400) / 16.0 : 0.5 * w;
    double d = at[k % 6] * PW_INCH;
    if (rise > 0.5 * w) continue;
    pw_bounds s = shape_of(
        (pw_shape_size){PW_SHAPE_ARCH, w * PW_INCH, h * PW_INCH, rise * PW_INCH, 0, 0, 0, 0});
    pw_outline o = outline_of(&s, d);
    double a = 0.5 * w, R = (0.5 * (a * a + rise * rise) / rise) * PW_INCH;
    double r = R - d, b = a * PW_INCH - d, centre = h * PW_INCH - R;
    double half_angle = b < r ? atan2(b, sqrt((r - b) * (r + b))) : 0.5 * pi;
    double legs = centre + r * cos(half_angle) - d, sector = r * r * half_angle;
    pw_assert_near(o.area, 2 * b * legs + sector - r * r * sin(half_angle) * cos(half_angle),
                   1e-12, "arch", "rectangle and segment");
    pw_assert_near(o.x_max - o.x_min, 2 * b, 1e-12, "arch", "width");
    pw_assert_near(o.y_max - o.y_min, (h * PW_INCH - d) - d, 1e-12, "arch", "height");
  }
}

/* ---- the second way ---- */

typedef struct plane {
  double nx, ny, p;
} plane;

static size_t planes_of(const pw_bounds *s, plane p[], double d)
{
  size_t n = 0;
  for (size_t i = 0; i < s->n; i++) {
    const pw_shape_edge *e = &s->edge[i];
    if (e->role == PW_EDGE_TANGENT) continue;
    int steps = e->arc ? 2000 : 0;
    for (int k = 0; k <= steps; k++) {
      double a = e->from + (e->arc ? (e->to - e->from) * k / steps : 0.0);
      double nx = e->arc ? cos(a) : e->nx, ny = e->arc ? sin(a) : e->ny;
      p[n++] = (plane){nx, ny, (e->arc ? nx * e->x + ny * e->y + e->r : e->p) - d};
    }
  }
  return n;
}

static double area_by_lines(const plane p[], size_t n)
{
  enum { LINES = 4000 };
  double low = -0.5, high = 2.5, sum = 0.0, step = (high - low) / LINES;
  for (int k = 0; k < LINES; k++) {
    double y = low + (k + 0.5) * step, left = -9.0, right = 9.0;
    for (size_t i = 0; i < n && right > left; i++) {
      double rest = p[i].p - p[i].ny * y;
      if (fabs(p[i].nx) < 1e-12) {
        if (rest < 0.0) right = left;
      } else if (p[i].nx > 0.0)
        right = fmin(right, rest / p[i].nx);
      else
        left = fmax(left, rest / p[i].nx);
    }
    if (right > left) sum += (right - left) * step;
  }
  return sum;
}

static void areas_meet_half_planes_line_by_line(void **state)
{
  (void)state;
  static plane p[10000];
  static const double at[] = {-0.05, 0.0, 0.0095, 0.0635, 0.1, 0.15};
  for (size_t i = 0; i < ALL; i++)
    for (size_t k = 0; k < sizeof at / sizeof at[0]; k++) {
      pw_bounds s = shape_of(all[i]), in = pw_shape_inset(&s, at[k]);
      pw_outline o;
      double want = area_by_lines(p, planes_of(&s, p, at[k]));
      if (pw_shape_outline(&in, &o, NULL) != PW_OK) {
        pw_assert_near(want, 0.0, 1e-3, pw_shape_name(all[i].kind), "nothing left");
        continue;
      }
      /* lines cut the level base within half a step of 0.75 mm: 0.4 mm of 1.8 m */
      pw_assert_near(o.area, want, 8e-4, pw_shape_name(all[i].kind), "half planes");
      double sum = 0.0;
      for (int m = 0; m < 4; m++)
        sum += o.side[m];
      pw_assert_near(sum, o.perimeter, 1e-12, "sides", "the whole perimeter");
    }
}

/* dA/dd is minus the perimeter, of any outline: the band along a curve is as its length has it. */
static void the_band_grows_with_the_perimeter(void **state)
{
  (void)state;
  for (size_t i = 0; i < ALL; i++)
    for (double d = -0.04; d < 0.1; d += 0.023) {
      pw_bounds s = shape_of(all[i]);
      pw_outline a = outline_of(&s, d - 1e-4), b = outline_of(&s, d + 1e-4),
                 o = outline_of(&s, d);
      pw_assert_near((a.area - b.area) / 2e-4, o.perimeter, 1e-4, pw_shape_name(all[i].kind),
                     "derivative");
    }
}

static void out_and_in_again_is_the_same(void **state)
{
  (void)state;
  for (size_t i = 0; i < ALL; i++) {
    pw_bounds s = shape_of(all[i]), out = pw_shape_grow(&s, 0.04, 0.02),
              back = pw_shape_grow(&out, -0.04, -0.02);
    pw_outline a, b;
    assert_int_equal(pw_shape_outline(&s, &a, NULL), PW_OK);
    assert_int_equal(pw_shape_outline(&back, &b, NULL), PW_OK);
    pw_assert_near(b.area, a.area, 1e-9, "area", "out and in again");
    pw_assert_near(b.perimeter, a.perimeter, 1e-7, "perimeter", "out and in again");
    pw_shape_size z = pw_shape_measure(&s, &a);
    pw_bounds again = shape_of(z);
    assert_int_equal(pw_shape_outline(&again, &b, NULL), PW_OK);
    pw_assert_near(b.area, a.area, 1e-7, pw_shape_name(all[i].kind), "its own measures");
  }
}

static void same(pw_shape_size one, pw_shape_size two, double tolerance)
{
  for (double d = -0.02; d < 0.11; d += 0.04) {
    pw_bounds a = shape_of(one), b = shape_of(two);
    pw_outline p = outline_of(&a, d), q = outline_of(&b, d);
    pw_assert_near(p.area, q.area, tolerance, pw_shape_name(one.kind), pw_shape_name(two.kind));
    pw_assert_near(p.perimeter, q.perimeter, fmax(tolerance, 1e-7), "perimeter", "alike");
    for (int k = 0; k < 4; k++)
      pw_assert_near(p.side[k], q.side[k], fmax(tolerance, 1e-7), "side", "alike");
    pw_assert_near(p.x_max - p.x_min, q.x_max - q.x_min, fmax(tolerance, 1e-7), "width",
                   "alike");
  }
}

static void kinds_pass_into_one_another(void **state)
{
  (void)state;
  pw_shape_size rectangle = all[0];
  same((pw_shape_size){PW_SHAPE_TRAPEZOID, 1.2, 0, 0, 0.9, 0.9, 0, 0}, rectangle, 1e-12);
  same((pw_shape_size){PW_SHAPE_TRIANGLE, 1.2, 0.9, 0, 0, 0, 0.0, 0},
       (pw_shape_size){PW_SHAPE_TRAPEZOID, 1.2, 0, 0, 0.9, 0.0, 0, 0}, 1e-12);
  same((pw_shape_size){PW_SHAPE_TRIANGLE, 1.2, 0.9, 0, 0, 0, 1.2, 0},
       (pw_shape_size){PW_SHAPE_TRAPEZOID, 1.2, 0, 0, 0.0, 0.9, 0, 0}, 1e-12);
  same((pw_shape_size){PW_SHAPE_HALF_ROUND, 1.2, 1.0, 0, 0, 0, 0, 0},
       (pw_shape_size){PW_SHAPE_ARCH, 1.2, 1.0, 0.6, 0, 0, 0, 0}, 1e-12);
  same((pw_shape_size){PW_SHAPE_GOTHIC, 1.2, 1.0, 0.6, 0, 0, 0, 0},
       (pw_shape_size){PW_SHAPE_HALF_ROUND, 1.2, 1.0, 0, 0, 0, 0, 0}, 1e-9);
  same((pw_shape_size){PW_SHAPE_OCTAGON, 1.2, 0.9, 0, 0.9, 0, 0, 0}, rectangle, 1e-12);
  double last = 1.0;
  for (double cut = 0.1; cut > 1e-4; cut *= 0.5) { /* an octagon tends to its rectangle */
    pw_bounds s =
        shape_of((pw_shape_size){PW_SHAPE_OCTAGON, 1.2, 0.9, 0, 0.9 - 2 * cut, 0, 0, 0});
    pw_outline o = outline_of(&s, 0.0);
    pw_assert_near(1.08 - o.area, 2.0 * cut * cut, 1e-12, "octagon", "four corners");
    assert_true(1.08 - o.area < last);
    last = 1.08 - o.area;
  }
  for (double rise = 0.2; rise > 1e-3;
       rise *= 0.5) { /* an arch, too: 2/3 rise width over its legs */
    pw_bounds s = shape_of((pw_shape_size){PW_SHAPE_ARCH, 1.2, 0.9, rise, 0, 0, 0, 0});
    pw_outline o = outline_of(&s, 0.0);
    pw_assert_near(1.08 - o.area, 0.4 * rise, 0.5 * rise * rise, "arch", "parabola");
  }
}

static void left_and_right_are_alike(void **state)
{
  (void)state;
  static const pw_shape_size pair[][2] = {
      {{PW_SHAPE_TRIANGLE, 1.4, 0.8, 0, 0, 0, 0.3, 0},
       {PW_SHAPE_TRIANGLE, 1.4, 0.8, 0, 0, 0, 1.1, 0}},
      {{PW_SHAPE_TRAPEZOID, 1.4, 0, 0, 0.4, 0.8, 0, 0},
       {PW_SHAPE_TRAPEZOID, 1.4, 0, 0, 0.8, 0.4, 0, 0}},
      {{PW_SHAPE_QUARTER_ROUND, 0.9, 1.2, 0, 0, 0.3, 0, 0},
       {PW_SHAPE_QUARTER_ROUND, 0.9, 1.2, 0, 0.3, 0, 0.9, 0}}};
  for (size_t i = 0; i < 3; i++)
    for (double d = -0.02; d < 0.11; d += 0.04) {
      pw_bounds a = shape_of(pair[i][0]), b = shape_of(pair[i][1]);
      pw_outline p = outline_of(&a, d), q = outline_of(&b, d);
      /* where a leg touches its arc the end is found to the root of the rounding, 1e-8 m */
      pw_assert_near(p.area, q.area, 2e-8, "area", "mirrored");
      pw_assert_near(p.side[PW_LEFT], q.side[PW_RIGHT], 1e-7, "side", "mirrored");
      pw_assert_near(p.side[PW_RIGHT], q.side[PW_LEFT], 1e-7, "side", "mirrored");
      pw_assert_near(p.peak_x - p.x_min, q.x_max - q.peak_x, 1e-9, "peak", "mirrored");
    }
}

static void what_vanishes_is_refused(void **state)
{
  (void)state;
  /* Largest circle inside each: half the width, the height, the inradius ... */
  for (size_t i = 0; i < ALL; i++) {
    pw_bounds s = shape_of(all[i]);
    double low = 0.0, high = 1.0;
    for (int k = 0; k < 50; k++) {
      double d = 0.5 * (low + high);
      pw_bounds in = pw_shape_inset(&s, d);
      pw_outline o = {.area = 7.0};
      pw_err err = {0};
      if (pw_shape_outline(&in, &o, &err) == PW_OK) {
        assert_true(o.area > 0.0 && o.perimeter > 0.0 && isfinite(o.peak_x));
        low = d;
      } else {
        assert_string_equal(err.field, "shape");
        assert_true(o.area == 7.0);
        high = d;
      }
    }
    if (all[i].kind == PW_SHAPE_CIRCLE) pw_assert_near(low, 0.4, 1e-4, "circle", "its radius");
    if (i == 10)
      pw_assert_near(low, 1.4 * 0.8 / (1.4 + hypot(0.3, 0.8) + hypot(1.1, 0.8)), 1e-4,
                     "triangle", "inradius 2A / P");
    if (i == 1) pw_assert_near(low, 0.3, 1e-4, "half round", "half its radius");
  }
}

static void no_such_shape_is_refused(void **state)
{
  (void)state;
  static const struct {
    pw_shape_size size;
    const char *field;
  } row[] = {{{PW_SHAPE_ARCH, 1.2, 0.9, 0, 0, 0, 0, 0}, "rise"},
             {{PW_SHAPE_ARCH, 1.2, 0.9, 0.7, 0, 0, 0, 0}, "rise"},
             {{PW_SHAPE_ARCH, 1.2, 0.3, 0.4, 0, 0, 0, 0}, "rise"},
             {{PW_SHAPE_GOTHIC, 1.2, 0.9, 0.5, 0, 0, 0, 0}, "rise"},
             {{PW_SHAPE_TRIANGLE, 1.2, 0.9, 0, 0, 0, 1.3, 0}, "peak_at"},
             {{PW_SHAPE_TRAPEZOID, 1.2, 0.9, 0, 0, 0, 0, 0}, "leg_left"},
             {{PW_SHAPE_OCTAGON, 1.2, 0.9, 0, 0, 0, 0, 0}, "leg_left"},
             {{PW_SHAPE_OCTAGON, 0.6, 0.9, 0, 0.2, 0, 0, 0}, "leg_left"},
             {{PW_SHAPE_OCTAGON, 1.2, 0.9, 0, 0.95, 0, 0, 0}, "leg_left"},
             {{PW_SHAPE_QUARTER_ROUND, 1.2, 0.9, 0, 0, 0, 0, 0}, "width"},
             {{PW_SHAPE_QUARTER_ROUND, 0.9, 0.9, 0, 0, 0, -1.0, 0}, "peak_at"},
             {{PW_SHAPE_CIRCLE, 0.0, 0.9, 0, 0, 0, 0, 0}, "width_bottom"},
             {{PW_SHAPE_TRIANGLE, 1.2, NAN, 0, 0, 0, 0, 0}, "height_middle"},
             {{PW_SHAPE_COUNT, 1.2, 1.2, 0, 0, 0, 0, 0}, "shape"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_bounds s = {.n = 99};
    pw_err err = {0};
    assert_int_equal(pw_shape_make(&row[i].size, &s, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, row[i].field);
    assert_true(s.n == 99);
  }
}

/* A smaller one of the same kind, set evenly: concentric circles, rectangles, similar triangles. */
static void gaps_are_set_evenly(void **state)
{
  (void)state;
  for (size_t i = 0; i < ALL; i++) {
    pw_bounds s = shape_of(all[i]), in = pw_shape_inset(&s, 0.01);
    pw_outline o;
    double gap[4];
    for (size_t k = 0; k < in.n; k++) { /* moved aside: the gaps must not care */
      in.edge[k].p += 0.003 * in.edge[k].nx - 0.002 * in.edge[k].ny;
      in.edge[k].x += 0.003;
      in.edge[k].y -= 0.002;
    }
    assert_int_equal(pw_shape_outline(&in, &o, NULL), PW_OK);
    pw_shape_gap(&s, &in, gap);
    for (int k = 0; k < 4; k++)
      pw_assert_near(gap[k], 0.01, 2e-5, pw_shape_name(all[i].kind), "even");
  }
  pw_bounds outer = shape_of(all[0]),
            inner = shape_of((pw_shape_size){PW_SHAPE_RECTANGLE, 1.18, 0.89, 0, 0, 0, 0, 0});
  double gap[4];
  pw_shape_gap(&outer, &inner, gap);
  pw_assert_near(gap[PW_LEFT], 0.01, 1e-12, "left", "half of what is over");
  pw_assert_near(gap[PW_TOP], 0.005, 1e-12, "top", "half of what is over");
}

/* Points of a drawing lie on the outline and go round once. */
static void points_go_round(void **state)
{
  (void)state;
  for (size_t i = 0; i < ALL; i++) {
    double x[400], y[400], area = 0.0;
    pw_bounds s = shape_of(all[i]);
    pw_outline o = outline_of(&s, 0.0);
    size_t n = pw_shape_points(&s, x, y, 400);
    assert_true(n >= 3 && n < 400);
    for (size_t k = 0; k < n; k++)
      area += 0.5 * (x[k] * y[(k + 1) % n] - x[(k + 1) % n] * y[k]);
    pw_assert_near(area, o.area, 2e-3 * o.area, pw_shape_name(all[i].kind),
                   "polygon of the points");
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(areas_and_perimeters_meet_closed_forms),
      cmocka_unit_test(arches_in_sixteenths_meet_closed_forms),
      cmocka_unit_test(areas_meet_half_planes_line_by_line),
      cmocka_unit_test(the_band_grows_with_the_perimeter),
      cmocka_unit_test(out_and_in_again_is_the_same),
      cmocka_unit_test(kinds_pass_into_one_another),
      cmocka_unit_test(left_and_right_are_alike),
      cmocka_unit_test(what_vanishes_is_refused),
      cmocka_unit_test(no_such_shape_is_refused),
      cmocka_unit_test(gaps_are_set_evenly),
      cmocka_unit_test(points_go_round),
  };
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
