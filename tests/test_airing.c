/* Opened windows: what of a window opens against geometry and the table, the house's flow against the worked examples and
 * a hand sum, the year against what must hold of any house. Most of the tables is from memory. */
#include "example_fixture.h"

#include <stdio.h>

#include "climate/month.h"
#include "house/airing.h"
#include "house/open_window.h"
#include "panewright/year.h"
#include "study/compare_airing.h"
#include "study/compare_impl.h"

/* ---------------------------------------------------------------- one window */

static pw_lites cut(pw_operator kind, const char *config, double face)
{
  pw_lites l;
  pw_err err = {0};
  if (pw_lites_cut(kind, config, 1.2, 1.0, face, face, face, &l, &err) != PW_OK)
    fail_msg("%s", err.text);
  return l;
}

static pw_openable openable(pw_operator kind, const char *config, double face)
{
  pw_lites l = cut(kind, config, face);
  pw_openable o;
  pw_openable_of(&l, 0, &o);
  return o;
}

/* Without faces the shares of the whole are geometry: a half of two that slide or hang, a third of XOX and XX, two of four
 * thirds... Of hinged ones the trade's share (memory), low and high of the gathered table. */
static void what_opens_is_geometry(void **state)
{
  static const struct {
    pw_operator kind;
    const char *config;
    double low, high; /* of 1.2 m2 */
  } row[] = {{PW_FIXED, "", 0.0, 0.0},        {PW_SLIDER, "XO", 0.5, 0.5},
             {PW_SLIDER, "XX", 0.5, 0.5},     {PW_SLIDER, "XOX", 1.0 / 3.0, 1.0 / 3.0},
             {PW_SLIDER, "XOOX", 0.25, 0.5},  {PW_SINGLE_HUNG, "", 0.5, 0.5},
             {PW_DOUBLE_HUNG, "", 0.5, 0.5},  {PW_FLANKER, "", 0.5, 0.5},
             {PW_SLIDING_DOOR, "", 0.5, 0.5}, {PW_CASEMENT, "", 0.80, 1.00},
             {PW_AWNING, "", 0.30, 0.75},     {PW_HOPPER, "", 0.15, 0.45},
             {PW_JALOUSIE, "", 0.60, 0.85}};
  (void)state;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    double share = openable(row[i].kind, row[i].config, 1e-9).area / 1.2;
    if (!(share >= row[i].low - 1e-6 && share <= row[i].high + 1e-6))
      fail_msg("%s %s: %g, want %g to %g", pw_operator_name(row[i].kind), row[i].config, share,
               row[i].low, row[i].high);
  }
  /* Gathered table: 0.47 (0.42 to 0.50) of the clear frame opening, half less the meeting rail: by a slider with a
   * rail of 40 mm within a frame of no width. */
  pw_lites l;
  pw_openable o;
  assert_int_equal(pw_lites_cut(PW_SLIDER, "XO", 1.2, 1.0, 1e-9, 1e-9, 0.04, &l, NULL), PW_OK);
  pw_openable_of(&l, 0, &o);
  assert_true(o.area / 1.2 >= 0.42 && o.area / 1.2 <= 0.50);
  pw_openable_of(&l, 1, &o); /* painted shut */
  assert_true(o.area == 0.0);
  assert_true(openable(PW_SLIDER, "XO", 0.08).area < openable(PW_SLIDER, "XO", 0.04).area);
}

/* ---------------------------------------------------------------- a house */

/* reference/air/worked.csv 4: A 0.9, H 1.2, v 3, dT 8 gives 0.103206 m3/s. */
static void on_one_wall_it_is_the_worked_example(void **state)
{
  const pw_airing_hole hole[] = {{170.0, 0.6, 1.2}, {200.0, 0.3, 1.2}};
  pw_airing_flow k;
  (void)state;
  pw_airing_flow_of(hole, 2, 1.0, 1.0, 0.0, &k);
  assert_false(k.cross);
  pw_assert_near(sqrt(k.wind * 9.0 + k.stack * 8.0 + k.still), 0.103206, 1e-6, "flow",
                 "worked.csv 4");
  pw_airing_flow_of(hole, 2, 0.2, 1.5, 0.0, &k); /* linear in the share and in the scatter */
  pw_assert_near(sqrt(k.wind * 9.0 + k.stack * 8.0 + k.still), 0.3 * 0.103206, 1e-6, "flow",
                 "0.2 x 1.5");
}

