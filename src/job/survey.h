/* A job folder read whole: job.csv, openings.csv, packages.csv and, when there, frame_lines.csv, labels.csv,
 * prices.csv and firm.csv (the last two may be named by job.csv and stand elsewhere).
 * The types are those of panewright/survey.h. */
#ifndef JOB_SURVEY_H
#define JOB_SURVEY_H

#include "job/notes.h"
#include "panewright/status.h"
#include "panewright/survey.h"
#include "window/frame_line.h"

/* Reads and checks a whole job.
 *
 * Given     dir    the job folder
 * Returned  *job   to be freed by pw_job_free; frame_line holds frame_lines.csv, when it is
 *                  there, and the built-in lines of other names
 *           *notes every default used and every warning (may be NULL)
 * Notes     Section, tariff and climate files named in the job are looked for in its folder; where
 *           one is there, its path stands in place of the name.
 * Status    PW_OK; PW_E_MISSING no such folder or file, or an empty one; PW_E_DATA bad content:
 *           err->text is "file:line:column: found, accepted"; PW_E_NOMEM; PW_E_IO. On failure *job
 *           is zeroed and owns nothing.
 */
pw_status pw_job_read(const char *dir, pw_job *job, pw_notes *notes, pw_err *err);
/* The same of one dwelling (dwelling.h): its openings, and of job.csv the rows of all and its own, which
 * go before. NULL: the one house; refused where the job holds several. */
pw_status pw_job_read_dwelling(const char *dir, const char *dwelling, pw_job *job,
                               pw_notes *notes, pw_err *err);
void pw_job_free(pw_job *job);

/* The row of packages.csv with that name, else the only one that differs but in the case of letters.
 * PW_E_DATA none: err->text offers the nearest, or all names. */
pw_status pw_job_package_named(const pw_job *job, const char *name, size_t *row, pw_err *err);

/* The readers of single files, for tests and fuzzing. Each fills its part of job and leaves the rest
 * alone; a path of NULL gives pw_frame_lines_read the built-in lines alone. */
pw_status pw_house_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err);
pw_status pw_openings_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err);
pw_status pw_packages_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err);
pw_status pw_frame_lines_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err);

/* labels.csv, prices.csv and firm.csv, after openings.csv and packages.csv; a path of NULL: there is none.
 * shared: the file serves several jobs (job.csv's prices_file), so its other packages are no slips. */
pw_status pw_labels_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err);
pw_status pw_prices_read(const char *path, int shared, pw_job *job, pw_notes *notes,
                         pw_err *err);
pw_status pw_firm_read(const char *path, pw_job *job, pw_notes *notes, pw_err *err);

/* The same from memory; name is what messages call it. */
pw_status pw_labels_parse(const char *name, const char *text, size_t size, pw_job *job,
                          pw_notes *notes, pw_err *err);
pw_status pw_prices_parse(const char *name, const char *text, size_t size, int shared,
                          pw_job *job, pw_notes *notes, pw_err *err);
pw_status pw_firm_parse(const char *name, const char *text, size_t size, pw_job *job,
                        pw_notes *notes, pw_err *err);

#endif
