/* Heat across a vertical sealed gap and across the indoor air film, with the slopes that a Newton
 * step wants. */
#ifndef GLASS_CAVITY_H
#define GLASS_CAVITY_H

#include "glass/gas_law.h"
#include "panewright/unit.h"

/* A heat flux between two temperatures, and how it moves with each. */
typedef struct heat_flow {
  double q;       /* W/m2, from the indoor side to the outdoor side */
  double by_out;  /* -dq/dt of the outdoor side, W/(m2 K), > 0 */
  double by_in;   /* dq/dt of the indoor side, W/(m2 K), > 0 */
  double nusselt; /* of the convection */
  double h_conv;  /* W/(m2 K) */
} heat_flow;

typedef struct cavity {
  gas_law law;
  double thickness;  /* m */
  double ra_scale;   /* Ra = ra_scale cp |dT| / (mu k T^3) */
  double ln_slender; /* ln(L/H) */
  double radiation;  /* sigma / (1/e_a + 1/e_b - 1), W/(m2 K4) */
} cavity;

/* Status as gas_law_set; the sizes are the caller's to check. */
pw_status cavity_set(cavity *c, const pw_gap *gap, double height, double pressure,
                     double emit_out, double emit_in, pw_err *err);

void cavity_flow(const cavity *c, double t_out, double t_in, heat_flow *flow);

/* Nusselt number of a vertical gap and *slope = dNu/d(ln Ra).
 * Source  ISO 15099:2003 5.3.3 (clause from memory).
 * Notes   The standard's branches for Nu1 do not meet: at Ra = 1e4 they step down by 0.5 %, at
 *         5e4 up by 0.6 %, and a balance that falls into the upward step has no solution. Within
 *         2 % of either Rayleigh number we go over smoothly from one branch to the other, so
 *         that heat always rises with the temperature difference and there is exactly one balance.
 */
double cavity_nusselt(double ra, double ln_slender, double *slope);

/* Natural convection of a vertical warm or cold plate of this height in room air.
 * Source  ISO 15099:2003 8.3 (clause from memory). */
void indoor_film_flow(const gas_law *air, double height, double pressure, double t_surface,
                      double t_air, heat_flow *flow);

#endif
