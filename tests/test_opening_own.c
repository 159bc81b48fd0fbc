/* Packages and glass of an opening's own, rooms that are neither heated nor cooled: each against a hand sum, or the same
 * job told in another way. */
#include "example_fixture.h"

#include <stdio.h>

#include "job/catalogue_file.h"
#include "panewright/glazing.h"
#include "study/rank.h"
#include "study/rebate.h"
#include "window/opening_package.h"

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
  assert_int_equal(own->fitted.n_glass, 1);
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
  const pw_compare_set better = pw_compare_set_of(&f->whole, 1);
  for (size_t p = 0; p < c->n_package; p++) {
    same(c->rated.package_set[p].u, better.rated->u, "U");
    same(c->billed.package_set[p].bill.cost_year, better.billed->bill.cost_year, "bill");
    same(c->billed.package_set[p].price, better.billed->price, "price");
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
      const pw_rating *r = pw_compare_rating(&f->whole.rated, (int)q, i);
      double times = f->as_read[i].quantity;
      price += times * (k->price_per_opening.value + k->price_per_area.value * r->area);
      ua += times * r->u * r->area;
      area += times * r->area;
    }
    same(c->billed.package_set[p].price, price, "price by hand");
    same(c->rated.package_set[p].u, ua / area, "U by hand");
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
  same(pw_compare_rating(&c->rated, 1, K1)->u, pw_compare_rating(&all->rated, 1, K1)->u,
       "U of that opening");
  same(pw_compare_rating(&c->rated, 1, K1)->shgc, pw_compare_rating(&all->rated, 1, K1)->shgc,
       "its SHGC");
  same(pw_compare_rating(&c->rated, 1, L1)->u, pw_compare_rating(&f->whole.rated, 1, L1)->u,
       "another's U");
  same(c->billed.package_set[1].price, f->whole.billed.package_set[1].price, "the price stays");
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
      assert_true(c->billed.package_set[p].saving.cost_year == 0.0);
      assert_true(c->billed.package_set[p].saving.need_kwh == 0.0);
      same(c->billed.package_set[p].price, f->whole.billed.package_set[p].price,
           "the price stays");
      same(c->rated.package_set[p].u, f->whole.rated.package_set[p].u, "it is rated as before");
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
    same(with->billed.package_set[p].bill.cost_year,
         without->billed.package_set[p].bill.cost_year, "bill");
    same(with->lived.package_set[p].year.window[B3].heat_lost_kwh,
         without->lived.package_set[p].year.window[B3].heat_lost_kwh,
         "each window keeps its year");
    assert_true(with->lived.package_set[p].year.window[H1].heat_lost_kwh == 0.0);
    assert_true(with->billed.package_set[p].price > without->billed.package_set[p].price);
  }
  forget(with);
  forget(without);
  as_read(f);
}

/* A program counts replaced windows, of own packages those whose label meets it, and where it says so none of a room
 * that is neither heated nor cooled. */
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
                          {.kind = PW_ROW_AMOUNT, .value = 100.0, .basis = PW_BASIS_OPENING},
                          {.kind = PW_ROW_ROOMS, .conditioned = 1, .to = 1}};
  pw_program program = {.n_row = 2, .row = row};
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
  /* 11 rows, H1 twice: 12 windows, less B2 and T1 */
  pw_assert_near(r.amount.total, 1000.0, 1e-9, "amount", "10 windows at $100, by hand");
  program.n_row = 3; /* a row that no longer holds changes nothing */
  assert_int_equal(pw_rebate_of(c, 0, &program, "", &r, &err), PW_OK);
  pw_assert_near(r.amount.total, 1000.0, 1e-9, "amount", "its row ended long ago");
  row[2].to = 0; /* K2 is left out, too */
  assert_int_equal(pw_rebate_of(c, 0, &program, "", &r, &err), PW_OK);
  pw_assert_near(r.amount.total, 900.0, 1e-9, "amount", "9 windows at $100, by hand");
  forget(c);
  memcpy(job->package, before, sizeof before);
  as_read(f);
}

/* ---------------------------------------------------------------- the search */

/* The best that the search finds is lived with in the same house: one window stays, a garage is outside, one opening
 * has its own package. The comparison with that package must give its bill, and by hand its price. */
