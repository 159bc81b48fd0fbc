/* Ranges of the example comparison, by the quick year where the year itself is not the matter. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "job/climate_of_job.h"
#include "job/survey.h"
#include "study/range.h"
#include "study/range_impl.h"

typedef struct fixture {
  pw_job job;
  pw_weather weather;
  pw_compare compare;
  pw_range full, reduced;
} fixture;

enum { DRAWS = 256 };
static const pw_range_options few = {.n_draw = DRAWS, .seed = 3, .n_thread = 2};

static pw_range range_of(const fixture *f, pw_range_options o)
{
  pw_range r;
  pw_err err = {0};
  if (pw_range_of(&f->compare, &f->weather, PW_YEAR_SIMPLE, &o, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  return r;
}

static int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_err err = {0};
  pw_message said[PW_CLIMATE_SAYS];
  pw_compare_options quick = {.method = PW_YEAR_SIMPLE};
  if (!f || pw_job_read("examples/harrow_bend", &f->job, NULL, &err) != PW_OK ||
      pw_job_climate(&f->job.house, "examples/harrow_bend", &f->weather, said, &err) != PW_OK ||
      pw_compare_run(&f->job, &f->weather, &quick, NULL, &f->compare, &err) != PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  pw_range_options o = few;
  o.method = PW_RANGE_FULL;
  f->full = range_of(f, o);
  o.method = PW_RANGE_REDUCED;
  f->reduced = range_of(f, o);
  *state = f;
  return 0;
}

static int tear_down(void **state)
{
  fixture *f = *state;
  pw_compare_free(&f->compare);
  pw_job_free(&f->job);
  free(f);
  return 0;
}

/* Years that the forms take: the films in all pairs, each of the other forms but the usual one. */
static size_t form_years(void)
{
  size_t n[PW_FORM_KINDS];
  for (int k = 0; k < PW_FORM_KINDS; k++) {
    pw_spread s;
    pw_spread_of_forms((pw_form_kind)k, &s);
    n[k] = (size_t)s.high + 1;
  }
  return n[PW_FORM_FILM_OUT] * n[PW_FORM_FILM_IN] + n[PW_FORM_SKY_LIGHT] - 1 +
         n[PW_FORM_SKY_COLD] - 1 + n[PW_FORM_GROUND] - 1;
}

/* Other method: a house year for every draw. The reduced bands must lie within a tenth of the band
 * of the full ones, which is the promise that makes them the default. */
static void the_reduced_year_meets_the_full_one(void **state)
{
  const fixture *f = *state;
  assert_int_equal(f->full.reduced, 0);
  assert_int_equal(f->reduced.reduced, 1);
  assert_int_equal(f->full.n_year, (form_years() + DRAWS) * 5);
  /* the surface of the first years misses little enough; asked for less, it takes more */
  assert_true(f->reduced.error_of_band < 0.05);
  assert_int_equal(f->reduced.n_year, (form_years() + PW_RANGE_FIT_FIRST) * 5);
  for (size_t p = 0; p < f->full.n_package; p++) {
    const pw_band *a = &f->full.package[p].saving_cost, *b = &f->reduced.package[p].saving_cost;
    double tenth = 0.1 * (a->p90 - a->p10);
    print_message("%s: full %.1f %.1f %.1f, reduced %.1f %.1f %.1f, left-out error %.2f\n",
                  f->compare.rated.package_set[p].name, a->p10, a->p50, a->p90, b->p10, b->p50,
                  b->p90, f->reduced.package[p].surface_error);
    pw_assert_near(b->p10, a->p10, tenth, "p10", "full run");
    pw_assert_near(b->p50, a->p50, tenth, "p50", "full run");
    pw_assert_near(b->p90, a->p90, tenth, "p90", "full run");
    assert_true(f->reduced.package[p].surface_error < tenth);
  }
}