/* By hand: 0.7 m2 north, 0.7 m2 south. A wind from north and from south meets 0.7 in series with 0.7, 0.7/sqrt 2 =
 * 0.49497; from east and west none: mean 0.24749. Site wind of a suburb at 10 m: (27)^0.14 (10/370)^0.22 = 1.5863 x 0.45190
 * = 0.71686. At 3 m/s: 0.67 x 0.24749 x 3 x 0.71686 x sqrt 0.3 = 0.19532; stack at 4 K, H 1.2: 0.7 sqrt(0.0168) = 0.09073;
 * root of squares 0.21536. */
static void on_two_walls_it_is_the_hand_sum(void **state)
{
  const pw_airing_hole hole[] = {{0.0, 0.7, 1.2}, {180.0, 0.7, 1.2}};
  pw_airing_flow k;
  (void)state;
  pw_airing_flow_of(hole, 2, 1.0, 1.0, 0.0, &k);
  assert_true(k.cross);
  pw_assert_near(sqrt(k.wind * 9.0 + k.stack * 4.0 + k.still), 0.21536, 3e-5, "flow",
                 "by hand");
}

/* ---------------------------------------------------------------- the year */

static pw_compare *lived(fixture *f, const char *cooling, pw_airing_habit habit,
                         const pw_compare_options *o)
{
  pw_house_facts *h = &f->open.job.house;
  snprintf(h->cooling_kind, sizeof h->cooling_kind, "%s", cooling);
  h->airing = habit;
  return run(f, o);
}

static void back(fixture *f)
{
  as_read(f);
  f->open.job.house.airing = PW_AIRING_BLANK;
  snprintf(f->open.job.house.cooling_kind, sizeof f->open.job.house.cooling_kind, "central");
}

static void a_blank_habit_is_never_with_cooling_and_always_without(void **state)
{
  fixture *f = *state;
  const pw_compare_options o = {.method = PW_YEAR_DETAILED};
  pw_compare *blank = lived(f, "central", PW_AIRING_BLANK, &o),
             *never = lived(f, "central", PW_AIRING_NEVER, &o);
  assert_false(blank->lived.house.airing.hours);
  assert_memory_equal(&blank->lived.existing_set.year, &never->lived.existing_set.year,
                      sizeof never->lived.existing_set.year);
  forget(blank);
  forget(never);
  blank = lived(f, "none", PW_AIRING_BLANK, &o);
  pw_compare *always = lived(f, "none", PW_AIRING_ALWAYS, &o);
  assert_true(blank->lived.house.airing.hours &&
              blank->lived.existing_set.year.hours_open > 500.0);
  assert_memory_equal(&blank->lived.existing_set.year, &always->lived.existing_set.year,
                      sizeof always->lived.existing_set.year);
  forget(blank);
  forget(always);
  back(f);
}

/* More hours allowed never warms a house without cooling, nor asks more of one with it; what leaves closes the balance
 * (residual under 0.1 % of the heat moved). */
static void opening_cools_and_the_balance_closes(void **state)
{
  static const pw_year_method method[] = {PW_YEAR_DETAILED, PW_YEAR_SIMPLE};
  fixture *f = *state;
  for (size_t k = 0; k < 2; k++)
    for (int cools = 0; cools < 2; cools++) {
      const pw_compare_options o = {.method = method[k]};
      double last = 1e9;
      for (int habit = PW_AIRING_NEVER; habit <= PW_AIRING_ALWAYS; habit++) {
        pw_compare *c = lived(f, cools ? "central" : "none", (pw_airing_habit)habit, &o);
        const pw_year_result *y = &c->lived.existing_set.year;
        double here = cools ? y->cooling_kwh : y->hours_warm;
        assert_true(here < last);
        assert_true((habit == PW_AIRING_NEVER) == (y->hours_open == 0.0));
        assert_true((habit == PW_AIRING_NEVER) == (y->airing_kwh == 0.0));
        assert_true(y->airing_kwh >= 0.0 && y->airing_kwh <= y->air_loss_kwh);
        if (k == 0) assert_true(fabs(y->residual_kwh) < 1e-3 * (y->heating_kwh + y->gain_kwh));
        last = here;
        forget(c);
      }
    }
  back(f);
}

