/* Drapes and blinds: sun left against hand sums from the gathered table (memory), the year against limits that must hold,
 * jobs in any order. */
#include "example_fixture.h"

#include "house/covering.h"

static void near(double got, double want, const char *what)
{
  pw_assert_near(got, want, 1e-9, what, "by hand");
}

static pw_glazing glass(size_t n_pane, double shgc)
{
  pw_glazing g = {.unit.n_pane = n_pane};
  g.shgc[0] = shgc;
  return g;
}

/* By hand. Drapes on one pane, the house's: 1 - 0.85 (0.50 x 0.55 + 0.25 x 0.275) = 0.7078125 in summer, winter 1 - 0.85 (0.45
 * x 0.55 + 0.06875) = 0.7311875. Blinds of the window's own on two panes: 1 - (0.50 x 0.40 + 0.25 x 0.28) = 0.73; under low
 * gain glass half of what they hold back: 0.865. Usual on one pane, 0.6 blinds, 0.2 rollers, 0.2 drapes: closed 0.6 x 0.53 +
 * 0.2 x 0.61 + 0.2 x 0.55 = 0.55, half open 0.6 x 0.34 + 0.2 x 0.305 + 0.2 x 0.275 = 0.32, so 1 - 0.85 (0.50 x 0.55 + 0.25 x
 * 0.32) = 0.69825; 0.6 x 0.05 + 0.2 x 0.10 + 0.2 x 0.12 = 0.074 m2 K/W. */
static void sun_left_is_the_hand_sum(void **state)
{
  pw_covered k;
  pw_glazing one = glass(1, 0.86), two = glass(2, 0.70), low = glass(2, 0.27);
  (void)state;
  pw_covering_of(PW_COVERING_DRAPES, 1, &one, &k);
  near(k.pass[PW_COVERING_SUMMER], 0.7078125, "drapes, summer");
  near(k.pass[PW_COVERING_WINTER], 0.7311875, "drapes, winter");
  near(k.closed[PW_COVERING_NIGHT], 0.85 * 0.60, "closed at night");
  near(k.resistance, 0.12, "resistance");
  pw_covering_of(PW_COVERING_BLINDS, 0, &two, &k);
  near(k.pass[PW_COVERING_SUMMER], 0.73, "blinds, two panes");
  pw_covering_of(PW_COVERING_BLINDS, 0, &low, &k);
  near(k.pass[PW_COVERING_SUMMER], 0.865, "blinds, low gain");
  low.shgc[0] = 0.55; /* half way: three quarters of the effect */
  pw_covering_of(PW_COVERING_BLINDS, 0, &low, &k);
  near(k.pass[PW_COVERING_SUMMER], 1.0 - 0.75 * 0.27, "blinds, half way");
  pw_covering_of(PW_COVERING_USUAL, 1, &one, &k);
  near(k.pass[PW_COVERING_SUMMER], 0.69825, "usual, summer");
  near(k.closed[PW_COVERING_NIGHT], 0.85 * 0.60, "usual, closed at night");
  near(k.resistance, 0.074, "usual, resistance");
  for (int kind = PW_COVERING_BLANK; kind <= PW_COVERING_NONE; kind++) {
    pw_covering_of((pw_covering)kind, 1, &one, &k);
    assert_true(k.pass[0] == 1.0 && k.pass[1] == 1.0 && k.resistance == 0.0);
  }
}

static void all_have(fixture *f, pw_covering kind)
{
  for (size_t i = 0; i < OPENINGS; i++) {
    f->open.job.opening[i].covering = (int)kind;
    f->open.job.opening[i].covering_of_all = 1;
  }
}

/* Covered windows gain less sun and lose less heat; what new glass saves in cooling shrinks, as the older glass is shaded
 * most; none is what is not counted to the byte; the balance still closes. */