static void bands_are_in_order_and_hold_the_nominal(void **state)
{
  const fixture *f = *state;
  const pw_band *now = &f->full.existing.cost_year, *before = &f->full.bill_year.before_cost;
  double bill = f->compare.billed.existing_set.bill.cost_year;
  assert_true(before->p10 < bill && bill < before->p90);
  assert_true(f->full.bill_year.used && now->p90 - now->p10 < before->p90 - before->p10);
  /* The bill given is above the computed one; the typical lies from the one to the other. */
  double given = f->job.house.bill_year.value;
  assert_true(now->p50 > 0.95 * fmin(bill, given) && now->p50 < 1.02 * fmax(bill, given));
  for (size_t p = 0; p < f->full.n_package; p++) {
    const pw_range_set *s = &f->full.package[p];
    const pw_compare_set nominal = pw_compare_set_of(&f->compare, (int)p);
    const struct {
      const pw_band *band;
      double value;
    } row[] = {{&s->saving_cost, nominal.billed->saving.cost_year},
               {&s->saving_need_kwh, nominal.billed->saving.need_kwh},
               {&s->payback, nominal.billed->worth.simple_payback},
               {&s->u, nominal.rated->u},
               {&s->shgc, nominal.rated->shgc}};
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
      assert_true(row[k].band->p10 < row[k].band->p50 && row[k].band->p50 < row[k].band->p90);
      assert_true(row[k].value > row[k].band->p10 && row[k].value < row[k].band->p90);
    }
    assert_true(s->saving_cost.p90 < f->job.house.bill_year.value);
    assert_true(s->chance_positive > 0.5 && s->chance_positive <= 1.0);
  }
}

/* By hand, METHODS section 7 with one bill: S = (0.05^2 + 0.08^2) 110^2, 10 off: exp(-0.5 (10 / (0.0943398 x 110))^2) =
 * exp(-0.464295) = 0.628578. */
static void a_bill_of_a_year_weighs_as_one_bill(void **state)
{
  const double cost[] = {110.0, 100.0};
  double weight[2];
  pw_range_conditioned what = {.given = 0};
  (void)state;
  assert_int_equal(range_bill_weights(cost, 1, 2, 110.0, weight, &what, NULL), PW_OK);
  pw_assert_near(weight[0], 1.0, 1e-12, "the nearest", "by hand");
  pw_assert_near(weight[1], 0.628578, 1e-6, "10 off", "by hand");
}

/* Property: a bill above the computed one draws the house's cost and the saving upward, one below
 * downward; nothing is cut, so the dearest draw is there with either. Before, a bill above lowered
 * the typical saving by cutting the upper draws alone. */
static void a_bill_draws_the_typical_toward_it(void **state)
{
  fixture *f = *state;
  double given = f->job.house.bill_year.value,
         computed = f->compare.billed.existing_set.bill.cost_year;
  pw_range_options o = few;
  o.method = PW_RANGE_REDUCED;
  f->job.house.bill_year.value = 0.0;
  pw_range none = range_of(f, o);
  f->job.house.bill_year.value = 1.15 * computed;
  pw_range above = range_of(f, o);
  f->job.house.bill_year.value = 0.85 * computed;
  pw_range below = range_of(f, o);
  f->job.house.bill_year.value = 0.3 * computed;
  pw_range far = range_of(f, o);
  f->job.house.bill_year.value = given;
  assert_true(!far.bill_year.used && far.bill_year.condition.refused != PW_CONDITION_ACCEPTED);
  assert_memory_equal(&far.existing.cost_year, &none.existing.cost_year, sizeof(pw_band));
  assert_true(none.n_worth == (double)DRAWS && far.n_worth == (double)DRAWS &&
              !none.bill_year.given);
  assert_true(above.n_worth > 20.0 && above.n_worth < (double)DRAWS);
  assert_true(below.n_worth > 20.0 && below.n_worth < (double)DRAWS);
  assert_true(above.existing.cost_year.p50 > none.existing.cost_year.p50);
  assert_true(below.existing.cost_year.p50 < none.existing.cost_year.p50);
  for (size_t p = 0; p < none.n_package; p++) {
    const pw_band *n = &none.package[p].saving_cost;
    print_message("saving: no bill %.0f, above %.0f, below %.0f $\n", n->p50,
                  above.package[p].saving_cost.p50, below.package[p].saving_cost.p50);
    assert_true(above.package[p].saving_cost.p50 > n->p50);
    assert_true(below.package[p].saving_cost.p50 < n->p50);
  }
}

