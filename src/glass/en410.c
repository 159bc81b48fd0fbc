/* The European solar factor, the second method beside the balance of unit.c. Never to be set into
 * one column with SHGC. */
#include "panewright/optics.h"

pw_status pw_glazing_g_en410(const pw_glazing *glazing, size_t angle, double *g, pw_err *err)
{
  static const double h_out = 23.0, bare = 0.837; /* EN 410:2011 (from memory) */
  pw_unit_result en;
  const pw_unit *unit = &glazing->unit;
  pw_status status = pw_unit_en673(unit, &en, err);
  if (status != PW_OK) return status;
  double inner = unit->pane[unit->n_pane - 1].emit[1];
  double h_in = 3.6 + 4.4 * (inner > 0.0 ? inner : bare) / bare; /* EN 410:2011 (from memory) */
  double resistance = 1.0 / h_out, inward = 0.0;
  for (size_t i = 0; i < unit->n_pane; i++) {
    inward += glazing->light.absorbed[i][angle] * resistance;
    if (i + 1 < unit->n_pane) resistance += 1.0 / en.gap[i].conductance;
  }
  *g = glazing->light.t_sol[angle] + inward / (resistance + 1.0 / h_in);
  return PW_OK;
}