/* An insert's frame takes clear opening away: all else the same glass and frame, fewer square metres leave more warm
 * hours. Stuck sashes open nothing at all. */
static void less_opening_is_warmer(void **state)
{
  fixture *f = *state;
  const pw_compare_options o = {.method = PW_YEAR_DETAILED};
  pw_compare *all = lived(f, "none", PW_AIRING_ALWAYS, &o);
  for (size_t p = 0; p < all->n_package; p++)
    assert_true(all->rated.package_set[p].open_area < all->rated.existing_set.open_area);
  for (size_t i = 0; i < OPENINGS; i += 2)
    f->open.job.opening[i].sash_leak = PW_SASH_STUCK;
  pw_compare *some = lived(f, "none", PW_AIRING_ALWAYS, &o);
  assert_true(some->rated.existing_set.open_area < all->rated.existing_set.open_area);
  assert_true(some->lived.existing_set.year.hours_warm >
              all->lived.existing_set.year.hours_warm);
  for (size_t p = 0; p < all->n_package; p++) /* the inserts open all the same */
    same(some->rated.package_set[p].open_area, all->rated.package_set[p].open_area, "openable");
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].sash_leak = PW_SASH_STUCK;
  pw_compare *none = lived(f, "none", PW_AIRING_ALWAYS, &o),
             *never = lived(f, "none", PW_AIRING_NEVER, &o);
  assert_true(none->rated.existing_set.open_area == 0.0 &&
              none->lived.existing_set.year.hours_open == 0.0);
  same(none->lived.existing_set.year.hours_warm, never->lived.existing_set.year.hours_warm,
       "shut");
  forget(all);
  forget(some);
  forget(none);
  forget(never);
  back(f);
}

/* In a house that is cooled, people who open little still open before the cooling runs: less cooling than with windows
 * that stay shut, more than by the middle habit. 70 F and the most of over_heat, 4 K, is 25.1 C, over the set point of
 * 77 F, 25.0 C: the rule cools rooms to the set point then. */
static void little_airing_in_a_cooled_house_is_some(void **state)
{
  fixture *f = *state;
  const pw_compare_options o = {.method = PW_YEAR_DETAILED};
  pw_compare *never = lived(f, "central", PW_AIRING_NEVER, &o),
             *c = lived(f, "central", PW_AIRING_ALWAYS, &o);
  pw_compare_airing span;
  assert_true(f->open.job.house.heat_set_c.value + 4.0 > f->open.job.house.cool_set_c.value);
  assert_int_equal(pw_compare_airing_of(c, f->open.weather, &o, NULL, &span, NULL), PW_OK);
  assert_true(span.told);
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_airing_end *end = s < 0 ? span.existing : span.package[s];
    const pw_year_result *shut = &pw_compare_set_of(never, s).lived->year,
                         *middle = &pw_compare_set_of(c, s).lived->year;
    assert_true(end[PW_AIRING_LITTLE].cooling_kwh < shut->cooling_kwh);
    assert_true(end[PW_AIRING_LITTLE].cooling_kwh > middle->cooling_kwh);
    assert_true(end[PW_AIRING_MUCH].cooling_kwh < middle->cooling_kwh);
  }
  forget(never);
  forget(c);
  back(f);
}

/* Rows turned round, a row of two written as two rows of one: nothing changes; people who open little and much lie
 * either side. */
