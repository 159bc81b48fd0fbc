/* Readings and shapes at the edges of what the fit is asked: slips of digits, diagonals apart, letters of a config, outlines
 * with nothing left. Sizes in inches where a tape is meant; all by hand. */
#include "refused_by.h"

#include <math.h>

#include "panewright/fit.h"
#include "panewright/lites.h"
#include "panewright/shape.h"
#include "panewright/units.h"
#include "window/mulled.h"

static const double pi = 3.14159265358979323846;

static pw_opening taken(pw_operator operator_, double width, double height, double d1,
                        double d2)
{
  pw_opening o;
  pw_opening_init(&o);
  o.operator_existing = o.operator_insert = operator_;
  for (int i = 0; i < 3; i++) {
    o.width[i] = width * PW_INCH;
    o.height[i] = height * PW_INCH;
  }
  if (d1 > 0.0) o.diagonal[0] = d1 * PW_INCH;
  if (d2 > 0.0) o.diagonal[1] = d2 * PW_INCH;
  return o;
}

static void fit_of(const pw_opening *o, pw_fit *fit)
{
  pw_frame_line line;
  pw_err err = {0};
  if (pw_frame_line_named("vinyl", o->operator_insert, &line, &err) != PW_OK ||
      pw_fit_opening(o, &line, fit, &err) != PW_OK)
    fail_msg("%s", err.text);
}

static const pw_finding *find(const pw_fit *fit, pw_finding_kind kind)
{
  for (size_t i = 0; i < fit->n_finding; i++)
    if (fit->finding[i].kind == kind) return &fit->finding[i];
  return NULL;
}

/* 36 x 48 has a diagonal of 60. */
static void digits_of_a_side(void **state)
{
  (void)state;
  pw_fit f;
  pw_opening o = taken(PW_FIXED, 63.0, 48.0, 60.0, 60.0); /* width 63 for 36 */
  fit_of(&o, &f);
  assert_non_null(find(&f, PW_FINDING_TRANSPOSED));
  assert_non_null(strstr(pw_said(&find(&f, PW_FINDING_TRANSPOSED)->says), "width"));
  o = taken(PW_FIXED, 48.0, 63.0, 60.0, 60.0);
  fit_of(&o, &f);
  assert_non_null(find(&f, PW_FINDING_TRANSPOSED));
  assert_non_null(strstr(pw_said(&find(&f, PW_FINDING_TRANSPOSED)->says), "height"));
  /* Diagonals 6 in apart tell of no side: sqrt((63^2 + 57^2) / 2) is 60 too. */
  o = taken(PW_FIXED, 63.0, 48.0, 63.0, 57.0);
  fit_of(&o, &f);
  assert_non_null(find(&f, PW_FINDING_DIAGONAL));
  for (size_t i = 0; i < f.n_finding; i++)
    if (f.finding[i].kind == PW_FINDING_TRANSPOSED)
      assert_null(strstr(pw_said(&f.finding[i].says), "width"));
}

/* 36 x 48: 62 and 58 are 4 in apart and no more, 62 1/2 and 57 1/2 are; the mean square is that of 60 in either. Of 60 and
 * 90 only the second is wrong, and 90 is 60 with no two digits exchanged. */
static void diagonals_apart(void **state)
{
  (void)state;
  pw_fit f;
  pw_opening o = taken(PW_FIXED, 36.0, 48.0, 61.9, 58.0);
  fit_of(&o, &f);
  assert_null(find(&f, PW_FINDING_DIAGONAL));
  assert_non_null(find(&f, PW_FINDING_STOP));
  o = taken(PW_FIXED, 36.0, 48.0, 62.5, 57.4);
  fit_of(&o, &f);
  assert_non_null(find(&f, PW_FINDING_DIAGONAL));
  assert_true(f.lean == 0.0); /* not believed */
  for (int both = 0; both < 2; both++) {
    o = taken(PW_FIXED, 36.0, 48.0, both ? 60.0 : 0.0, 90.0);
    fit_of(&o, &f);
    assert_non_null(find(&f, PW_FINDING_DIAGONAL));
    assert_null(find(&f, PW_FINDING_TRANSPOSED));
  }
}

/* Squareness with a finding that blocks is to be measured again, whatever the diagonals say. */
static void square_and_blocked(void **state)
{
  (void)state;
  pw_fit f = {.square = PW_SQUARE_ADJUST, .n_finding = 1};
  f.finding[0].kind = PW_FINDING_FOOT;
  assert_int_equal(pw_fit_square(&f), PW_SQUARE_ADJUST);
  f.finding[0].kind = PW_FINDING_SLIP;
  assert_int_equal(pw_fit_square(&f), PW_SQUARE_REMEASURE);
  f.square = PW_SQUARE_OK;
  assert_int_equal(pw_fit_square(&f), PW_SQUARE_REMEASURE);
  f.square = PW_SQUARE_STOP;
  assert_int_equal(pw_fit_square(&f), PW_SQUARE_STOP);
}

/* Ten inches of a neighbour: 36 x 48 beside 36 x 58. Both diagonals of the first were taken (60), so it is sure of itself;
 * with one alone, or none, it may be a slip. */
