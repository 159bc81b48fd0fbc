/* glass/cavity: the Nusselt number of an upright gap where one branch of ISO 15099:2003 5.3.3 (from memory) goes over into the
 * next: at Ra 1e4 and 5e4, within 2 % (cavity.h). Elsewhere, and the flows: test_unit.c. */
#include "support.h"

#include <math.h>

#include "glass/cavity.h"

static const double ln_slender = -6.0; /* a gap so slender that its height is nothing here */

static double conduction(double ra) { return 1.0 + 1.7596678e-10 * pow(ra, 2.2984755); }
static double transition(double ra) { return 0.028154 * pow(ra, 0.4134); }
static double turbulent(double ra) { return 0.0673838 * pow(ra, 1.0 / 3.0); }

static const struct joint {
  double ra;
  double (*below)(double ra), (*above)(double ra);
} joint[] = {{1e4, conduction, transition}, {5e4, transition, turbulent}};

static double at(double ra)
{
  double slope;
  return cavity_nusselt(ra, ln_slender, &slope);
}

/* Outside of the passage each branch alone; in its middle half of each; and at both of its ends value and slope meet. The
 * branches are apart by 0.5 and 0.6 % there, so a step would be fifty times what is let pass. */
static void branches_go_over_into_each_other(void **state)
{
  (void)state;
  for (size_t k = 0; k < 2; k++) {
    const struct joint *j = &joint[k];
    const double low = j->ra * exp(-0.02), high = j->ra * exp(0.02);
    pw_assert_near(at(low * 0.9999), j->below(low * 0.9999), 1e-8, "before", "ISO 15099 5.3.3");
    pw_assert_near(at(high * 1.0001), j->above(high * 1.0001), 1e-8, "after",
                   "ISO 15099 5.3.3");
    pw_assert_near(at(j->ra), 0.5 * (j->below(j->ra) + j->above(j->ra)), 1e-8, "middle",
                   "half of each");
    assert_true(fabs(j->above(j->ra) / j->below(j->ra) - 1.0) > 0.004);
    const double end[] = {low, high};
    for (int e = 0; e < 2; e++) {
      double s0, s1;
      double below = cavity_nusselt(end[e] * (1.0 - 1e-7), ln_slender, &s0);
      double above = cavity_nusselt(end[e] * (1.0 + 1e-7), ln_slender, &s1);
      pw_assert_near(above, below, 1e-4 * (j->above(j->ra) - 1.0), "value", "no step");
      pw_assert_near(s1, s0, 1e-3, "slope", "no kink");
    }
  }
}

/* All through both passages, the central difference of the value. */
static void the_slope_is_that_of_the_value(void **state)
{
  (void)state;
  for (size_t k = 0; k < 2; k++)
    for (double x = -0.0301; x < 0.03; x += 0.0007) {
      const double ra = joint[k].ra * exp(x), d = 1e-5;
      double slope;
      (void)cavity_nusselt(ra, ln_slender, &slope);
      pw_assert_near((at(ra * exp(d)) - at(ra * exp(-d))) / (2.0 * d), slope, 2e-3, "slope",
                     "central difference");
    }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(branches_go_over_into_each_other),
                                     cmocka_unit_test(the_slope_is_that_of_the_value)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
