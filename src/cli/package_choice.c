#include "cli/package_choice.h"

#include "job/survey.h"
#include "window/opening_label.h"

pw_status cli_package(const cli_args *args, const pw_job *job, size_t otherwise,
                      size_t *package, pw_err *err)
{
  const char *name = cli_get(args, "package");
  *package = otherwise;
  return name ? cli_ask("package", pw_job_package_named(job, name, package, err), err) : PW_OK;
}

/* Whether any opening has a label under the package. */
static int has_label(const pw_job *job, size_t package)
{
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_label_row l;
    if (pw_opening_label(job, package, &job->opening[i], &l, NULL) == PW_OK &&
        (l.u.value > 0.0 || l.shgc.value > 0.0 || l.certificate[0]))
      return 1;
  }
  return 0;
}

pw_status cli_package_labelled(const cli_args *args, const pw_job *job, size_t *package,
                               pw_err *err)
{
  size_t labelled = 0;
  while (labelled < job->n_package && !has_label(job, labelled))
    labelled++;
  return cli_package(args, job, labelled < job->n_package ? labelled : 0, package, err);
}
