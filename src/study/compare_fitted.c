/* The comparison, first stage: glass built, openings fitted, cautions of the job. */
#include <stdlib.h>

#include "study/compare_impl.h"
#include "window/fit_job.h"

pw_status pw_compare_make_fitted(const pw_job *job, pw_compare_fitted *f, pw_err *err)
{
  size_t n = job->n_opening, np = n * job->n_package;
  f->existing_glass = calloc(n, sizeof *f->existing_glass);
  f->glass_at[0] = calloc(np, sizeof *f->glass_at[0]);
  f->fit[0] = calloc(np, sizeof *f->fit[0]);
  if (!f->existing_glass || !f->glass_at[0] || !f->fit[0])
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  for (size_t p = 1; p < job->n_package; p++) {
    f->glass_at[p] = f->glass_at[0] + p * n;
    f->fit[p] = f->fit[0] + p * n;
  }
  pw_status status = pw_compare_build_glass(job, f, err);
  for (size_t p = 0; status == PW_OK && p < job->n_package; p++)
    status = pw_fit_job(job, p, f->fit[p], err);
  return status == PW_OK ? pw_cautions_find(job, f->fit[0], &f->cautions, err) : status;
}

void pw_compare_fitted_free(pw_compare_fitted *f)
{
  free(f->existing_glass);
  free(f->package_glass);
  free(f->package_buildup);
  free(f->glass_at[0]);
  free(f->fit[0]);
  pw_cautions_free(&f->cautions);
}
