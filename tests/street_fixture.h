/* A house of a street made up of two inputs, its range and its draws as the street has them. */
#ifndef TESTS_STREET_FIXTURE_H
#define TESTS_STREET_FIXTURE_H

#include "support.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/range_impl.h"
#include "study/sobol.h"

enum { DRAWS = 2048, SETS = 3 };

/* A house made up of two inputs: one that all share and one of its own. */
typedef struct made_up {
  size_t shared, own;
  double (*saving)(double shared, double own); /* of standard normal values */
  int plain;                                   /* without what only some houses have */
} made_up;

/* Where a house's chances hold an input that it has. */
static size_t place_of(const made_up *m, size_t input)
{
  return m->plain && input >= IN_YEAR ? input - (IN_YEAR - IN_SOME) : input;
}

/* Skewed, and the two act on each other. */
static double in_product(double shared, double own)
{
  return 100.0 * exp(0.3 * shared) * (1.0 + 0.2 * own + 0.1 * own * own);
}

static pw_status figures(const void *context, const double u[], double f[], pw_err *err)
{
  const made_up *m = context;
  (void)err;
  memset(f, 0, SETS * F_COUNT * sizeof *f);
  f[F_COUNT + F_SAVING] = m->saving(gsl_cdf_ugaussian_Pinv(u[place_of(m, m->shared)]),
                                    gsl_cdf_ugaussian_Pinv(u[place_of(m, m->own)]));
  return PW_OK;
}

/* The house's own range, as pw_range_of draws it: every chance from the points of the seed. */
static void live(const made_up *m, uint64_t key, const double weight[], pw_street_house *house)
{
  double *f = calloc((size_t)DRAWS * SETS * F_COUNT, sizeof *f);
  double *sort = calloc(2 * DRAWS, sizeof *sort), u[2 * IN_COUNT];
  pw_sobol sobol;
  range_case rc = {.n_set = SETS, .street = house};
  for (size_t i = 0; i < IN_COUNT; i++)
    if (!m->plain || i < IN_SOME || i >= IN_YEAR) rc.which[rc.n_in++] = i;
  assert_int_equal(pw_street_house_new(house, key, DRAWS, 1, NULL), PW_OK);
  assert_int_equal(pw_sobol_init(&sobol, 2 * IN_COUNT, DRAWS, 1, NULL), PW_OK);
  for (size_t i = 0; i < DRAWS; i++) {
    pw_sobol_point(&sobol, i, u);
    figures(m, u, f + i * SETS * F_COUNT, NULL);
  }
  assert_int_equal(range_street_spreads(&rc, f, DRAWS, weight, sort, NULL), PW_OK);
  assert_int_equal(range_street_draws(&rc, 1, figures, m, NULL), PW_OK);
  free(f);
  free(sort);
}

static const double *saving_of(const pw_street_house *h)
{
  return h->package + PW_STREET_SAVING * h->n_draw;
}

#endif
