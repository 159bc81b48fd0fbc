/* The hand-over of the set, of one package. */
#include <stdlib.h>

#include "cli/paper_set.h"
#include "out/handover.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_handover_html(what, h, err);
}

pw_status cli_paper_handover(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *report;
  cli_job *job;
  pw_status status = cli_set_fit(set, &report, err);
  if (status != PW_OK) return status;
  pw_offer offer = {.package = {report->column}, .n_package = 1};
  pw_offer_line *line = calloc(report->job->n_opening, sizeof *line);
  if (!line) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hand-over");
  status = cli_set_offer(set, offer.package, offer.n_package, line, &job, err);
  if (status == PW_OK) {
    offer.paper = cli_set_paper(set, job->compare->job);
    offer.compare = job->compare;
    offer.frame = &job->frame;
    offer.line = line;
    status = cli_set_write(set, kind, write, &offer, err);
  }
  free(line);
  return status;
}
