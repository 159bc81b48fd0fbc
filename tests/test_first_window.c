/* study/first_window: what each window saves of the bill and adds to the price, on a comparison made by hand; the sums stand
 * beside each test. */
#include "job_folder.h"

#include "study/compare_price.h"
#include "study/first_window.h"

static const double foot2 = 0.3048 * 0.3048;

/* Four openings of 10, 12, 24 and 8 ft2, A2 twice; A3 stays, A4 is in a room that nobody heats. Prices are those of packages.csv:
 * "good" $300 and $20/ft2, "best" $400 and $30/ft2, and a permit of $250 once. */
typedef struct hand_made {
  pw_job job;
  pw_compare c;
  pw_compare_window existing[FOLDER_OPENINGS];
} hand_made;

static void year_of(pw_lived_set *set, const double heating[4], const double cooling[4])
{
  for (int i = 0; i < 4; i++) {
    set->year.window[i].heating_part_kwh = heating[i];
    set->year.window[i].cooling_part_kwh = cooling[i];
  }
}

static void price_all(hand_made *m)
{
  for (size_t p = 0; p < m->c.n_package; p++) {
    pw_price price;
    assert_int_equal(pw_compare_price(m->c.job, &m->c.rated, p, NULL, &price, NULL), PW_OK);
    m->c.billed.package_set[p].price = price.value;
  }
}

/* Parts of the package: 300 and 100 kWh of heating, 50 and 50 of cooling; what the house saves is $80 and $15. */
static hand_made *by_hand(void)
{
  static const double ft2[] = {10.0, 12.0, 24.0, 8.0};
  hand_made *m = calloc(1, sizeof *m);
  assert_non_null(m);
  folder_write(dir, "prices.csv",
               "package,kind,size_from,size_to,per_opening,per_area,per_job,item\n"
               ",,,,,,$250,permit\n");
  m->job = folder_read(dir, NULL);
  m->job.opening[2].standing = PW_STAYS;
  m->job.opening[3].unconditioned = 1;
  m->c = (pw_compare){
      .job = &m->job, .n_opening = 4, .n_package = 2, .rated.existing = m->existing};
  for (int i = 0; i < 4; i++)
    m->existing[i].rating.area = ft2[i] * foot2;
  pw_lived_set *old = &m->c.lived.existing_set;
  year_of(old, (const double[]){1000, 600, 500, 900}, (const double[]){200, 100, 80, 90});
  old->year.heating_kwh = 3000.0;
  old->year.cooling_kwh = 1000.0;
  m->c.billed.existing_set.bill.heating_cost = 240.0;
  m->c.billed.existing_set.bill.cooling_cost = 60.0;
  for (size_t p = 0; p < 2; p++) {
    pw_billed_set *set = &m->c.billed.package_set[p];
    year_of(&m->c.lived.package_set[p], (const double[]){700, 500, 400, 100},
            (const double[]){150, 50, 20, 10});
    set->bill.heating_cost = 160.0;
    set->bill.cooling_cost = 45.0;
    set->saving.bill_ratio =
        1.25; /* computed $375 where the bill says $300: four fifths of each saving */
  }
  price_all(m);
  return m;
}

static void forget(hand_made *m)
{
  pw_job_free(&m->job);
  free(m);
}

static size_t first_of(const hand_made *m, pw_first_window first[4])
{
  size_t n = 9;
  pw_err err = {0};
  if (pw_first_windows(&m->c, 0, first, &n, &err) != PW_OK) fail_msg("%s", err.text);
  return n;
}

/* $80 / 400 kWh = 0.2 and $15 / 100 kWh = 0.15; A1 0.2 x 300 + 0.15 x 50 = 67.50, A2 0.2 x 100 + 0.15 x 50 = 27.50, together the $95 of the
 * house; held to the bill, 0.8 of it. Price A1 300 + 10 x 20, A2 2 (300 + 12 x 20); the permit is in none. */
static void savings_and_prices_by_hand(void **state)
{
  (void)state;
  pw_first_window first[4];
  hand_made *m = by_hand();
  assert_int_equal(first_of(m, first), 2);
  assert_int_equal(first[0].opening, 0);
  assert_int_equal(first[1].opening, 1);
  pw_assert_near(first[0].saving, 54.0, 1e-9, "A1", "by hand");
  pw_assert_near(first[1].saving, 22.0, 1e-9, "A2", "by hand");
  pw_assert_near(first[0].price, 500.0, 1e-9, "A1", "by hand");
  pw_assert_near(first[1].price, 1080.0, 1e-9, "A2", "by hand");
  m->c.billed.package_set[0].saving.bill_ratio =
      0.5; /* a bill above what is computed scales nothing */
  assert_int_equal(first_of(m, first), 2);
  pw_assert_near(first[0].saving, 67.5, 1e-9, "A1", "by hand");
  pw_assert_near(first[1].saving, 27.5, 1e-9, "A2", "by hand");
  m->c.billed.package_set[0].price = 0.0; /* nothing priced */
  assert_int_equal(first_of(m, first), 2);
  pw_assert_near(first[0].price, 0.0, 0.0, "A1", "no price");
  m->c.billed.package_set[0].price = 1.0;
  m->job.package[0].price_per_opening.value = -1e4; /* what no price can be is refused */
  size_t n;
  pw_err err = {0};
  assert_int_equal(pw_first_windows(&m->c, 0, first, &n, &err), PW_E_DOMAIN);
  forget(m);
}