static void a_neighbour_ten_inches_higher(void **state)
{
  (void)state;
  for (int diagonals = 0; diagonals <= 2; diagonals++) {
    pw_opening o[2] = {
        taken(PW_FIXED, 36.0, 48.0, diagonals > 0 ? 60.0 : 0.0, diagonals > 1 ? 60.0 : 0.0),
        taken(PW_FIXED, 36.0, 58.0, 0.0, 0.0)};
    pw_fit f[2] = {{.n_finding = 0}, {.n_finding = 0}};
    memcpy(o[1].tag, "N2", sizeof "N2");
    pw_fit_neighbours(o, 2, f);
    const pw_finding *own = find(&f[0], diagonals == 2 ? PW_FINDING_TEN : PW_FINDING_SLIP);
    assert_non_null(own);
    assert_int_equal(f[0].n_finding, 1);
    assert_non_null(strstr(pw_said(&own->says), "height"));
    assert_non_null(strstr(pw_said(&own->says), "N2"));
    assert_non_null(find(&f[1], PW_FINDING_SLIP));
  }
}

/* Room for 16 remarks: the seventeenth is left out and the others stay. */
static void remarks_beyond_their_room(void **state)
{
  (void)state;
  pw_opening o[2] = {taken(PW_FIXED, 36.0, 48.0, 0.0, 0.0),
                     taken(PW_FIXED, 36.0, 58.0, 0.0, 0.0)};
  pw_fit f[2] = {{.n_finding = PW_FINDINGS_MAX}, {.n_finding = PW_FINDINGS_MAX - 1}};
  pw_fit_neighbours(o, 2, f);
  assert_int_equal(f[0].n_finding, PW_FINDINGS_MAX);
  assert_null(find(&f[0], PW_FINDING_SLIP));
  assert_int_equal(f[1].n_finding, PW_FINDINGS_MAX);
  assert_non_null(find(&f[1], PW_FINDING_SLIP));
}

/* A hung window's "O/X" is written from the top down: below X moves. "X/O" the other way round. Four letters are the most a
 * slider has: of five it is the usual one of two lites. */
static void letters_of_a_config(void **state)
{
  (void)state;
  pw_lites w;
  assert_int_equal(pw_lites_cut(PW_SINGLE_HUNG, "O/X", 0.9, 1.5, 0.04, 0.05, 0.04, &w, NULL),
                   PW_OK);
  assert_true(w.lite[0].moving && !w.lite[1].moving);
  assert_int_equal(pw_lites_cut(PW_SINGLE_HUNG, "X/O", 0.9, 1.5, 0.04, 0.05, 0.04, &w, NULL),
                   PW_OK);
  assert_true(!w.lite[0].moving && w.lite[1].moving);
  assert_int_equal(pw_operator_lites(PW_SLIDER, "XOOX"), 4);
  assert_int_equal(pw_operator_lites(PW_SLIDER, "XOXOX"), 2);
  assert_int_equal(pw_lites_cut(PW_SLIDER, "OXOXO", 2.0, 1.0, 0.04, 0.05, 0.04, &w, NULL),
                   PW_OK);
  assert_int_equal(w.n_lite, 2);
  assert_true(w.lite[0].moving && !w.lite[1].moving); /* XO, the usual */
}

/* ---------------------------------------------------------------- shapes */

static void shaped(pw_opening *o, pw_shape_kind shape)
{
  for (int i = 0; i < 3; i += 2)
    o->width[i] = o->height[i] = PW_NOT_GIVEN;
  o->shape = shape;
}

/* A quarter round without a low leg: its second diagonal runs to a corner that is not there, so it is not asked. A
 * trapezoid of 36 with legs 48 and 27: 45 to the right top, 60 to the left; 48 and 57 are off by +3 and -3, and 6 apart. */
static void diagonals_of_shapes(void **state)
{
  (void)state;
  pw_fit f;
  pw_opening o = taken(PW_FIXED, 36.0, 36.0, 0.0, 50.0);
  shaped(&o, PW_SHAPE_QUARTER_ROUND);
  o.peak_at = 36.0 * PW_INCH; /* high on the right: to its top it is 36 sqrt 2 = 50.9 */
  fit_of(&o, &f);
  assert_null(find(&f, PW_FINDING_DIAGONAL));
  assert_int_equal(f.square, PW_SQUARE_NOT_ASKED);
  o = taken(PW_FIXED, 36.0, 48.0, 45.0, 60.0);
  shaped(&o, PW_SHAPE_TRAPEZOID);
  o.leg_left = 48.0 * PW_INCH;
  o.leg_right = 27.0 * PW_INCH;
  fit_of(&o, &f);
  assert_null(find(&f, PW_FINDING_DIAGONAL));
  assert_int_equal(f.square, PW_SQUARE_OK);
  o.diagonal[0] = 48.0 * PW_INCH;
  o.diagonal[1] = 57.0 * PW_INCH;
  fit_of(&o, &f);
  assert_non_null(find(&f, PW_FINDING_DIAGONAL));
  o.diagonal[0] = PW_NOT_GIVEN;
  o.diagonal[1] = 60.0 * PW_INCH;
  fit_of(&o, &f);
  assert_non_null(find(&f, PW_FINDING_NO_DIAGONAL));
  pw_message one = find(&f, PW_FINDING_NO_DIAGONAL)->says;
  o.diagonal[1] = PW_NOT_GIVEN;
  fit_of(&o, &f);
  assert_int_not_equal(find(&f, PW_FINDING_NO_DIAGONAL)->says.number, one.number);
}

