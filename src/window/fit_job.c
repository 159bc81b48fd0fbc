#include "window/fit_job.h"

#include <stdio.h>
#include <string.h>

#include "window/opening_package.h"

static pw_status blame(pw_status status, const char *tag, pw_err *err)
{
  if (!err) return status;
  char text[sizeof err->text];
  memcpy(text, err->text, sizeof text);
  snprintf(err->text, sizeof err->text, "opening %.48s: %.300s", tag, text);
  return status;
}

pw_status pw_fit_job(const pw_job *job, size_t column, pw_fit fit[], pw_err *err)
{
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    const pw_package *k = &job->package[pw_opening_package_row(o, column)];
    const pw_frame_line *line = pw_opening_fit_line(job, column, o);
    if (!line)
      return pw_fail(err, PW_E_DATA, "frame_line",
                     "package %s: no frame line '%s' for opening %s", k->name, k->frame_line,
                     o->tag);
    pw_status status = pw_fit_opening(o, line, &fit[i], err);
    if (status != PW_OK) return blame(status, o->tag, err);
  }
  pw_fit_neighbours(job->opening, job->n_opening, fit);
  for (size_t i = 0; i < job->n_opening; i++)
    if (job->opening[i].standing != PW_REPLACED) fit[i].n_finding = 0;
  return PW_OK;
}
