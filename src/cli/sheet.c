/* panewright sheet: the customer's pages. */
#include <stdlib.h>

#include "cli/job_view.h"
#include "cli/paper.h"
#include "job/version.h"
#include "out/document.h"

/* What the command line says of the document. */
typedef struct asked {
  const char *page;
  pw_date date;
  const pw_tongue *tongue;
} asked;

/* Refuses before any work is done. */
static pw_status check(const cli_args *args, asked *a, pw_err *err)
{
  const char *path = cli_get(args, "output");
  if (!path)
    return pw_fail(err, PW_E_DATA, "output", "where to? want -o FILE.html or -o FILE.pdf");
  pw_document_kind kind = pw_document_kind_of(path);
  if (kind != PW_DOCUMENT_HTML && kind != PW_DOCUMENT_PDF)
    return pw_fail(err, PW_E_DATA, "output", "-o %s: want a name that ends in .html or .pdf",
                   path);
  pw_status status = cli_paper(args, &a->page, err);
  if (status == PW_OK) status = cli_paper_date(args, &a->date, err);
  return status == PW_OK ? cli_paper_tongue(args, &a->tongue, err) : status;
}

static pw_status make(const cli_args *args, const cli_job *job, const asked *a, pw_err *err)
{
  char version[PW_VERSION_MAX], *text;
  size_t size;
  pw_status status = pw_job_version(args->word[0], version, err);
  if (status != PW_OK) return status;
  const cli_customer pages = {
      job, {.job = &job->open.job, .si = args->si, .version = version, .date = a->date}};
  status = cli_paper_text(cli_customer_write, &pages, a->tongue, &text, &size, err);
  if (status == PW_OK)
    status = pw_document_write(cli_get(args, "output"), text, size, a->page, err);
  free(text);
  return status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  cli_job job = {0};
  asked a = {0};
  if (check(args, &a, &err) != PW_OK) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  pw_status status = cli_customer_job(args, 1, !cli_get(args, "no-range"), &job, &err);
  if (status == PW_OK) status = make(args, &job, &a, &err);
  cli_job_free(&job);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"output", "FILE", "where to (-o FILE): .html, or .pdf made from the same HTML"},
    CLI_PAPER,
    CLI_PAPER_LANGUAGE,
    CLI_PAPER_DATE,
    CLI_DWELLING,
    CLI_PHASE,
    CLI_EARLIER,
    CLI_PROGRAM,
    CLI_ZONE,
    CLI_DRAWS,
    CLI_SEED,
    CLI_THREADS,
    CLI_LANES,
    {"no-range", NULL, "leave the ranges out; the sheet then says so at every saving"},
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_sheet;
const cli_command cli_sheet = {
    "sheet",
    "JOB",
    "the customer's pages: the answer, the packages, the year, how it was computed",
    "One self-contained document for phone, desk and paper. Nothing in it is a certified "
    "rating\n"
    "but what the certificate column says.",
    option,
    1,
    1,
    run};