/* A clearance wider than the shape leaves no order. Without a fit there are no outlines. */
static void nothing_left_of_a_shape(void **state)
{
  (void)state;
  pw_opening o = taken(PW_FIXED, 36.0, 36.0, 0.0, 0.0);
  pw_frame_line line;
  pw_fit f, none = {.clearance = 0.0};
  pw_bounds opening, bare, order;
  pw_err err = {0};
  shaped(&o, PW_SHAPE_CIRCLE);
  assert_int_equal(pw_frame_line_named("vinyl", PW_FIXED, &line, NULL), PW_OK);
  line.clearance = 3.0;
  refused(pw_fit_opening(&o, &line, &f, &err), PW_E_DOMAIN, &err, "width_middle");
  assert_int_equal(pw_fit_outlines(&none, &opening, &bare, &order), PW_E_DOMAIN);
}

static pw_bounds rings(double inner)
{
  pw_bounds s = {.kind = PW_SHAPE_CIRCLE, .n = 2};
  for (int i = 0; i < 2; i++)
    s.edge[i] = (pw_shape_edge){
        .role = PW_EDGE_OTHER, .arc = 1, .r = i ? inner : 2.0, .from = 0.0, .to = 2.0 * pi};
  return s;
}

/* Of two circles about one centre the smaller bounds; of one whose radius is gone nothing is left. */
static void circles_about_one_centre(void **state)
{
  (void)state;
  pw_outline o;
  pw_bounds s = rings(1.0);
  assert_int_equal(pw_shape_outline(&s, &o, NULL), PW_OK);
  pw_assert_near(o.area, pi, 1e-12, "area", "pi");
  s = rings(-0.1);
  assert_int_equal(pw_shape_outline(&s, &o, NULL), PW_E_DOMAIN);
  s.edge[1].x = 0.5;
  assert_int_equal(pw_shape_outline(&s, &o, NULL), PW_E_DOMAIN);
}

/* An outline that is not there leaves no gap; points of an outline stop where their room ends. */
static void gaps_and_points_without_room(void **state)
{
  (void)state;
  const pw_shape_size z = {.kind = PW_SHAPE_CIRCLE, .width = 2.0, .height = 2.0};
  pw_bounds circle, none = {.kind = PW_SHAPE_CIRCLE};
  double gap[4] = {9.0, 9.0, 9.0, 9.0}, x[600], y[600];
  assert_int_equal(pw_shape_make(&z, &circle, NULL), PW_OK);
  pw_shape_gap(&circle, &none, gap);
  for (int k = 0; k < 4; k++)
    assert_true(gap[k] == 0.0);
  pw_shape_gap(&none, &circle, gap);
  for (int k = 0; k < 4; k++)
    assert_true(gap[k] == 0.0);
  size_t all = pw_shape_points(&circle, x, y, 600);
  assert_in_range(all, 50, 512);
  for (size_t i = 0; i < all; i++)
    pw_assert_near(hypot(x[i] - 1.0, y[i] - 1.0), 1.0, 1e-12, "point", "on the circle");
  x[5] = -77.0;
  assert_int_equal(pw_shape_points(&circle, x, y, 5), 5);
  assert_true(x[5] == -77.0);
}

/* Two rows of one unit, both joining another; a caller who wants no reason. */
static void a_unit_without_a_first(void **state)
{
  (void)state;
  pw_opening o[2] = {taken(PW_FIXED, 36.0, 48.0, 0.0, 0.0),
                     taken(PW_FIXED, 36.0, 48.0, 0.0, 0.0)};
  for (int i = 0; i < 2; i++) {
    memcpy(o[i].unit, "U", sizeof "U");
    o[i].unit_joint = PW_JOINT_BESIDE;
  }
  assert_int_equal(pw_mulled_join(o, 2, NULL), PW_E_DOMAIN);
  o[0].unit_joint = PW_JOINT_BLANK;
  assert_int_equal(pw_mulled_join(o, 2, NULL), PW_OK);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(digits_of_a_side),
      cmocka_unit_test(diagonals_apart),
      cmocka_unit_test(square_and_blocked),
      cmocka_unit_test(a_neighbour_ten_inches_higher),
      cmocka_unit_test(remarks_beyond_their_room),
      cmocka_unit_test(letters_of_a_config),
      cmocka_unit_test(diagonals_of_shapes),
      cmocka_unit_test(nothing_left_of_a_shape),
      cmocka_unit_test(circles_about_one_centre),
      cmocka_unit_test(gaps_and_points_without_room),
      cmocka_unit_test(a_unit_without_a_first),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
