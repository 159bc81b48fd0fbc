#include "cli/paper_set.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "out/document.h"
#include "out/safe_file.h"

static const char *const folder[CLI_READERS] = {"office", "customer", "maker", "crew"};

pw_status cli_set_fit(cli_set *s, const pw_fit_report **report, pw_err *err)
{
  pw_status status = PW_OK;
  if (!s->fitted) {
    status = cli_fit_run_of(s->args, cli_get(s->args, "dwelling"), &s->fit, &s->report, err);
    if (status == PW_OK) status = pw_job_version(s->args->word[0], s->version, err);
    if (status == PW_OK) cli_tell_unknown(&s->fit.notes);
    s->fitted = status == PW_OK;
  }
  *report = &s->report;
  return status;
}

pw_status cli_set_job(cli_set *s, cli_job **job, pw_err *err)
{
  const pw_fit_report *report;
  pw_status status = cli_set_fit(s, &report, err);
  if (status == PW_OK && !s->compared) {
    status = cli_customer_job(s->args, 0, s->ranges, &s->job, err);
    s->compared = status == PW_OK;
  }
  *job = &s->job;
  return status;
}

/* Fitted, compared, with ranges as the customer's pages have them; no range where nothing is offered. */
static pw_status run_offer(cli_set *s, unsigned char *left_out, pw_err *err)
{
  cli_job_free(&s->offer_job);
  free(s->left_out);
  s->left_out = left_out;
  pw_status status =
      cli_job_run_without(s->args, left_out, PW_YEAR_DETAILED, &s->offer_job, err);
  if (status == PW_OK) status = cli_job_rebates(s->args, &s->offer_job, err);
  if (status == PW_OK && s->ranges && pw_compare_n_replaced(s->offer_job.compare->job) > 0)
    status = cli_job_range(s->args, &s->offer_job, err);
  return status;
}

static pw_status job_of_offer(cli_set *s, const size_t package[], size_t n_package,
                              pw_offer_line line[], cli_job **job, pw_err *err)
{
  const pw_fit_report *report;
  pw_status status = cli_set_fit(s, &report, err);
  if (status == PW_OK) status = pw_offer_check(report->job, package, n_package, line, err);
  if (status != PW_OK) return status;
  size_t n = report->job->n_opening, none = 0;
  unsigned char *left_out = calloc(n, 1);
  if (!left_out) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the offer");
  for (size_t i = 0; i < n; i++)
    none += left_out[i] = line[i].state == PW_NOT_OFFERED;
  if (none == 0) {
    free(left_out);
    return cli_set_job(s, job, err);
  }
  *job = &s->offer_job;
  if (!s->left_out || memcmp(s->left_out, left_out, n) != 0) return run_offer(s, left_out, err);
  free(left_out);
  return PW_OK;
}

pw_paper cli_set_paper(const cli_set *s, const pw_job *job)
{
  return (pw_paper){.job = job, .si = s->args->si, .version = s->version, .date = s->date};
}

pw_status cli_set_tongue(cli_set *s, cli_reader reader, const pw_tongue **tongue, pw_err *err)
{
  const char *code = cli_get(s->args, "language");
  const pw_fit_report *report;
  *tongue = NULL;
  if (!code) {
    pw_status status = cli_set_fit(s, &report, err);
    if (status != PW_OK) return status;
    const pw_house_facts *facts = &report->job->house;
    code = reader == CLI_CUSTOMER ? facts->language
           : reader == CLI_CREW   ? facts->crew_language
                                  : "";
  }
  if (code[0] && !pw_tongue_find(code, tongue))
    return pw_fail(err, PW_E_DATA, "language", "--language %.20s: want %s", code,
                   pw_tongue_list);
  return PW_OK;
}

pw_status cli_set_path(const cli_set *s, cli_reader reader, const char *name,
                       const char *ending, char path[CLI_SET_PATH], pw_err *err)
{
  int n = snprintf(path, CLI_SET_PATH, "%s/%s", s->dir, folder[reader]);
  if (n > 0 && n < CLI_SET_PATH) {
    pw_status status = pw_safe_folder(path, err);
    if (status != PW_OK) return status;
    n = snprintf(path, CLI_SET_PATH, "%s/%s/%s%s", s->dir, folder[reader], name, ending);
  }
  if (n < 0 || n >= CLI_SET_PATH)
    return pw_fail(err, PW_E_CREATE, NULL, "%.80s...: the name is too long", s->dir);
  return PW_OK;
}

pw_status cli_set_write(cli_set *s, const cli_paper_kind *kind, cli_writer write,
                        const void *what, pw_err *err)
{
  char path[CLI_SET_PATH], *text = NULL;
  size_t size = 0;
  const pw_tongue *tongue;
  pw_status status = cli_set_tongue(s, kind->reader, &tongue, err);
  if (status == PW_OK) status = cli_paper_text(write, what, tongue, &text, &size, err);
  if (status == PW_OK) status = cli_set_path(s, kind->reader, kind->name, ".html", path, err);
  if (status == PW_OK) status = pw_document_write(path, text, size, s->page, err);
  if (status == PW_OK && !cli_get(s->args, "html-only")) {
    status = cli_set_path(s, kind->reader, kind->name, ".pdf", path, err);
    if (status == PW_OK) status = pw_pdf_pile_add(&s->pdf, path, text, size, s->page, err);
  }
  free(text);
  return status;
}

pw_status cli_set_csv(cli_set *s, const cli_paper_kind *kind, cli_writer write,
                      const void *what, pw_err *err)
{
  char path[CLI_SET_PATH], *text;
  size_t size;
  pw_status status = cli_paper_text(write, what, NULL, &text, &size, err);
  if (status == PW_OK) status = cli_set_path(s, kind->reader, kind->name, ".csv", path, err);
  if (status == PW_OK) status = pw_safe_put(path, text, size, err);
  free(text);
  return status;
}

pw_status cli_set_offer(cli_set *s, const cli_paper_kind *kind, pw_offer *offer,
                        cli_writer write, pw_err *err)
{
  const pw_fit_report *report;
  cli_job *job;
  pw_status status = cli_set_fit(s, &report, err);
  if (status != PW_OK) return status;
  pw_offer_line *line = calloc(report->job->n_opening, sizeof *line);
  if (!line) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the offer");
  status = job_of_offer(s, offer->package, offer->n_package, line, &job, err);
  if (status == PW_OK) {
    offer->paper = cli_set_paper(s, job->compare->job);
    offer->compare = job->compare;
    offer->frame = &job->frame;
    offer->line = line;
    status = cli_set_write(s, kind, write, offer, err);
  }
  free(line);
  return status;
}
