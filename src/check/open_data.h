/* Open files that only the published cases read: reference/checks of the repository. */
#ifndef CHECK_OPEN_DATA_H
#define CHECK_OPEN_DATA_H

#include "check/check.h"
#include "panewright/survey.h"
#include "panewright/weather.h"

enum { PW_CHECK_PATH = 512 };

/* The path of FOLDER/FILE in the sink's folder of open data. Status PW_OK; PW_E_MISSING no folder is known, or
 * its name is too long. */
pw_status pw_check_file(const pw_check_sink *sink, const char *folder, const char *file,
                        char path[PW_CHECK_PATH], pw_err *err);

/* Reads hourly/FILE.gz of the sink's folder of open data.
 *
 * Status    PW_OK; PW_E_MISSING the folder or the file is not there (a case without its data fails);
 *           else as pw_climate_read.
 */
pw_status pw_check_hourly(const pw_check_sink *sink, const char *file, pw_weather *weather,
                          pw_err *err);

/* The folder of an example job, NAME of examples/: in the sink's folder where it is installed, else in
 * the repository that holds it. Status PW_OK; PW_E_MISSING. */
pw_status pw_check_example(const pw_check_sink *sink, const char *name, char dir[], size_t size,
                           pw_err *err);

/* Takes from a job what it leaves to the habits of most homes: nothing before the glass, one set point day and night. For
 * tables and models that were made so. */
void pw_check_bare(pw_job *job);

#endif
