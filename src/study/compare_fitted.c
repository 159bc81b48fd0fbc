/* The comparison, first stage: glass built, openings fitted, cautions of the job. */
#include <stdlib.h>

#include "study/compare_impl.h"
#include "window/fit_job.h"

pw_status pw_compare_make_fitted(const pw_job *job, pw_compare_fitted *f, pw_err *err)
{
  size_t n = job->n_opening;
  pw_fit *fit = calloc(n * job->n_package, sizeof *fit);
  if (!fit) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  for (size_t p = 0; p < job->n_package; p++)
    f->fit[p] = fit + p * n;
  pw_status status = pw_compare_build_glass(job, f, err);
  for (size_t p = 0; status == PW_OK && p < job->n_package; p++)
    status = pw_fit_job(job, p, fit + p * n, err);
  return status == PW_OK ? pw_cautions_find(job, f->fit[0], &f->cautions, err) : status;
}

void pw_compare_fitted_free(pw_compare_fitted *f)
{
  free((void *)f->existing_glass);
  free((void *)f->package_glass);
  free((void *)f->package_buildup);
  free((void *)f->glass_at[0]);
  free((void *)f->fit[0]);
  pw_cautions_free(&f->cautions);
}
