/* Outdoor noise through a facade into a room, by EN 12354-3. Band by band, or for a spectrum as a whole
 * with reductions weighted by it. */
#ifndef HOUSE_FACADE_SOUND_H
#define HOUSE_FACADE_SOUND_H

#include <stddef.h>

#include "panewright/status.h"

typedef struct pw_facade_part {
  double area; /* m2 */
  double r;    /* dB */
} pw_facade_part;

/* R' of the facade, dB: energy sum of its parts and of small elements (vents) by their D_n,e,
 *
 *   R' = -10 lg (sum S_i/S 10^(-R_i/10) + sum 10/S 10^(-D_n,e/10)),  S = sum S_i
 *
 * Given     part[n], small[m] D_n,e dB (m 0: NULL)
 * Status    PW_OK; PW_E_SHAPE n 0; PW_E_DOMAIN areas that do not sum to above 0
 * Source    EN 12354-3:2017 (clauses from memory)
 */
pw_status pw_facade_reduction(const pw_facade_part part[], size_t n, const double small[],
                              size_t m, double *r, double *area, pw_err *err);

/* Standardised level difference, 2 m before the facade to the room, at T0 0.5 s, dB:
 *   D_2m,nT = R' + dL_shape + 10 lg (0.16 V/(T0 S))
 * V m3, S m2; shape 0 for a plane facade. The standard prints V/(6 T0 S), 0.18 dB more. */
double pw_facade_d2m(double r, double shape, double volume, double area);

/* Level indoors, dB, from that 2 m before the facade; T s, reverberation time of the room:
 *   L_2 = L_2m - D_2m,nT + 10 lg (T/T0) */
double pw_facade_level(double level_2m, double d2m, double reverberation);

#endif
