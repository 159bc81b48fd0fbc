/* Air through the joints of new windows at their label value: told beside the figures, in none of
 * them, for nobody has measured the joints that are there now. */
#include <math.h>

#include "panewright/compare_price.h"
#include "panewright/opening_package.h"
#include "panewright/units.h"
#include "study/compare_impl.h"

/* m3/s at 75 Pa of all new windows of rooms inside the energy of the house; not a number where a label
 * does not say. */
static double flow_at_test(const pw_compare *c, size_t p)
{
  static const pw_price_scope inside = {.conditioned = 1};
  double flow = 0.0;
  for (size_t row = 0; row < c->n_package; row++) {
    double area = 0.0;
    for (size_t i = 0; i < c->n_opening; i++) {
      const pw_opening *o = &c->job->opening[i];
      if (!pw_price_covers(c, i, &inside) || pw_opening_package_row(o, p) != row) continue;
      area += (double)o->quantity * pw_compare_rating(c, (int)p, i)->area;
    }
    if (area > 0.0) flow += c->job->package[row].label_air_leakage.value * area;
  }
  return flow;
}

pw_status pw_compare_joints(pw_compare *c, size_t p, const pw_weather *weather, pw_err *err)
{
  pw_compare_set *set = &c->package_set[p];
  double flow = flow_at_test(c, p);
  if (!isfinite(flow) || !isfinite(c->job->package[p].label_air_leakage.value)) return PW_OK;
  int storeys = c->job->house.storeys;
  pw_leak_site site = {.storeys = storeys < 1   ? 1
                                  : storeys > 3 ? 3
                                                : storeys,
                       .t_in = c->t_in - PW_KELVIN};
  set->joints_known = 1;
  return pw_leak_of_year(flow, &site, weather, c->house.volume, &set->joints, err);
}
