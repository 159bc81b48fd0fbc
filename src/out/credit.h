/* The federal credit for windows, which ended: 26 USC 25C by Public Law 119-21 (reference/trade/criteria.csv; rebate_form.md,
 * "Federal", read). */
#ifndef OUT_CREDIT_H
#define OUT_CREDIT_H

#include "panewright/survey.h"

typedef enum pw_credit {
  PW_CREDIT_NO_DATE = 0, /* the job does not say when the windows are put in, or not as a day */
  PW_CREDIT_BEFORE_END, /* on or before the last day on which one placed in service earned it */
  PW_CREDIT_ENDED
} pw_credit;

/* By the job's install_date. */
pw_credit pw_credit_of(const pw_house_facts *house);

#endif
