/* Studies: what is refused and by which name, and rules at their edges, each with a value from outside or by hand. */
#include "example_fixture.h"

#include "panewright/comparison.h"
#include "study/code_check.h"
#include "study/code_minimum.h"
#include "study/compare_airing.h"
#include "study/compare_tight.h"
#include "study/first_window.h"
#include "study/range_run.h"
#include "study/rank.h"
#include "study/rebate.h"
#include "study/sensitivity.h"
#include "study/sobol.h"
#include "study/spread.h"
#include "study/street.h"
#include "study/surface.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

static void spreads(void **state)
{
  (void)state;
  static const pw_spread bad[] = {{PW_SHAPE_FIXED, 0, NAN, 0, NULL, NULL},
                                  {PW_SHAPE_FIXED, 0, INFINITY, 0, NULL, NULL},
                                  {PW_SHAPE_UNIFORM, NAN, 1, 2, NULL, NULL},
                                  {PW_SHAPE_UNIFORM, 0, 1, NAN, NULL, NULL},
                                  {PW_SHAPE_UNIFORM, 0, 1, INFINITY, NULL, NULL},
                                  {PW_SHAPE_UNIFORM, 0, -1, 2, NULL, NULL},
                                  {PW_SHAPE_NORMAL, 0, 3, 2, NULL, NULL},
                                  {PW_SHAPE_SOME, 0, 1.2, 2, NULL, NULL}};
  static const pw_spread good[] = {{PW_SHAPE_FIXED, 9, 1, 0, NULL, NULL},
                                   {PW_SHAPE_UNIFORM, 1, 1, 1, NULL, NULL},
                                   {PW_SHAPE_SOME, 0, 1.0, 2, NULL, NULL}};
  pw_err err = {0};
  pw_spread s = {.mode = 42.0};
  for (size_t i = 0; i < N(bad); i++) {
    assert_int_equal(pw_spread_check(&bad[i], &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "spread");
  }
  for (size_t i = 0; i < N(good); i++)
    assert_int_equal(pw_spread_check(&good[i], &err), PW_OK);
  /* A third of 0 to 1 drawn in all: with mean 1/2 every home, with none of it none. */
  const pw_spread all = {PW_SHAPE_SOME, 0, 0.5, 1, NULL, NULL},
                  none = {PW_SHAPE_SOME, 0, 0, 1, NULL, NULL};
  pw_assert_near(pw_spread_at(&all, 0.25), 0.25, 1e-12, "in all homes", "mean by hand");
  pw_assert_near(pw_spread_at(&none, 0.999999), 0.0, 0.0, "in no home", "mean by hand");
  pw_assert_near(pw_spread_at(&good[1], 0.3), 1.0, 0.0, "no width", "spread.h");
  const pw_given given[] = {{.value = 1.0, .spread = INFINITY}, {.value = 1.0, .spread = NAN}};
  for (size_t i = 0; i < N(given); i++)
    assert_int_equal(pw_spread_of("frame_u", &given[i], &s, &err), PW_E_DOMAIN);
  pw_assert_near(s.mode, 42.0, 0.0, "untouched", "spread.h");
  double low, high, mean;
  assert_int_equal(pw_standard140_case(0, "no such case", &low, &high, &mean), 0);
  assert_int_equal(pw_standard140_case(1, "600", &low, &high, &mean), 1);
  assert_true(low < mean && mean < high);
}

/* Quantiles next to values that never end: a payback that never comes. */
static void quantiles_beside_infinity(void **state)
{
  (void)state;
  const double up[] = {1, 2, INFINITY, INFINITY}, down[] = {-INFINITY, 1, 2, 3};
  double work[8], out[4];
  pw_band b;
  pw_err err = {0};
  assert_int_equal(pw_band_of(up, 1, 4, NULL, work, &b, &err), PW_OK);
  assert_true(isinf(b.p90) && b.p10 > 0.99 && b.p10 < 2.0);
  assert_int_equal(pw_band_of(down, 1, 4, NULL, work, &b, &err), PW_OK);
  assert_true(isinf(b.p10) && b.p10 < 0.0 && b.p90 < 3.0);
  assert_int_equal(pw_quantiles_of(down, 1, 4, NULL, work, out, 1, &err), PW_E_SHAPE);
  double a[2] = {1, 2}, c[2] = {2, 3}, bad[] = {NAN, INFINITY, -INFINITY};
  pw_sensitivity s;
  double *const in[] = {&a[1], &c[0]};
  for (size_t i = 0; i < N(in); i++)
    for (size_t k = 0; k < N(bad); k++) {
      double was = *in[i];
      *in[i] = bad[k];
      assert_int_equal(pw_sensitivity_of(a, c, a, 1, 2, &s, &err), PW_E_DOMAIN);
      *in[i] = was;
    }
  const double last[2] = {1, NAN};
  assert_int_equal(pw_sensitivity_of(a, c, last, 1, 2, &s, &err), PW_E_DOMAIN);
  assert_int_equal(pw_sensitivity_of(a, c, a, 1, 1, &s, &err), PW_E_SHAPE);
}

static pw_status nothing(const void *context, void *workspace, const double u[], double y[],
                         pw_err *err)
{
  (void)context, (void)workspace, (void)u, (void)err;
  y[0] = 1.0;
  return PW_OK;
}

static pw_status many(const void *context, void *workspace, size_t n, const double u[],
                      double *const y[], pw_err *err)
{
  for (size_t i = 0; i < n; i++)
    (void)nothing(context, workspace, u, y[i], err);
  return PW_OK;
}

static void plans_and_points(void **state)
{
  (void)state;
  const pw_range_plan good = {.n_dim = 2, .n_out = 1, .n_draw = 8, .model = nothing};
  struct {
    pw_range_plan plan;
    const char *field;
  } bad[] = {{good, "model"},   {good, "model"},  {good, "beside"}, {good, "beside"},
             {good, "n_out"},   {good, "n_out"},  {good, "draws"},  {good, "draws"},
             {good, "threads"}, {good, "threads"}};
  bad[0].plan.model = NULL;
  bad[1].plan.many = many;
  bad[2].plan.model = bad[3].plan.model = NULL;
  bad[2].plan.many = bad[3].plan.many = many;
  bad[3].plan.beside = PW_BESIDE_MAX + 1;
  bad[4].plan.n_out = 0;
  bad[5].plan.n_out = 100001;
  bad[6].plan.n_draw = 1;
  bad[7].plan.n_draw = ((size_t)1 << PW_SOBOL_BITS_MAX) + 1;
  bad[8].plan.n_thread = -1;
  bad[9].plan.n_thread = PW_THREADS_MAX + 1;
  pw_range_result r;
  pw_err err = {0};
  for (size_t i = 0; i < N(bad); i++) {
    assert_int_equal(pw_range_run(&bad[i].plan, &r, &err), PW_E_SHAPE);
    assert_string_equal(err.field, bad[i].field);
  }
  assert_int_equal(pw_range_run(&good, &r, &err), PW_OK);
  pw_range_free(&r);
  pw_range_free(NULL);
  pw_sobol sobol;
  assert_int_equal(pw_sobol_init(&sobol, 1, 0, 1, &err), PW_E_SHAPE);
  surface s;
  static const double z[4 * (SURFACE_DIMS_MAX + 1)], y[4];
  assert_int_equal(surface_fit(z, y, 4, SURFACE_DIMS_MAX + 1, 1, NULL, &s, &err), PW_E_SHAPE);
  assert_int_equal(surface_fit(z, y, 3, 1, 1, NULL, &s, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "draws");
  surface_free(NULL);
}

static void streets(void **state)
{
  (void)state;
  pw_street_sum sum;
  pw_band band;
  double work[8];
  pw_err err = {0};
  pw_street_house_free(NULL);
  pw_street_sum_free(NULL);
  assert_int_equal(pw_street_sum_new(&sum, 4, &err), PW_OK);
  assert_int_equal(pw_street_sum_band(&sum, work, &band, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "street");
  pw_street_sum_free(&sum);
}

/* IECC table R301.3(2), thermal criteria in F days (as code_minimum.c has them, from memory): each at its limit and beyond. */
static void zones_by_degree_days(void **state)
{
  (void)state;
  static const struct {
    double hdd, cdd;
    int zone;
  } row[] = {{0, 9001, 1},    {0, 9000, 2},    {0, 6301, 2},    {0, 6300, 3},
             {5400, 4501, 3}, {5401, 4501, 5}, {3601, 4500, 4}, {3600, 4500, 3},
             {5400, 4500, 4}, {5401, 0, 5},    {7200, 0, 5},    {7201, 0, 6},
             {9000, 0, 6},    {9001, 0, 7},    {12600, 0, 7},   {12601, 0, 8}};
  for (size_t i = 0; i < N(row); i++)
    assert_int_equal(pw_code_zone(row[i].hdd, row[i].cdd), row[i].zone);
  static const char *const bad[] = {"X", "9", "/", ":"};
  for (size_t i = 0; i < N(bad); i++) {
    pw_code_place place = {.zone = ""};
    pw_code_limits limits;
    pw_err err = {0};
    strcpy(place.zone, bad[i]);
    assert_int_equal(pw_code_limits_find(&place, &limits, &err), PW_OK);
    assert_int_equal(limits.known, 0);
    assert_int_equal(limits.says.number, PW_SAY_CODE_MODEL_UNKNOWN);
  }
  assert_string_equal(pw_code_state_name((pw_code_state)99), "");
}

static void comparisons(void **state)
{
  fixture *f = *state;
  pw_job job = f->open.job;
  pw_compare c;
  pw_err err = {0};
  struct {
    size_t *count, value;
    const char *field;
  } row[] = {{&job.n_opening, 0, "openings"},
             {&job.n_opening, PW_WINDOWS_MAX + 1, "openings"},
             {&job.n_package, 0, "packages"},
             {&job.n_package, PW_COMPARE_PACKAGES_MAX + 1, "packages"}};
  for (size_t i = 0; i < N(row); i++) {
    size_t was = *row[i].count;
    *row[i].count = row[i].value;
    assert_int_equal(pw_compare_run(&job, f->open.weather, &quick, NULL, &c, &err), PW_E_SHAPE);
    assert_string_equal(err.field, row[i].field);
    assert_int_equal(c.n_opening, 0);
    *row[i].count = was;
  }
  strcpy(job.house.install_date, "2026-02-30");
  assert_int_equal(pw_compare_run(&job, f->open.weather, &quick, NULL, &c, &err), PW_E_DOMAIN);
  pw_compare_free(NULL);
}

/* A colder design night sweats sooner; the night told goes before the year's 1st percentile. */
static void a_design_night_told(void **state)
{
  fixture *f = *state;
  pw_compare_options o = quick;
  o.t_design_out = 233.15;
  pw_compare *c = run(f, &o);
  pw_assert_near(c->rated.t_design_out, 233.15, 0.0, "night", "as told");
  assert_true(c->rated.existing_set.sweat_rh < f->whole.rated.existing_set.sweat_rh);
  forget(c);
}

/* The public face tells what the comparison has, set by set, and no set beyond. */
static void sets_of_a_host(void **state)
{
  fixture *f = *state;
  pw_job job = f->open.job;
  job.n_opening = 2;
  pw_comparison *c = NULL;
  pw_compared got[3];
  pw_err err = {0};
  if (pw_comparison_new(&job, f->open.weather, &c, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(pw_comparison_count(c), 2 + job.n_package);
  for (size_t i = 0; i < 3; i++)
    assert_int_equal(pw_comparison_get(c, i, &got[i], &err), PW_OK);
  assert_true(!pw_is_given(got[0].saved));
  assert_true(!pw_is_given(got[0].price));
  assert_true(pw_is_given(got[1].saved) && !pw_is_given(got[1].price));
  assert_true(pw_is_given(got[2].price));
  pw_assert_near(got[2].saved, got[0].bill - got[2].bill, 0.05 * got[0].bill, "saved",
                 "difference of bills, but for the bill that holds it");
  assert_int_equal(pw_comparison_get(c, 2 + job.n_package, &got[0], &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "set");
  pw_comparison_free(c);
  job.n_package = 0;
  assert_int_equal(pw_comparison_new(&job, f->open.weather, &c, &err), PW_E_SHAPE);
  assert_null(c);
  pw_comparison_free(NULL);
}

/* Studies run with no options and no room of their own do as with the defaults. */
static void defaults_are_the_detailed_method(void **state)
{
  fixture *f = *state;
  static pw_compare_airing a[2];
  static pw_compare_tight t[2];
  pw_compare_options detailed = {.method = PW_YEAR_DETAILED};
  pw_year_workspace *ws = pw_year_workspace_new();
  pw_err err = {0};
  f->open.job.n_opening = 1;
  f->open.job.house.cfm50 = (pw_given){.value = 0.9, .origin = PW_ORIGIN_MEASURED};
  pw_compare *c = run(f, NULL);
  for (int k = 0; k < 2; k++) {
    assert_int_equal(pw_compare_airing_of(c, f->open.weather, k ? &detailed : NULL,
                                          k ? ws : NULL, &a[k], &err),
                     PW_OK);
    assert_int_equal(pw_compare_tight_of(c, f->open.weather, k ? &detailed : NULL,
                                         k ? ws : NULL, &t[k], &err),
                     PW_OK);
  }
  assert_memory_equal(&a[0], &a[1], sizeof a[0]);
  assert_true(t[0].told && t[0].air_changes == t[1].air_changes);
  assert_memory_equal(&t[0].package[0], &t[1].package[0], sizeof t[0].package[0]);
  pw_year_workspace_free(ws);
  forget(c);
}

/* Without one window that a program looks at there is nothing to claim, and no window to count. */
static void nothing_to_claim(void **state)
{
  fixture *f = *state;
  pw_program_row row[2] = {
      {.kind = PW_ROW_CRITERION, .op = PW_OP_LE, .value = 9.0, .step = 0.01, .si = 1.0},
      {.kind = PW_ROW_ROOMS, .conditioned = 1}};
  const pw_program program = {.n_row = 2, .row = row};
  pw_rebate_count k;
  pw_err err = {0};
  strcpy(row[0].program, "P");
  strcpy(row[1].program, "P");
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].unconditioned = 1;
  assert_int_equal(pw_rebate_count_of(&f->whole, 0, &program, "", 20260601, &k, &err), PW_OK);
  assert_int_equal(k.of, 0);
  assert_int_equal(k.n, 0);
  assert_int_equal(k.result.verdict, PW_VERDICT_FAILS);
  assert_int_equal(k.result.says.number, PW_SAY_NOTHING_TO_CLAIM);
  f->open.job.opening[B1].unconditioned = 0;
  assert_int_equal(pw_rebate_count_of(&f->whole, 0, &program, "", 20260601, &k, &err), PW_OK);
  assert_int_equal(k.of, f->open.job.opening[B1].quantity);
}

static void searches(void **state)
{
  fixture *f = *state;
  static pw_rank_catalogue c;
  struct {
    pw_rank_options o;
    size_t n_pane, n_gap, n_spacer, n_line;
    pw_status want;
  } row[] = {
      {{.n_top = PW_RANK_TOP_MAX + 1}, 1, 1, 1, 1, PW_E_DOMAIN},
      {{.limits = {.panes_min = 3, .panes_max = 2}}, 1, 1, 1, 1, PW_E_DOMAIN},
      {{.limits = {.panes_max = PW_PANES_MAX + 1}}, 1, 1, 1, 1, PW_E_DOMAIN},
      {{.n_top = 1}, 0, 1, 1, 1, PW_E_SHAPE},
      {{.n_top = 1}, 1, 0, 1, 1, PW_E_SHAPE},
      {{.n_top = 1}, 1, 1, 0, 1, PW_E_SHAPE},
      {{.n_top = 1}, 1, 1, 1, 0, PW_E_SHAPE},
  };
  strcpy(c.line[0].name, "vinyl");
  strcpy(c.pane[0].pane.kind, "clear");
  c.pane[0].pane.thickness = 0.003;
  for (size_t i = 0; i < N(row); i++) {
    pw_rank r;
    pw_err err = {0};
    c.n_pane = row[i].n_pane;
    c.n_gap = row[i].n_gap;
    c.n_spacer = row[i].n_spacer;
    c.n_line = row[i].n_line;
    row[i].o.method = PW_YEAR_QUICK;
    assert_int_equal(pw_rank_run(&f->whole, f->open.weather, &c, &row[i].o, &r, &err),
                     row[i].want);
  }
  pw_rank_free(NULL);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(spreads),
      cmocka_unit_test(quantiles_beside_infinity),
      cmocka_unit_test(plans_and_points),
      cmocka_unit_test(streets),
      cmocka_unit_test(zones_by_degree_days),
      cmocka_unit_test_setup_teardown(comparisons, set_up, tear_down),
      cmocka_unit_test_setup_teardown(a_design_night_told, set_up, tear_down),
      cmocka_unit_test_setup_teardown(sets_of_a_host, set_up, tear_down),
      cmocka_unit_test_setup_teardown(defaults_are_the_detailed_method, set_up, tear_down),
      cmocka_unit_test_setup_teardown(nothing_to_claim, set_up, tear_down),
      cmocka_unit_test_setup_teardown(searches, set_up, tear_down),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
