/* Openings that are no rectangle, from readings to the rated window: window/fit_shape, lites, rating. The
 * geometry itself is in test_shape.c; here sums are done again by hand from closed forms and the
 * catalogue's values. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/catalogue.h"
#include "panewright/fit.h"
#include "panewright/rating.h"
#include "panewright/units.h"
#include "window/escape.h"

static const double pi = 3.14159265358979323846;

static const pw_frame_line vinyl = {.kind = PW_FRAME_VINYL,
                                    .operator_ = PW_OPERATOR_COUNT,
                                    .frame_face = 0.05,
                                    .sash_face = 0.075,
                                    .meeting_face = 0.045,
                                    .clearance = 0.375 * PW_INCH,
                                    .absorptance = 0.3};
static const pw_package package = {.spacer = PW_SPACER_STAINLESS, .filling = "foam"};

static pw_opening opening(pw_shape_kind shape, double width, double height)
{
  pw_opening o = {.tag = "T",
                  .quantity = 1,
                  .shape = shape,
                  .peak_at = PW_NOT_GIVEN,
                  .sill_height = PW_NOT_GIVEN,
                  .frame_face = 1.0 * PW_INCH,
                  .sash_face = 1.5 * PW_INCH,
                  .meeting_face = 1.5 * PW_INCH};
  o.width[0] = width * PW_INCH;
  o.height[1] = height * PW_INCH;
  return o;
}

static pw_fit fit_of(const pw_opening *o)
{
  pw_fit f;
  pw_err err = {0};
  if (pw_fit_opening(o, &vinyl, &f, &err) != PW_OK)
    fail_msg("%s: %s", pw_shape_name(o->shape), err.text);
  return f;
}

static int found(const pw_fit *f, pw_finding_kind kind)
{
  for (size_t i = 0; i < f->n_finding; i++)
    if (f->finding[i].kind == kind) return 1;
  return 0;
}

static pw_glazing glazing_of(size_t panes)
{
  pw_buildup b = {.n_pane = panes};
  pw_glazing g;
  pw_err err = {0};
  for (size_t i = 0; i < panes; i++) {
    b.pane[i].thickness = 0.003;
    memcpy(b.pane[i].kind, "clear", 6);
  }
  b.gap[0].thickness = 0.0127;
  b.gap[0].mix.share[PW_AIR] = 1.0;
  if (panes > 1) b.pane[1].emit[0] = 0.1;
  if (pw_glazing_build(&b, &g, &err) != PW_OK) fail_msg("%s", err.text);
  return g;
}

static double sum_of(const pw_parts *p)
{
  return p->center + p->edge + p->frame + p->divider + p->retained;
}

typedef struct rated {
  pw_fit fit;
  pw_rating old, new_;
} rated;

static rated rate(const pw_opening *o)
{
  rated r = {.fit = fit_of(o)};
  pw_glazing single = glazing_of(1), twice = glazing_of(2);
  pw_err err = {0};
  if (pw_rating_existing(o, &r.fit, &single, NULL, &r.old, &err) != PW_OK ||
      pw_rating_insert(&r.fit, &package, &vinyl, &twice, NULL, &r.new_, &err) != PW_OK)
    fail_msg("%s: %s", pw_shape_name(o->shape), err.text);
  return r;
}

static double near(double most) { return most * rand() / RAND_MAX; }

/* One of every kind, by chance. */
static pw_opening by_chance(int kind)
{
  double w = 20.0 + near(50.0), h = 0.5 * w + 5.0 + near(30.0);
  pw_opening o = opening((pw_shape_kind)kind, w, h);
  switch (o.shape) {
  case PW_SHAPE_QUARTER_ROUND:
    o.height[1] = (w + (rand() % 2 ? 0.0 : 3.0 + near(30.0))) * PW_INCH;
    o.peak_at = rand() % 2 ? 0.0 : w * PW_INCH;
    break;
  case PW_SHAPE_ARCH:
    o.rise = (4.0 + near(0.5 * w - 4.0)) * PW_INCH;
    break;
  case PW_SHAPE_CIRCLE:
    o.height[1] = o.width[0];
    break;
  case PW_SHAPE_OCTAGON:
    o.leg_left = o.height[1] - near(0.5) * fmin(o.width[0], o.height[1]);
    break;
  case PW_SHAPE_TRIANGLE:
    o.peak_at = near(o.width[0]);
    break;
  case PW_SHAPE_TRAPEZOID:
    o.height[1] = 0.0;
    o.leg_left = (8.0 + near(50.0)) * PW_INCH;
    o.leg_right = (8.0 + near(50.0)) * PW_INCH;
    break;
  case PW_SHAPE_GOTHIC:
    o.rise = fmin((0.5 * w + near(20.0)) * PW_INCH, o.height[1]);
    break;
  case PW_SHAPE_HALF_ROUND:
  case PW_SHAPE_RECTANGLE:
  case PW_SHAPE_COUNT:
  default:
    break;
  }
  if (rand() % 2 && o.shape != PW_SHAPE_TRIANGLE) {
    o.fin_width = near(0.75) * PW_INCH;
    o.fins_cut = rand() % 2 ? 2 : 0;
    if (o.shape != PW_SHAPE_CIRCLE && o.shape != PW_SHAPE_OCTAGON)
      o.sill_lip = near(0.75) * PW_INCH;
    o.sill_lip_cut = rand() % 2;
  }
  if (rand() % 2) o.retained_face = near(1.9) * PW_INCH;
  return o;
}

