/* Scrambled points, and the quantiles of draws. */
#include "support.h"

#include <gsl/gsl_qrng.h>
#include <gsl/gsl_sort_double.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/sensitivity.h"
#include "study/sobol.h"

/* Another library: GSL's own sequence, point by point (it leaves out point 0). */
static void plain_points_are_those_of_gsl_reached_by_index(void **state)
{
  (void)state;
  pw_sobol s;
  assert_int_equal(pw_sobol_init(&s, 40, 4096, 1, NULL), PW_OK);
  gsl_qrng *q = gsl_qrng_alloc(gsl_qrng_sobol, 40);
  for (size_t i = 1; i < 4096; i++) {
    double want[40], got[64] = {[40] = 7.0, [63] = 7.0};
    gsl_qrng_get(q, want);
    pw_sobol_plain(&s, i, got);
    assert_true(got[40] == 7.0 && got[63] == 7.0); /* no dimension more than asked for */
    for (int d = 0; d < 40; d++)
      if (got[d] != want[d])
        fail_msg("point %zu, dimension %d: %g, GSL %g", i, d, got[d], want[d]);
  }
  gsl_qrng_free(q);
}

/* Property of a (0, m, 1)-net: one point in each of 2^m equal cells, in every dimension, also in
 * those of the padded blocks. */
static void every_dimension_has_one_point_a_cell(void **state)
{
  (void)state;
  enum { N = 1024, D = 100 };
  pw_sobol s;
  assert_int_equal(pw_sobol_init(&s, D, N, 7, NULL), PW_OK);
  int(*count)[N] = calloc(D, sizeof *count);
  for (size_t i = 0; i < N; i++) {
    double x[D];
    pw_sobol_point(&s, i, x);
    for (int d = 0; d < D; d++) {
      assert_true(x[d] > 0.0 && x[d] < 1.0);
      count[d][(int)(x[d] * N)]++;
    }
  }
  for (int d = 0; d < D; d++)
    for (int c = 0; c < N; c++)
      assert_int_equal(count[d][c], 1);
  free(count);
}

/* Property of a (0, m, 2)-net (the first two Sobol dimensions): one point in every elementary
 * rectangle 2^-a by 2^-b with a + b = m; scrambling keeps it (Owen 1995). */
static void scrambling_keeps_the_net(void **state)
{
  (void)state;
  enum { M = 8, N = 1 << M };
  for (uint64_t seed = 1; seed <= 5; seed++) {
    pw_sobol s;
    assert_int_equal(pw_sobol_init(&s, 2, N, seed, NULL), PW_OK);
    for (int a = 0; a <= M; a++) {
      char seen[N] = {0};
      for (size_t i = 0; i < N; i++) {
        double x[2];
        pw_sobol_point(&s, i, x);
        int cell = ((int)(x[0] * (1 << a)) << (M - a)) + (int)(x[1] * (1 << (M - a)));
        assert_int_equal(seen[cell]++, 0);
      }
    }
  }
}

/* Closed form: the integral of prod (1 + (x - 1/2) / (d + 1)) over the cube is 1. Plain random points
 * of the same number have a standard error of 0.0068 here; scrambled nets fall far below. Also across
 * two blocks (45 dimensions), where the padded ones must not follow the first. */
static void integrals_are_far_closer_than_random(void **state)
{
  (void)state;
  enum { N = 2048, SEEDS = 16 };
  static const struct {
    size_t n_dim;
    double bar;
  } row[] = {{12, 4e-4}, {45, 4e-4}};
  for (size_t k = 0; k < 2; k++) {
    double square = 0.0;
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
      pw_sobol s;
      assert_int_equal(pw_sobol_init(&s, row[k].n_dim, N, seed, NULL), PW_OK);
      double sum = 0.0;
      for (size_t i = 0; i < N; i++) {
        double x[64], f = 1.0;
        pw_sobol_point(&s, i, x);
        for (size_t d = 0; d < row[k].n_dim; d++)
          f *= 1.0 + (x[d] - 0.5) / (double)(d + 1);
        sum += f;
      }
      square += pow(sum / N - 1.0, 2) / SEEDS;
    }
    print_message("%zu dimensions: root mean square error %.2e\n", row[k].n_dim, sqrt(square));
    assert_true(sqrt(square) < row[k].bar);
  }
}

/* Scrambled points are uniform: over many seeds the mean of a coordinate at a fixed index is 1/2 and
 * two coordinates are uncorrelated (3.5 standard errors of 4000 uniform values). */
static void each_point_is_uniform_over_seeds(void **state)
{
  (void)state;
  enum { SEEDS = 4000 };
  double *a = malloc(SEEDS * sizeof *a), *b = malloc(SEEDS * sizeof *b);
  static const size_t pair[][2] = {{0, 1}, {0, 40}, {3, 43}, {39, 79}};
  pw_sobol s;
  assert_int_equal(pw_sobol_init(&s, 80, 64, 0, NULL), PW_OK);
  for (size_t k = 0; k < 4; k++) {
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
      double x[80];
      s.seed = seed;
      pw_sobol_point(&s, 5, x);
      a[seed] = x[pair[k][0]];
      b[seed] = x[pair[k][1]];
    }
    double limit = 3.5 / sqrt(SEEDS);
    pw_assert_near(gsl_stats_mean(a, 1, SEEDS), 0.5, limit * sqrt(1.0 / 12.0), "mean",
                   "uniform");
    pw_assert_near(gsl_stats_variance(a, 1, SEEDS), 1.0 / 12.0, limit * 0.0745, "variance",
                   "uniform: 1/12, its sd 1/sqrt(180)");
    pw_assert_near(gsl_stats_correlation(a, 1, b, 1, SEEDS), 0.0, limit, "correlation", "0");
  }
  free(a);
  free(b);
}

