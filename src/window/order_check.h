/* Whether an opening may be ordered as it stands in the job, and if not, why. */
#ifndef WINDOW_ORDER_CHECK_H
#define WINDOW_ORDER_CHECK_H

#include <stddef.h>

#include "panewright/fit.h"
#include "window/caution.h"

enum { PW_ORDER_REASONS_MAX = 16 };

typedef struct pw_order_check {
  int may_order; /* 1: nothing found that bears on size, glass or safety */
  size_t n;
  const pw_message *why[PW_ORDER_REASONS_MAX]; /* borrowed from fit and cautions */
} pw_order_check;

/* Given     opening, its index in the job; its fit; the cautions of the job
 * Returned  *check  a finding that pw_finding_blocks, a life-safety limit that fails (an escape opening
 *                   not when the job holds the official's word), or a question about escape or safety
 *                   glass that the job leaves open
 * Source    common practice: what is measured again, asked or agreed first is not ordered yet. */
void pw_order_check_of(int opening, const pw_fit *fit, const pw_cautions *cautions,
                       pw_order_check *check);

#endif
