/* The rebate worksheet of the set, with the same as CSV; without --program none. */
#include <stdio.h>

#include "cli/package_choice.h"
#include "cli/paper_set.h"
#include "out/worksheet.h"

typedef struct filled {
  const pw_worksheet_input *input;
  const pw_worksheet *worksheet;
} filled;

static pw_status write_html(const void *what, pw_html *h, pw_err *err)
{
  const filled *w = what;
  return pw_worksheet_html(w->input, w->worksheet, h, err);
}

static pw_status write_csv(const void *what, pw_html *h, pw_err *err)
{
  return pw_worksheet_csv(((const filled *)what)->worksheet, h->f, err);
}

pw_status cli_paper_worksheet(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const char *zone = cli_get(set->args, "zone");
  cli_job *job;
  pw_worksheet worksheet = {0};
  pw_worksheet_input input = {.basis = PW_SIZE_OPENING};
  if (!cli_get(set->args, "program")) {
    fputs("panewright: no worksheet: --program FILE says which program it is for\n", stderr);
    return PW_OK;
  }
  pw_status status = cli_set_job(set, &job, err);
  if (status != PW_OK) return status;
  input.compare = job->compare;
  input.program = &job->program;
  input.zone = pw_program_zone_named(&job->program, zone ? zone : "");
  input.paper = cli_set_paper(set, &job->open.job);
  status = cli_package_labelled(set->args, &job->open.job, &input.package, err);
  if (status == PW_OK) status = pw_worksheet_build(&input, &worksheet, err);
  const filled what = {&input, &worksheet};
  if (status == PW_OK) status = cli_set_csv(set, kind, write_csv, &what, err);
  pw_worksheet_free(&worksheet);
  if (status == PW_OK) status = cli_set_tongue(set, kind->reader, &input.tongue, err);
  if (status == PW_OK) status = pw_worksheet_build(&input, &worksheet, err);
  if (status == PW_OK) status = cli_set_write(set, kind, write_html, &what, err);
  pw_worksheet_free(&worksheet);
  return status;
}
