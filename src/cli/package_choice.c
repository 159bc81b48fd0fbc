#include "cli/package_choice.h"

#include "job/survey.h"

pw_status cli_package(const cli_args *args, const pw_job *job, size_t otherwise,
                      size_t *package, pw_err *err)
{
  const char *name = cli_get(args, "package");
  *package = otherwise;
  return name ? cli_ask("package", pw_job_package_named(job, name, package, err), err) : PW_OK;
}
