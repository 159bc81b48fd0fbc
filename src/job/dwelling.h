/* The dwellings of a job: several houses on one folder, each with its own year, bill and papers. */
#ifndef JOB_DWELLING_H
#define JOB_DWELLING_H

#include "panewright/status.h"
#include "panewright/survey.h"

enum { PW_DWELLINGS_MAX = 24 };

typedef struct pw_dwellings {
  size_t n; /* 0: the job is one house without a name */
  char name[PW_DWELLINGS_MAX][PW_DWELLING_MAX];
} pw_dwellings;

/* The names in column dwelling of openings.csv, in their order.
 *
 * Given     dir  the job folder; a file that is not there or does not read is left to its reader
 * Status    PW_OK; PW_E_DATA some openings have a dwelling and others none, too many, a name too long,
 *           or job.csv speaks of one that no opening has: line, column and the names accepted
 */
pw_status pw_dwellings_list(const char *dir, pw_dwellings *list, pw_err *err);

/* The name as the job writes it, letters of either case; NULL: the only one, or "" where there is none.
 * PW_E_DATA no such one, or several and none named (field "dwelling"). */
pw_status pw_dwelling_pick(const pw_dwellings *list, const char *name,
                           char dwelling[PW_DWELLING_MAX], pw_err *err);

#endif
