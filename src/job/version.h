/* Which state of a job's files a paper was made from. */
#ifndef JOB_VERSION_H
#define JOB_VERSION_H

#include "panewright/status.h"

enum { PW_VERSION_MAX = 9 };

/* Eight digits that change when a file of the job's folder changes, comes or goes (CRC-32 of the names and bytes of its own
 * CSV files; RFC 1952): against a paper that is out of date, not against an attacker.
 * Status PW_OK; as pw_input_read. */
pw_status pw_job_version(const char *dir, char version[PW_VERSION_MAX], pw_err *err);

#endif
