/* The European solar factor, the second method beside the balance of unit.c. Never to be set into
 * one column with SHGC. */
#include "glass/optics.h"
#include "panewright/units.h"

/* Resistance of a pane, m2 K/W. */
static double glass(const pw_unit *unit, size_t i)
{
  double k = unit->pane[i].conductivity;
  return unit->pane[i].thickness / (k > 0.0 ? k : 1.0);
}

pw_status pw_glazing_g_en410(const pw_glazing *glazing, size_t angle, double *g, pw_err *err)
{
  static const double h_out = 23.0; /* EN 410:2011 (from memory) */
  pw_unit_result en;
  const pw_unit *unit = &glazing->unit;
  pw_status status = pw_unit_en673(unit, &en, err);
  if (status != PW_OK) return status;
  double inner = unit->pane[unit->n_pane - 1].emit[1];
  double h_in = 3.6 + 4.4 * (inner > 0.0 ? inner : PW_BARE_GLASS_EN) /
                          PW_BARE_GLASS_EN; /* EN 410:2011 (from memory) */
  /* EN 410:2011 (from memory): the conductances between panes count from the outer face of the
   * first pane, the centres of middle panes and the room face of the last, glass included. */
  double resistance = 1.0 / h_out, inward = 0.0;
  for (size_t i = 0;; i++) {
    inward += glazing->light.absorbed[i][angle] * resistance;
    if (i + 1 == unit->n_pane) break;
    double first = i == 0 ? 1.0 : 0.5, second = i + 2 == unit->n_pane ? 1.0 : 0.5;
    resistance +=
        first * glass(unit, i) + 1.0 / en.gap[i].conductance + second * glass(unit, i + 1);
  }
  *g = glazing->light.tau_e[angle] + inward / (resistance + 1.0 / h_in);
  return PW_OK;
}
