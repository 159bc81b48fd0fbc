/* What a duct system delivers to the rooms of what goes into it. */
#ifndef PANEWRIGHT_DUCT_H
#define PANEWRIGHT_DUCT_H

typedef struct pw_duct {
  double tight_supply, tight_return;     /* share of the air that stays in them, 0..1 */
  double ua_supply, ua_return;           /* W/K */
  double flow;                           /* m3/s */
  double t_supply, t_room;               /* C */
  double t_round_supply, t_round_return; /* C, around the ducts */
} pw_duct;

/* Share of the heat that reaches the rooms while it runs.
 *   DE = as Bs - as Bs (1 - ar Br) dtr/dte - as (1 - Bs) dts/dte,  B = exp(-UA / (rho c q))
 * Source  ASHRAE 152, heating form (from memory) */
double pw_duct_delivers(const pw_duct *duct);

#endif