/* Property: which opening is listed first changes no spread. Before, the sun's was the first's. */
static void the_first_opening_sets_no_spread(void **state)
{
  fixture *f = *state;
  pw_job job;
  pw_compare turned;
  pw_err err = {0};
  pw_compare_options quick = {.method = PW_YEAR_SIMPLE};
  pw_range_input before[PW_RANGE_INPUTS_MAX], after[PW_RANGE_INPUTS_MAX];
  size_t n = 0, m = 0;
  assert_int_equal(pw_job_read("examples/harrow_bend", &job, NULL, &err), PW_OK);
  for (size_t i = 0, k = job.n_opening - 1; i < k; i++, k--) {
    pw_opening swap = job.opening[i];
    job.opening[i] = job.opening[k];
    job.opening[k] = swap;
  }
  assert_int_equal(pw_compare_run(&job, &f->weather, &quick, NULL, &turned, &err), PW_OK);
  assert_int_equal(pw_range_list(&f->compare, &f->weather, before, &n, &err), PW_OK);
  assert_int_equal(pw_range_list(&turned, &f->weather, after, &m, &err), PW_OK);
  assert_int_equal(n, m);
  for (size_t i = 0; i < n; i++) {
    pw_assert_near(after[i].spread.low, before[i].spread.low, 1e-12, before[i].name, "turned");
    pw_assert_near(after[i].spread.high, before[i].spread.high, 1e-12, before[i].name,
                   "turned");
  }
  pw_compare_free(&turned);
  pw_job_free(&job);
}

/* Property: the same draws on both sides. If existing and package were drawn apart, the variance of
 * the difference would be the sum of the two. */
static void shared_draws_make_the_saving_surer(void **state)
{
  const fixture *f = *state;
  for (size_t p = 0; p < f->full.n_package; p++) {
    double apart =
        pow(f->full.existing.cost_year.sd, 2) + pow(f->full.package[p].cost_year.sd, 2);
    double shared = pow(f->full.package[p].saving_cost.sd, 2);
    print_message("variance of the saving: %.3f of that without sharing\n", shared / apart);
    assert_true(shared < 0.25 * apart);
  }
}

/* Two models of one house share its facts: what is left is what models disagree on about a change of windows, and the
 * forms named. Where none is, the heating saved has the published spread alone, in closed form. */
static void two_models_of_one_house_share_its_facts(void **state)
{
  fixture *f = *state;
  const pw_compare *c = &f->compare;
  const pw_house_facts before = f->job.house;
  pw_range_options o = few;
  pw_spread effect;
  o.method = PW_RANGE_REDUCED;
  o.like = 1U << PW_FORM_KINDS;       /* no form */
  f->job.house.bill_year.value = 0.0; /* weighs no draw */
  pw_range r = range_of(f, o);
  o.like = 1U << PW_FORM_FILM_OUT;
  pw_range film = range_of(f, o);
  f->job.house = before;
  assert_int_equal(pw_spread_of_effect(0, &effect, NULL), PW_OK);
  for (size_t p = 0; p < r.n_package; p++) {
    double nominal = c->billed.existing_set.bill.heating_fuel_kwh -
                     c->billed.package_set[p].bill.heating_fuel_kwh;
    const pw_band *b = &r.package[p].saving_heating_fuel_kwh;
    pw_assert_near(b->p10 / nominal, pw_spread_at(&effect, 0.1), 0.01, "p10", "Standard 140");
    pw_assert_near(b->p90 / nominal, pw_spread_at(&effect, 0.9), 0.01, "p90", "Standard 140");
    pw_assert_near(r.package[p].u.p10, r.package[p].u.p90, 1e-9, "U", "a fact");
    assert_true(f->reduced.package[p].u.p90 > r.package[p].u.p90);
    const pw_band *more = &film.package[p].saving_heating_fuel_kwh;
    assert_true(more->p90 - more->p10 > b->p90 - b->p10);
  }
  for (size_t k = 0; k < r.n_input; k++) {
    const pw_range_input *in = &film.input[k];
    int drawn = strstr(in->name, "computed") != NULL || strstr(in->name, "film outdoors");
    assert_int_equal(in->spread.shape != PW_SHAPE_FIXED, drawn);
  }
}

/* The reduced year is the default only while it misses little; else every draw gets its year. */
static void a_poor_surface_gives_way_to_the_full_run(void **state)
{
  const fixture *f = *state;
  pw_range_options o = few;
  pw_range r = range_of(f, o);
  assert_int_equal(r.reduced, 1);
  o.error_limit = 1e-9;
  r = range_of(f, o);
  assert_int_equal(r.reduced, 0);
  assert_int_equal(r.n_year, (form_years() + DRAWS) * 5); /* none is lived twice */
  assert_memory_equal(&r.package[0].saving_cost, &f->full.package[0].saving_cost,
                      sizeof r.package[0].saving_cost);
  o.method = PW_RANGE_REDUCED;
  r = range_of(f, o);
  assert_int_equal(r.reduced, 1);
  assert_int_equal(r.n_year, (form_years() + PW_RANGE_FIT_RUNS) * 5);
}

