/* window/fit_clear: what an open sash leaves free, by the allowances of reference/trade/SAFETY.md "Egress after an insert" (from
 * memory): the low end for the thin sash that is there, the high end for the insert. */
#include "support.h"

#include <math.h>

#include "panewright/units.h"
#include "window/fit_impl.h"

/* Of a frame 60 by 40 in, in inches, worked by hand. A slider opens half its width less 2 (3) in, and 2 (3) in of its height; a
 * hung window half its height less 2.5 (3); a casement loses 4 (6) at its hinges; a flanker opens one quarter. */
static void each_way_of_opening(void **state)
{
  (void)state;
  static const struct {
    pw_operator k;
    double old_w, old_h, new_w, new_h;
  } row[] = {{PW_SLIDER, 28, 38, 27, 37},        {PW_SINGLE_HUNG, 58, 17.5, 57, 17},
             {PW_DOUBLE_HUNG, 58, 17.5, 57, 17}, {PW_CASEMENT, 56, 37, 54, 37},
             {PW_FLANKER, 13, 38, 12, 37},       {PW_SLIDING_DOOR, 28, 38, 27, 37},
             {PW_HINGED_DOOR, 56, 38, 54, 37}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int insert = 0; insert < 2; insert++) {
      pw_clear c = fit_clear(row[i].k, "", 60.0 * PW_INCH, 40.0 * PW_INCH, insert);
      double w = insert ? row[i].new_w : row[i].old_w, h = insert ? row[i].new_h : row[i].old_h;
      pw_assert_near(c.width / PW_INCH, w, 1e-9, "width", "SAFETY.md");
      pw_assert_near(c.height / PW_INCH, h, 1e-9, "height", "SAFETY.md");
      pw_assert_near(c.area / (PW_INCH * PW_INCH), w * h, 1e-6, "area", "by hand");
      assert_true(c.bottom < 0.0); /* the caller knows the sill */
    }
}

static void what_does_not_open_or_is_too_small_leaves_nothing(void **state)
{
  (void)state;
  static const pw_operator shut[] = {PW_FIXED, PW_AWNING, PW_HOPPER, PW_JALOUSIE};
  for (size_t i = 0; i < sizeof shut / sizeof shut[0]; i++)
    assert_true(fit_clear(shut[i], "", 2.0, 2.0, 0).area == 0.0);
  /* Half of 6 in less 3 is nothing; so is 3 in of height less 3: no area of a width alone. */
  pw_clear c = fit_clear(PW_SLIDER, "", 6.0 * PW_INCH, 40.0 * PW_INCH, 1);
  assert_true(c.width == 0.0 && c.height == 0.0 && c.area == 0.0);
  c = fit_clear(PW_SLIDER, "", 60.0 * PW_INCH, 3.0 * PW_INCH, 1);
  assert_true(c.width == 0.0 && c.height == 0.0 && c.area == 0.0);
}

/* XOX and XOOX: what stacks over the fixed lites; a share of its own moves the way that the window opens. */
static void three_and_four_lites_and_a_share(void **state)
{
  (void)state;
  pw_clear c = fit_clear(PW_SLIDER, "XOX", 90.0 * PW_INCH, 40.0 * PW_INCH, 1);
  pw_assert_near(c.width / PW_INCH, 30.0 - 3.0, 1e-9, "a third", "by hand");
  c = fit_clear(PW_SLIDER, "XOOX", 80.0 * PW_INCH, 40.0 * PW_INCH, 0);
  pw_assert_near(c.width / PW_INCH, 20.0 - 2.0, 1e-9, "a quarter at once", "by hand");
  c = fit_clear_share(PW_SLIDER, 0.4, 60.0 * PW_INCH, 40.0 * PW_INCH);
  pw_assert_near(c.width / PW_INCH, 24.0 - 3.0, 1e-9, "0.4 of the width", "by hand");
  pw_assert_near(c.height / PW_INCH, 37.0, 1e-9, "all the height", "by hand");
  c = fit_clear_share(PW_DOUBLE_HUNG, 0.4, 60.0 * PW_INCH, 40.0 * PW_INCH);
  pw_assert_near(c.width / PW_INCH, 57.0, 1e-9, "all the width", "by hand");
  pw_assert_near(c.height / PW_INCH, 16.0 - 3.0, 1e-9, "0.4 of the height", "by hand");
  c = fit_clear_share(PW_SINGLE_HUNG, 0.0, 60.0 * PW_INCH, 40.0 * PW_INCH);
  pw_assert_near(c.height / PW_INCH, 17.0, 1e-9, "no share: half", "by hand");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(each_way_of_opening),
      cmocka_unit_test(what_does_not_open_or_is_too_small_leaves_nothing),
      cmocka_unit_test(three_and_four_lites_and_a_share),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
