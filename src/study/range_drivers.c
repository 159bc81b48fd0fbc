/* What drives each package's saving. */
#include <string.h>

#include "study/range_impl.h"
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

pw_status range_drivers(pw_range_model savings, const void *context,
                        const pw_range_options *options, pw_range *range, pw_err *err)
{
  pw_range_plan plan = {.n_dim = range->n_input,
                        .n_out = range->n_package,
                        .n_draw = SENSITIVITY_DRAWS,
                        .n_base = SENSITIVITY_DRAWS,
                        .seed = range->seed,
                        .n_thread = options->n_thread,
                        .model = savings,
                        .context = context};
  pw_range_result result;
  pw_status s = pw_range_run(&plan, &result, err);
  if (s != PW_OK) return s;
  for (size_t p = 0; p < range->n_package; p++) {
    memcpy(range->package[p].sensitivity, result.sensitivity + p * plan.n_dim,
           plan.n_dim * sizeof *result.sensitivity);
    rank_inputs(plan.n_dim, &range->package[p]);
  }
  range->with_drivers = 1;
  pw_range_free(&result);
  return PW_OK;
}