static int stop(void *context, size_t done, size_t all)
{
  (void)context, (void)done, (void)all;
  return 1;
}

static void progress_stops_a_range(void **state)
{
  const fixture *f = *state;
  pw_range_options o = few;
  o.progress = stop;
  pw_range r = range_of(f, o);
  assert_true(r.stopped);
}

/* A tariff that is dear in summer: the typical saving must stay near that of the comparison, which
 * knows the hours. One mean price for heating and cooling would miss it by a fifth. */
static void dear_hours_stay_with_the_need_that_meets_them(void **state)
{
  fixture *f = *state;
  pw_tariff t = {.kind = PW_TARIFF_TIME, .n_period = 2};
  t.period[0] = (pw_period){.price = 0.10};
  t.period[1] = (pw_period){.months = 0xFu << 5, .price = 0.60};
  const pw_tariff *tariff[PW_FUEL_COUNT] = {[PW_FUEL_ELECTRICITY] = &t};
  pw_house_facts before = f->job.house;
  f->job.house.heating_fuel = PW_FUEL_ELECTRICITY;
  strcpy(f->job.house.heating_kind, "heat_pump");
  f->job.house.heating_efficiency.value = 2.4;
  f->job.house.bill_year.value = 0.0;
  pw_compare_options quick = {.method = PW_YEAR_SIMPLE, .tariff = tariff};
  pw_compare timed, kept = f->compare;
  assert_int_equal(pw_compare_run(&f->job, &f->weather, &quick, NULL, &timed, NULL), PW_OK);
  f->compare = timed;
  pw_range r = range_of(f, few);
  f->compare = kept;
  for (size_t p = 0; p < r.n_package; p++)
    pw_assert_near(r.package[p].saving_cost.p50 / timed.billed.package_set[p].saving.cost_year,
                   1.0, 0.1, "typical over nominal", "the comparison's own hours");
  pw_compare_free(&timed);
  f->job.house = before;
}

static void threads_and_seed(void **state)
{
  const fixture *f = *state;
  pw_range_options o = few;
  o.method = PW_RANGE_REDUCED;
  o.n_thread = 1;
  pw_range one = range_of(f, o);
  o.n_thread = 3;
  pw_range three = range_of(f, o);
  for (size_t p = 0; p < one.n_package; p++)
    assert_memory_equal(&one.package[p].saving_cost, &three.package[p].saving_cost,
                        sizeof one.package[p].saving_cost);
  assert_memory_equal(one.package[0].sensitivity, three.package[0].sensitivity,
                      one.n_input * sizeof *one.package[0].sensitivity);
  o.seed = 4;
  pw_range other = range_of(f, o);
  assert_true(other.package[0].saving_cost.p50 != one.package[0].saving_cost.p50);
}

/* The shares of what each input does alone sum to at most all of it; none does more alone than with
 * the others; an input that is fixed does nothing. Sampling error as seen on published functions. */
static void sensitivities_are_shares(void **state)
{
  const fixture *f = *state;
  for (size_t p = 0; p < f->reduced.n_package; p++) {
    const pw_range_set *s = &f->reduced.package[p];
    double sum = 0.0, last = INFINITY;
    for (size_t k = 0; k < f->reduced.n_input; k++) {
      const pw_sensitivity *x = &s->sensitivity[s->rank[k]];
      assert_true(x->total <= last);
      last = x->total;
      sum += x->first_order;
      assert_true(x->first_order < x->total + 0.03);
    }
    assert_true(sum > 0.6 && sum < 1.1);
    /* what enters the worth alone moves no year's saving; all else that is drawn does */
    for (size_t k = 0; k < f->reduced.n_input; k++) {
      const pw_range_input *in = &f->reduced.input[k];
      const double total = s->sensitivity[k].total;
      if (in->spread.shape == PW_SHAPE_FIXED || in->enters == PW_ENTERS_WORTH)
        assert_true(fabs(total) < 1e-20);
      else
        assert_true(total > 1e-9);
    }
  }
}

