/* How a job is called on paper: its name and, of several, the dwelling. */
#ifndef OUT_JOB_TITLE_H
#define OUT_JOB_TITLE_H

#include "panewright/survey.h"

typedef struct pw_job_name {
  char text[sizeof((pw_house_facts *)0)->job + PW_DWELLING_MAX + 2];
} pw_job_name;

pw_job_name pw_job_title(const pw_job *job);

#endif
