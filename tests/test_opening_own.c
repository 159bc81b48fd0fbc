/* Packages and glass of an opening's own, rooms that are neither heated nor cooled: each against a hand sum, or the same
 * job told in another way. */
#include "example_fixture.h"

#include <stdio.h>

#include "job/buildup.h"
#include "panewright/opening_package.h"
#include "panewright/rebate.h"

/* ---------------------------------------------------------------- own package, own glass */

static void an_own_package_that_is_the_columns_changes_nothing(void **state)
{
  fixture *f = *state;
  size_t n = f->open.job.n_package;
  f->open.job.n_package = 1;
  pw_compare *plain = run(f, &quick);
  for (size_t i = 0; i < OPENINGS; i += 2)
    f->open.job.opening[i].own_package = 1;
  f->open.job.opening[1].glass = f->open.job.package[0].glass;
  memcpy(f->open.job.opening[1].glass_text, f->open.job.package[0].glass_text, PW_TEXT_MAX);
  pw_compare *own = run(f, &quick);
  assert_int_equal(own->n_glass, 1);
  alike(own, plain);
  forget(own);
  forget(plain);
  f->open.job.n_package = n;
  as_read(f);
}

/* Windows of one package in every column are that column: all columns alike, its price theirs. */
static void one_package_for_all_makes_the_columns_alike(void **state)
{
  fixture *f = *state;
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].own_package = 2;
  pw_compare *c = run(f, &quick);
  const pw_compare_set *better = &f->whole.package_set[1];
  for (size_t p = 0; p < c->n_package; p++) {
    same(c->package_set[p].u, better->u, "U");
    same(c->package_set[p].bill.cost_year, better->bill.cost_year, "bill");
    same(c->package_set[p].price, better->price, "price");
  }
  forget(c);
  as_read(f);
}

/* Two packages on one house: price and heat are the hand sum of both. */
static void own_packages_are_summed_by_hand(void **state)
{
  fixture *f = *state;
  f->open.job.opening[T1].own_package = 3;
  f->open.job.opening[H1].own_package = 3;
  pw_compare *c = run(f, &quick);
  for (size_t p = 0; p < c->n_package; p++) {
    double price = 0.0, ua = 0.0, area = 0.0;
    for (size_t i = 0; i < OPENINGS; i++) {
      size_t q = i == T1 || i == H1 ? 2 : p;
      const pw_package *k = &f->open.job.package[q];
      const pw_rating *r = pw_compare_rating(&f->whole, (int)q, i);
      double times = f->as_read[i].quantity;
      price += times * (k->price_per_opening.value + k->price_per_area.value * r->area);
      ua += times * r->u * r->area;
      area += times * r->area;
    }
    same(c->package_set[p].price, price, "price by hand");
    same(c->package_set[p].u, ua / area, "U by hand");
  }
  forget(c);
  as_read(f);
}

/* A glass of its own is the package with that glass, and has none of its label. */
static void own_glass_is_the_package_with_that_glass(void **state)
{
  fixture *f = *state;
  static const char text[] = "3mm clear / 12.7mm air / 3mm clear";
  pw_opening *o = &f->open.job.opening[K1];
  pw_package better = f->open.job.package[1], got;
  pw_err err = {0};
  assert_int_equal(pw_buildup_parse(text, &o->glass, &err), PW_OK);
  snprintf(o->glass_text, sizeof o->glass_text, "%s", text);
  f->open.job.package[1].label_u.value = 1.6;
  pw_opening_package(&f->open.job, 1, o, &got);
  assert_true(isnan(got.label_u.value));
  assert_string_equal(got.frame_line, better.frame_line);
  assert_true(got.price_per_area.value == better.price_per_area.value);
  pw_opening_package(&f->open.job, 1, &f->open.job.opening[L1], &got);
  assert_true(got.label_u.value == 1.6);
  pw_compare *c = run(f, &quick);
  as_read(f);
  f->open.job.package[1].glass = got.glass;
  assert_int_equal(pw_buildup_parse(text, &f->open.job.package[1].glass, &err), PW_OK);
  pw_compare *all = run(f, &quick); /* the whole package with that glass */
  f->open.job.package[1] = better;
  same(pw_compare_rating(c, 1, K1)->u, pw_compare_rating(all, 1, K1)->u, "U of that opening");
  same(pw_compare_rating(c, 1, K1)->shgc, pw_compare_rating(all, 1, K1)->shgc, "its SHGC");
  same(pw_compare_rating(c, 1, L1)->u, pw_compare_rating(&f->whole, 1, L1)->u, "another's U");
  same(c->package_set[1].price, f->whole.package_set[1].price, "the price stays");
  forget(c);
  forget(all);
}

