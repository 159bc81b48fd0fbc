#include "cli/paper.h"

#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "out/sheet.h"
#include "out/text_stream.h"

pw_status cli_paper(const cli_args *args, const char **page, pw_err *err)
{
  *page = cli_get(args, "paper");
  if (!*page) *page = "letter";
  if (strcmp(*page, "letter") != 0 && strcmp(*page, "a4") != 0)
    return pw_fail(err, PW_E_DATA, "paper", "--paper %s: want letter or a4", *page);
  return PW_OK;
}

pw_status cli_paper_date(const cli_args *args, pw_date *date, pw_err *err)
{
  const char *text = cli_get(args, "date");
  if (!text) {
    *date = pw_date_of_day((int)(time(NULL) / 86400));
    return PW_OK;
  }
  pw_status status = pw_date_read(text, date, err);
  if (status != PW_OK || *date == 0)
    return pw_fail(err, PW_E_DOMAIN, "date", "--date %.40s: want a day as 2026-11-29", text);
  return PW_OK;
}

pw_status cli_paper_tongue(const cli_args *args, const pw_tongue **tongue, pw_err *err)
{
  const char *code = cli_get(args, "language");
  *tongue = NULL;
  if (code && !pw_tongue_find(code, tongue))
    return pw_fail(err, PW_E_DATA, "language", "--language %.20s: want %s", code,
                   pw_tongue_list);
  return PW_OK;
}

pw_status cli_paper_text(cli_writer write, const void *what, const pw_tongue *tongue,
                         char **text, size_t *size, pw_err *err)
{
  *text = NULL;
  *size = 0;
  pw_text_stream s;
  if (!pw_text_stream_open(&s))
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the paper");
  pw_html h = {s.f, tongue};
  pw_status status = write(what, &h, err);
  if (!pw_text_stream_close(&s) && status == PW_OK)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the paper");
  if (status != PW_OK) {
    free(s.text);
    return status;
  }
  *text = s.text;
  *size = s.size;
  return PW_OK;
}

pw_status cli_customer_job(const cli_args *args, int tell, int ranges, cli_job *job,
                           pw_err *err)
{
  pw_status status =
      cli_job_run_dwelling(args, cli_get(args, "dwelling"), tell, PW_YEAR_DETAILED, job, err);
  if (status == PW_OK) status = cli_job_parts(args, job, err);
  if (status == PW_OK && ranges) status = cli_job_range(args, job, err);
  return status;
}

pw_status cli_customer_write(const void *what, pw_html *h, pw_err *err)
{
  const cli_customer *c = what;
  const pw_sheet sheet = {c->job->compare, &c->job->frame, pw_units(c->paper.si), c->paper};
  return pw_sheet_html(&sheet, h, err);
}
