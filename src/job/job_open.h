/* A job with everything that its files name: weather, frame sections, tariff. */
#ifndef JOB_JOB_OPEN_H
#define JOB_JOB_OPEN_H

#include "job/climate_of_job.h"
#include "job/notes.h"
#include "job/tariff_file.h"
#include "study/compare.h"

typedef struct pw_open_job {
  pw_job job;
  pw_notes notes;
  pw_weather *weather;                 /* owned */
  pw_message climate[PW_CLIMATE_SAYS]; /* what weather was taken */
  pw_code_place code_place;            /* for the energy code */
  pw_named_section *section;           /* owned */
  size_t n_section;
  pw_tariff_file *tariffs; /* owned; NULL: flat prices */
  const pw_tariff *tariff[PW_FUEL_COUNT];
} pw_open_job;

/* Given     dir  the job folder; dwelling  one of several (job/dwelling.h), NULL the one house
 * Returned  *open, to be freed by pw_job_close
 * Status    as the readers; on failure *open owns nothing
 */
pw_status pw_job_open(const char *dir, pw_open_job *open, pw_err *err);
pw_status pw_job_open_dwelling(const char *dir, const char *dwelling, pw_open_job *open,
                               pw_err *err);
void pw_job_close(pw_open_job *open);

/* Options for pw_compare_run with this job's sections and tariff; they borrow from open. */
pw_compare_options pw_job_options(const pw_open_job *open, pw_year_method method);

#endif
