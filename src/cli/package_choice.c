#include "cli/package_choice.h"

#include <stdio.h>
#include <string.h>

#include "panewright/nearest.h"

static pw_status none_of_that_name(const pw_job *job, const char *name, pw_err *err)
{
  const char *known[64];
  char list[200] = "";
  size_t n = 0, have = 0;
  for (; n < job->n_package && n < sizeof known / sizeof known[0]; n++) {
    known[n] = job->package[n].name;
    if (have + 1 < sizeof list)
      have +=
          (size_t)snprintf(list + have, sizeof list - have, "%s%s", n ? ", " : "", known[n]);
  }
  const char *near = pw_nearest(name, known, n);
  if (near)
    return pw_fail(err, PW_E_DATA, "package",
                   "no package is named '%.48s' in packages.csv; did you mean %s?", name, near);
  return pw_fail(err, PW_E_DATA, "package",
                 "no package is named '%.48s' in packages.csv, which has %s", name, list);
}

pw_status cli_package(const cli_args *args, const pw_job *job, size_t otherwise,
                      size_t *package, pw_err *err)
{
  const char *name = cli_get(args, "package");
  *package = otherwise;
  if (!name) return PW_OK;
  size_t alike = 0;
  for (size_t p = 0; p < job->n_package; p++) {
    if (strcmp(job->package[p].name, name) == 0) {
      *package = p;
      return PW_OK;
    }
    if (pw_edit_distance(job->package[p].name, name) != 0)
      continue; /* letters of either case */
    alike++;
    *package = p;
  }
  return alike == 1 ? PW_OK : none_of_that_name(job, name, err);
}
