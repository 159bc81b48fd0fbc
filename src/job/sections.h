/* The section files that a job names, read once each. */
#ifndef JOB_SECTIONS_H
#define JOB_SECTIONS_H

#include "study/frames.h"

/* Given     job, its section names turned into paths (pw_job_read does)
 * Returned  *list, *n: every different section; NULL and 0 when none is named
 * Status    PW_OK; as pw_section_read; PW_E_NOMEM. On failure nothing is owned.
 */
pw_status pw_sections_read(const pw_job *job, pw_named_section **list, size_t *n, pw_err *err);
void pw_sections_free(pw_named_section *list, size_t n);

#endif
