#include "study/compare.h"

#include <stdio.h>
#include <string.h>

#include "study/compare_impl.h"

pw_status pw_compare_blame(pw_status status, pw_err *err, const char *kind, const char *name)
{
  if (status == PW_OK || !err) return status;
  char text[sizeof err->text];
  memcpy(text, err->text, sizeof text);
  snprintf(err->text, sizeof err->text, "%s %.48s: %.300s", kind, name, text);
  return status;
}

pw_status pw_compare_run(const pw_job *job, const pw_weather *weather,
                         const pw_compare_options *options, pw_year_workspace *workspace,
                         pw_compare *out, pw_err *err)
{
  static const pw_compare_options defaults = {0};
  if (!options) options = &defaults;
  memset(out, 0, sizeof *out);
  if (job->n_opening < 1 || job->n_opening > PW_WINDOWS_MAX)
    return pw_fail(err, PW_E_SHAPE, "openings",
                   "%zu openings, want 1 to %d rows (use quantity)", job->n_opening,
                   PW_WINDOWS_MAX);
  if (job->n_package < 1 || job->n_package > PW_COMPARE_PACKAGES_MAX)
    return pw_fail(err, PW_E_SHAPE, "packages", "%zu packages, want 1 to %d", job->n_package,
                   PW_COMPARE_PACKAGES_MAX);
  out->job = job;
  out->n_opening = job->n_opening;
  out->n_package = job->n_package;
  pw_status status = pw_compare_make_fitted(job, &out->fitted, err);
  if (status == PW_OK)
    status = pw_compare_make_rated(job, &out->fitted, weather, options, &out->rated, err);
  if (status == PW_OK)
    status = pw_compare_make_lived(job, &out->fitted, &out->rated, weather, options, workspace,
                                   &out->lived, err);
  if (status == PW_OK)
    status = pw_compare_make_billed(job, &out->rated, &out->lived, weather, options, workspace,
                                    &out->billed, err);
  if (status != PW_OK) pw_compare_free(out);
  return status;
}

void pw_compare_free(pw_compare *compare)
{
  if (!compare) return;
  pw_compare_fitted_free(&compare->fitted);
  pw_compare_rated_free(&compare->rated);
  pw_compare_lived_free(&compare->lived);
  memset(compare, 0, sizeof *compare);
}

pw_compare_set pw_compare_set_of(const pw_compare *c, int set)
{
  if (set == PW_SET_MINIMUM)
    return (pw_compare_set){&c->rated.minimum_set, &c->lived.minimum_set,
                            &c->billed.minimum_set};
  if (set == PW_SET_EXISTING)
    return (pw_compare_set){&c->rated.existing_set, &c->lived.existing_set,
                            &c->billed.existing_set};
  return (pw_compare_set){&c->rated.package_set[set], &c->lived.package_set[set],
                          &c->billed.package_set[set]};
}
