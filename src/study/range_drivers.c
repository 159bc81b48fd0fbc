/* What drives each package's saving. */
#include "study/range_reduced.h"
#include "study/range_run.h"

/* Draws of the sensitivity indices; the surface makes them cheap. Error of an index on published
 * functions: 0.003 to 0.03 at 1024, see src/check/sampling.c. */
enum { SENSITIVITY_DRAWS = 2048 };

static void rank_inputs(size_t n, pw_range_set *set)
{
  for (size_t i = 0; i < n; i++) {
    size_t k = i;
    for (; k > 0 && set->sensitivity[set->rank[k - 1]].total < set->sensitivity[i].total; k--)
      set->rank[k] = set->rank[k - 1];
    set->rank[k] = i;
  }
}

/* The three samples of a row: saving[package] of the first, of the second, then for each input those of the first with
 * this one of the second. u: the chances of both. A pw_range_model. */
static pw_status row(const void *context, void *space, const double u[], double saving[],
                     pw_err *err)
{
  (void)space;
  const range_reduced *r = context;
  const size_t np = r->rc->n_set - 2;
  double v[IN_COUNT], other[IN_COUNT], year[RANGE_SETS * RANGE_MONTHS];
  range_values(r->rc, u, v);
  range_values(r->rc, u + r->rc->n_in, other);
  range_reduced_year(r, v, year);
  pw_status s = range_savings_at(r->rc, v, year, saving, err);
  if (s != PW_OK) return s;
  range_reduced_year(r, other, year);
  s = range_savings_at(r->rc, other, year, saving + np, err);
  return s == PW_OK ? range_reduced_fan(r, v, other, saving + 2 * np, err) : s;
}

pw_status range_drivers(const range_reduced *r, const pw_range_options *options,
                        pw_range *range, pw_err *err)
{
  const size_t n_in = r->rc->n_in, np = range->n_package;
  pw_range_plan plan = {.n_dim = n_in,
                        .n_out = np * (2 + n_in),
                        .n_draw = SENSITIVITY_DRAWS,
                        .both = 1,
                        .seed = range->seed,
                        .n_thread = options->n_thread,
                        .model = row,
                        .context = r};
  pw_range_result result;
  pw_status s = pw_range_run(&plan, &result, err);
  if (s != PW_OK) return s;
  for (size_t p = 0; p < np; p++) {
    pw_range_shares(&result, p, np, range->package[p].sensitivity);
    rank_inputs(n_in, &range->package[p]);
  }
  range->with_drivers = 1;
  pw_range_free(&result);
  return PW_OK;
}
