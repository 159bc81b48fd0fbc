/* Groups that live years: their desk and its workspace. */
#ifndef CHECK_YEARS_H
#define CHECK_YEARS_H

#include "check/check.h"
#include "panewright/year.h"

/* Hands the work a zeroed desk of so many bytes and a new workspace, which end with it. Status of the work, or
 * PW_E_NOMEM. */
typedef pw_status pw_check_years_work(void *desk, const pw_check_sink *sink,
                                      pw_year_workspace *workspace, pw_err *err);
pw_status pw_check_years(const pw_check_sink *sink, size_t desk, pw_check_years_work *work,
                         pw_err *err);

#endif
