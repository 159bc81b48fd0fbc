/* panewright sheet: the customer's pages. */
#include <stdlib.h>
#include <string.h>

#include "cli/job_run.h"
#include "cli/job_view.h"
#include "out/document.h"
#include "out/sheet.h"

static const char *paper(const cli_args *args)
{
  const char *page = cli_get(args, "paper");
  return page ? page : "letter";
}

/* Refuses before any work is done. */
static pw_status check(const cli_args *args, pw_err *err)
{
  const char *path = cli_get(args, "output");
  if (!path)
    return pw_fail(err, PW_E_DATA, "output", "where to? want -o FILE.html or -o FILE.pdf");
  pw_document_kind kind = pw_document_kind_of(path);
  if (kind != PW_DOCUMENT_HTML && kind != PW_DOCUMENT_PDF)
    return pw_fail(err, PW_E_DATA, "output", "-o %s: want a name that ends in .html or .pdf",
                   path);
  if (strcmp(paper(args), "letter") != 0 && strcmp(paper(args), "a4") != 0)
    return pw_fail(err, PW_E_DATA, "paper", "--paper %s: want letter or a4", paper(args));
  return PW_OK;
}

static pw_status make(const cli_args *args, const cli_job *job, pw_err *err)
{
  char *text = NULL;
  size_t size = 0;
  FILE *f = open_memstream(&text, &size);
  if (!f) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sheet");
  pw_sheet sheet = {job->compare, &job->frame, pw_units(args->si)};
  pw_status status = pw_sheet_html(&sheet, f, err);
  if (fclose(f) != 0 && status == PW_OK)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sheet");
  if (status == PW_OK)
    status = pw_document_write(cli_get(args, "output"), text, size, paper(args), err);
  free(text);
  return status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  cli_job job = {0};
  if (check(args, &err) != PW_OK) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  pw_status status = cli_job_run(args, PW_YEAR_DETAILED, &job, &err);
  if (status == PW_OK) status = cli_job_sound(&job, &err);
  if (status == PW_OK) status = cli_job_phases(&job, &err);
  if (status == PW_OK) status = cli_job_rebates(args, &job, &err);
  if (status == PW_OK && !cli_get(args, "no-range")) status = cli_job_range(args, &job, &err);
  if (status == PW_OK) status = make(args, &job, &err);
  cli_job_free(&job);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"output", "FILE", "where to (-o FILE): .html, or .pdf made from the same HTML"},
    {"paper", "letter|a4", "page of the PDF (letter)"},
    CLI_DWELLING,
    CLI_PHASE,
    CLI_EARLIER,
    CLI_PROGRAM,
    CLI_ZONE,
    CLI_DRAWS,
    CLI_SEED,
    CLI_THREADS,
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
