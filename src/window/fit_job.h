/* Every opening of a job fitted with what one column of the comparison gives it. */
#ifndef WINDOW_FIT_JOB_H
#define WINDOW_FIT_JOB_H

#include "panewright/fit.h"
#include "panewright/survey.h"

/* Given     job; column, a row of packages.csv (opening_package.h)
 * Returned  fit[job->n_opening], with the slips that neighbours show
 * Status    PW_OK; PW_E_DATA no frame line, or as pw_fit_opening, with the opening's tag
 * Notes     A window that stays, or was replaced in an earlier phase, is in no order: its readings
 *           are compared with its neighbours' but it gets no finding of its own.
 */
pw_status pw_fit_job(const pw_job *job, size_t column, pw_fit fit[], pw_err *err);

#endif
