#include "house/pane.h"

#include "base/own_math.h"
#include "glass/cavity.h"
#include "panewright/units.h"

pw_status pane_unit_of(const pw_glazing *glazing, double height, double pressure,
                       pane_unit *unit, pw_err *err)
{
  const pw_unit *u = &glazing->unit;
  if (!(u->n_pane >= 1 && u->n_pane <= PW_PANES_MAX))
    return pw_fail(err, PW_E_SHAPE, "glazing", "%zu panes, want 1 to %d", u->n_pane,
                   PW_PANES_MAX);
  if (glazing->light.n_pane != u->n_pane)
    return pw_fail(err, PW_E_SHAPE, "glazing", "%zu panes in heat, %zu in light", u->n_pane,
                   glazing->light.n_pane);
  pane_unit p = {.n = u->n_pane};
  p.emit_out = pw_pane_emissivity(&u->pane[0], 0);
  p.emit_in = pw_pane_emissivity(&u->pane[p.n - 1], 1);
  for (size_t i = 0; i < p.n; i++) {
    if (!(u->pane[i].thickness > 0.0 && u->pane[i].thickness < 0.2))
      return pw_fail(err, PW_E_DOMAIN, "thickness", "pane %g m thick, want above 0 to 0.2",
                     u->pane[i].thickness);
    p.pane[i] = pw_pane_conductivity(&u->pane[i]) / u->pane[i].thickness;
  }
  for (size_t i = 0; i + 1 < p.n; i++) {
    double a = pw_pane_emissivity(&u->pane[i], 1), b = pw_pane_emissivity(&u->pane[i + 1], 0);
    cavity c;
    heat_flow flow;
    pw_status s = cavity_set(&c, &u->gap[i], height, pressure, a, b, err);
    if (s != PW_OK) return s;
    p.radiant[i] = 1.0 / (1.0 / a + 1.0 / b - 1.0); /* ISO 15099 5.3, opaque */
    for (int row = 0; row < PANE_GAP_T; row++)
      for (int col = 0; col < PANE_GAP_D; col++) {
        double t = pane_gap_t0 + row * pane_gap_tt, half = 0.5 * col * pane_gap_dt;
        cavity_flow(&c, t - half, t + half, &flow);
        p.gap[i].h[row][col] = flow.h_conv;
      }
  }
  /* The indoor film goes with the fourth root of the difference up to a Rayleigh number of 1e11
   * (ISO 15099 8.3): glass to 4 m in height; one coefficient serves, 2 % off at 0 and 40 C. */
  gas_law air;
  heat_flow flow;
  pw_status s = gas_law_set(&(pw_mix){{[PW_AIR] = 1.0}}, &air, err);
  if (s != PW_OK) return s;
  indoor_film_flow(&air, height, pressure, PW_ROOM_T - 8.0, PW_ROOM_T, &flow);
  p.room = flow.h_conv / pw_power(8.0, 0.25);
  *unit = p;
  return PW_OK;
}