static void order_and_repetition_change_nothing(void **state)
{
  fixture *f = *state;
  const pw_compare_options o = {.method = PW_YEAR_DETAILED};
  pw_compare *c = lived(f, "none", PW_AIRING_ALWAYS, &o);
  pw_compare_airing span;
  assert_int_equal(pw_compare_airing_of(c, f->open.weather, &o, NULL, &span, NULL), PW_OK);
  assert_true(span.told);
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_airing_end *end = s < 0 ? span.existing : span.package[s];
    double middle = pw_compare_set_of(c, s).lived->year.hours_warm;
    assert_true(end[PW_AIRING_MUCH].hours_warm < middle &&
                middle < end[PW_AIRING_LITTLE].hours_warm);
  }
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i] = f->as_read[OPENINGS - 1 - i];
  pw_compare *turned = lived(f, "none", PW_AIRING_ALWAYS, &o);
  pw_assert_near(turned->lived.existing_set.year.hours_warm,
                 c->lived.existing_set.year.hours_warm, 1.0, "warm hours",
                 "turned"); /* an hour may lie on the edge */
  pw_assert_near(turned->lived.existing_set.year.airing_kwh,
                 c->lived.existing_set.year.airing_kwh, 0.5, "heat out", "turned");
  same(turned->rated.existing_set.open_area, c->rated.existing_set.open_area, "openable");
  forget(turned);
  as_read(f);
  pw_opening *h1 = &f->open.job.opening[H1];
  assert_true(h1->quantity == 2 && f->open.job.n_opening == OPENINGS);
  pw_opening *more = malloc((OPENINGS + 1) * sizeof *more), *kept = f->open.job.opening;
  assert_non_null(more);
  h1->quantity = 1;
  memcpy(more, kept, OPENINGS * sizeof *more);
  more[OPENINGS] = *h1;
  snprintf(more[OPENINGS].tag, sizeof more[OPENINGS].tag, "H9");
  f->open.job.opening = more;
  f->open.job.n_opening = OPENINGS + 1;
  pw_compare *apart = lived(f, "none", PW_AIRING_ALWAYS, &o);
  pw_assert_near(apart->lived.existing_set.year.hours_warm,
                 c->lived.existing_set.year.hours_warm, 1.0, "warm hours", "apart");
  same(apart->rated.existing_set.open_area, c->rated.existing_set.open_area, "openable");
  forget(apart);
  forget(c);
  f->open.job.opening = kept;
  f->open.job.n_opening = OPENINGS;
  free(more);
  back(f);
}

/* The air of a draw: nothing added is the comparison's own rate and hours; more shelter blows less through the same door
 * reading, less shelter more; hours keep the mean 1. */
static void shelter_moves_the_rate_by_a_door(void **state)
{
  fixture *f = *state;
  pw_house_facts *h = &f->open.job.house;
  const pw_given stated = h->air_changes;
  static float hour[PW_HOURS];
  h->air_changes = (pw_given){0};
  h->cfm50.value = 1.0;
  h->infiltration = PW_INFILTRATION_SHERMAN_GRIMSRUD;
  pw_compare *c = run(f, &quick);
  assert_true(pw_compare_air_drawn(&c->job->house));
  same(pw_compare_air_at(c, f->open.weather, 0.0, 0.0, 0.0, hour), 1.0, "as it is");
  double mean = 0.0;
  for (int i = 0; i < PW_HOURS; i++) {
    pw_assert_near((double)hour[i], (double)c->lived.air_shape[i], 1e-5, "hour", "as it is");
    mean += (double)hour[i] / PW_HOURS;
  }
  pw_assert_near(mean, 1.0, 1e-6, "mean", "1");
  double last = INFINITY;
  for (double shield = -1.5; shield <= 1.5; shield += 0.25) { /* class 5 is very heavy */
    double here = pw_compare_air_at(c, f->open.weather, shield, 0.0, 0.0, hour);
    assert_true(here < last);
    last = here;
  }
  forget(c);
  h->air_changes = stated;
  h->cfm50 = (pw_given){0};
  h->infiltration = PW_INFILTRATION_CONSTANT;
  c = run(f, &quick);
  assert_false(pw_compare_air_drawn(&c->job->house));
  forget(c);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_opens_is_geometry),
      cmocka_unit_test(on_one_wall_it_is_the_worked_example),
      cmocka_unit_test(on_two_walls_it_is_the_hand_sum),
      cmocka_unit_test(a_blank_habit_is_never_with_cooling_and_always_without),
      cmocka_unit_test(opening_cools_and_the_balance_closes),
      cmocka_unit_test(less_opening_is_warmer),
      cmocka_unit_test(little_airing_in_a_cooled_house_is_some),
      cmocka_unit_test(order_and_repetition_change_nothing),
      cmocka_unit_test(shelter_moves_the_rate_by_a_door),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
