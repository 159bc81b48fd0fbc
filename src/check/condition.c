/* Draws weighted by bills, against posteriors in closed form (reference/meter/condition_cases.csv): part of the
 * group bills. */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "check/bills.h"
#include "check/table_rows.h"
#include "meter/condition.h"
#include "meter/limits.h"
#include "study/sobol.h"

enum { DRAWS = 65536, BILLS = 12, INPUTS = 3 };

/* Degree days of the three-parameter case, from its row of the reference set. */
static const double heating[BILLS] = {20, 18, 12, 6, 1, 0, 0, 0, 2, 8, 14, 19};
static const double cooling[BILLS] = {0, 0, 0, 1, 4, 9, 12, 11, 6, 1, 0, 0};
static const double prior_sd[INPUTS] = {0.15, 0.25, 0.3}, truth[INPUTS] = {0.1, -0.2, 0.15};

typedef struct draws {
  double *x, *residual, *log_weight, *chi2, *sort, *weight; /* owned by x */
} draws;

static double predict(const double a[INPUTS], int i)
{
  return 30.0 * a[0] + 0.9 * heating[i] * a[1] + 0.4 * cooling[i] * a[2];
}

static int open_draws(draws *d)
{
  d->x = calloc((size_t)DRAWS * (INPUTS + BILLS + 4), sizeof *d->x);
  if (!d->x) return 0;
  d->residual = d->x + (size_t)DRAWS * INPUTS;
  d->log_weight = d->residual + (size_t)DRAWS * BILLS;
  d->chi2 = d->log_weight + DRAWS;
  d->sort = d->chi2 + DRAWS;
  d->weight = d->sort + DRAWS;
  return 1;
}

/* The case's draws, weighed. */
static pw_status weigh(const pw_table *t, size_t row, draws *d, pw_condition *c, pw_err *err)
{
  int three = strcmp(row_text(t, row, "kind"), "three") == 0;
  size_t n_in = three ? INPUTS : 1, n_bill = three ? BILLS : 1;
  double sigma[BILLS];
  for (size_t i = 0; i < n_bill; i++)
    sigma[i] = three ? 0.5 : sqrt(row_number(t, row, "variance"));
  const pw_condition_meter meter = {.n = n_bill,
                                    .sigma = sigma,
                                    .discrepancy = row_number(t, row, "discrepancy"),
                                    .shared = row_number(t, row, "shared")};
  pw_sobol sobol;
  pw_status status = pw_sobol_init(&sobol, n_in, DRAWS, 8, err);
  for (size_t k = 0; status == PW_OK && k < DRAWS; k++) {
    double *x = d->x + k * INPUTS, u[INPUTS];
    pw_sobol_point(&sobol, k, u);
    d->log_weight[k] = d->chi2[k] = 0.0;
    for (size_t i = 0; i < n_in; i++)
      x[i] = (three ? prior_sd[i] : 0.3) * gsl_cdf_ugaussian_Pinv(u[i]);
    for (size_t i = 0; i < n_bill; i++)
      d->residual[k * n_bill + i] = three ? predict(truth, (int)i) - predict(x, (int)i)
                                          : row_number(t, row, "datum") - x[0];
  }
  if (status == PW_OK)
    status = pw_condition_add(&meter, d->residual, DRAWS, d->log_weight, d->chi2, err);
  if (status == PW_OK)
    status =
        pw_condition_weights(d->log_weight, d->chi2, DRAWS, (double)n_bill,
                             METER_LIMIT(least_effective_share), d->sort, d->weight, c, err);
  return status;
}

static void give(const pw_check_sink *sink, const pw_table *t, size_t row, const draws *d,
                 const pw_condition *c)
{
  static const char *const mean_of[] = {"mean1", "mean2", "mean3"};
  static const char *const sd_of[] = {"sd1", "sd2", "sd3"};
  const char *id = row_text(t, row, "kind"), *source = row_text(t, row, "source");
  const char *how = row_text(t, row, "how_known");
  int three = strcmp(id, "three") == 0;
  for (int p = 0; p < (three ? INPUTS : 1); p++) {
    double sum = 0.0, mean = 0.0, square = 0.0, sd = row_number(t, row, sd_of[p]);
    for (size_t k = 0; k < DRAWS; k++) {
      double x = d->x[k * INPUTS + (size_t)p];
      sum += d->weight[k];
      mean += d->weight[k] * x;
      square += d->weight[k] * x * x;
    }
    mean /= sum;
    /* Stratified draws of one input are nearly a grid; of three the effective draws set the error. */
    double wide = (three ? 2.0 : 0.3) * sd / sqrt(c->effective);
    pw_check_give(sink, id, mean_of[p], "-", mean, row_number(t, row, mean_of[p]), wide, source,
                  how);
    pw_check_give(sink, id, sd_of[p], "-", sqrt(square / sum - mean * mean), sd, wide, source,
                  how);
  }
  double want = row_number(t, row, "ess");
  /* The other program's sampling runs of three inputs held 20 000 draws: 35 to 400 effective ones. */
  pw_check_give(sink, id, "effective draws over all", "-", c->effective / DRAWS, want,
                (three ? 0.2 : 0.02) * want, source, how);
}

pw_status bills_condition_rows(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t;
  draws d = {.x = NULL};
  pw_status status = row_table("meter/condition_cases", &t, err);
  if (status == PW_OK && !open_draws(&d))
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %d draws", (int)DRAWS);
  for (size_t i = 0; status == PW_OK && i < t->n_row; i++) {
    pw_condition c;
    status = weigh(t, i, &d, &c, err);
    if (status == PW_OK) give(sink, t, i, &d, &c);
  }
  free(d.x);
  return status;
}
