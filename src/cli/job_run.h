/* A job folder opened and compared, as several commands want it. */
#ifndef CLI_JOB_RUN_H
#define CLI_JOB_RUN_H

#include "job/job_open.h"
#include "out/compare_out.h"

typedef struct cli_job {
  pw_open_job open;
  pw_compare *compare;    /* owned */
  pw_compare_frame frame; /* borrows from open: do not copy the struct */
} cli_job;

/* Opens the folder and runs the comparison. On failure *job owns nothing. */
pw_status cli_job_run(const char *dir, pw_year_method method, cli_job *job, pw_err *err);
void cli_job_free(cli_job *job);

/* How a year method is called in print. */
const char *cli_method_word(pw_year_method method);

#endif