static void a_range_in_the_job_replaces_the_default(void **state)
{
  fixture *f = *state;
  pw_range_input input[PW_RANGE_INPUTS_MAX];
  size_t n = 0, found = 0;
  assert_int_equal(pw_range_list(&f->compare, &f->weather, input, &n, NULL), PW_OK);
  for (size_t i = 0; i < n; i++)
    if (strcmp(input[i].name, "efficiency of the heating") == 0) {
      /* examples/harrow_bend/job.csv: 80 % AFUE +- 4 */
      pw_assert_near(input[i].low, 0.76, 1e-9, "low", "job.csv");
      pw_assert_near(input[i].high, 0.84, 1e-9, "high", "job.csv");
      assert_int_equal(input[i].spread.shape, PW_SHAPE_UNIFORM);
      found = 1;
    }
  assert_true(found);
  pw_err err;
  f->compare.billed.rates.heating_duct.spread = -0.1;
  assert_int_equal(pw_range_list(&f->compare, &f->weather, input, &n, &err), PW_E_DOMAIN);
  f->compare.billed.rates.heating_duct.spread = 0.08;
}

/* By hand: what each draw buys with the windows there now less what it buys with a package, summed over the months, has
 * the band that a promise of a normal year is made of; nobody buys less than nothing. */
static void what_is_bought_is_kept_draw_by_draw(void **state)
{
  fixture *f = *state;
  const double bill = f->job.house.bill_year.value;
  enum { MONTHS = 24, SETS = 1 + PW_COMPARE_PACKAGES_MAX };
  static double kwh[DRAWS * SETS * MONTHS], saved[3][DRAWS], sort[2 * DRAWS];
  pw_range_options o = few;
  o.method = PW_RANGE_REDUCED;
  o.normal_kwh = kwh;
  f->job.house.bill_year.value = 0.0; /* which would weigh the draws */
  const pw_range r = range_of(f, o);
  f->job.house.bill_year.value = bill;
  const size_t sets = 1 + r.n_package;
  for (size_t p = 0; p < r.n_package; p++) {
    for (size_t i = 0; i < DRAWS; i++) {
      const double *now = kwh + i * sets * MONTHS, *then = now + (p + 1) * MONTHS;
      double sum[2] = {0.0, 0.0};
      for (size_t m = 0; m < MONTHS; m++) {
        assert_true(now[m] >= 0.0 && then[m] >= 0.0);
        sum[m >= 12] += now[m] - then[m];
      }
      saved[0][i] = sum[0];
      saved[1][i] = sum[1];
      saved[2][i] = sum[0] + sum[1];
    }
    const pw_band *want[3] = {&r.package[p].saving_heating_fuel_kwh,
                              &r.package[p].saving_cooling_kwh,
                              &r.package[p].saving_normal_kwh};
    for (int k = 0; k < 3; k++) {
      pw_band b;
      assert_int_equal(pw_band_of(saved[k], 1, DRAWS, NULL, sort, &b, NULL), PW_OK);
      pw_assert_near(b.p10, want[k]->p10, 1e-6, "low", "the sum of months");
      pw_assert_near(b.p50, want[k]->p50, 1e-6, "typical", "the sum of months");
      pw_assert_near(b.p90, want[k]->p90, 1e-6, "high", "the sum of months");
    }
  }
}

static void impossible_draws_are_refused(void **state)
{
  const fixture *f = *state;
  pw_range r;
  pw_err err;
  pw_range_options o = few;
  o.n_draw = 7;
  assert_int_equal(pw_range_of(&f->compare, &f->weather, PW_YEAR_SIMPLE, &o, &r, &err),
                   PW_E_SHAPE);
  assert_string_equal(err.field, "draws");
  o = few;
  o.n_thread = 1000;
  assert_int_equal(pw_range_of(&f->compare, &f->weather, PW_YEAR_SIMPLE, &o, &r, &err),
                   PW_E_SHAPE);
  assert_string_equal(err.field, "threads");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_reduced_year_meets_the_full_one),
      cmocka_unit_test(bands_are_in_order_and_hold_the_nominal),
      cmocka_unit_test(a_bill_of_a_year_weighs_as_one_bill),
      cmocka_unit_test(a_bill_draws_the_typical_toward_it),
      cmocka_unit_test(the_first_opening_sets_no_spread),
      cmocka_unit_test(shared_draws_make_the_saving_surer),
      cmocka_unit_test(two_models_of_one_house_share_its_facts),
      cmocka_unit_test(a_poor_surface_gives_way_to_the_full_run),
      cmocka_unit_test(progress_stops_a_range),
      cmocka_unit_test(dear_hours_stay_with_the_need_that_meets_them),
      cmocka_unit_test(threads_and_seed),
      cmocka_unit_test(sensitivities_are_shares),
      cmocka_unit_test(a_range_in_the_job_replaces_the_default),
      cmocka_unit_test(what_is_bought_is_kept_draw_by_draw),
      cmocka_unit_test(impossible_draws_are_refused),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
