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

/* The indoor film's slopes to the glass and to the air are those of its flow, in still film and in turbulent (4 m of glass in a cold
 * room: Ra above the 1.06e11 of ISO 15099 8.3), warm and cold side first. */
static void the_indoor_film_rises_as_it_says(void **state)
{
  (void)state;
  static const double height[] = {0.3, 1.2, 4.0}, apart[] = {-25.0, -3.0, 6.0, 35.0};
  const pw_mix air = {{1.0}};
  gas_law law;
  int turbulent = 0;
  assert_int_equal(gas_law_set(&air, &law, NULL), PW_OK);
  for (size_t h = 0; h < 3; h++)
    for (size_t k = 0; k < 4; k++) {
      const double glass = 293.15 - apart[k], room = 293.15, d = 1e-3;
      heat_flow at, up, down;
      indoor_film_flow(&law, height[h], 101325.0, glass, room, &at);
      turbulent += at.nusselt > 320.0; /* 0.56 Ra^(1/4) is 319.7 there */
      indoor_film_flow(&law, height[h], 101325.0, glass, room + d, &up);
      indoor_film_flow(&law, height[h], 101325.0, glass, room - d, &down);
      pw_assert_near(at.by_in, (up.q - down.q) / (2.0 * d), 1e-6 * at.by_in, "by the room",
                     "central difference");
      indoor_film_flow(&law, height[h], 101325.0, glass + d, room, &up);
      indoor_film_flow(&law, height[h], 101325.0, glass - d, room, &down);
      pw_assert_near(at.by_out, (down.q - up.q) / (2.0 * d), 1e-6 * at.by_out, "by the glass",
                     "central difference");
    }
  assert_true(turbulent > 0 && turbulent < 12);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(the_indoor_film_rises_as_it_says),
                                     cmocka_unit_test(branches_go_over_into_each_other),
                                     cmocka_unit_test(the_slope_is_that_of_the_value)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
