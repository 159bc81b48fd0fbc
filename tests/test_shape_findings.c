/* window/fit_shape_findings: measures that are not of the shape they are named after, and its diagonals; lengths in inches, each from
 * the geometry of the shape. Measures agree within 1/4 in (common practice, no source). */
#include "support.h"

#include <math.h>
#include <string.h>

#include "window/fit_impl.h"

typedef struct measured {
  pw_shape_kind kind;
  double width, height, rise, leg_left, leg_right, peak_at; /* in; 0 not measured, peak_at -1 */
} measured;

static pw_opening opening(const measured *m)
{
  pw_opening o;
  pw_opening_init(&o);
  o.shape = m->kind;
  o.width[1] = m->width * PW_INCH;
  o.height[1] = m->height * PW_INCH;
  o.rise = m->rise * PW_INCH;
  o.leg_left = m->leg_left * PW_INCH;
  o.leg_right = m->leg_right * PW_INCH;
  if (m->peak_at >= 0.0) o.peak_at = m->peak_at * PW_INCH;
  return o;
}

static pw_fit judged(const pw_opening *o)
{
  pw_fit f = {.shape = pw_fit_measured(o)};
  fit_judge_shape(o, &f);
  return f;
}

static int count(const pw_fit *f, pw_finding_kind kind)
{
  int n = 0;
  for (size_t i = 0; i < f->n_finding; i++)
    n += f->finding[i].kind == kind;
  return n;
}

static const char *said(const pw_fit *f, pw_finding_kind kind)
{
  for (size_t i = 0; i < f->n_finding; i++)
    if (f->finding[i].kind == kind) return pw_said(&f->finding[i].says);
  return "";
}

/* Each measure at the limit of what its name allows, and a twentieth of an inch beyond. */
static void measures_are_held_to_the_name(void **state)
{
  (void)state;
  static const struct {
    measured m;
    int none; /* findings of no such shape */
  } row[] = {
      {{PW_SHAPE_CIRCLE, 30, 30.25, 0, 0, 0, -1}, 0},
      {{PW_SHAPE_CIRCLE, 30, 30.3, 0, 0, 0, -1}, 1},
      {{PW_SHAPE_CIRCLE, 30, 29.7, 0, 0, 0, -1}, 1},
      {{PW_SHAPE_CIRCLE, 30, 0, 0, 0, 0, -1}, 0},
      {{PW_SHAPE_HALF_ROUND, 40, 0, 20.25, 0, 0, -1}, 0}, /* rise is half the width */
      {{PW_SHAPE_HALF_ROUND, 40, 0, 20.3, 0, 0, -1}, 1},
      {{PW_SHAPE_HALF_ROUND, 40, 0, 19.7, 0, 0, -1}, 1},
      {{PW_SHAPE_HALF_ROUND, 40, 19.8, 0, 0, 0, -1}, 0},
      {{PW_SHAPE_HALF_ROUND, 40, 19.7, 0, 0, 0, -1}, 1},
      {{PW_SHAPE_HALF_ROUND, 40, 30, 20, 10.25, 9.75, -1}, 0}, /* legs: height less rise */
      {{PW_SHAPE_HALF_ROUND, 40, 30, 20, 10.3, 0, -1}, 1},
      {{PW_SHAPE_HALF_ROUND, 40, 30, 20, 0, 9.7, -1}, 1},
      {{PW_SHAPE_HALF_ROUND, 40, 30, 20, 10.3, 9.7, -1}, 2},
      {{PW_SHAPE_ARCH, 48, 30, 12, 18.25, 17.75, -1}, 0},
      {{PW_SHAPE_ARCH, 48, 30, 12, 18.3, 18, -1}, 1},
      {{PW_SHAPE_ARCH, 48, 30, 12, 18, 17.7, -1}, 1},
      {{PW_SHAPE_GOTHIC, 40, 50, 30, 20.3, 19.7, -1}, 2},
      {{PW_SHAPE_GOTHIC, 40, 50, 30, 20.2, 0, -1}, 0},
      {{PW_SHAPE_QUARTER_ROUND, 30, 30, 30.25, 0, 0, 0}, 0}, /* rise is the width */
      {{PW_SHAPE_QUARTER_ROUND, 30, 30, 30.3, 0, 0, 0}, 1},
      {{PW_SHAPE_QUARTER_ROUND, 30, 30, 0, 30.2, 0, 0}, 0}, /* its high side is its height */
      {{PW_SHAPE_QUARTER_ROUND, 30, 30, 0, 30.3, 0, 0}, 1},
      {{PW_SHAPE_QUARTER_ROUND, 30, 30, 0, 0, 30.3, 30}, 1},
      {{PW_SHAPE_QUARTER_ROUND, 30, 42, 0, 42, 12.2, 0},
       0}, /* height less low leg: its width */
      {{PW_SHAPE_QUARTER_ROUND, 30, 42, 0, 42, 12.3, 0}, 1},
      {{PW_SHAPE_QUARTER_ROUND, 30, 42, 0, 11.7, 42, 30}, 1},
      {{PW_SHAPE_TRAPEZOID, 40, 30.25, 0, 30, 20, -1}, 0}, /* the highest reading is its leg */
      {{PW_SHAPE_TRAPEZOID, 40, 30.3, 0, 30, 20, -1}, 1},
      {{PW_SHAPE_TRAPEZOID, 40, 30.3, 0, 20, 30, -1}, 1},
      {{PW_SHAPE_TRAPEZOID, 40, 30.3, 0, 0, 30, -1}, 1},
      {{PW_SHAPE_OCTAGON, 30, 40, 0, 20, 20.25, -1}, 0}, /* both uprights alike */
      {{PW_SHAPE_OCTAGON, 30, 40, 0, 20, 20.3, -1}, 1},
      {{PW_SHAPE_OCTAGON, 30, 40, 0, 20.3, 20, -1}, 1},
      {{PW_SHAPE_OCTAGON, 30, 40, 0, 0, 20.3, -1}, 0},
      {{PW_SHAPE_OCTAGON, 30, 40, 0, 20.3, 0, -1}, 0},
      {{PW_SHAPE_TRIANGLE, 30, 40, 0, 0, 0, -1}, 0},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const pw_opening o = opening(&row[i].m);
    const pw_fit f = judged(&o);
    if (count(&f, PW_FINDING_NO_SUCH) != row[i].none)
      fail_msg("row %zu: %d findings, want %d: %s", i, count(&f, PW_FINDING_NO_SUCH),
               row[i].none, said(&f, PW_FINDING_NO_SUCH));
  }
}