static void parts_fill_the_opening_and_the_order_fits(void **state)
{
  (void)state;
  srand(7);
  for (int n = 0; n < 400; n++) {
    pw_opening o = by_chance(1 + n % (PW_SHAPE_COUNT - 1));
    rated r = rate(&o);
    const pw_fit *f = &r.fit;
    pw_assert_near(f->existing.glass_area + f->existing_frame_area, f->opening_area, 1e-9,
                   pw_shape_name(o.shape), "the opening");
    pw_assert_near(f->insert.glass_area + f->insert.frame_area + f->retained_area,
                   f->opening_area, 1e-9, pw_shape_name(o.shape), "the opening");
    pw_assert_near(sum_of(&r.old.areas), f->opening_area, 1e-9, "parts", "the opening");
    pw_assert_near(sum_of(&r.new_.areas), f->opening_area, 1e-9, "parts", "the opening");
    pw_assert_near(r.new_.glass_perimeter, f->insert.glass_perimeter, 1e-12, "perimeter",
                   "lites");
    assert_true(f->insert.glass_area < f->existing.glass_area && r.new_.u < 0.6 * r.old.u);
    assert_true(f->order_area < f->opening_area);
    for (size_t k = 0; k < f->n_finding; k++)
      if (pw_finding_blocks(f->finding[k].kind))
        fail_msg("%s: %s", pw_shape_name(o.shape), pw_said(&f->finding[k].says));
    /* Half the clearance is left all round, less what rounding to eighths may shift it. */
    assert_true(f->gap > 0.5 * f->clearance - 0.0626 * PW_INCH);
    double eighths = f->order_width / PW_INCH * 8.0;
    pw_assert_near(eighths, round(eighths), 1e-6, "order", "eighths of an inch");
    for (int k = 0; k < 4; k++)
      if (!(f->retained_width[k] >= 0.002 &&
            f->retained_width[k] < o.retained_face + 1.3 * PW_INCH))
        fail_msg("%s %g x %g side %d: ring %g in", pw_shape_name(o.shape),
                 f->opening_width / PW_INCH, f->opening_height / PW_INCH, k,
                 f->retained_width[k] / PW_INCH);
  }
}

/* A length of chance, often one that fits nothing else. */
static double any_length(double width)
{
  const double v[] = {
      0.0,         near(1.0) * PW_INCH,           width,
      0.5 * width, (4.0 + near(236.0)) * PW_INCH, floor(4.0 + near(56.0)) * PW_INCH};
  return v[rand() % 6];
}