/* ---------------------------------------------------------------- unconditioned rooms */

static void a_house_of_garages_saves_no_energy_and_costs_the_same(void **state)
{
  fixture *f = *state;
  static const pw_year_method method[] = {PW_YEAR_QUICK, PW_YEAR_SIMPLE, PW_YEAR_DETAILED};
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].unconditioned = 1;
  for (size_t m = 0; m < 3; m++) {
    const pw_compare_options o = {.method = method[m]};
    pw_compare *c = run(f, &o);
    for (size_t p = 0; p < c->n_package; p++) {
      assert_true(c->package_set[p].saving.cost_year == 0.0);
      assert_true(c->package_set[p].saving.need_kwh == 0.0);
      same(c->package_set[p].price, f->whole.package_set[p].price, "the price stays");
      same(c->package_set[p].u, f->whole.package_set[p].u, "it is rated as before");
    }
    forget(c);
  }
  as_read(f);
}

/* A garage's window is in the year as one that is not there: the house without that row. */
static void a_garage_is_outside_the_year(void **state)
{
  fixture *f = *state;
  pw_job *job = &f->open.job;
  job->opening[H1].unconditioned = 1;
  pw_compare *with = run(f, &quick);
  job->n_opening = OPENINGS - 1; /* H1 is the last */
  pw_compare *without = run(f, &quick);
  job->n_opening = OPENINGS;
  for (size_t p = 0; p < with->n_package; p++) {
    same(with->package_set[p].bill.cost_year, without->package_set[p].bill.cost_year, "bill");
    same(with->package_set[p].year.window[B3].heat_lost_kwh,
         without->package_set[p].year.window[B3].heat_lost_kwh, "each window keeps its year");
    assert_true(with->package_set[p].year.window[H1].heat_lost_kwh == 0.0);
    assert_true(with->package_set[p].price > without->package_set[p].price);
  }
  forget(with);
  forget(without);
  as_read(f);
}

/* A program counts replaced windows of rooms inside the house, and of own packages those whose label meets it. */
static void a_rebate_counts_what_its_program_covers(void **state)
{
  fixture *f = *state;
  pw_job *job = &f->open.job;
  pw_program_row row[] = {{.kind = PW_ROW_CRITERION,
                           .metric = PW_METRIC_U,
                           .op = PW_OP_LE,
                           .value = 0.30,
                           .unit = "Btu/h-ft2-F",
                           .step = 0.01,
                           .si = 5.678263337},
                          {.kind = PW_ROW_AMOUNT, .value = 100.0, .basis = PW_BASIS_OPENING}};
  const pw_program program = {.n_row = 2, .row = row};
  pw_package before[3];
  memcpy(before, job->package, sizeof before);
  job->package[0].label_u.value = 0.28 * 5.678263337;
  job->package[1].label_u.value = 0.34 * 5.678263337; /* does not meet it */
  job->opening[B2].standing = PW_STAYS;
  job->opening[K2].unconditioned = 1;
  job->opening[T1].own_package = 2;
  pw_compare *c = run(f, &quick);
  pw_rebate r;
  pw_err err = {0};
  if (pw_rebate_of(c, 0, &program, "", &r, &err) != PW_OK) fail_msg("%s", err.text);
  /* 11 rows, H1 twice: 12 windows, less B2, K2 and T1 */
  pw_assert_near(r.amount.total, 900.0, 1e-9, "amount", "9 windows at $100, by hand");
  forget(c);
  memcpy(job->package, before, sizeof before);
  as_read(f);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(an_own_package_that_is_the_columns_changes_nothing),
      cmocka_unit_test(one_package_for_all_makes_the_columns_alike),
      cmocka_unit_test(own_packages_are_summed_by_hand),
      cmocka_unit_test(own_glass_is_the_package_with_that_glass),
      cmocka_unit_test(a_house_of_garages_saves_no_energy_and_costs_the_same),
      cmocka_unit_test(a_garage_is_outside_the_year),
      cmocka_unit_test(a_rebate_counts_what_its_program_covers),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
