/* One job of a street: opened, compared, ranged, put down as records. */
#ifndef CLI_STREET_JOB_H
#define CLI_STREET_JOB_H

#include "cli/batch_run.h"
#include "cli/job_run.h"

typedef struct street_plan {
  const cli_args *args;
  pw_range_options range; /* of every house */
} street_plan;

/* A line that names a job folder in, its records out; context is a street_plan. A job that cannot be taken is
 * a record, too, and counted as rejected. */
extern const batch_work street_jobs;

/* 1: a line of the list that names nothing: blanks, or a note. Its line end may stand there. */
int street_is_blank(const char *line, size_t n);

enum { STREET_NAME_MAX = 2000 };

#endif