/* Whatever is read, it is refused in one line or fills its opening; nothing is below 0 or no number. */
static void whatever_is_read(void **state)
{
  (void)state;
  size_t taken = 0;
  srand(11);
  for (int n = 0; n < 40000; n++) {
    pw_opening o =
        opening((pw_shape_kind)(1 + n % (PW_SHAPE_COUNT - 1)), 4.0 + near(80.0), 0.0);
    double w = o.width[0];
    o.height[1] = any_length(w);
    o.rise = any_length(w);
    o.leg_left = any_length(w);
    o.leg_right = any_length(w);
    o.peak_at = rand() % 2 ? PW_NOT_GIVEN : any_length(w);
    o.fin_width = rand() % 4 ? 0.0 : near(2.0) * PW_INCH;
    o.sill_lip = rand() % 4 ? 0.0 : near(2.0) * PW_INCH;
    o.fins_cut = 2 * (rand() % 2);
    o.sill_lip_cut = rand() % 2;
    pw_fit f;
    pw_err err = {0};
    if (pw_fit_opening(&o, &vinyl, &f, &err) != PW_OK) {
      assert_true(err.text[0] && !strchr(err.text, '\n') && !strstr(err.text, "nan"));
      continue;
    }
    taken++;
    const double v[] = {f.opening_area, f.order_area,         f.retained_area,
                        f.gap,          f.insert.glass_area,  f.insert.lite[0].round.center,
                        f.lean,         f.existing_frame_area};
    for (size_t k = 0; k < sizeof v / sizeof v[0]; k++)
      if (!(v[k] >= 0.0 && v[k] < 1e3))
        fail_msg("%s: value %zu is %g", pw_shape_name(o.shape), k, v[k]);
    pw_assert_near(f.insert.glass_area + f.insert.frame_area + f.retained_area, f.opening_area,
                   1e-9, pw_shape_name(o.shape), "the opening");
  }
  assert_true(taken > 4000);
}

/* Sizes, lean, ring and every rated figure of a trapezoid with equal legs are those of the rectangle. */
static void equal_legs_are_a_rectangle(void **state)
{
  (void)state;
  srand(3);
  for (int n = 0; n < 100; n++) {
    double w = 20.0 + near(60.0), h = 20.0 + near(60.0), lean = near(0.2);
    pw_opening r = opening(PW_SHAPE_RECTANGLE, w, h), t = opening(PW_SHAPE_TRAPEZOID, w, 0.0);
    t.leg_left = t.leg_right = h * PW_INCH;
    if (n % 2) {
      r.diagonal[0] = t.diagonal[0] = (hypot(w, h) + lean) * PW_INCH;
      r.diagonal[1] = t.diagonal[1] = (hypot(w, h) - lean) * PW_INCH;
    }
    r.fin_width = t.fin_width = n % 3 ? 0.5 * PW_INCH : 0.0;
    r.sill_lip = t.sill_lip = n % 5 ? 0.5625 * PW_INCH : 0.0;
    r.fins_cut = t.fins_cut = n % 7 ? 2 : 0;
    r.sill_lip_cut = t.sill_lip_cut = n % 2;
    rated a = rate(&r), b = rate(&t);
    const char *same = "the rectangle";
    pw_assert_near(b.fit.order_width, a.fit.order_width, 1e-12, "width", same);
    pw_assert_near(b.fit.order_height, a.fit.order_height, 1e-12, "height", same);
    pw_assert_near(b.fit.lean, a.fit.lean, 1e-12, "lean", same);
    assert_int_equal(b.fit.square, a.fit.square);
    pw_assert_near(b.fit.opening_area, a.fit.opening_area, 1e-12, "opening", same);
    pw_assert_near(b.fit.opening_perimeter, a.fit.opening_perimeter, 1e-12, "round it", same);
    pw_assert_near(b.fit.retained_area, a.fit.retained_area, 1e-12, "ring", same);
    for (int k = 0; k < 4; k++)
      pw_assert_near(b.fit.retained_width[k], a.fit.retained_width[k], 1e-12, "side", same);
    pw_assert_near(b.fit.fins_glass_gain, a.fit.fins_glass_gain, 1e-12, "fins", same);
    pw_assert_near(b.fit.lip_glass_gain, a.fit.lip_glass_gain, 1e-12, "lip", same);
    const pw_rating *pair[2][2] = {{&a.old, &b.old}, {&a.new_, &b.new_}};
    for (int k = 0; k < 2; k++) {
      const pw_rating *p = pair[k][0], *q = pair[k][1];
      pw_assert_near(q->u, p->u, 1e-10, "U", same);
      pw_assert_near(q->u_psi, p->u_psi, 1e-10, "U by psi", same);
      pw_assert_near(q->shgc, p->shgc, 1e-10, "SHGC", same);
      pw_assert_near(q->vt, p->vt, 1e-10, "VT", same);
      pw_assert_near(q->areas.edge, p->areas.edge, 1e-10, "edge", same);
      pw_assert_near(q->ua.retained, p->ua.retained, 1e-10, "ring", same);
      pw_assert_near(q->glass_perimeter, p->glass_perimeter, 1e-10, "perimeter", same);
    }
  }
}