/* What is and what should be stand in the sentence in that order. */
static void the_finding_says_both_measures(void **state)
{
  (void)state;
  pw_opening o = opening(&(measured){PW_SHAPE_OCTAGON, 30, 40, 0, 20, 21.5, -1});
  pw_fit f = judged(&o);
  assert_non_null(
      strstr(said(&f, PW_FINDING_NO_SUCH), "leg_right 21 1/2 in, but leg_left is 20"));
  o = opening(&(measured){PW_SHAPE_ARCH, 48, 30, 12, 16, 18, -1});
  f = judged(&o);
  assert_non_null(strstr(said(&f, PW_FINDING_NO_SUCH), "leg_left 16 in"));
  assert_non_null(strstr(said(&f, PW_FINDING_NO_SUCH), "18 in"));
}

/* The diagonals of a true shape, by Pythagoras: to the top of the right leg and of the left; a triangle's slopes; a circle's diameter. A
 * regular octagon's uprights are w (sqrt(2) - 1), 16.568 of 40. */
static const struct {
  measured m;
  double d1, d2; /* 0: there is none */
} true_shape[] = {
    {{PW_SHAPE_TRAPEZOID, 40, 0, 0, 30, 20, -1}, 44.721, 50.0},
    {{PW_SHAPE_TRIANGLE, 40, 30, 0, 0, 0, -1}, 36.056, 36.056},
    {{PW_SHAPE_TRIANGLE, 40, 30, 0, 0, 0, 10}, 31.623, 42.426},
    {{PW_SHAPE_CIRCLE, 30, 0, 0, 0, 0, -1}, 30.0, 30.0},
    {{PW_SHAPE_ARCH, 48, 30, 12, 0, 0, -1}, 51.264, 51.264},
    {{PW_SHAPE_HALF_ROUND, 40, 30, 20, 0, 0, -1}, 41.231, 41.231},
    {{PW_SHAPE_HALF_ROUND, 40, 20, 20, 0, 0, -1}, 0.0, 0.0},
    {{PW_SHAPE_GOTHIC, 40, 50, 30, 0, 0, -1}, 44.721, 44.721},
    {{PW_SHAPE_QUARTER_ROUND, 30, 42, 0, 0, 12, 0}, 32.311, 51.614},
    {{PW_SHAPE_QUARTER_ROUND, 30, 42, 0, 12, 0, 30}, 51.614, 32.311},
    {{PW_SHAPE_QUARTER_ROUND, 30, 30, 0, 0, 0, 30}, 42.426, 0.0},
    {{PW_SHAPE_OCTAGON, 40, 40, 0, 0, 0, -1}, 43.296, 43.296},
    {{PW_SHAPE_OCTAGON, 40, 50, 0, 20, 20, -1}, 44.721, 44.721},
};

