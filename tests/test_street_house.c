/* A house in its street: which inputs it shares with the others, its own range, its draws of a comparison. */
#include "street_fixture.h"

#include "example_fixture.h"

static double correlation(const double a[], const double b[], size_t n)
{
  double ma = 0.0, mb = 0.0, aa = 0.0, bb = 0.0, ab = 0.0;
  for (size_t i = 0; i < n; i++) {
    ma += a[i] / (double)n;
    mb += b[i] / (double)n;
  }
  for (size_t i = 0; i < n; i++) {
    aa += (a[i] - ma) * (a[i] - ma);
    bb += (b[i] - mb) * (b[i] - mb);
    ab += (a[i] - ma) * (b[i] - mb);
  }
  return ab / sqrt(aa * bb);
}

static double only_own(double shared, double own)
{
  (void)shared;
  return 100.0 + own;
}

/* As the issue has it: model, weather, prices, escalation and the product are drawn once; every other input is a fact of
 * the house, and two houses' draws of it do not go together (plain sampling error 0.022). */
static void houses_share_what_no_house_decides(void **state)
{
  static const unsigned char all_share[IN_COUNT] = {
      [IN_GLASS_U_OLD] = 1,  [IN_GLASS_U_NEW] = 1,  [IN_FRAME_U_NEW] = 1,
      [IN_SHGC_NEW] = 1,     [IN_SIGHT_NEW] = 1,    [IN_SUN] = 1,
      [IN_FORM] = 1,         [IN_FORM + 1] = 1,     [IN_FORM + 2] = 1,
      [IN_FORM + 3] = 1,     [IN_FORM + 4] = 1,     [IN_WEATHER_HEAT] = 1,
      [IN_WEATHER_COOL] = 1, [IN_NORMALS_HEAT] = 1, [IN_NORMALS_COOL] = 1,
      [IN_MODEL_HEAT] = 1,   [IN_MODEL_COOL] = 1,   [IN_EFFECT_HEAT] = 1,
      [IN_EFFECT_COOL] = 1,  [IN_PRICE_HEAT] = 1,   [IN_PRICE_COOL] = 1,
      [IN_ESCALATION] = 1};
  (void)state;
  for (size_t i = 0; i < IN_COUNT; i++) {
    /* One of them has what only some houses have: its other inputs stand elsewhere among its chances. */
    const made_up m = {0, i, only_own, 0},
                  other = {0, i, only_own, i < IN_SOME || i >= IN_YEAR};
    pw_street_house a, b;
    live(&m, 77, NULL, &a);
    live(&other, 78, NULL, &b);
    double r = correlation(saving_of(&a), saving_of(&b), DRAWS);
    if (all_share[i] ? r < 0.999 : fabs(r) > 0.08)
      fail_msg("input %zu: two houses go together by %.3f, %s", i, r,
               all_share[i] ? "all share it" : "it is each one's own");
    pw_street_house_free(&a);
    pw_street_house_free(&b);
  }
}

