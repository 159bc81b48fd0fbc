/* The change order of the set: an order sent earlier (--before) beside the one of now. */
#include <stdlib.h>

#include "cli/paper_set.h"
#include "out/change_order.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_change_order_html(what, h, err);
}

pw_status cli_paper_change(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const char *sent = cli_get(set->args, "before");
  const pw_fit_report *report;
  pw_order_file before = {0}, after = {0};
  char *text = NULL;
  size_t size = 0;
  if (!sent) return PW_OK; /* nothing was sent earlier */
  pw_status status = cli_set_fit(set, &report, err);
  if (status != PW_OK) return status;
  const pw_order_maker maker = {set->version, set->date};
  pw_change_order change = {cli_set_paper(set, report->job), &before, &after};
  change.paper.no_place = 1;
  status = pw_order_read(sent, &before, err);
  if (status == PW_OK) status = pw_order_text(report, 1, &maker, &text, &size, err);
  if (status == PW_OK) status = pw_order_parse("order.csv", text, size, &after, err);
  if (status == PW_OK) status = cli_set_write(set, kind, write, &change, err);
  pw_order_free(&after);
  pw_order_free(&before);
  free(text);
  return status;
}
