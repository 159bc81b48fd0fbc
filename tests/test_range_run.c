/* The driver that runs a model over its draws, and their sensitivities. */
#include "support.h"

#include <math.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

#include "study/range_run.h"
#include "study/sobol.h"

static pw_status straight(const void *context, void *workspace, const double u[], double y[],
                          pw_err *err)
{
  (void)workspace, (void)err;
  const double *slope = context;
  y[0] = slope[0] * u[0] + slope[1] * u[1] + slope[2] * u[2];
  y[1] = u[0] > 0.5 ? INFINITY : u[0];
  return PW_OK;
}

/* A draw of both samples: the figures of the first, of the second, then of the first with one of the second. */
static pw_status straight_row(const void *context, void *workspace, const double u[],
                              double y[], pw_err *err)
{
  pw_status s = straight(context, workspace, u, y, err);
  if (s == PW_OK) s = straight(context, workspace, u + 3, y + 2, err);
  for (int k = 0; k < 3 && s == PW_OK; k++) {
    double mixed[3] = {u[0], u[1], u[2]};
    mixed[k] = u[3 + k];
    s = straight(context, workspace, mixed, y + 4 + 2 * k, err);
  }
  return s;
}

/* Closed form: for a sum of independent inputs S = T = slope^2 / sum of slopes squared, and the
 * variance is that sum over 12. */
static void a_straight_model_gives_its_slopes(void **state)
{
  (void)state;
  const double slope[3] = {3, 2, 1};
  pw_range_plan plan = {.n_dim = 3,
                        .n_out = 10,
                        .n_draw = 4096,
                        .both = 1,
                        .seed = 5,
                        .model = straight_row,
                        .context = slope};
  static double work[4096];
  pw_range_result r;
  pw_sensitivity share[3];
  pw_band band;
  assert_int_equal(pw_range_run(&plan, &r, NULL), PW_OK);
  pw_range_shares(&r, 0, 2, share);
  for (int d = 0; d < 3; d++) {
    double want = slope[d] * slope[d] / 14.0;
    pw_assert_near(share[d].first_order, want, 0.01, "first order", "closed form");
    pw_assert_near(share[d].total, want, 0.01, "total", "closed form");
  }
  assert_int_equal(pw_band_of(r.y, 10, 4096, NULL, work, &band, NULL), PW_OK);
  pw_assert_near(band.mean, 3.0, 1e-4, "mean", "closed form");
  pw_assert_near(band.sd, sqrt(14.0 / 12.0), 1e-3, "sd", "closed form");
  pw_range_shares(&r, 1, 2, share);
  assert_true(isnan(share[0].total)); /* an infinite result has no variance */
  assert_int_equal(pw_band_of(r.y + 1, 10, 4096, NULL, work, &band, NULL), PW_OK);
  assert_int_equal(band.n_infinite, 2048);
  pw_range_free(&r);
  pw_range_free(&r);
}

static void *count_new(const void *context)
{
  (void)context;
  return calloc(1, sizeof(double));
}

static pw_status wavy(const void *context, void *workspace, const double u[], double y[],
                      pw_err *err)
{
  (void)context;
  if (!workspace) return pw_fail(err, PW_E_DATA, "workspace", "none");
  double *own = workspace;
  *own += 1.0;
  y[0] = 0.0;
  for (int d = 0; d < 50; d++)
    y[0] += sin(7.0 * u[d] * (d + 1)) / (d + 1.3);
  return PW_OK;
}

/* Property wanted: one core and many give the same bytes. */
static void threads_do_not_change_a_digit(void **state)
{
  (void)state;
  pw_range_result one, many;
  pw_range_plan plan = {.n_dim = 50,
                        .n_out = 1,
                        .n_draw = 500,
                        .seed = 42,
                        .model = wavy,
                        .workspace_new = count_new,
                        .workspace_free = free};
  assert_int_equal(pw_range_run(&plan, &one, NULL), PW_OK);
  for (int threads = 2; threads <= 7; threads += 5) {
    plan.n_thread = threads;
    assert_int_equal(pw_range_run(&plan, &many, NULL), PW_OK);
    assert_memory_equal(one.y, many.y, 500 * sizeof(double));
    pw_range_free(&many);
  }
  plan.seed = 43;
  assert_int_equal(pw_range_run(&plan, &many, NULL), PW_OK);
  assert_true(memcmp(one.y, many.y, 500 * sizeof(double)) != 0);
  pw_range_free(&many);
  pw_range_free(&one);
}

