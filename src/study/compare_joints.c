/* Air through the joints of new windows at their label value: told beside the figures, in none of
 * them, for nobody has measured the joints that are there now. */
#include <math.h>

#include "panewright/units.h"
#include "study/compare_impl.h"
#include "study/compare_price.h"
#include "window/opening_label.h"

/* m3/s at 75 Pa of all new windows of rooms inside the energy of the house; not a number where a label
 * does not say, or where there is none. */
static pw_status flow_at_test(const pw_job *job, const pw_compare_rated *rated, size_t p,
                              double *flow, pw_err *err)
{
  static const pw_price_scope inside = {.conditioned = 1};
  int any = 0;
  *flow = 0.0;
  for (size_t i = 0; i < job->n_opening; i++) {
    const pw_opening *o = &job->opening[i];
    pw_label_row label;
    if (!pw_price_covers(job, i, &inside)) continue;
    pw_status status = pw_opening_label(job, p, o, &label, err);
    if (status != PW_OK) return status;
    *flow += label.air_leakage.value * (double)o->quantity *
             pw_compare_rating(rated, (int)p, i)->area;
    any = 1;
  }
  if (!any) *flow = (double)NAN;
  return PW_OK;
}

pw_status pw_compare_joints(const pw_job *job, const pw_compare_rated *rated, size_t p,
                            const pw_weather *weather, double volume, pw_lived_set *set,
                            pw_err *err)
{
  double flow = 0.0;
  pw_status status = flow_at_test(job, rated, p, &flow, err);
  if (status != PW_OK || !isfinite(flow)) return status;
  int storeys = job->house.storeys;
  pw_leak_site site = {.storeys = storeys < 1   ? 1
                                  : storeys > 3 ? 3
                                                : storeys,
                       .t_in = rated->t_in - PW_KELVIN};
  set->joints_known = 1;
  return pw_leak_of_year(flow, &site, weather, volume, &set->joints, err);
}
