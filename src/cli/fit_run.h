/* A job fitted for one package, with all that stands beside the fit: install plans, what may be ordered, cautions. */
#ifndef CLI_FIT_RUN_H
#define CLI_FIT_RUN_H

#include "cli/command.h"
#include "job/survey.h"
#include "out/fit_out.h"

typedef struct cli_fit_run {
  pw_job job;
  pw_notes notes;
  pw_fit *fit;
  pw_install *install;
  pw_order_check *check;
  pw_cautions cautions;
} cli_fit_run;

/* Reads the house (dwelling NULL, refused where the job holds several), or one dwelling of several, takes the part and
 * the package that the options name, the first without. *report borrows from *run. To be freed in any case. */
pw_status cli_fit_run_of(const cli_args *args, const char *dwelling, cli_fit_run *run,
                         pw_fit_report *report, pw_err *err);
void cli_fit_run_free(cli_fit_run *run);

#endif
