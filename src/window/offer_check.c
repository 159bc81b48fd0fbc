#include "window/offer_check.h"

#include <stdlib.h>

#include "window/caution.h"
#include "window/fit_job.h"
#include "window/order_check.h"

static void add(const pw_job *job, const pw_fit fit[], const pw_cautions *cautions,
                pw_offer_line line[])
{
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_order_check check;
    if (line[i].state == PW_NO_WORK) continue;
    pw_order_check_of((int)i, &fit[i], cautions, &check);
    line[i].settle |= !check.may_order;
    if (pw_caution_escape_open(cautions, (int)i))
      line[i].state = PW_NOT_OFFERED;
    else if (line[i].state == PW_OFFERED && pw_caution_escape_fails(cautions, (int)i))
      line[i].state = PW_OFFERED_BY_WORD;
  }
}

pw_status pw_offer_check(const pw_job *job, const size_t package[], size_t n_package,
                         pw_offer_line line[], pw_err *err)
{
  pw_fit *fit = calloc(job->n_opening, sizeof *fit);
  pw_status status = fit ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the fit");
  for (size_t i = 0; i < job->n_opening; i++)
    line[i] =
        (pw_offer_line){job->opening[i].standing == PW_REPLACED ? PW_OFFERED : PW_NO_WORK, 0};
  for (size_t p = 0; status == PW_OK && p < n_package; p++) {
    pw_cautions cautions = {0};
    status = pw_fit_job(job, package[p], fit, err);
    if (status == PW_OK) status = pw_cautions_find(job, fit, &cautions, err);
    if (status == PW_OK) add(job, fit, &cautions, line);
    pw_cautions_free(&cautions);
  }
  free(fit);
  return status;
}
