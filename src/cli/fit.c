/* panewright fit: sizes to order, what comes off, glass kept, cautions. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/fit_run.h"
#include "cli/job_run.h"
#include "cli/job_view.h"
#include "cli/paper.h"
#include "job/dwelling.h"
#include "out/dwellings_out.h"
#include "out/json.h"

/* How many rows may not be ordered yet; they are named on standard error. */
static size_t count_held(const cli_fit_run w[], size_t n_work)
{
  size_t n = 0, all = 0;
  for (size_t d = 0; d < n_work; d++)
    for (size_t i = 0; i < w[d].job.n_opening; i++) {
      if (w[d].job.opening[i].standing != PW_REPLACED) continue;
      n += !w[d].check[i].may_order;
      all++;
    }
  if (n == 0) return 0;
  fprintf(stderr, "panewright: %zu of %zu rows may not be ordered yet:", n, all);
  for (size_t d = 0; d < n_work; d++)
    for (size_t i = 0; i < w[d].job.n_opening; i++) {
      const pw_opening *o = &w[d].job.opening[i];
      if (o->standing != PW_REPLACED || w[d].check[i].may_order) continue;
      fprintf(stderr, " %s%s%s", w[d].job.dwelling, w[d].job.dwelling[0] ? "/" : "", o->tag);
    }
  fputs(" (column why of the order)\n", stderr);
  return n;
}

static pw_status print(const cli_args *args, const pw_fit_report r[], size_t n, pw_err *err)
{
  pw_status status = PW_OK;
  if (args->format == PW_JSON) {
    pw_reading as = {args->si, NULL};
    if ((status = cli_paper_tongue(args, &as.tongue, err)) != PW_OK) return status;
    return pw_json_print(pw_fit_json(r, n, as), stdout, err);
  }
  if (args->format == PW_CSV) return pw_fit_csv(r, n, stdout, err);
  for (size_t d = 0; status == PW_OK && d < n; d++) {
    if (n > 1) pw_dwelling_head(r[d].job->dwelling, stdout);
    status = pw_fit_text(&r[d], args->si, cli_get(args, "all") != NULL, stdout, err);
    if (d + 1 < n) putchar('\n');
  }
  return status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_dwellings list = {0};
  pw_fit_report report[PW_DWELLINGS_MAX];
  cli_fit_run *w = calloc(PW_DWELLINGS_MAX, sizeof *w);
  const char *one = cli_get(args, "dwelling"), *order = cli_get(args, "order");
  pw_status status = w ? PW_OK : pw_fail(&err, PW_E_NOMEM, NULL, "no memory for the fit");
  if (status == PW_OK && !one) status = pw_dwellings_list(args->word[0], &list, &err);
  size_t n = list.n > 1 ? list.n : 1, held = 0;
  for (size_t d = 0; status == PW_OK && d < n; d++)
    status = cli_fit_run_of(args, n > 1 ? list.name[d] : one, &w[d], &report[d], &err);
  if (status == PW_OK && order) status = pw_order_write(report, n, order, &err);
  if (status == PW_OK) status = print(args, report, n, &err);
  if (status == PW_OK) cli_tell_unknown(&w[0].notes);
  int ending = status == PW_OK ? cli_finish() : cli_fail(&err);
  if (status == PW_OK && ending == EXIT_DONE && order) held = count_held(w, n);
  for (size_t d = 0; w && d < n; d++)
    cli_fit_run_free(&w[d]);
  free(w);
  return held ? EXIT_FAILED_CHECK : ending;
}

static const cli_option option[] = {
    {"package", "NAME", "the package whose frame line is fitted (the first)"},
    {"order", "F.csv",
     "write the order list: sizes, handing, glass, tempered, may_order and why, remarks; "
     "ends with 1 when a row may not be ordered yet"},
    CLI_DWELLING,
    CLI_PHASE,
    {"all", NULL, "print reminders and install notes, too"},
    {"language", "en|es", "of what the JSON says of an opening, in the units of --units (en)"},
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