static void the_search_replaces_only_what_it_may(void **state)
{
  static const char catalogue[] =
      "part,name,thickness,gas,place,pocket,price_per_area,price_per_opening,price_per_length\n"
      "pane,clear,3mm,,,,10 $/m2,,\ncoating,ag2,,,gap,,13 $/m2,,\n"
      "coating,pyr20,,,any,,9 $/m2,,\n"
      "gap,,12.7mm,argon 90%,,,5 $/m2,,\ngap,,10mm,air,,,4 $/m2,,\n"
      "spacer,metal,,,,,,,0 $/m\nframe_line,vinyl,,,,23.5mm,150 $/m2,$300,\n";
  fixture *f = *state;
  pw_job *job = &f->open.job;
  pw_rank_catalogue c;
  pw_err err = {0};
  const pw_rank_options options = {
      .n_top = 3, .n_thread = 1, .method = PW_YEAR_QUICK, .limits = {.panes_min = 2}};
  pw_rank rank;
  job->opening[B2].standing = PW_STAYS;
  job->opening[K2].unconditioned = 1;
  job->opening[T1].own_package = 3;
  pw_compare *before = run(f, &quick);
  if (pw_catalogue_parse("small.csv", catalogue, sizeof catalogue - 1, &c, NULL, &err) !=
          PW_OK ||
      pw_rank_run(before, f->open.weather, &c, &options, &rank, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_true(rank.n_top > 0);
  pw_package first = job->package[0];
  job->package[0].glass = rank.top[0].glass;
  job->package[0].spacer = PW_SPACER_METAL;
  snprintf(job->package[0].frame_line, sizeof job->package[0].frame_line, "vinyl");
  snprintf(job->package[0].filling, sizeof job->package[0].filling, "foam");
  pw_compare *after = run(f, &quick);
  same(rank.top[0].bill_year, after->billed.package_set[0].bill.cost_year, "bill of the best");
  double area = 0.0, n = 0.0, glass = 0.0;
  for (size_t i = 0; i < OPENINGS; i++) {
    if (i == B2 || i == T1) continue; /* it is not bought, or not sought for */
    area += f->as_read[i].quantity * after->rated.existing[i].rating.area;
    n += f->as_read[i].quantity;
  }
  const pw_buildup *b = &rank.top[0].glass;
  for (size_t k = 0; k < b->n_pane; k++) {
    glass += 10.0;
    for (size_t side = 0; side < 2; side++)
      glass += strcmp(b->pane[k].coating[side], "ag2") == 0     ? 13.0
               : strcmp(b->pane[k].coating[side], "pyr20") == 0 ? 9.0
                                                                : 0.0;
    if (k + 1 < b->n_pane) glass += b->gap[k].thickness > 0.011 ? 5.0 : 4.0;
  }
  same(rank.top[0].price, 300.0 * n + (150.0 + glass) * area, "price by hand");
  job->package[0] = first;
  pw_rank_free(&rank);
  forget(before);
  forget(after);
  as_read(f);
}

static void nothing_to_search_for_is_refused(void **state)
{
  fixture *f = *state;
  pw_rank rank;
  pw_rank_catalogue c = {.n_pane = 0};
  static const char text[] = "part,name,thickness,gas,place,pocket,price_per_area,"
                             "price_per_opening,price_per_length\npane,clear,3mm,,,,10 $/m2,,\n"
                             "gap,,10mm,air,,,4 $/m2,,\nspacer,metal,,,,,,,0 $/m\n"
                             "frame_line,vinyl,,,,23.5mm,150 $/m2,$300,\n";
  pw_err err = {0};
  assert_int_equal(pw_catalogue_parse("c.csv", text, sizeof text - 1, &c, NULL, &err), PW_OK);
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].standing = PW_STAYS;
  pw_compare *all_stay = run(f, &quick);
  assert_int_equal(pw_rank_run(all_stay, f->open.weather, &c, NULL, &rank, &err), PW_E_SHAPE);
  forget(all_stay);
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
      cmocka_unit_test(the_search_replaces_only_what_it_may),
      cmocka_unit_test(nothing_to_search_for_is_refused),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
