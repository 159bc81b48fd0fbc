/* Tightness over three hundred jobs of chance: the sashes' sum never above 22 % of the house, the likely saving inside its
 * range, the order of rows nothing. */
#include "random_job.h"

#include <stdlib.h>
#include <unistd.h>

#include "job/job_open.h"
#include "study/compare_tight.h"

static void same(double a, double b, const char *what)
{
  pw_assert_near(a, b, 1e-9 * fmax(1.0, fabs(b)), what, "the same");
}

typedef struct both {
  pw_compare *c;
  pw_compare_tight *t;
} both;

static void drop(both *b)
{
  pw_compare_free(b->c);
  free(b->c);
  free(b->t);
}

static both chance_run(const draft *d, int i, int turn, pw_open_job *open, const char *dir)
{
  both b = {malloc(sizeof *b.c), malloc(sizeof *b.t)};
  pw_err err = {0};
  write_job(d, dir, turn);
  if (pw_job_open(dir, open, &err) != PW_OK) fail_msg("job %d: %s", i, err.text);
  for (size_t k = 0; k < open->job.n_opening;
       k++) { /* by the tag, so that turning is nothing */
    pw_opening *o = &open->job.opening[k];
    o->sash_leak = (pw_sash_state)((i + o->tag[strlen(o->tag) - 1]) % PW_SASH_STATES);
    if (i % 5 == 0) o->sash_leak = PW_SASH_LOOSE;
  }
  if (i % 3 == 1) open->job.house.cfm50.value = 0.03 + 0.01 * (i % 100);
  if (i % 5 == 0) open->job.house.air_changes.value = 0.05;
  if (i % 7 == 2) open->job.house.infiltration = PW_INFILTRATION_AIM2;
  pw_compare_options o = pw_job_options(open, PW_YEAR_QUICK);
  if (pw_compare_run(&open->job, open->weather, &o, NULL, b.c, &err) != PW_OK ||
      pw_compare_tight_of(b.c, open->weather, &o, NULL, b.t, &err) != PW_OK)
    fail_msg("job %d: %s", i, err.text);
  return b;
}

static void jobs_of_chance(void **state)
{
  enum { JOBS = 300 };
  char dir[] = "/tmp/panewright-tight-XXXXXX";
  int n_held = 0, n_told = 0;
  (void)state;
  assert_non_null(mkdtemp(dir));
  for (int i = 0; i < JOBS; i++) {
    draft d;
    pw_open_job open, turned;
    draft_of(i, &d);
    both b = chance_run(&d, i, 0, &open, dir);
    const pw_compare_tight *t = b.t;
    n_told += t->told;
    if (t->told) {
      assert_true(t->area > 0.0 && t->sashes <= 0.22 * t->area * (1.0 + 1e-12));
      assert_true(t->sashes_replaced <= t->sashes * (1.0 + 1e-12));
      assert_true(t->held == (t->by_table > 0.22 * t->area));
      n_held += t->held;
    }
    for (size_t p = 0; t->told && p < b.c->n_package; p++) {
      const pw_tight_package *k = &t->package[p];
      assert_true(k->area > 0.0 && k->air_changes > 0.0);
      assert_true(k->cost_low <= k->saving.cost_year && k->saving.cost_year <= k->cost_high);
      assert_true(k->saving.cost_year <= k->saving.cost_computed + 1e-9 ||
                  k->saving.cost_computed < 0.0);
      assert_true(k->air_low <= k->air_changes);
      if (!(open.job.house.bill_year.value > 0.0)) /* as every saving on a sheet */
        assert_true(k->cost_high >= k->saving.cost_year + 0.25 * fabs(k->saving.cost_year) &&
                    k->cost_low <= k->saving.cost_year - 0.25 * fabs(k->saving.cost_year));
    }
    if (i % 4 == 0 && b.c->n_opening > 1) {
      both u = chance_run(&d, i, 1, &turned, dir);
      same(u.t->area, t->area, "area");
      same(u.t->sashes, t->sashes, "sashes");
      for (size_t p = 0; p < b.c->n_package; p++)
        for (size_t q = 0; q < b.c->n_package; q++) {
          if (strcmp(b.c->rated.package_set[p].name, u.c->rated.package_set[q].name) != 0)
            continue;
          const pw_tight_package *x = &t->package[p], *y = &u.t->package[q];
          pw_assert_near(y->saving.cost_year, x->saving.cost_year, 1e-6, "saved", "turned");
          pw_assert_near(y->cost_low, x->cost_low, 1e-6, "low", "turned");
          pw_assert_near(y->cost_high, x->cost_high, 1e-6, "high", "turned");
        }
      drop(&u);
      pw_job_close(&turned);
    }
    drop(&b);
    pw_job_close(&open);
  }
  print_message("%d jobs told, %d held to the cap\n", n_told, n_held);
  assert_true(n_told > 250 && n_held > 10);
  static const char *const file[] = {"job.csv", "openings.csv", "packages.csv",
                                     "frame_lines.csv"};
  for (size_t i = 0; i < 4; i++) {
    char path[80];
    snprintf(path, sizeof path, "%s/%s", dir, file[i]);
    unlink(path);
  }
  assert_int_equal(rmdir(dir), 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(jobs_of_chance),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
