#include "out/job_title.h"

#include <stdio.h>

pw_job_name pw_job_title(const pw_job *job)
{
  pw_job_name name;
  snprintf(name.text, sizeof name.text, "%s%s%s", job->house.job, job->dwelling[0] ? ", " : "",
           job->dwelling);
  return name;
}
