/* The measuring form of the set. */
#include "cli/paper_set.h"
#include "out/measure_form.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_measure_form_html(what, h, err);
}

pw_status cli_paper_measure(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *report;
  pw_status status = cli_set_fit(set, &report, err);
  if (status != PW_OK) return status;
  pw_measure_form form = {.paper = cli_set_paper(set, report->job), .blank = set->blank};
  return cli_set_write(set, kind, write, &form, err);
}
