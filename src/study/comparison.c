#include "panewright/comparison.h"

#include <stdlib.h>

#include "study/compare.h"
#include "window/frame_line.h"

struct pw_comparison {
  pw_job job; /* the host's, with lines of our own where it brings none */
  pw_frame_line *line;
  pw_compare compare;
};

static pw_status built_in_lines(pw_comparison *c, pw_err *err)
{
  size_t n = pw_frame_line_count();
  c->line = calloc(n, sizeof *c->line);
  if (!c->line) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the frame lines");
  for (size_t i = 0; i < n; i++)
    pw_frame_line_builtin(i, &c->line[i]);
  c->job.frame_line = c->line;
  c->job.n_frame_line = n;
  return PW_OK;
}

pw_status pw_comparison_new(const pw_job *job, const pw_weather *weather,
                            pw_comparison **comparison, pw_err *err)
{
  *comparison = NULL;
  pw_comparison *c = calloc(1, sizeof *c);
  if (!c) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the comparison");
  c->job = *job;
  pw_status status = job->n_frame_line > 0 ? PW_OK : built_in_lines(c, err);
  if (status == PW_OK) status = pw_compare_run(&c->job, weather, NULL, NULL, &c->compare, err);
  if (status == PW_OK)
    *comparison = c;
  else
    pw_comparison_free(c);
  return status;
}

void pw_comparison_free(pw_comparison *c)
{
  if (!c) return;
  pw_compare_free(&c->compare);
  free(c->line);
  free(c);
}

size_t pw_comparison_count(const pw_comparison *c) { return c->compare.n_package + 2; }

pw_status pw_comparison_get(const pw_comparison *c, size_t set, pw_compared *compared,
                            pw_err *err)
{
  if (set >= pw_comparison_count(c))
    return pw_fail(err, PW_E_DOMAIN, "set", "set %zu, want 0 to %zu", set,
                   pw_comparison_count(c) - 1);
  const pw_compare_set s = pw_compare_set_of(&c->compare, set == 0   ? PW_SET_EXISTING
                                                          : set == 1 ? PW_SET_MINIMUM
                                                                     : (int)set - 2);
  *compared = (pw_compared){.name = s.rated->name,
                            .area = s.rated->area,
                            .glass_area = s.rated->glass_area,
                            .u = s.rated->u,
                            .shgc = s.rated->shgc,
                            .vt = s.rated->vt,
                            .heating_kwh = s.lived->year.heating_kwh,
                            .cooling_kwh = s.lived->year.cooling_kwh,
                            .bill = s.billed->bill.cost_year,
                            .saved = set > 0 ? s.billed->saving.cost_year : PW_NOT_GIVEN,
                            .price = s.billed->price > 0.0 ? s.billed->price : PW_NOT_GIVEN};
  return PW_OK;
}
