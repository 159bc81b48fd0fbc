/* What the files of the group bills share. */
#ifndef CHECK_BILLS_H
#define CHECK_BILLS_H

#include "check/check.h"

/* Draws weighted by bills. */
pw_status bills_condition_rows(const pw_check_sink *sink, pw_err *err);

#endif
