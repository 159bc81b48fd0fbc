/* The example job, opened, with the order of its openings by tag; for tests that change its openings in memory. */
#ifndef TESTS_EXAMPLE_FIXTURE_H
#define TESTS_EXAMPLE_FIXTURE_H

#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "job/job_open.h"
#include "study/compare.h"

enum { L1 = 0, L2, D1, F1, K1, K2, T1, B1, B2, B3, H1, OPENINGS };

typedef struct fixture {
  pw_open_job open;
  pw_opening as_read[OPENINGS];
  pw_compare whole; /* nothing special, month by month */
} fixture;

static const pw_compare_options quick = {.method = PW_YEAR_QUICK};

static inline int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_err err = {0};
  if (!f || pw_job_open("examples/harrow_bend", &f->open, &err) != PW_OK ||
      f->open.job.n_opening != OPENINGS ||
      pw_compare_run(&f->open.job, f->open.weather, &quick, NULL, &f->whole, &err) != PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  memcpy(f->as_read, f->open.job.opening, sizeof f->as_read);
  *state = f;
  return 0;
}

static inline int tear_down(void **state)
{
  fixture *f = *state;
  pw_compare_free(&f->whole);
  pw_job_close(&f->open);
  free(f);
  return 0;
}

static inline void as_read(fixture *f)
{
  memcpy(f->open.job.opening, f->as_read, sizeof f->as_read);
}

static inline pw_compare *run(fixture *f, const pw_compare_options *options)
{
  pw_compare *c = malloc(sizeof *c);
  pw_err err = {0};
  assert_non_null(c);
  if (pw_compare_run(&f->open.job, f->open.weather, options, NULL, c, &err) != PW_OK)
    fail_msg("%s", err.text);
  return c;
}

static inline void forget(pw_compare *c)
{
  pw_compare_free(c);
  free(c);
}

static inline void same(double a, double b, const char *what)
{
  pw_assert_near(a, b, 1e-9 * fmax(1.0, fabs(b)), what, "the same");
}

/* The figures that a reader sees of two comparisons. */
static inline void alike(const pw_compare *a, const pw_compare *b)
{
  for (size_t p = 0; p < a->n_package; p++) {
    const pw_compare_set x = pw_compare_set_of(a, (int)p), y = pw_compare_set_of(b, (int)p);
    same(x.rated->u, y.rated->u, "U");
    same(x.rated->shgc, y.rated->shgc, "SHGC");
    same(x.rated->vt, y.rated->vt, "VT");
    same(x.rated->glass_kept, y.rated->glass_kept, "glass kept");
    same(x.rated->light_kept, y.rated->light_kept, "light kept");
    same(x.rated->sweat_rh, y.rated->sweat_rh, "sweats above");
    same(x.lived->year.heating_kwh, y.lived->year.heating_kwh, "heating");
    same(x.lived->year.cooling_kwh, y.lived->year.cooling_kwh, "cooling");
    same(x.billed->bill.cost_year, y.billed->bill.cost_year, "bill");
    same(x.billed->saving.cost_year, y.billed->saving.cost_year, "saving");
    same(x.billed->saving_minimum.cost_year, y.billed->saving_minimum.cost_year,
         "over the code");
    same(x.billed->price, y.billed->price, "price");
  }
  same(a->billed.existing_set.bill.cost_year, b->billed.existing_set.bill.cost_year,
       "existing bill");
  same(a->billed.minimum_set.bill.cost_year, b->billed.minimum_set.bill.cost_year,
       "minimum bill");
}

/* Phases 1, 2 and 4 (3 has no window), one window that stays, one with a package of its own. */
static inline void in_phases(fixture *f)
{
  static const int phase[OPENINGS] = {
      [L1] = 2, [F1] = 2, [D1] = 4, [B1] = 2, [H1] = 4}; /* 3 has none */
  for (size_t i = 0; i < OPENINGS; i++)
    f->open.job.opening[i].phase = phase[i];
  f->open.job.opening[T1].own_package = 3;
  f->open.job.opening[K1].standing = PW_STAYS;
}

#endif