/* Two blocks must not repeat each other point by point. */
static void blocks_are_independent(void **state)
{
  (void)state;
  enum { N = 4096 };
  pw_sobol s;
  assert_int_equal(pw_sobol_init(&s, 80, N, 11, NULL), PW_OK);
  double *a = malloc(N * sizeof *a), *b = malloc(N * sizeof *b);
  for (size_t d = 0; d < 40; d++) {
    for (size_t i = 0; i < N; i++) {
      double x[80];
      pw_sobol_point(&s, i, x);
      a[i] = x[d];
      b[i] = x[d + 40];
    }
    pw_assert_near(gsl_stats_correlation(a, 1, b, 1, N), 0.0, 0.06, "correlation",
                   "independent");
  }
  free(a);
  free(b);
}

static void too_many_points_or_dimensions_are_refused(void **state)
{
  (void)state;
  pw_sobol s = {.n_dim = 77};
  pw_err err;
  assert_int_equal(pw_sobol_init(&s, 0, 8, 1, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "n_dim");
  assert_int_equal(pw_sobol_init(&s, 401, 8, 1, &err), PW_E_SHAPE);
  assert_int_equal(pw_sobol_init(&s, 3, (1u << 20) + 1, 1, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "n_point");
  assert_int_equal(s.n_dim, 77);
}

/* ---------------------------------------------------------------- bands */

/* Another library: gsl_stats_quantile_from_sorted_data; equal weights must give the same. */
static void quantiles_are_those_of_gsl(void **state)
{
  (void)state;
  enum { N = 101 };
  double v[N], work[2 * N], weight[N];
  for (int i = 0; i < N; i++) {
    v[i] = sin(37.0 * i) * i;
    weight[i] = 0.25;
  }
  pw_band band, same;
  assert_int_equal(pw_band_of(v, 1, N, NULL, work, &band, NULL), PW_OK);
  assert_int_equal(pw_band_of(v, 1, N, weight, work, &same, NULL), PW_OK);
  memcpy(work, v, sizeof v);
  gsl_sort(work, 1, N);
  pw_assert_near(band.p10, gsl_stats_quantile_from_sorted_data(work, 1, N, 0.1), 1e-12, "p10",
                 "GSL");
  pw_assert_near(band.p50, gsl_stats_median_from_sorted_data(work, 1, N), 1e-12, "p50", "GSL");
  pw_assert_near(band.p90, gsl_stats_quantile_from_sorted_data(work, 1, N, 0.9), 1e-12, "p90",
                 "GSL");
  pw_assert_near(band.mean, gsl_stats_mean(v, 1, N), 1e-12, "mean", "GSL");
  pw_assert_near(same.p10, band.p10, 1e-9, "weighted p10", "equal weights");
  pw_assert_near(same.p90, band.p90, 1e-9, "weighted p90", "equal weights");
}

static void weights_move_the_quantiles(void **state)
{
  (void)state;
  const double v[] = {3, 1, 2}, w[] = {1, 1, 1e6}, bad[] = {1, -1, 1};
  double work[6];
  pw_band b;
  pw_err err;
  assert_int_equal(pw_band_of(v, 1, 3, w, work, &b, NULL), PW_OK);
  pw_assert_near(b.p50, 2.5, 0.01, "median between the heavy value and the last", "by hand");
  assert_int_equal(pw_band_of(v, 1, 3, bad, work, &b, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "weight");
}

static void a_payback_that_never_comes_sorts_last(void **state)
{
  (void)state;
  const double v[] = {5, INFINITY, 7, INFINITY, 6};
  double work[5];
  pw_band b;
  assert_int_equal(pw_band_of(v, 1, 5, NULL, work, &b, NULL), PW_OK);
  assert_int_equal(b.n_infinite, 2);
  pw_assert_near(b.p50, 7.0, 0.0, "median of 5 6 7 inf inf", "by hand");
  assert_true(isinf(b.p90));
  pw_assert_near(b.mean, 6.0, 1e-12, "mean of the finite", "by hand");
  pw_assert_near(pw_chance_above(v, 1, 5, NULL, 6.0), 0.6, 1e-12, "share above 6", "by hand");
  const double w[] = {1, 0, 2, 1, 0};
  pw_assert_near(pw_chance_above(v, 1, 5, w, 6.0), 0.75, 1e-12, "3 of 4 by weight", "by hand");
  const double nan_in[] = {1, NAN};
  assert_int_equal(pw_band_of(nan_in, 1, 2, NULL, work, &b, NULL), PW_E_DOMAIN);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(plain_points_are_those_of_gsl_reached_by_index),
      cmocka_unit_test(every_dimension_has_one_point_a_cell),
      cmocka_unit_test(scrambling_keeps_the_net),
      cmocka_unit_test(integrals_are_far_closer_than_random),
      cmocka_unit_test(each_point_is_uniform_over_seeds),
      cmocka_unit_test(blocks_are_independent),
      cmocka_unit_test(too_many_points_or_dimensions_are_refused),
      cmocka_unit_test(quantiles_are_those_of_gsl),
      cmocka_unit_test(weights_move_the_quantiles),
      cmocka_unit_test(a_payback_that_never_comes_sorts_last)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