static void diagonals_are_those_of_the_shape(void **state)
{
  (void)state;
  for (size_t i = 0; i < sizeof true_shape / sizeof true_shape[0]; i++) {
    const double want[2] = {true_shape[i].d1, true_shape[i].d2};
    pw_shape_kind kind = true_shape[i].m.kind;
    int both = want[0] > 0.0 && want[1] > 0.0;
    int asked = both && kind != PW_SHAPE_CIRCLE && kind != PW_SHAPE_TRIANGLE;
    pw_opening o = opening(&true_shape[i].m);
    pw_fit f = judged(&o); /* without any */
    assert_int_equal(f.square == PW_SQUARE_NOT_ASKED, !asked);
    assert_int_equal(count(&f, PW_FINDING_NO_DIAGONAL), asked);
    for (int k = 0; k < 2; k++)
      o.diagonal[k] = want[k] * PW_INCH;
    f = judged(&o);
    assert_int_equal(count(&f, PW_FINDING_DIAGONAL), 0);
    if (asked) assert_int_equal(f.square, PW_SQUARE_OK);
    for (int k = 0; k < 2; k++) {
      /* one alone, beside 1/4 in and a bit more on both sides */
      static const double off[] = {0.24, 0.26, -0.24, -0.26};
      for (int s = 0; s < 4; s++) {
        o.diagonal[k] = (fmax(want[k], 40.0) + off[s]) * PW_INCH;
        if (want[k] > 0.0) o.diagonal[k] = (want[k] + off[s]) * PW_INCH;
        o.diagonal[1 - k] = 0.0;
        f = judged(&o);
        int bad = want[k] > 0.0 && s % 2;
        if (count(&f, PW_FINDING_DIAGONAL) != bad) fail_msg("row %zu, %d, %g", i, k, off[s]);
        if (bad)
          assert_non_null(
              strstr(said(&f, PW_FINDING_DIAGONAL), k ? "diagonal_2" : "diagonal_1"));
        assert_int_equal(count(&f, PW_FINDING_NO_DIAGONAL), asked);
      }
    }
  }
}

/* An outline whose legs lean to the right by s, base and heights as before: by Pythagoras d1 = hypot(w + s, right leg), d2 =
 * hypot(w - s, left leg). The lean is told; as far as a quarter inch of difference it can be set right. */
static void a_lean_is_found_again(void **state)
{
  (void)state;
  static const double lean[] = {0.05, -0.1, 0.11};
  for (size_t i = 0; i < sizeof lean / sizeof lean[0]; i++)
    for (int k = 0; k < 2; k++) {
      const measured m = {PW_SHAPE_TRAPEZOID, 40, 0, 0, k ? 30 : 20, k ? 20 : 30, -1};
      pw_opening o = opening(&m);
      o.diagonal[0] = hypot(m.width + lean[i], m.leg_right) * PW_INCH;
      o.diagonal[1] = hypot(m.width - lean[i], m.leg_left) * PW_INCH;
      const pw_fit f = judged(&o);
      assert_int_equal(count(&f, PW_FINDING_DIAGONAL), 0);
      pw_assert_near(f.lean / PW_INCH, fabs(lean[i]), 1e-9, "lean, in", "Pythagoras");
    }
}

/* Both off to one side by more than a quarter inch on average are of another shape, and so are two that differ by more than a hand, 4 in;
 * the one that is further off is named, and no lean is told then. */
static void two_diagonals_together(void **state)
{
  (void)state;
  static const struct {
    double d1, d2;
    int bad;
    const char *names;
  } row[] = {{0.4, 0.05, 0, ""},           {0.4, 0.15, 1, "diagonal_1"},
             {0.2, 0.35, 1, "diagonal_2"}, {-0.35, -0.2, 1, "diagonal_1"},
             {1.95, -1.95, 0, ""},         {2.1, -2.05, 1, "diagonal_1"},
             {-2.05, 2.1, 1, "diagonal_2"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = opening(&(measured){PW_SHAPE_TRAPEZOID, 40, 0, 0, 30, 20, -1});
    o.diagonal[0] = (hypot(40.0, 20.0) + row[i].d1) * PW_INCH;
    o.diagonal[1] = (50.0 + row[i].d2) * PW_INCH;
    const pw_fit f = judged(&o);
    if (count(&f, PW_FINDING_DIAGONAL) != row[i].bad) fail_msg("row %zu", i);
    if (row[i].bad) {
      if (!strstr(said(&f, PW_FINDING_DIAGONAL), row[i].names))
        fail_msg("row %zu: %s", i, said(&f, PW_FINDING_DIAGONAL));
      pw_assert_near(f.lean, 0.0, 0.0, "lean", "not told");
    } else
      assert_true(f.lean > 0.0);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(measures_are_held_to_the_name),
      cmocka_unit_test(the_finding_says_both_measures),
      cmocka_unit_test(diagonals_are_those_of_the_shape),
      cmocka_unit_test(a_lean_is_found_again),
      cmocka_unit_test(two_diagonals_together),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
