/* The bill before any phase: what a job's bill_year is of, whichever phase is looked at. */
#include <stdlib.h>
#include <string.h>

#include "study/compare_impl.h"

int pw_compare_is_later(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (job->opening[i].standing == PW_DONE) return 1;
  return 0;
}

double pw_compare_cost_of_bill(const pw_compare *c)
{
  double ratio = c->billed.package_set[0].saving.bill_ratio;
  return pw_compare_is_later(c->job) && ratio > 0.0 ? ratio * c->job->house.bill_year.value
                                                    : c->billed.existing_set.bill.cost_year;
}

pw_status pw_compare_cost_before(const pw_job *now, const pw_weather *weather,
                                 const pw_compare_options *options,
                                 pw_year_workspace *workspace, double *cost, pw_err *err)
{
  size_t n = now->n_opening;
  pw_job job = *now;
  pw_compare *all_old = malloc(sizeof *all_old);
  job.opening = malloc(n * sizeof *job.opening);
  pw_status status = all_old && job.opening
                         ? PW_OK
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the years before");
  if (status == PW_OK) {
    memcpy(job.opening, now->opening, n * sizeof *job.opening);
    for (size_t i = 0; i < n; i++)
      job.opening[i].standing = PW_STAYS;
    status = pw_compare_run(&job, weather, options, workspace, all_old, err);
  }
  if (status == PW_OK) {
    *cost = all_old->billed.existing_set.bill.cost_year;
    pw_compare_free(all_old);
  }
  free(all_old);
  free(job.opening);
  return status;
}
