#include "cli/fit_run.h"

#include <stdlib.h>

#include "cli/job_view.h"
#include "cli/package_choice.h"
#include "window/fit_job.h"
#include "window/opening_package.h"

void cli_fit_run_free(cli_fit_run *w)
{
  pw_cautions_free(&w->cautions);
  free(w->fit);
  free(w->install);
  free(w->check);
  pw_notes_free(&w->notes);
  pw_job_free(&w->job);
}

static pw_status reckon(cli_fit_run *w, size_t column, pw_err *err)
{
  size_t n = w->job.n_opening;
  w->fit = calloc(n, sizeof *w->fit);
  w->install = calloc(n, sizeof *w->install);
  w->check = calloc(n, sizeof *w->check);
  if (!w->fit || !w->install || !w->check)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the fit");
  pw_status status = pw_fit_job(&w->job, column, w->fit, err);
  if (status == PW_OK) status = pw_cautions_find(&w->job, w->fit, &w->cautions, err);
  for (size_t i = 0; i < n && status == PW_OK; i++)
    pw_install_plan(&w->job.opening[i], &w->fit[i], &w->job.house,
                    pw_opening_line(&w->job, column, &w->job.opening[i])->kind,
                    w->job.opening[i].option.tempered ||
                        pw_caution_safety_glass(&w->cautions, (int)i),
                    &w->install[i]);
  for (size_t i = 0; i < n && status == PW_OK; i++)
    pw_order_check_of((int)i, &w->fit[i], &w->cautions, &w->check[i]);
  return status;
}

pw_status cli_fit_run_of(const cli_args *args, const char *dwelling, cli_fit_run *w,
                         pw_fit_report *r, pw_err *err)
{
  size_t chosen = 0;
  pw_status status = pw_job_read_dwelling(args->word[0], dwelling, &w->job, &w->notes, err);
  if (status == PW_OK) status = cli_package(args, &w->job, 0, &chosen, err);
  if (status == PW_OK) status = cli_job_view(args, w->job.package[chosen].name, &w->job, err);
  if (status == PW_OK) status = reckon(w, chosen, err);
  *r = (pw_fit_report){&w->job, chosen, w->fit, w->install, w->check, &w->cautions, &w->notes};
  return status;
}