static void alike(const pw_opening *one, const pw_opening *two)
{
  rated a = rate(one), b = rate(two);
  pw_assert_near(b.fit.order_area, a.fit.order_area, 1e-9, "order", "the same opening");
  pw_assert_near(b.old.u, a.old.u, 1e-8, "old U", "the same opening");
  /* the joint's width along an arc is the mean of 16 samples, cut at 45 degrees */
  pw_assert_near(b.new_.u, a.new_.u, 1e-6, "new U", "the same opening");
  pw_assert_near(b.new_.shgc, a.new_.shgc, 1e-6, "SHGC", "the same opening");
  pw_assert_near(b.new_.ua.edge, a.new_.ua.edge, 1e-6, "edge", "the same opening");
}

static void one_opening_by_two_names_or_seen_from_inside(void **state)
{
  (void)state;
  pw_opening a = opening(PW_SHAPE_HALF_ROUND, 47.0, 40.0),
             b = opening(PW_SHAPE_ARCH, 47.0, 40.0);
  b.rise = 23.5 * PW_INCH;
  alike(&a, &b);
  a.rise = b.rise; /* given or not; by its legs, too */
  alike(&a, &b);
  b.rise = 0.0;
  b.leg_left = b.leg_right = 16.5 * PW_INCH;
  alike(&a, &b);
  a = opening(PW_SHAPE_TRIANGLE, 47.0, 30.0);
  b = opening(PW_SHAPE_TRAPEZOID, 47.0, 0.0);
  a.peak_at = 0.0;
  b.leg_left = 30.0 * PW_INCH;
  alike(&a, &b);
  a = opening(PW_SHAPE_TRAPEZOID, 47.0, 0.0);
  a.height[0] = 20.0 * PW_INCH; /* legs read as heights on the left and right */
  a.height[2] = 31.0 * PW_INCH;
  b.leg_left = 31.0 * PW_INCH;
  b.leg_right = 20.0 * PW_INCH;
  alike(&a, &b);
  a = opening(PW_SHAPE_QUARTER_ROUND, 30.0, 36.0);
  b = a;
  a.peak_at = 0.0;
  b.peak_at = 30.0 * PW_INCH;
  alike(&a, &b);
  a.peak_at = PW_NOT_GIVEN; /* one leg alone is the low one */
  a.leg_right = 6.0 * PW_INCH;
  alike(&a, &b);
}

static void blocked(const pw_opening *o, int how)
{
  pw_fit f = fit_of(o);
  int blocks = 0;
  for (size_t k = 0; k < f.n_finding; k++)
    blocks |= pw_finding_blocks(f.finding[k].kind);
  if (blocks != how)
    fail_msg("%s: %s", pw_shape_name(o->shape),
             f.n_finding ? pw_said(&f.finding[0].says) : "nothing found");
}

