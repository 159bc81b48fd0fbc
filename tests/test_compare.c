/* The chain as a whole on the example job: same opening, areas that add up, signs, refusals. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "job/climate_of_job.h"
#include "job/survey.h"
#include "out/compare_out.h"
#include "study/compare.h"
#include "study/compare_impl.h"

typedef struct fixture {
  pw_job job;
  pw_weather weather;
  pw_compare detailed, quick;
} fixture;

static int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_err err = {0};
  pw_message said[PW_CLIMATE_SAYS];
  if (!f) return -1;
  if (pw_job_read("examples/harrow_bend", &f->job, NULL, &err) != PW_OK ||
      pw_job_climate(&f->job.house, "examples/harrow_bend", &f->weather, said, &err) != PW_OK ||
      pw_compare_run(&f->job, &f->weather, NULL, NULL, &f->detailed, &err) != PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  pw_compare_options quick = {.method = PW_YEAR_QUICK};
  if (pw_compare_run(&f->job, &f->weather, &quick, NULL, &f->quick, &err) != PW_OK) return -1;
  *state = f;
  return 0;
}

static int tear_down(void **state)
{
  fixture *f = *state;
  pw_compare_free(&f->detailed);
  pw_compare_free(&f->quick);
  pw_job_free(&f->job);
  free(f);
  return 0;
}

static double sum(const pw_parts *p)
{
  return p->center + p->edge + p->frame + p->divider + p->retained;
}

static void both_windows_fill_the_same_opening(void **state)
{
  const pw_compare *c = &((fixture *)*state)->detailed;
  for (size_t i = 0; i < c->n_opening; i++) {
    double area = c->fitted.fit[0][i].opening_area;
    pw_assert_near(sum(&c->rated.existing[i].rating.areas), area, 1e-12 * area,
                   c->job->opening[i].tag, "existing: areas add up to the opening");
    for (size_t p = 0; p < c->n_package; p++) {
      const pw_rating *r = &c->rated.package[p][i].rating;
      pw_assert_near(sum(&r->areas), area, 1e-12 * area, c->job->opening[i].tag,
                     "insert: areas add up to the same opening");
      pw_assert_near(sum(&r->ua), r->u * area, 1e-9, c->job->opening[i].tag,
                     "heat by part adds up");
      assert_true(r->areas.retained > 0.0);
    }
  }
}

/* Means over the house are those of the openings, weighted by area. */
static void house_figures_follow_from_the_openings(void **state)
{
  const pw_compare *c = &((fixture *)*state)->detailed;
  double area = 0.0, ua = 0.0, sun = 0.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    double times = c->job->opening[i].quantity;
    area += times * c->rated.existing[i].rating.area;
    ua += times * c->rated.existing[i].rating.area * c->rated.existing[i].rating.u;
    sun += times * c->rated.existing[i].rating.area * c->rated.existing[i].rating.shgc;
  }
  pw_assert_near(c->rated.existing_set.u, ua / area, 1e-12, "U", "area-weighted mean");
  pw_assert_near(c->rated.existing_set.shgc, sun / area, 1e-12, "SHGC", "area-weighted mean");
}

/* The two methods share nothing but weather, sun and areas. A month-by-month method is coarser: it
 * must agree in sign and, for the existing house, in size within a third (ISO 13790's own comparison
 * of its methods allows differences of that order; from memory). */
/* The window that sweats first is told with its opening: no part of any window sweats in drier air. */
static void the_first_to_sweat_is_found(void **state)
{
  const pw_compare *c = &((fixture *)*state)->detailed;
  for (int p = -1; p < (int)c->n_package; p++) {
    const pw_compare_set set = pw_compare_set_of(c, p);
    const pw_compare_window *w = p < 0 ? c->rated.existing : c->rated.package[p];
    double driest = 2.0;
    size_t where = 0;
    for (size_t i = 0; i < c->n_opening; i++) {
      const pw_sweat *s = &w[i].sweat;
      double rh = fmin(s->center.rh, fmin(s->edge.rh, fmin(s->frame.rh, s->coldest.rh)));
      if (w[i].rating.areas.divider > 0.0) rh = fmin(rh, s->meeting.rh);
      if (w[i].rating.areas.retained > 0.0) rh = fmin(rh, s->retained.rh);
      if (rh < driest) {
        driest = rh;
        where = i;
      }
    }
    pw_assert_near(set.rated->sweat_rh, driest, 1e-12, set.rated->name,
                   "least of the openings");
    assert_int_equal(set.rated->sweat_opening, where);
  }
}

