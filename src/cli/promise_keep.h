/* `compare --range --keep` and `papers` note in promise.csv of the job folder what they said. */
#ifndef CLI_PROMISE_KEEP_H
#define CLI_PROMISE_KEEP_H

#include "out/promise_out.h"

/* Adds the rows of n houses (dwellings of one folder). Where that state of the files has said the same before, nothing is
 * written; else the rows stand below those that are there, which is told on standard error: no promise is ever taken out.
 * Status PW_OK; as pw_promise_read, pw_job_version, pw_safe_put. */
pw_status cli_promise_keep(const char *dir, const pw_promised promised[], size_t n,
                           pw_date date, pw_err *err);

#endif