static pw_status fails_late(const void *context, void *workspace, const double u[], double y[],
                            pw_err *err)
{
  (void)context, (void)workspace;
  y[0] = u[0];
  if (u[0] > 0.9) return pw_fail(err, PW_E_CONVERGE, "model", "failed at %.17g", u[0]);
  return PW_OK;
}

static void the_lowest_failing_draw_is_reported_whatever_the_threads(void **state)
{
  (void)state;
  pw_range_plan plan = {.n_dim = 2, .n_out = 1, .n_draw = 512, .seed = 1, .model = fails_late};
  pw_err first, other;
  pw_range_result r = {.n_dim = 99};
  assert_int_equal(pw_range_run(&plan, &r, &first), PW_E_CONVERGE);
  assert_int_equal(r.n_dim, 99);
  for (int k = 0; k < 20; k++) {
    plan.n_thread = 2 + k % 4;
    assert_int_equal(pw_range_run(&plan, &r, &other), PW_E_CONVERGE);
    assert_string_equal(first.text, other.text);
  }
}

static int stop_at_once(void *context, size_t done, size_t all)
{
  (void)all;
  *(size_t *)context = done;
  return 1;
}

static void progress_can_stop_the_run(void **state)
{
  (void)state;
  size_t done = 0;
  const double slope[3] = {1, 1, 1};
  pw_range_plan plan = {.n_dim = 3,
                        .n_out = 2,
                        .n_draw = 8192,
                        .seed = 1,
                        .model = straight,
                        .context = slope,
                        .progress = stop_at_once,
                        .progress_context = &done};
  pw_range_result r;
  assert_int_equal(pw_range_run(&plan, &r, NULL), PW_OK);
  assert_true(r.stopped && done > 0 && done < 8192);
  assert_null(r.y);
  pw_range_free(&r);
}

