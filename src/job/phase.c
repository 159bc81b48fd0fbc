#include "job/phase.h"

#include <stdio.h>
#include <string.h>

#include "job/survey.h"
#include "window/opening_package.h"

static pw_status no_such_phase(const pw_job *job, int phase, pw_err *err)
{
  char list[80] = "";
  for (int k = 1; k <= PW_PHASES_MAX; k++)
    for (size_t i = 0; i < job->n_opening; i++) {
      const pw_opening *o = &job->opening[i];
      if (o->standing != PW_REPLACED || pw_phase_of(o) != k) continue;
      size_t n = strlen(list);
      snprintf(list + n, sizeof list - n, "%s%d", n ? ", " : "", k);
      break;
    }
  return pw_fail(err, PW_E_DATA, "phase",
                 "no window of openings.csv is replaced in phase %d; there is %s", phase,
                 list[0] ? list : "none at all");
}

pw_status pw_job_take_phase(pw_job *job, int phase, const char *earlier, pw_err *err)
{
  size_t row = 0, mine = 0;
  for (size_t i = 0; i < job->n_opening; i++)
    mine += job->opening[i].standing == PW_REPLACED && pw_phase_of(&job->opening[i]) == phase;
  if (mine == 0) return no_such_phase(job, phase, err);
  if (earlier) {
    pw_status status = pw_job_package_named(job, earlier, &row, err);
    if (status != PW_OK) return status;
  }
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_opening *o = &job->opening[i];
    if (o->standing != PW_REPLACED || pw_phase_of(o) == phase) continue;
    o->standing = pw_phase_of(o) > phase ? PW_LATER : PW_DONE;
    if (o->standing == PW_LATER || o->own_package) continue;
    if (!earlier)
      return pw_fail(err, PW_E_DATA, "earlier",
                     "phase %d begins where phase %d has ended: which package has %s got? Say "
                     "--earlier NAME, or name it in column package",
                     phase, pw_phase_of(o), o->tag);
    o->own_package = row + 1;
  }
  return PW_OK;
}