static void the_quick_method_agrees_in_kind(void **state)
{
  const fixture *f = *state;
  const pw_compare *d = &f->detailed, *q = &f->quick;
  pw_assert_near(q->lived.existing_set.year.heating_kwh /
                     d->lived.existing_set.year.heating_kwh,
                 1.0, 0.34, "heating, monthly over hourly", "independent method, ISO 13790");
  for (size_t p = 0; p < d->n_package; p++) {
    assert_true(d->lived.package_set[p].year.cooling_kwh <
                d->lived.existing_set.year.cooling_kwh);
    assert_true(q->lived.package_set[p].year.cooling_kwh <
                q->lived.existing_set.year.cooling_kwh);
  }
}

/* The windows of the code let in what its table says and lose what it says. */
static void code_minimum_windows_carry_the_code(void **state)
{
  const pw_compare *c = &((fixture *)*state)->detailed;
  pw_assert_near(c->rated.minimum_set.u, 0.30 * 5.678263, 1e-5, "U of zone 4",
                 "IECC 2021 Table R402.1.2, criteria.csv (memory; read in part)");
  pw_assert_near(c->rated.minimum_set.shgc, 0.40, 1e-12, "SHGC of zone 4",
                 "IECC 2021 Table R402.1.2, criteria.csv (memory; read in part)");
}

/* IECC Table R301.3(2), from memory: Miami 1, Phoenix 2, Denver 5, Minneapolis 6. */
static void climate_zones_follow_degree_days(void **state)
{
  (void)state;
  assert_int_equal(pw_code_zone(150.0, 9500.0), 1);
  assert_int_equal(pw_code_zone(1000.0, 8500.0), 2);
  assert_int_equal(pw_code_zone(3000.0, 5000.0), 3);
  assert_int_equal(pw_code_zone(2700.0, 3000.0), 3);
  assert_int_equal(pw_code_zone(4800.0, 3900.0), 4);
  assert_int_equal(pw_code_zone(6000.0, 2700.0), 5);
  assert_int_equal(pw_code_zone(7900.0, 2700.0), 6);
  assert_int_equal(pw_code_zone(9800.0, 1900.0), 7);
  assert_int_equal(pw_code_zone(14000.0, 900.0), 8);
}

static void a_saving_never_exceeds_the_bill_given(void **state)
{
  const pw_compare *c = &((fixture *)*state)->detailed;
  for (size_t p = 0; p < c->n_package; p++)
    assert_true(c->billed.package_set[p].saving.cost_year <= c->job->house.bill_year.value);
}

/* 0.3 cfm/ft2 at 75 Pa is 1.524e-3 m3/(s m2) (METHODS.md section 8). Through 19.6 m2, at 4 Pa 0.149
 * of it by the power law, it is 4.4 L/s; the handbook's basic model blows less than that over a year.
 * The saving must not know of it. */
static void joints_are_told_and_claimed_nowhere(void **state)
{
  fixture *f = *state;
  pw_job job = f->job;
  pw_package package[PW_COMPARE_PACKAGES_MAX];
  memcpy(package, job.package, job.n_package * sizeof package[0]);
  package[0].label_air_leakage.value = 1.524e-3;
  job.package = package;
  pw_compare *c = calloc(1, sizeof *c);
  pw_err err;
  assert_non_null(c);
  assert_int_equal(pw_compare_run(&job, &f->weather, NULL, NULL, c, &err), PW_OK);
  const pw_compare_set set = pw_compare_set_of(c, 0);
  double at_4_pa = 0.149 * 1.524e-3 * set.rated->area;
  assert_true(set.lived->joints_known && !c->lived.package_set[1].joints_known);
  assert_true(set.lived->joints.flow_mean > 0.2 * at_4_pa &&
              set.lived->joints.flow_mean < at_4_pa);
  assert_true(set.lived->joints.heat_kwh > 0.0);
  pw_assert_near(set.billed->saving.cost_year,
                 f->detailed.billed.package_set[0].saving.cost_year, 0.0, "saving",
                 "the same job without the label");
  pw_compare_free(c);
  free(c);
}

