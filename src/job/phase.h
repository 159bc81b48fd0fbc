/* A job seen from one of its phases. */
#ifndef JOB_PHASE_H
#define JOB_PHASE_H

#include "panewright/status.h"
#include "panewright/survey.h"

/* Given     job as read; phase 1 ..; earlier, the package that windows of the phases before have got,
 *           or NULL
 * Returned  the job's standings: windows of a later phase stay, those of an earlier one are done, with
 *           their own package or earlier's
 * Status    PW_OK; PW_E_DATA no window has that phase (field "phase"), no package is named so, or
 *           none is named and one is needed (field "earlier")
 */
pw_status pw_job_take_phase(pw_job *job, int phase, const char *earlier, pw_err *err);

#endif