static void impossible_plans_are_refused(void **state)
{
  (void)state;
  pw_range_result r;
  pw_err err;
  pw_range_plan good = {.n_dim = 2, .n_out = 1, .n_draw = 8, .model = fails_late}, plan = good;
  plan.n_draw = 1;
  assert_int_equal(pw_range_run(&plan, &r, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "draws");
  plan = good;
  plan.n_thread = 65;
  assert_int_equal(pw_range_run(&plan, &r, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "threads");
  plan = good;
  plan.n_dim = 300; /* 600 with the second sample */
  assert_int_equal(pw_range_run(&plan, &r, &err), PW_E_SHAPE);
}

static atomic_size_t handed; /* batches */

/* Each draw by itself, three kinds by the first chance; fails where it should not be asked. */
static uint64_t third(const void *context, const double u[])
{
  (void)context;
  return (uint64_t)(3.0 * u[0]) << 40;
}

static pw_status several(const void *context, void *workspace, size_t n, const double u[],
                         double *const y[], pw_err *err)
{
  const double *fails_above = context;
  atomic_fetch_add(&handed, 1);
  if (n > 4) return pw_fail(err, PW_E_SHAPE, "n", "%zu", n);
  for (size_t k = 0; k < n; k++) {
    if (third(NULL, u + k * 50) != third(NULL, u))
      return pw_fail(err, PW_E_DATA, "kind", "two");
    if (u[k * 50 + 1] > *fails_above)
      return pw_fail(err, PW_E_DOMAIN, "u", "%.9g", u[k * 50 + 1]);
    pw_status s = wavy(NULL, workspace, u + k * 50, y[k], err);
    if (s != PW_OK) return s;
  }
  return PW_OK;
}

/* Property wanted: draws handed over together, of one kind and no more than asked for, give what they give alone, and the
 * lowest that fails is told, on any number of threads. */
static void draws_side_by_side_are_draws_alone(void **state)
{
  (void)state;
  double above = 2.0;
  pw_range_plan plan = {.n_dim = 50,
                        .n_out = 1,
                        .n_draw = 203,
                        .seed = 42,
                        .model = wavy,
                        .workspace_new = count_new,
                        .workspace_free = free,
                        .context = &above};
  pw_range_result alone, beside;
  assert_int_equal(pw_range_run(&plan, &alone, NULL), PW_OK);
  plan.model = NULL;
  plan.many = several;
  plan.beside = 4;
  plan.kind = third;
  pw_err first = {0}, other = {0};
  for (int threads = 1; threads <= 7; threads += 3) {
    plan.n_thread = threads;
    atomic_store(&handed, 0);
    assert_int_equal(pw_range_run(&plan, &beside, NULL), PW_OK);
    assert_memory_equal(alone.y, beside.y, 203 * sizeof(double));
    assert_in_range(atomic_load(&handed), 51, 53); /* of 203 in fours, each kind its rest */
    pw_range_free(&beside);
  }
  above = 0.95;
  plan.beside = 1;
  assert_int_equal(pw_range_run(&plan, &beside, &first), PW_E_DOMAIN);
  plan.beside = 4;
  for (int threads = 1; threads <= 7; threads += 3) {
    plan.n_thread = threads;
    assert_int_equal(pw_range_run(&plan, &beside, &other), PW_E_DOMAIN);
    assert_string_equal(first.text, other.text);
  }
  plan.model = wavy; /* one or the other */
  assert_int_equal(pw_range_run(&plan, &beside, &other), PW_E_SHAPE);
  plan.model = NULL;
  plan.beside = 0;
  assert_int_equal(pw_range_run(&plan, &beside, &other), PW_E_SHAPE);
  pw_range_free(&alone);
}

/* What a model does with the chances of both samples. */
static pw_status both_sums(const void *context, void *workspace, const double u[], double y[],
                           pw_err *err)
{
  (void)context;
  (void)workspace;
  (void)err;
  y[0] = u[0] + 10.0 * u[1] + 100.0 * u[2];
  y[1] = u[3] + 10.0 * u[4] + 100.0 * u[5];
  return PW_OK;
}

static pw_status one_sum(const void *context, void *workspace, const double u[], double y[],
                         pw_err *err)
{
  (void)context;
  (void)workspace;
  (void)err;
  y[0] = u[0] + 10.0 * u[1] + 100.0 * u[2];
  return PW_OK;
}

/* Property wanted: a model that gets both samples at once gets as the first the draws of one that gets them alone, as the
 * second the other half of the same points. */
static void both_samples_at_once_are_those_of_the_points(void **state)
{
  (void)state;
  pw_range_plan plan = {.n_dim = 3, .n_out = 1, .n_draw = 64, .seed = 9, .model = one_sum};
  pw_range_result alone, both;
  assert_int_equal(pw_range_run(&plan, &alone, NULL), PW_OK);
  plan.n_out = 2;
  plan.both = 1;
  plan.model = both_sums;
  assert_int_equal(pw_range_run(&plan, &both, NULL), PW_OK);
  pw_sobol sobol;
  assert_int_equal(pw_sobol_init(&sobol, 6, 64, 9, NULL), PW_OK);
  for (size_t i = 0; i < 64; i++) {
    double u[6];
    pw_sobol_point(&sobol, i, u);
    assert_memory_equal(&both.y[2 * i], &alone.y[i], sizeof(double));
    assert_true(both.y[2 * i + 1] == u[3] + 10.0 * u[4] + 100.0 * u[5]);
  }
  pw_range_free(&both);
  pw_range_free(&alone);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_straight_model_gives_its_slopes),
      cmocka_unit_test(threads_do_not_change_a_digit),
      cmocka_unit_test(the_lowest_failing_draw_is_reported_whatever_the_threads),
      cmocka_unit_test(progress_can_stop_the_run),
      cmocka_unit_test(impossible_plans_are_refused),
      cmocka_unit_test(draws_side_by_side_are_draws_alone),
      cmocka_unit_test(both_samples_at_once_are_those_of_the_points)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
