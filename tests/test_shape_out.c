/* out/shape_out: which measures a shape has on paper, in which order; radii by hand. */
#include "support.h"

#include "out/shape_out.h"
#include "panewright/units.h"

static void says(pw_shape_kind kind, pw_shape_size inches, const char *want)
{
  pw_fit fit = {0};
  char text[200];
  pw_shape_size *z = &fit.order_shape;
  *z = inches;
  z->kind = fit.shape.kind = kind;
  z->width *= PW_INCH;
  z->height *= PW_INCH;
  z->rise *= PW_INCH;
  z->leg_left *= PW_INCH;
  z->leg_right *= PW_INCH;
  if (z->peak_at > 0.0) z->peak_at *= PW_INCH;
  pw_shape_words_plain(NULL, &fit, 0, text, sizeof text);
  assert_string_equal(text, want);
}

/* A half round of 48 in has no leg and a radius of 24; an arch of 48 by 40 rising 12 stands on legs of 28, radius
 * (24^2 + 12^2) / (2 x 12) = 30. */
static void only_the_measures_that_a_shape_has(void **state)
{
  (void)state;
  says(PW_SHAPE_HALF_ROUND, (pw_shape_size){.width = 48, .height = 24, .rise = 24},
       "half round 48 wide, 24 high, rise 24, radius 24; template wanted");
  says(PW_SHAPE_ARCH, (pw_shape_size){.width = 48, .height = 40, .rise = 12},
       "arch 48 wide, 40 high, rise 12, left leg 28, right leg 28, radius 30; template wanted");
  says(PW_SHAPE_TRAPEZOID,
       (pw_shape_size){.width = 48, .height = 40, .leg_left = 30, .leg_right = 40},
       "trapezoid 48 wide, 40 high, left leg 30, right leg 40");
  says(PW_SHAPE_TRIANGLE, (pw_shape_size){.width = 48, .height = 40, .peak_at = 10},
       "triangle 48 wide, 40 high, peak from the left 10");
  says(PW_SHAPE_TRIANGLE, (pw_shape_size){.width = 48, .height = 40, .peak_at = -1},
       "triangle 48 wide, 40 high, peak from the left 24");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(only_the_measures_that_a_shape_has)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
