/* Many houses together: the sum's band against normal theory and against plain random sampling by another generator. What
 * houses share is in test_street_house. */
#include "street_fixture.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

static double in_sum(double shared, double own) { return 100.0 + 40.0 * shared + 30.0 * own; }

static pw_band street_of(const made_up *m, size_t n, pw_street_sum *sum)
{
  static double work[DRAWS];
  pw_band band;
  assert_int_equal(pw_street_sum_new(sum, DRAWS, NULL), PW_OK);
  for (size_t h = 0; h < n; h++) {
    pw_street_house house;
    live(m, 1000 + h, NULL, &house);
    assert_int_equal(pw_street_sum_add(sum, saving_of(&house), work, NULL), PW_OK);
    pw_street_house_free(&house);
  }
  assert_int_equal(pw_street_sum_band(sum, work, &band, NULL), PW_OK);
  return band;
}

/* Plain random sampling, Mersenne twister of GSL: n houses under one shared value a draw. */
static pw_band sampled(const made_up *m, size_t n)
{
  enum { MANY = 200000 };
  double *value = calloc(MANY, sizeof *value), *work = calloc(MANY, sizeof *work);
  gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
  pw_band band;
  for (size_t i = 0; i < MANY; i++) {
    double shared = gsl_ran_ugaussian(rng);
    for (size_t h = 0; h < n; h++)
      value[i] += m->saving(shared, gsl_ran_ugaussian(rng));
  }
  assert_int_equal(pw_band_of(value, 1, MANY, NULL, work, &band, NULL), PW_OK);
  gsl_rng_free(rng);
  free(value);
  free(work);
  return band;
}

/* Two alike houses by normal theory: what they share adds up, what is their own in quadrature,
 * sd = sqrt((2 * 40)^2 + 2 * 30^2) = 90.55; 10 and 90 % lie 1.2816 of it from 200. As many houses as 40 leave hardly
 * more than the shared part: sqrt((40 * 40)^2 + 40 * 30^2) = 1611.2. Tolerance: sampling error of 2048 draws, 1/sqrt(4096)
 * = 1.6 % of a plain sd, less for these points. */
static void shared_parts_add_up_and_own_parts_in_quadrature(void **state)
{
  const made_up m = {IN_MODEL_HEAT, IN_AIR, in_sum, 1};
  static const struct {
    size_t n;
    double sd;
  } row[] = {{1, 50.0}, {2, 90.554}, {10, 411.096}, {40, 1611.21}};
  (void)state;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_street_sum sum;
    pw_band b = street_of(&m, row[i].n, &sum);
    double middle = 100.0 * (double)row[i].n;
    pw_assert_near(b.sd, row[i].sd, 0.015 * row[i].sd, "sd", "normal theory");
    pw_assert_near(b.mean, middle, 0.01 * row[i].sd, "mean", "normal theory");
    pw_assert_near(b.p10, middle - 1.2816 * row[i].sd, 0.08 * row[i].sd, "10 %",
                   "normal theory");
    pw_assert_near(b.p90, middle + 1.2816 * row[i].sd, 0.08 * row[i].sd, "90 %",
                   "normal theory");
    pw_assert_near(sqrt(sum.variance_alone), 50.0 * sqrt((double)row[i].n),
                   0.5 * sqrt((double)row[i].n), "sd if nothing were shared", "normal theory");
    pw_street_sum_free(&sum);
  }
}

/* The same against sampling of our own, also where the saving is skewed. Quantiles, here and above, within twice the
 * sampling error of a 10 % quantile of 2048 plain draws: sqrt(0.1 * 0.9 / 2048) / 0.1755 = 3.8 % of the sd. */
static void the_band_is_that_of_plain_random_sampling(void **state)
{
  static const made_up m[] = {{IN_PRICE_COOL, IN_UA, in_sum, 1},
                              {IN_EFFECT_HEAT, IN_SHADE, in_product, 1}};
  (void)state;
  for (size_t k = 0; k < 2; k++)
    for (size_t n = 1; n <= 8; n *= 2) {
      pw_street_sum sum;
      pw_band got = street_of(&m[k], n, &sum), want = sampled(&m[k], n);
      pw_assert_near(got.sd, want.sd, 0.03 * want.sd, "sd", "plain sampling");
      pw_assert_near(got.p10, want.p10, 0.08 * want.sd, "10 %", "plain sampling");
      pw_assert_near(got.p50, want.p50, 0.08 * want.sd, "50 %", "plain sampling");
      pw_assert_near(got.p90, want.p90, 0.08 * want.sd, "90 %", "plain sampling");
      pw_street_sum_free(&sum);
    }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(shared_parts_add_up_and_own_parts_in_quadrature),
      cmocka_unit_test(the_band_is_that_of_plain_random_sampling),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
