/* The declared U-value by EN 673, the second method beside the balance of unit.c. */
#include <math.h>

#include "base/own_math.h"
#include "glass/unit_check.h"
#include "panewright/unit.h"
#include "panewright/units.h"

static const double sigma_en = 5.67e-8; /* W/(m2 K4), as EN 673 rounds it */
static const double t_mean = 283.0;     /* K */
static const double t_gas = 283.15;     /* K, the table's +10 C */
static const double across = 15.0;      /* K, across all gaps together */
static const double h_out = 25.0;       /* W/(m2 K), EN 673:2011 */

static double emit_of(const pw_pane *pane, int side)
{
  return pane->emit[side] > 0.0 ? pane->emit[side] : PW_BARE_GLASS_EN;
}

/* One gap at a temperature difference dt. EN 673 cl. 5 (from memory), upright. */
static void gap_at(const pw_gas_state *gas, double thickness, double h_rad, double dt,
                   pw_gap_result *gap)
{
  double s = thickness, rho = gas->density, mu = gas->viscosity;
  double gr = PW_GRAVITY * s * s * s * dt * rho * rho / (t_mean * mu * mu);
  double pr = mu * gas->heat / gas->conductivity;
  double nu = fmax(1.0, 0.035 * pw_power(gr * pr, 0.38));
  double h_gas = nu * gas->conductivity / s;
  *gap = (pw_gap_result){nu, h_gas, h_rad, h_gas + h_rad};
}

/* The 15 K are shared out by the gaps' resistances, again and again until nothing moves. */
static pw_status share_out(const pw_unit *unit, const pw_gas_state gas[], pw_unit_result *r,
                           pw_err *err)
{
  size_t n = unit->n_pane - 1;
  double dt[PW_PANES_MAX], moved = 0.0;
  for (size_t g = 0; g < n; g++)
    dt[g] = across / (double)n;
  for (r->iterations = 0; r->iterations < 200; r->iterations++) {
    double sum = 0.0;
    for (size_t g = 0; g < n; g++) {
      double e1 = emit_of(&unit->pane[g], 1), e2 = emit_of(&unit->pane[g + 1], 0);
      double h_rad = 4.0 * sigma_en * t_mean * t_mean * t_mean / (1.0 / e1 + 1.0 / e2 - 1.0);
      gap_at(&gas[g], unit->gap[g].thickness, h_rad, dt[g], &r->gap[g]);
      sum += 1.0 / r->gap[g].conductance;
    }
    moved = 0.0;
    for (size_t g = 0; g < n; g++) {
      double next = across / (r->gap[g].conductance * sum);
      moved = fmax(moved, fabs(next - dt[g]));
      dt[g] = next;
    }
    if (moved <= 1e-10) return PW_OK;
  }
  return pw_fail(err, PW_E_CONVERGE, "gap", "temperature differences still move by %g K",
                 moved);
}

pw_status pw_unit_en673(const pw_unit *unit, pw_unit_result *result, pw_err *err)
{
  pw_gas_state gas[PW_PANES_MAX];
  pw_unit_result r = {0};
  pw_status s = unit_check(unit, err);
  for (size_t g = 0; s == PW_OK && g + 1 < unit->n_pane; g++)
    s = pw_gas_en673(&unit->gap[g].mix, t_gas, &gas[g], err);
  if (s == PW_OK && unit->n_pane > 1) s = share_out(unit, gas, &r, err);
  if (s != PW_OK) return s;
  size_t n = unit->n_pane;
  r.h_c_out = h_out;
  r.h_c_in = 3.6; /* EN 673:2011 cl. 7 and 8 (from memory): h_i = 3.6 + 4.1 e/0.837 */
  r.h_r_in = 4.1 * emit_of(&unit->pane[n - 1], 1) / PW_BARE_GLASS_EN;
  double resistance[2 * PW_PANES_MAX + 1], total = 0.0; /* outdoor film first */
  for (size_t i = 0; i <= 2 * n; i++) {
    if (i == 0)
      resistance[i] = 1.0 / h_out;
    else if (i == 2 * n)
      resistance[i] = 1.0 / (r.h_c_in + r.h_r_in);
    else if (i % 2 == 1)
      resistance[i] = unit->pane[i / 2].thickness / pw_pane_conductivity(&unit->pane[i / 2]);
    else
      resistance[i] = 1.0 / r.gap[i / 2 - 1].conductance;
    total += resistance[i];
  }
  r.u = 1.0 / total;
  r.q_in = r.q_out = 20.0 * r.u;
  double t = 273.15;
  for (size_t i = 0; i < 2 * n; i++)
    r.t[i] = t += r.q_in * resistance[i];
  *result = r;
  return PW_OK;
}

pw_status pw_emissivity_corrected(double normal, double *corrected, pw_err *err)
{
  /* EN 12898 / EN 673 Annex A (reference/glazing/constants.csv), linear between. */
  static const struct {
    double normal, ratio;
  } row[] = {{0.03, 1.22}, {0.05, 1.18}, {0.10, 1.14}, {0.15, 1.12},
             {0.20, 1.10}, {0.30, 1.06}, {0.40, 1.03}, {0.50, 1.00},
             {0.60, 0.98}, {0.70, 0.96}, {0.80, 0.95}, {0.89, 0.94}};
  enum { N = sizeof row / sizeof row[0] };
  if (!(normal > 0.0 && normal <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "normal", "normal emissivity %g, want above 0 and up to 1",
                   normal);
  double ratio = normal <= row[0].normal ? row[0].ratio : row[N - 1].ratio;
  for (size_t i = 0; i + 1 < N; i++)
    if (normal > row[i].normal && normal <= row[i + 1].normal)
      ratio = row[i].ratio + (row[i + 1].ratio - row[i].ratio) * (normal - row[i].normal) /
                                 (row[i + 1].normal - row[i].normal);
  *corrected = normal * ratio;
  return PW_OK;
}
