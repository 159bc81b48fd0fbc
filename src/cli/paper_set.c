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
    status = cli_customer_job(s->args, &s->job, err);
    s->compared = status == PW_OK;
  }
  *job = &s->job;
  return status;
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
  static const char *const ending[] = {".html", ".pdf"};
  char path[CLI_SET_PATH], *text = NULL;
  size_t size = 0;
  const pw_tongue *tongue;
  pw_status status = cli_set_tongue(s, kind->reader, &tongue, err);
  if (status == PW_OK) status = cli_paper_text(write, what, tongue, &text, &size, err);
  for (size_t i = 0; status == PW_OK && i < sizeof ending / sizeof ending[0]; i++) {
    status = cli_set_path(s, kind->reader, kind->name, ending[i], path, err);
    if (status == PW_OK) status = pw_document_write(path, text, size, s->page, err);
    if (status == PW_E_LACK) {
      s->lack = *err;
      status = PW_OK;
    }
  }
  free(text);
  return status;
}
