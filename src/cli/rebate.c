/* panewright rebate: the worksheet for a rebate or a code program. */
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/job_view.h"
#include "cli/package_choice.h"
#include "cli/paper.h"
#include "job/program_file.h"
#include "job/version.h"
#include "out/document.h"
#include "out/range_out.h"
#include "out/worksheet.h"

static const char *option_or(const char *text, const char *otherwise)
{
  return text ? text : otherwise;
}

/* Refuses before any work is done. */
static pw_status check(const cli_args *args, pw_worksheet_input *input, const char **page,
                       pw_err *err)
{
  const char *path = cli_get(args, "output"),
             *size = option_or(cli_get(args, "size"), "opening");
  if (!cli_get(args, "program"))
    return pw_fail(err, PW_E_DATA, "program",
                   "which program? want --program FILE (examples/programs holds some)");
  if (!path)
    return pw_fail(err, PW_E_DATA, "output",
                   "where to? want -o FILE.html, FILE.pdf or FILE.csv");
  if (pw_document_kind_of(path) == PW_DOCUMENT_OTHER)
    return pw_fail(err, PW_E_DATA, "output",
                   "-o %s: want a name that ends in .html, .pdf or .csv", path);
  if (strcmp(size, "unit") != 0 && strcmp(size, "opening") != 0)
    return pw_fail(err, PW_E_DATA, "size", "--size %s: want unit or opening", size);
  if (cli_paper(args, page, err) != PW_OK) return err->code;
  input->basis = strcmp(size, "unit") == 0 ? PW_SIZE_UNIT : PW_SIZE_OPENING;
  input->zone = option_or(cli_get(args, "zone"), "");
  input->paper.si = 0;
  pw_status status = cli_paper_date(args, &input->paper.date, err);
  if (status == PW_OK) status = cli_paper_tongue(args, &input->tongue, err);
  if (pw_document_kind_of(path) == PW_DOCUMENT_CSV) input->tongue = NULL;
  return status;
}

/* What one run writes. */
typedef struct filled {
  const pw_worksheet_input *input;
  const pw_worksheet *worksheet;
  pw_document_kind kind;
} filled;

static pw_status write_worksheet(const void *what, pw_html *h, pw_err *err)
{
  const filled *w = what;
  return w->kind == PW_DOCUMENT_CSV ? pw_worksheet_csv(w->worksheet, h->f, err)
                                    : pw_worksheet_html(w->input, w->worksheet, h, err);
}

static pw_status put(const pw_worksheet_input *input, const pw_worksheet *w,
                     const cli_args *args, const char *page, pw_err *err)
{
  const char *path = cli_get(args, "output");
  const filled what = {input, w, pw_document_kind_of(path)};
  char *text;
  size_t size;
  pw_status status = cli_paper_text(write_worksheet, &what, input->tongue, &text, &size, err);
  if (status == PW_OK) status = pw_document_write(path, text, size, page, err);
  free(text);
  return status;
}

/* Says what was written and how it stands; 1 when the package gets nothing. */
static int report(const pw_worksheet_input *input, const pw_worksheet *w)
{
  char text[PW_MESSAGE_TEXT];
  printf("package %s: %s; amount $%.2f\n",
         input->compare->rated.package_set[input->package].name,
         pw_program_said(NULL, &w->result, text), w->amount.total);
  int finished = cli_finish();
  if (finished != EXIT_DONE) return finished;
  pw_verdict v = w->result.verdict;
  return v == PW_VERDICT_FAILS || v == PW_VERDICT_ENDED || v == PW_VERDICT_EARLY
             ? EXIT_FAILED_CHECK
             : EXIT_DONE;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  cli_job job = {0};
  pw_notes notes = {0};
  pw_program program = {0};
  pw_worksheet_input input = {0};
  pw_worksheet worksheet = {0};
  const char *page;
  char version[PW_VERSION_MAX];
  if (check(args, &input, &page, &err) != PW_OK) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  pw_status status = pw_program_read(cli_get(args, "program"), &program, &notes, &err);
  if (status == PW_OK) status = cli_job_run(args, PW_YEAR_QUICK, &job, &err);
  if (status == PW_OK) status = cli_package_labelled(args, &job.open.job, &input.package, &err);
  if (status == PW_OK) status = pw_job_version(args->word[0], version, &err);
  input.paper.version = version;
  input.paper.job = &job.open.job;
  input.compare = job.compare;
  input.program = &program;
  input.zone = pw_program_zone_named(&program, input.zone);
  if (status == PW_OK) status = pw_worksheet_build(&input, &worksheet, &err);
  cli_ask("zone", status, &err);
  if (status == PW_OK) status = put(&input, &worksheet, args, page, &err);
  int code = status == PW_OK ? report(&input, &worksheet) : cli_fail(&err);
  pw_worksheet_free(&worksheet);
  pw_program_free(&program);
  pw_notes_free(&notes);
  cli_job_free(&job);
  return code;
}

static const cli_option option[] = {
    {"program", "FILE", "criteria, amounts, dates (examples/programs)"},
    {"package", "NAME", "which package (the first with label values, else the first)"},
    {"zone", "ZONE", "zone of the program, where it has several"},
    {"size", "unit|opening",
     "what counts as the size of a window: as ordered, or in the wall (opening)"},
    CLI_DWELLING,
    CLI_PHASE,
    CLI_EARLIER,
    {"output", "FILE", "where to (-o FILE): .html, .pdf or .csv"},
    CLI_PAPER,
    CLI_PAPER_LANGUAGE,
    CLI_PAPER_DATE,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_rebate;
const cli_command cli_rebate = {
    "rebate",
    "JOB",
    "the worksheet for a rebate program: criteria, areas, amounts, papers",
    "Criteria look at label values only; what the job does not hold stays open. Status 1: the\n"
    "package does not meet the criteria, or the program is not in force on the install date.",
    option,
    1,
    1,
    run};