static void no_openings_or_too_many_packages_are_refused(void **state)
{
  fixture *f = *state;
  pw_compare out;
  pw_err err;
  pw_job job = f->job;
  job.n_opening = 0;
  assert_int_equal(pw_compare_run(&job, &f->weather, NULL, NULL, &out, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "openings");
  job = f->job;
  job.n_package = PW_COMPARE_PACKAGES_MAX + 1;
  assert_int_equal(pw_compare_run(&job, &f->weather, NULL, NULL, &out, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "packages");
}

/* The windows that just meet the code are as large as those of the package that leaves the least glass, of equals (but for a last digit) that
 * whose frames lose least, of these whose frames let in the least sun, of all alike the first; package p has 0.1 (p + 1) m2 of frame in each
 * opening here, by which it is known. The window as a whole has the code's U and SHGC: what its glass has not, its rim has. */
static void the_code_takes_the_size_of_the_least_glass(void **state)
{
  const fixture *f = *state;
  static const struct {
    double glass[3], frame[3], sun[3];
    size_t best;
  } row[] = {
      {{1, 1, 1}, {1, 1, 1}, {1, 1, 1}, 0},     {{1, 0.9, 1}, {1, 1, 1}, {1, 1, 1}, 1},
      {{1, 0.9, 0.8}, {1, 9, 9}, {1, 9, 9}, 2}, {{0.9, 1, 1}, {9, 1, 1}, {9, 1, 1}, 0},
      {{1, 1, 1}, {2, 1, 3}, {1, 9, 1}, 1},     {{1, 1, 1}, {1, 1, 1}, {3, 2, 1}, 2},
      {{1, 1, 1}, {1, 1, 1}, {1, 2, 3}, 0},     {{1, 1 + 1e-14, 1}, {2, 1, 2}, {1, 1, 1}, 1},
      {{1, 0.9, 1}, {1, 1, 1}, {1, 2, 1}, 1},   {{1, 1, 1}, {1, 2, 1}, {2, 1, 1}, 2}};
  pw_compare c = f->quick;
  assert_int_equal(c.n_package, 3);
  pw_compare_window *package = malloc(3 * c.n_opening * sizeof *package);
  pw_house_window *w = malloc(c.n_opening * sizeof *w);
  assert_true(package && w);
  for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
    memcpy(package, f->quick.rated.package[0], 3 * c.n_opening * sizeof *package);
    for (size_t p = 0; p < 3; p++) {
      c.rated.package[p] = package + p * c.n_opening;
      for (size_t i = 0; i < c.n_opening; i++) {
        pw_rating *r = &package[p * c.n_opening + i].rating;
        r->area = 2.0;
        r->glass_area = row[k].glass[p];
        r->ua.frame = row[k].frame[p];
        r->ua.retained = r->areas.retained = r->areas.divider = 0.0;
        r->areas.frame = 0.1 * (double)(p + 1);
        r->shgc_opaque = 0.1 * row[k].sun[p] / (2.0 - row[k].glass[p]);
      }
    }
    assert_int_equal(pw_compare_minimum_find(c.job, &f->weather, &c.rated, NULL), PW_OK);
    assert_int_equal(c.rated.minimum_size, row[k].best);
    assert_int_equal(pw_compare_minimum_windows(c.job, &c.fitted, &c.rated, w), c.n_opening);
    for (size_t i = 0; i < c.n_opening; i++) {
      double glass = row[k].glass[row[k].best];
      pw_assert_near(w[i].area_other, 0.1 * (double)(row[k].best + 1), 1e-12, "size",
                     "by hand");
      assert_ptr_equal(w[i].glazing, &c.rated.minimum_glass);
      pw_assert_near(w[i].ua_other + c.rated.minimum_glass.u_winter * glass,
                     c.rated.minimum.u * 2.0, 1e-9, "U A", "the code's");
      pw_assert_near(fmin(c.rated.minimum_glass.shgc[0] * glass, c.rated.minimum.shgc * 2.0) +
                         w[i].solar_other,
                     c.rated.minimum.shgc * 2.0, 1e-9, "SHGC A", "the code's");
    }
  }
  free(package);
  free(w);
}

/* A stage hangs on those before it alone: made again from theirs it gives what the chain gave; billed at another price of
 * electricity, rated and lived as before, what the whole chain gives at that price. Cooling here runs on electricity at a
 * flat price, so half the price is half its cost. */
static void a_stage_made_again_is_that_of_the_chain(void **state)
{
  fixture *f = *state;
  const pw_compare *c = &f->quick;
  const pw_compare_options quick = {.method = PW_YEAR_QUICK};
  pw_compare *again = calloc(1, sizeof *again), *whole = calloc(1, sizeof *whole);
  pw_job cheap = f->job;
  assert_true(again && whole);
  pw_given *price = &cheap.house.price[PW_FUEL_ELECTRICITY];
  *price = c->billed.rates.price[PW_FUEL_ELECTRICITY];
  price->value *= 0.5;
  assert_int_equal(
      pw_compare_make_rated(&f->job, &c->fitted, &f->weather, &quick, &again->rated, NULL),
      PW_OK);
  assert_int_equal(pw_compare_make_lived(&f->job, &c->fitted, &c->rated, &f->weather, &quick,
                                         NULL, &again->lived, NULL),
                   PW_OK);
  assert_int_equal(pw_compare_make_billed(&cheap, &c->rated, &c->lived, &f->weather, &quick,
                                          NULL, &again->billed, NULL),
                   PW_OK);
  assert_int_equal(pw_compare_run(&cheap, &f->weather, &quick, NULL, whole, NULL), PW_OK);
  for (int s = PW_SET_MINIMUM; s < (int)c->n_package; s++) {
    const pw_compare_set a = pw_compare_set_of(again, s), b = pw_compare_set_of(c, s),
                         w = pw_compare_set_of(whole, s);
    assert_true(a.rated->u == b.rated->u && a.rated->shgc == b.rated->shgc);
    assert_memory_equal(&a.lived->needs, &b.lived->needs, sizeof a.lived->needs);
    assert_true(a.billed->bill.cost_year == w.billed->bill.cost_year);
    assert_true(a.billed->saving.cost_year == w.billed->saving.cost_year);
    assert_true(a.billed->worth.simple_payback == w.billed->worth.simple_payback);
    pw_assert_near(a.billed->bill.cooling_cost, 0.5 * b.billed->bill.cooling_cost, 1e-9,
                   b.rated->name, "half the price");
  }
  pw_compare_free(again);
  pw_compare_free(whole);
  free(again);
  free(whole);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(both_windows_fill_the_same_opening),
      cmocka_unit_test(house_figures_follow_from_the_openings),
      cmocka_unit_test(the_first_to_sweat_is_found),
      cmocka_unit_test(the_quick_method_agrees_in_kind),
      cmocka_unit_test(code_minimum_windows_carry_the_code),
      cmocka_unit_test(the_code_takes_the_size_of_the_least_glass),
      cmocka_unit_test(a_stage_made_again_is_that_of_the_chain),
      cmocka_unit_test(climate_zones_follow_degree_days),
      cmocka_unit_test(a_saving_never_exceeds_the_bill_given),
      cmocka_unit_test(joints_are_told_and_claimed_nowhere),
      cmocka_unit_test(no_openings_or_too_many_packages_are_refused),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
