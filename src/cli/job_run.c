#include "cli/job_run.h"

#include <stdlib.h>
#include <string.h>

#include "job/climate_of_job.h"

const char *cli_method_word(pw_year_method method)
{
  static const char *const word[] = {"hour by hour: heat balance of every surface",
                                     "hour by hour: one mass node (ISO 13790)",
                                     "month by month: utilisation factors (ISO 13790)"};
  return word[method];
}

pw_status cli_job_run(const char *dir, const pw_compare_options *options, cli_job *j,
                      pw_err *err)
{
  memset(j, 0, sizeof *j);
  j->weather = malloc(sizeof *j->weather);
  j->compare = calloc(1, sizeof *j->compare);
  pw_status status =
      j->weather && j->compare ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  if (status == PW_OK) status = pw_job_read(dir, &j->job, &j->notes, err);
  if (status == PW_OK)
    status = pw_job_climate(j->job.house.climate, dir, j->weather, j->climate_line, err);
  if (status == PW_OK)
    status = pw_compare_run(&j->job, j->weather, options, NULL, j->compare, err);
  j->frame = (pw_compare_frame){j->climate_line, cli_method_word(options->method), &j->notes};
  if (status != PW_OK) cli_job_free(j);
  return status;
}

void cli_job_free(cli_job *j)
{
  pw_compare_free(j->compare);
  free(j->compare);
  free(j->weather);
  pw_job_free(&j->job);
  pw_notes_free(&j->notes);
  memset(j, 0, sizeof *j);
}
