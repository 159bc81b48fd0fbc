/* The hand-over of the set, of one package. */
#include "cli/paper_set.h"
#include "out/handover.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_handover_html(what, h, err);
}

pw_status cli_paper_handover(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *report;
  pw_status status = cli_set_fit(set, &report, err);
  if (status != PW_OK) return status;
  pw_offer offer = {.package = {report->column}, .n_package = 1};
  return cli_set_offer(set, kind, &offer, write, err);
}
