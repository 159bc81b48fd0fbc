/* A job folder read and compared, as several commands want it. */
#ifndef CLI_JOB_RUN_H
#define CLI_JOB_RUN_H

#include "job/survey.h"
#include "out/compare_out.h"
#include "panewright/compare.h"

typedef struct cli_job {
  pw_job job;
  pw_notes notes;
  pw_weather *weather; /* owned, like compare */
  pw_compare *compare;
  char climate_line[240];
  pw_compare_frame frame; /* borrows from this struct: do not copy it */
} cli_job;

/* Reads the folder and its climate and runs the comparison. On failure *job owns nothing. */
pw_status cli_job_run(const char *dir, const pw_compare_options *options, cli_job *job,
                      pw_err *err);
void cli_job_free(cli_job *job);

/* How a year method is called in print. */
const char *cli_method_word(pw_year_method method);

#endif
