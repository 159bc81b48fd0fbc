#include "study/compare_price.h"

#include "window/opening_package.h"

int pw_price_covers(const pw_job *job, size_t opening, const pw_price_scope *scope)
{
  const pw_opening *o = &job->opening[opening];
  if (o->standing != PW_REPLACED) return 0;
  if (!scope) return 1;
  if (scope->only && !scope->only[opening]) return 0;
  if (scope->phase > 0 && pw_phase_of(o) != scope->phase) return 0;
  return !(scope->conditioned && o->unconditioned);
}

pw_status pw_compare_price(const pw_job *job, const pw_compare_rated *rated, size_t package,
                           const pw_price_scope *scope, pw_price *price, pw_err *err)
{
  double area[PW_WINDOWS_MAX];
  int counts[PW_WINDOWS_MAX];
  for (size_t i = 0; i < job->n_opening; i++) {
    area[i] = rated->existing[i].rating.area;
    counts[i] = pw_price_covers(job, i, scope) ? job->opening[i].quantity : 0;
  }
  return pw_price_of(job, package, area, counts, price, err);
}