/* Where the house's saving and its parts have not one sign, a kWh is what the existing windows' bill pays for one of need: heating
 * 240 / 3000 = 0.08, cooling 60 / 1000 = 0.06; where there is no need, nothing. */
static void where_signs_differ_the_bill_says(void **state)
{
  (void)state;
  pw_first_window first[4];
  hand_made *m = by_hand();
  pw_year_result *old = &m->c.lived.existing_set.year;
  pw_billed_set *set = &m->c.billed.package_set[0];
  set->saving.bill_ratio = 1.0;
  set->bill.heating_cost = 250.0;
  set->bill.cooling_cost = 70.0;
  first_of(m, first);
  pw_assert_near(first[0].saving, 0.08 * 300.0 + 0.06 * 50.0, 1e-9, "A1", "by hand");
  pw_assert_near(first[1].saving, 0.08 * 100.0 + 0.06 * 50.0, 1e-9, "A2", "by hand");
  set->bill.heating_cost = 240.0; /* nothing saved at all: the same */
  first_of(m, first);
  pw_assert_near(first[0].saving, 0.08 * 300.0 + 0.06 * 50.0, 1e-9, "A1", "by hand");
  old->heating_kwh = old->cooling_kwh = 0.0;
  first_of(m, first);
  pw_assert_near(first[0].saving, 0.0, 0.0, "A1", "no need");
  forget(m);
}

/* $ a year per dollar 0.1, 0.2, 0.2, 0.05: the second and third, as they stood, the first, the last. Without prices 30, 20, 20, 50. */
static void the_best_come_first_and_equals_stay(void **state)
{
  (void)state;
  pw_first_window w[] = {
      {0, 30.0, 300.0}, {1, 20.0, 100.0}, {2, 20.0, 100.0}, {3, 50.0, 1000.0}};
  static const size_t priced[] = {1, 2, 0, 3}, free_of_charge[] = {3, 0, 1, 2};
  pw_first_windows_sort(w, 4);
  for (size_t i = 0; i < 4; i++)
    assert_int_equal(w[i].opening, priced[i]);
  for (size_t i = 0; i < 4; i++)
    w[i].price = 0.0;
  pw_first_windows_sort(w, 4);
  for (size_t i = 0; i < 4; i++)
    assert_int_equal(w[i].opening, free_of_charge[i]);
}

/* Good: 76 / 1580 = 0.0481. Best costs 400 + 300 and 2 (400 + 360), 2220, and saves the same: good; were its heating twice as good
 * (0.4: 0.8 (127.50 + 47.50) = 140 / 2220 = 0.063) it would be best. Alike: the first. */
static void the_package_that_saves_most_per_dollar(void **state)
{
  (void)state;
  hand_made *m = by_hand();
  size_t package = 9;
  assert_int_equal(pw_first_package(&m->c, &package, NULL), PW_OK);
  assert_int_equal(package, 0);
  m->c.billed.package_set[1].bill.heating_cost = 80.0;
  assert_int_equal(pw_first_package(&m->c, &package, NULL), PW_OK);
  assert_int_equal(package, 1);
  m->c.billed.package_set[1].price = 0.0; /* not priced: no choice of this kind */
  assert_int_equal(pw_first_package(&m->c, &package, NULL), PW_OK);
  assert_int_equal(package, 0);
  m->c.billed.package_set[0].price = 0.0;
  assert_int_equal(pw_first_package(&m->c, &package, NULL), PW_OK);
  assert_int_equal(package, 0);
  m->job.package[1] = m->job.package[0];
  m->c.billed.package_set[1].bill.heating_cost = 160.0;
  price_all(m);
  assert_int_equal(pw_first_package(&m->c, &package, NULL), PW_OK);
  assert_int_equal(package, 0);
  /* both save less than nothing: the one that loses less per dollar */
  for (size_t p = 0; p < 2; p++)
    year_of(&m->c.lived.package_set[p], (const double[]){1100, 600, 0, 0},
            (const double[]){200, 100, 0, 0});
  m->c.billed.package_set[0].bill.heating_cost = 260.0;
  m->c.billed.package_set[1].bill.heating_cost = 250.0;
  assert_int_equal(pw_first_package(&m->c, &package, NULL), PW_OK);
  assert_int_equal(package, 1);
  forget(m);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test_setup_teardown(savings_and_prices_by_hand, set_up, tear_down),
      cmocka_unit_test_setup_teardown(where_signs_differ_the_bill_says, set_up, tear_down),
      cmocka_unit_test(the_best_come_first_and_equals_stay),
      cmocka_unit_test_setup_teardown(the_package_that_saves_most_per_dollar, set_up,
                                      tear_down),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