static void coverings_shrink_the_saving_in_cooling(void **state)
{
  fixture *f = *state;
  const pw_compare_options o = {.method = PW_YEAR_DETAILED};
  all_have(f, PW_COVERING_BLANK);
  pw_compare *bare = run(f, &o);
  all_have(f, PW_COVERING_NONE);
  pw_compare *none = run(f, &o);
  assert_memory_equal(&bare->lived.existing_set.year, &none->lived.existing_set.year,
                      sizeof bare->lived.existing_set.year);
  assert_false(none->lived.covered);
  for (int kind = PW_COVERING_BLINDS; kind < PW_COVERING_COUNT; kind++) {
    all_have(f, (pw_covering)kind);
    pw_compare *c = run(f, &o);
    assert_true(c->lived.covered);
    for (int s = -1; s < (int)c->n_package; s++) {
      const pw_year_result *x = &(pw_compare_set_of(bare, s)).lived->year,
                           *y = &(pw_compare_set_of(c, s)).lived->year;
      assert_true(y->solar_kwh < x->solar_kwh && y->window_loss_kwh < x->window_loss_kwh);
      assert_true(fabs(y->residual_kwh) < 1e-3 * y->heating_kwh);
      if (s < 0) continue;
      assert_true(c->lived.existing_set.year.cooling_kwh - y->cooling_kwh <
                  bare->lived.existing_set.year.cooling_kwh - x->cooling_kwh);
    }
    forget(c);
  }
  forget(bare);
  forget(none);
  as_read(f);
}

/* A covering of one side alone moves that side alone; the order of rows and twice the same run change nothing. */
static void each_side_has_its_own(void **state)
{
  fixture *f = *state;
  const pw_compare_options o = {.method = PW_YEAR_DETAILED};
  all_have(f, PW_COVERING_NONE);
  pw_compare *bare = run(f, &o);
  f->open.job.opening[D1].covering_of_all = 0;
  f->open.job.opening[D1].covering = PW_COVERING_DRAPES; /* west */
  pw_compare *c = run(f, &o), *again = run(f, &o);
  for (size_t i = 0; i < OPENINGS; i++) {
    double x = bare->lived.existing_set.year.window[i].incident_kwh,
           y = c->lived.existing_set.year.window[i].incident_kwh;
    assert_true(i == D1 ? y < 0.8 * x : y == x);
  }
  alike(c, again);
  forget(again);
  for (size_t i = 0; i < OPENINGS / 2; i++) {
    pw_opening swap = f->open.job.opening[i];
    f->open.job.opening[i] = f->open.job.opening[OPENINGS - 1 - i];
    f->open.job.opening[OPENINGS - 1 - i] = swap;
  }
  again = run(f, &o);
  for (size_t p = 0; p < c->n_package; p++)
    pw_assert_near(again->billed.package_set[p].saving.cost_year,
                   c->billed.package_set[p].saving.cost_year, 1e-6, "saved", "turned");
  forget(again);
  forget(bare);
  forget(c);
  as_read(f);
}

/* Closed day and night, a resistance of 10 m2 K/W behind single glass (U about 5.8 with its films) leaves 1 / (10 + 1/5.8) of 5.8, 0.017 of the heat that the
 * bare glass loses; by radiation as by convection, or far more would pass. Half of the window closed, about half. */
static void a_thick_covering_keeps_nearly_all(void **state)
{
  fixture *f = *state;
  const pw_compare *c = &f->whole;
  const pw_year_options o = {.method = PW_YEAR_DETAILED};
  pw_house_window w[OPENINGS];
  pw_year_result *r = malloc(3 * sizeof *r);
  pw_err err = {0};
  assert_non_null(r);
  assert_int_equal(pw_compare_windows(c->job, &c->fitted, &c->rated, -1, w), OPENINGS);
  for (int k = 0; k < 3; k++) {
    for (size_t i = 0; i < OPENINGS; i++) {
      w[i].ua_other = w[i].area_other = w[i].solar_other = 0.0; /* glass alone */
      w[i].covered =
          (pw_covered){.pass = {1.0, 1.0}, .closed = {0.5 * k, 0.5 * k}, .resistance = 10.0};
    }
    if (pw_year_run(&c->lived.house, f->open.weather, w, OPENINGS, &o, NULL, &r[k], &err) !=
        PW_OK)
      fail_msg("%s", err.text);
  }
  for (size_t i = 0; i < OPENINGS; i++) {
    if (c->job->opening[i].existing_glass.n_pane > 1) continue;
    double bare = r[0].window[i].heat_lost_kwh;
    assert_true(bare > 100.0);
    pw_assert_near(r[2].window[i].heat_lost_kwh / bare, 0.017, 0.02, "closed",
                   "resistances in series");
    pw_assert_near(r[1].window[i].heat_lost_kwh / bare, 0.55, 0.12, "half closed",
                   "half of it");
  }
  free(r);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sun_left_is_the_hand_sum),
      cmocka_unit_test(coverings_shrink_the_saving_in_cooling),
      cmocka_unit_test(each_side_has_its_own),
      cmocka_unit_test(a_thick_covering_keeps_nearly_all),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