static void measures_that_miss_their_name_are_not_ordered(void **state)
{
  (void)state;
  pw_opening o = opening(PW_SHAPE_CIRCLE, 30.0, 30.1875);
  blocked(&o, 0);
  o.height[1] = 30.5 * PW_INCH;
  blocked(&o, 1);
  assert_int_equal(fit_of(&o).square, PW_SQUARE_NOT_ASKED);
  o = opening(PW_SHAPE_HALF_ROUND, 48.0, 30.0);
  o.rise = 24.25 * PW_INCH;
  blocked(&o, 0);
  o.rise = 23.5 * PW_INCH;
  blocked(&o, 1);
  o = opening(PW_SHAPE_ARCH, 48.0, 30.0);
  o.rise = 12.0 * PW_INCH;
  o.leg_left = 18.125 * PW_INCH;
  blocked(&o, 0);
  o.leg_left = 19.0 * PW_INCH;
  blocked(&o, 1);
  /* Both diagonals from the corners to the springs: 48 x 18 has 51 1/4. */
  o.leg_left = 0.0;
  o.diagonal[0] = o.diagonal[1] = 51.25 * PW_INCH;
  blocked(&o, 0);
  assert_int_equal(fit_of(&o).square, PW_SQUARE_OK);
  o.diagonal[0] = 51.75 * PW_INCH;
  o.diagonal[1] = 50.875 * PW_INCH;
  blocked(&o, 1);
  assert_true(found(&(pw_fit[]){fit_of(&o)}[0], PW_FINDING_STOP));
  o.diagonal[0] = o.diagonal[1] = 40.0 * PW_INCH; /* shorter than its side */
  blocked(&o, 1);
  o = opening(PW_SHAPE_TRAPEZOID, 48.0, 0.0);
  o.leg_left = 20.0 * PW_INCH;
  o.leg_right = 36.0 * PW_INCH;
  o.diagonal[0] = 60.0 * PW_INCH; /* to the top of the right leg; the other is 52 */
  o.diagonal[1] = 52.0 * PW_INCH;
  blocked(&o, 0);
  o.diagonal[0] = 52.0 * PW_INCH;
  o.diagonal[1] = 60.0 * PW_INCH;
  blocked(&o, 1);
  o = opening(PW_SHAPE_TRIANGLE, 60.0, 40.0);
  o.diagonal[0] = o.diagonal[1] = 50.0 * PW_INCH;
  blocked(&o, 0);
  o.diagonal[1] = 52.0 * PW_INCH;
  blocked(&o, 1);
}

static void a_rectangle_that_is_none_is_not_ordered(void **state)
{
  (void)state;
  static const struct {
    double height[3], width[3];
    int none;
  } row[] = {{{24.0, 30.0, 36.0}, {48.0, 48.0, 48.0}, 1},   /* a trapezoid */
             {{36.0, 30.25, 24.0}, {48.0, 48.0, 48.0}, 1},  /* the other way */
             {{36.0, 36.0, 36.0}, {60.0, 40.0, 20.0}, 1},   /* narrows upward */
             {{36.0, 36.0, 36.0}, {48.0, 48.0, 44.0}, 0},   /* one reading is wrong */
             {{36.0, 34.25, 32.5}, {48.0, 48.0, 48.0}, 0}}; /* askew, no shape of its own */
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = opening(PW_SHAPE_RECTANGLE, 48.0, 36.0);
    for (int k = 0; k < 3; k++) {
      o.width[k] = row[i].width[k] * PW_INCH;
      o.height[k] = row[i].height[k] * PW_INCH;
    }
    pw_fit f = fit_of(&o);
    assert_int_equal(found(&f, PW_FINDING_NO_SUCH), row[i].none);
    blocked(&o, 1); /* by over 1/2 in, in any case */
  }
}

/* Nobody is sent through a half round: no remedy puts a rectangular sash into it. */
static void a_shape_is_no_way_out(void **state)
{
  (void)state;
  for (int k = 1; k < PW_SHAPE_COUNT; k++) {
    srand((unsigned)k);
    pw_opening o = by_chance(k);
    pw_remedy r[PW_REMEDIES_MAX];
    o.use = PW_USE_BEDROOM;
    o.operator_existing = o.operator_insert = PW_CASEMENT;
    pw_fit f = fit_of(&o);
    assert_true(f.clear_existing.area == 0.0 && f.clear_insert.area == 0.0);
    assert_int_equal(pw_escape_remedies(&o, &f, r), 0);
  }
}

