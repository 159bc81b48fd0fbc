#include "out/opening_columns.h"

void pw_opening_columns_add(pw_opening_columns *c, const pw_job *job)
{
  c->options |= pw_option_used(job);
  c->shapes |= pw_job_has_shapes(job);
  c->units |= pw_job_has_units(job);
}

size_t pw_opening_columns_headers(const pw_opening_columns *c, const pw_job *job,
                                  const char *header[])
{
  size_t n = pw_facts_headers(job, header);
  n += pw_option_headers(c->options, header + n);
  n += pw_shape_headers(c->shapes, header + n);
  return n + pw_unit_headers(c->units, header + n);
}

void pw_opening_columns_cells(const pw_opening_columns *c, const pw_job *job, size_t opening,
                              const pw_fit *fit, pw_grid *grid)
{
  const pw_opening *o = &job->opening[opening];
  pw_facts_cells(job, o, grid);
  pw_option_cells(c->options, o, grid);
  pw_shape_cells(c->shapes, fit, grid);
  pw_unit_cells(c->units, job, opening, grid);
}
