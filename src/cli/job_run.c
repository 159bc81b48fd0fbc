#include "cli/job_run.h"

#include <stdlib.h>
#include <string.h>

const char *cli_method_word(pw_year_method method)
{
  static const char *const word[] = {"hour by hour: heat balance of every surface",
                                     "hour by hour: one mass node (ISO 13790)",
                                     "month by month: utilisation factors (ISO 13790)"};
  return word[method];
}

pw_status cli_job_run(const char *dir, pw_year_method method, cli_job *j, pw_err *err)
{
  memset(j, 0, sizeof *j);
  j->compare = calloc(1, sizeof *j->compare);
  pw_status status = j->compare ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  if (status == PW_OK) status = pw_job_open(dir, &j->open, err);
  if (status == PW_OK) {
    pw_compare_options options = pw_job_options(&j->open, method);
    status = pw_compare_run(&j->open.job, j->open.weather, &options, NULL, j->compare, err);
  }
  j->frame = (pw_compare_frame){.climate_line = j->open.climate_line,
                                .method = cli_method_word(method),
                                .notes = &j->open.notes};
  if (status != PW_OK) cli_job_free(j);
  return status;
}

void cli_job_free(cli_job *j)
{
  pw_compare_free(j->compare);
  free(j->compare);
  pw_job_close(&j->open);
  memset(j, 0, sizeof *j);
}
