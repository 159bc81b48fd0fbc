/* Fill gases of a sealed unit and their mixtures. */
#ifndef PANEWRIGHT_GAS_H
#define PANEWRIGHT_GAS_H

#include "panewright/status.h"

typedef enum pw_gas { PW_AIR = 0, PW_ARGON, PW_KRYPTON, PW_XENON, PW_SF6, PW_GAS_COUNT } pw_gas;

/* Volume shares; all zero means pure air, else they sum to 1 (within 1e-9). */
typedef struct pw_mix {
  double share[PW_GAS_COUNT];
} pw_mix;

typedef struct pw_gas_state {
  double conductivity; /* W/(m K) */
  double viscosity;    /* kg/(m s), dynamic */
  double heat;         /* J/(kg K), specific, at constant pressure */
  double density;      /* kg/m3 */
} pw_gas_state;

/* Properties of a mixture by ISO 15099 (linear in temperature, kinetic mixture rules).
 *
 * Given     mix, t (K, 173.15 to 373.15), pressure (Pa, 3e4 to 1.2e5)
 * Returned  *state
 * Status    PW_OK; PW_E_DOMAIN a share below 0, shares that do not sum to 1, SF6 (the standard
 *           gives no coefficients for it), t or pressure out of range
 * Source    ISO 15099:2003 Annex B; reference/glazing/gas.csv.
 */
pw_status pw_gas_iso15099(const pw_mix *mix, double t, double pressure, pw_gas_state *state,
                          pw_err *err);

/* Properties at t by EN 673: tables at -10, 0, +10, +20 C, linear between, mixed by volume.
 * Status as above (SF6 is allowed here). Source: EN 673 gas property table; constants.csv. */
pw_status pw_gas_en673(const pw_mix *mix, double t, pw_gas_state *state, pw_err *err);

/* "air", "argon", "krypton", "xenon", "sf6": what build-ups and tables call them; never NULL. */
const char *pw_gas_name(pw_gas gas);

#endif
