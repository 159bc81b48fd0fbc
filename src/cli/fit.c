/* panewright fit: sizes to order, what comes off, glass kept, cautions. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/job_run.h"
#include "cli/job_view.h"
#include "cli/package_choice.h"
#include "job/survey.h"
#include "out/fit_out.h"
#include "out/json.h"
#include "panewright/fit_job.h"
#include "panewright/opening_package.h"

/* Everything that one run holds. */
typedef struct work {
  pw_job job;
  pw_notes notes;
  pw_fit *fit;
  pw_install *install;
  pw_order_check *check;
  pw_cautions cautions;
} work;

static void let_go(work *w)
{
  pw_cautions_free(&w->cautions);
  free(w->fit);
  free(w->install);
  free(w->check);
  pw_notes_free(&w->notes);
  pw_job_free(&w->job);
}

static pw_status reckon(work *w, size_t column, pw_err *err)
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
                    pw_caution_safety_glass(&w->cautions, (int)i), &w->install[i]);
  for (size_t i = 0; i < n && status == PW_OK; i++)
    pw_order_check_of((int)i, &w->fit[i], &w->cautions, &w->check[i]);
  return status;
}

/* How many rows may not be ordered yet; they are named on standard error. */
static size_t count_held(const work *w)
{
  size_t n = 0, all = 0;
  for (size_t i = 0; i < w->job.n_opening; i++) {
    if (w->job.opening[i].standing != PW_REPLACED) continue;
    n += !w->check[i].may_order;
    all++;
  }
  if (n == 0) return 0;
  fprintf(stderr, "panewright: %zu of %zu rows may not be ordered yet:", n, all);
  for (size_t i = 0; i < w->job.n_opening; i++)
    if (w->job.opening[i].standing == PW_REPLACED && !w->check[i].may_order) fprintf(stderr, " %s", w->job.opening[i].tag);
  fputs(" (column why of the order)\n", stderr);
  return n;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  work w = {0};
  size_t chosen = 0;
  pw_status status = pw_job_read(args->word[0], &w.job, &w.notes, &err);
  if (status == PW_OK) status = cli_package(args, &w.job, 0, &chosen, &err);
  if (status == PW_OK)
    status = cli_job_view(args, w.job.package[chosen].name, &w.job, &err);
  if (status == PW_OK) status = reckon(&w, chosen, &err);
  if (status == PW_OK) {
    pw_fit_report r = {&w.job, chosen, w.fit, w.install, w.check, &w.cautions, &w.notes};
    const char *order = cli_get(args, "order");
    if (order) status = pw_order_write(&r, order, &err);
    if (status == PW_OK && args->format == PW_JSON)
      status = pw_json_print(pw_fit_json(&r), stdout, &err);
    else if (status == PW_OK && args->format == PW_CSV)
      status = pw_fit_csv(&r, stdout, &err);
    else if (status == PW_OK)
      status = pw_fit_text(&r, args->si, cli_get(args, "all") != NULL, stdout, &err);
  }
  size_t held = 0;
  if (status == PW_OK) cli_tell_unknown(&w.notes);
  int ending = status == PW_OK ? cli_finish() : cli_fail(&err);
  if (ending == EXIT_DONE && cli_get(args, "order")) held = count_held(&w);
  let_go(&w);
  return held ? EXIT_FAILED_CHECK : ending;
}

static const cli_option option[] = {
    {"package", "NAME", "the package whose frame line is fitted (the first)"},
    {"order", "F.csv",
     "write the order list: sizes, handing, glass, tempered, may_order and why, remarks; "
     "ends with 1 when a row may not be ordered yet"},
    CLI_PHASE,
    {"all", NULL, "print reminders and install notes, too"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_END};
extern const cli_command cli_fit;
const cli_command cli_fit = {
    "fit",
    "JOB",
    "order sizes, squareness, what cutting buys, glass kept, cautions",
    "JOB is a folder with job.csv, openings.csv, packages.csv (panewright new writes one).\n"
    "Order size: smallest pocket less the clearance, never more than its lean allows, rounded\n"
    "down to 1/8 in. Both windows are seen over the pocket with everything off that can come "
    "off.",
    option,
    1,
    1,
    run};