static void what_cannot_be_is_refused(void **state)
{
  (void)state;
  const struct {
    pw_opening o;
    const char *field;
  } row[] = {{opening(PW_SHAPE_ARCH, 48.0, 30.0), "rise"},
             {opening(PW_SHAPE_QUARTER_ROUND, 30.0, 30.0), "peak_at"},
             {opening(PW_SHAPE_OCTAGON, 30.0, 40.0), "leg_left"},
             {opening(PW_SHAPE_TRIANGLE, 30.0, 4.5), "frame_face"},
             {opening(PW_SHAPE_TRAPEZOID, 30.0, 0.0), "width_middle"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_fit f = {.order_width = 7.0};
    pw_err err = {0};
    assert_int_equal(pw_fit_opening(&row[i].o, &vinyl, &f, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, row[i].field);
    assert_true(f.order_width == 7.0);
  }
  pw_opening o = opening(PW_SHAPE_CIRCLE, 30.0, 30.0);
  pw_fit f;
  pw_err err = {0};
  o.operator_insert = PW_SLIDER;
  assert_int_equal(pw_fit_opening(&o, &vinyl, &f, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "operator");
  o.operator_insert = PW_FIXED;
  o.fin_width = 0.5 * PW_INCH;
  o.fins_cut = 1;
  assert_int_equal(pw_fit_opening(&o, &vinyl, &f, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "fins_cut");
}

static void half_round_by_hand(void **state)
{
  (void)state;
  /* 48 x 24 in, no legs; the insert 47 1/2 wide and 23 5/8 high by half the clearance all round:
   * chord 2 sqrt((24 - 3/16)^2 - (3/16)^2) = 47.62, height 24 - 3/8. */
  pw_opening o = opening(PW_SHAPE_HALF_ROUND, 48.0, 24.0);
  rated r = rate(&o);
  double in = PW_INCH, R = 24.0 * in;
  pw_assert_near(r.fit.order_width / in, 47.5, 1e-9, "order", "chord of the inner circle");
  pw_assert_near(r.fit.order_height / in, 23.625, 1e-9, "order", "radius less two joints");
  pw_assert_near(r.fit.opening_area, 0.5 * pi * R * R, 1e-9, "opening", "half a circle");

  double rise = 23.625 * in, a = 0.5 * 47.5 * in, rad = 0.5 * (a * a + rise * rise) / rise;
  double up = rise - rad; /* of the arc's centre above the base */
  double part[3];         /* unit, daylight, centre of glass */
  double face = vinyl.frame_face, inset[3] = {0.0, face, face + 0.0635};
  for (int k = 0; k < 3; k++) { /* a segment: the disc above a chord */
    double q = rad - inset[k], away = inset[k] - up;
    part[k] = q * q * acos(away / q) - away * sqrt(q * q - away * away);
  }
  pw_assert_near(r.fit.order_area, part[0], 1e-8, "unit", "segment");
  pw_assert_near(r.fit.insert.glass_area, part[1], 1e-8, "daylight", "segment");
  pw_assert_near(r.new_.areas.center, part[2], 1e-8, "centre", "segment");

  pw_glazing g = glazing_of(2);
  pw_given frame, edge, ring;
  assert_int_equal(
      pw_catalogue_frame_u(PW_FRAME_VINYL, PW_FIXED, 2, PW_SPACER_STAINLESS, &frame, NULL),
      PW_OK);
  assert_int_equal(pw_catalogue_edge_u(PW_SPACER_STAINLESS, 2, g.u_winter, &edge, NULL), PW_OK);
  double ua = g.u_winter * part[2] + edge.value * (part[1] - part[2]) +
              frame.value * (part[0] - part[1]);
  /* The ring: base and arc at their own joint; right and left are a quarter turn each within 45 deg. */
  double along[4] = {0.25 * pi * R, 0.25 * pi * R, 2.0 * R, 0.5 * pi * R}, ring_ua = 0.0;
  for (int k = 0; k < 4; k++) {
    assert_int_equal(pw_catalogue_ring("foam", r.fit.retained_width[k], &ring, NULL), PW_OK);
    ring_ua += along[k] * ring.value;
    pw_assert_near(r.fit.retained_width[k], 0.1875 * in, 0.05 * in, "joint",
                   "half the clearance");
  }
  pw_assert_near(r.new_.u, (ua + ring_ua) / (0.5 * pi * R * R), 1e-6, "U", "by hand");
  pw_assert_near(r.new_.vt, g.light.tau_v[0] * part[1] / (0.5 * pi * R * R), 1e-9, "VT",
                 "by hand");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(parts_fill_the_opening_and_the_order_fits),
      cmocka_unit_test(whatever_is_read),
      cmocka_unit_test(equal_legs_are_a_rectangle),
      cmocka_unit_test(one_opening_by_two_names_or_seen_from_inside),
      cmocka_unit_test(measures_that_miss_their_name_are_not_ordered),
      cmocka_unit_test(a_rectangle_that_is_none_is_not_ordered),
      cmocka_unit_test(a_shape_is_no_way_out),
      cmocka_unit_test(what_cannot_be_is_refused),
      cmocka_unit_test(half_round_by_hand),
  };
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