static int by_value(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* The spread of a house in the street is that of its own range: the same values in another order; of weighed draws the
 * band by weight. A house is told apart by its key alone. */
static void a_house_keeps_its_own_range(void **state)
{
  const made_up m = {IN_MODEL_HEAT, IN_AIR, in_product, 1};
  pw_street_house a, b, again;
  static double weight[DRAWS], work[2 * DRAWS], value[DRAWS], u[2 * IN_COUNT];
  pw_sobol sobol;
  pw_band want, got;
  (void)state;
  live(&m, 5, NULL, &a);
  live(&m, 6, NULL, &b);
  live(&m, 5, NULL, &again);
  assert_memory_equal(saving_of(&a), saving_of(&again), DRAWS * sizeof(double));
  assert_memory_not_equal(saving_of(&a), saving_of(&b), DRAWS * sizeof(double));
  assert_int_equal(pw_sobol_init(&sobol, 2 * IN_COUNT, DRAWS, 1, NULL), PW_OK);
  for (size_t i = 0; i < DRAWS; i++) {
    double f[SETS * F_COUNT];
    pw_sobol_point(&sobol, i, u);
    figures(&m, u, f, NULL);
    value[i] = f[F_COUNT + F_SAVING];
    weight[i] = exp(-0.5 * pow((value[i] - 130.0) / 20.0, 2.0));
  }
  assert_int_equal(pw_band_of(value, 1, DRAWS, weight, work, &want, NULL), PW_OK);
  qsort(value, DRAWS, sizeof *value, by_value);
  qsort(a.package, DRAWS, sizeof *a.package, by_value);
  qsort(b.package, DRAWS, sizeof *b.package, by_value);
  assert_memory_equal(a.package, value, sizeof value);
  assert_memory_equal(b.package, value, sizeof value);
  pw_street_house_free(&a);
  pw_street_house_free(&b);
  pw_street_house_free(&again);
  live(&m, 5, weight, &a);
  assert_int_equal(pw_band_of(saving_of(&a), 1, DRAWS, NULL, work, &got, NULL), PW_OK);
  pw_assert_near(got.p10, want.p10, 0.01 * want.sd, "10 %", "weighed draws");
  pw_assert_near(got.p50, want.p50, 0.01 * want.sd, "50 %", "weighed draws");
  pw_assert_near(got.p90, want.p90, 0.01 * want.sd, "90 %", "weighed draws");
  pw_assert_near(got.mean, want.mean, 0.02 * want.sd, "mean", "weighed draws");
  pw_street_house_free(&a);
}

/* A real comparison: asking for the draws moves no figure of the range, their bands are those of the range, and room
 * of another size is refused. */
static void a_range_gives_its_draws(void **state)
{
  fixture *x = *state;
  pw_range_options o = {
      .n_draw = 1024, .seed = 3, .n_thread = 1, .method = PW_RANGE_REDUCED, .bands_only = 1};
  pw_range plain, drawn;
  pw_street_house house;
  pw_err err = {0};
  static double work[1024];
  assert_int_equal(pw_range_of(&x->whole, x->open.weather, quick.method, &o, &plain, &err),
                   PW_OK);
  assert_int_equal(pw_street_house_new(&house, 9, 1024, x->whole.n_package, NULL), PW_OK);
  o.street = &house;
  assert_int_equal(pw_range_of(&x->whole, x->open.weather, quick.method, &o, &drawn, &err),
                   PW_OK);
  for (size_t p = 0; p < x->whole.n_package; p++) {
    const pw_band *band[PW_STREET_FIGURES] = {
        &plain.package[p].saving_cost, &plain.package[p].saving_minimum,
        &plain.package[p].saving_fuel_kwh, &plain.package[p].net_present_worth};
    assert_memory_equal(&plain.package[p].saving_cost, &drawn.package[p].saving_cost,
                        sizeof(pw_band));
    for (size_t k = 0; k < PW_STREET_FIGURES; k++) {
      pw_band b;
      const double *v = house.package + (p * PW_STREET_FIGURES + k) * 1024;
      assert_int_equal(pw_band_of(v, 1, 1024, NULL, work, &b, NULL), PW_OK);
      /* the job's bill weighs the draws, so the values lie a little apart */
      double apart = 0.03 * band[k]->sd;
      pw_assert_near(b.p10, band[k]->p10, apart, "10 %", "the range itself");
      pw_assert_near(b.p50, band[k]->p50, apart, "50 %", "the range itself");
      pw_assert_near(b.p90, band[k]->p90, apart, "90 %", "the range itself");
    }
  }
  house.n_package = 1;
  assert_int_equal(pw_range_of(&x->whole, x->open.weather, quick.method, &o, &drawn, &err),
                   PW_E_SHAPE);
  assert_string_equal(err.field, "street");
  pw_street_house_free(&house);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(houses_share_what_no_house_decides),
      cmocka_unit_test(a_house_keeps_its_own_range),
      cmocka_unit_test_setup_teardown(a_range_gives_its_draws, set_up, tear_down),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
