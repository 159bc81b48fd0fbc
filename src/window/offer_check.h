/* What of a job may be offered for signature, in one package or in several to choose from. */
#ifndef WINDOW_OFFER_CHECK_H
#define WINDOW_OFFER_CHECK_H

#include <stddef.h>

#include "panewright/status.h"
#include "panewright/survey.h"

enum { PW_OFFER_PACKAGES_MAX = 3 };

typedef enum pw_offer_state {
  PW_OFFERED = 0,
  PW_OFFERED_BY_WORD, /* its escape opening falls short; the job holds the official's word */
  PW_NOT_OFFERED, /* its escape opening falls short in one of the packages, and no word is there */
  PW_NO_WORK      /* it stays, comes later or is done */
} pw_offer_state;

typedef struct pw_offer_line {
  pw_offer_state state;
  int settle; /* 1: something is to be measured or asked before it may be ordered (order_check.h) */
} pw_offer_line;

/* Given     job; package[n_package], rows of packages.csv
 * Returned  line[job->n_opening]
 * Status    PW_OK; PW_E_NOMEM; as pw_fit_job
 * Notes     Agrees with order_check.h: what is not offered may not be ordered in that package.
 */
pw_status pw_offer_check(const pw_job *job, const size_t package[], size_t n_package,
                         pw_offer_line line[], pw_err *err);

#endif
