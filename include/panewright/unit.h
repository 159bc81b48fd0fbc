/* A glass unit of 1 to 4 panes and its steady heat balance. Surfaces are numbered 1..2n from
 * outdoors; pane i (from 0) has surfaces 2i+1 (outdoor side) and 2i+2 (indoor side). */
#ifndef PANEWRIGHT_UNIT_H
#define PANEWRIGHT_UNIT_H

#include <stddef.h>

#include "panewright/gas.h"

enum { PW_PANES_MAX = 4 };

typedef struct pw_pane {
  double thickness;    /* m */
  double conductivity; /* W/(m K); 0 means soda-lime glass, 1.0 */
  double emit[2]; /* hemispherical (EN: corrected) long-wave emissivity of the outdoor-facing
                          and the indoor-facing surface; 0 means bare glass, 0.84 by ISO 15099 and
                          0.837 by EN 673 */
} pw_pane;

typedef struct pw_gap {
  double thickness; /* m */
  pw_mix mix;       /* zero means air */
} pw_gap;

typedef struct pw_unit {
  size_t n_pane; /* 1..PW_PANES_MAX */
  pw_pane pane[PW_PANES_MAX];
  pw_gap gap[PW_PANES_MAX - 1];
  double height; /* m, of the cavity and of the indoor film; 0 means 1.0 */
} pw_unit;

/* What a pane has, its defaults filled in: W/(m K); by ISO 15099, of side 0 (outdoors) or 1. */
double pw_pane_conductivity(const pw_pane *pane);
double pw_pane_emissivity(const pw_pane *pane, int side);

typedef enum pw_method { PW_ISO15099 = 0, PW_EN673 } pw_method;

/* What the unit stands between. Vertical only. */
typedef struct pw_env {
  double t_out, t_in;         /* K, air */
  double t_rad_out, t_rad_in; /* K, what the outer surfaces see; 0 means the air's */
  double h_c_out;             /* W/(m2 K), outdoor convection; 0 means 4 + 4 wind */
  double wind;                /* m/s */
  double h_c_in;   /* W/(m2 K), indoor convection; 0 means natural, from the balance */
  double sun;      /* W/m2 on the outer face; used with the absorbed shares */
  double pressure; /* Pa; 0 means 101325 */
} pw_env;

/* The rating procedure's conditions: winter (U) and summer (SHGC). ISO 15099 / NFRC 100, 200. */
extern const pw_env pw_env_winter, pw_env_summer;

typedef struct pw_gap_result {
  double nusselt;
  double h_conv, h_rad; /* W/(m2 K) */
  double conductance;   /* W/(m2 K), sum of the two */
} pw_gap_result;

typedef struct pw_unit_result {
  double u;                   /* W/(m2 K), q_in of the dark balance over t_in - t_out */
  double q_in, q_out;         /* W/m2, room to unit, and unit to outdoors, of this balance */
  double t[2 * PW_PANES_MAX]; /* K, surfaces 1..2n at t[0..2n-1] */
  pw_gap_result gap[PW_PANES_MAX - 1];
  double h_c_in, h_r_in, h_c_out, h_r_out; /* W/(m2 K) */
  double residual;                         /* W/m2, largest imbalance of a surface */
  int iterations;
} pw_unit_result;

/* Steady balance with absorbed sun.
 *
 * Given     unit, env; absorbed[n_pane] share of env->sun absorbed in each pane (NULL: none)
 * Returned  *result; u is NAN when t_in = t_out and there is no other way to define it
 * Status    PW_OK; PW_E_SHAPE n_pane; PW_E_DOMAIN a value out of range (the field is named);
 *           PW_E_CONVERGE with the residual reached. On failure *result is untouched.
 * Notes     The balance closes to 1e-9 W/m2 or better on every surface.
 * Source    ISO 15099:2003 clauses 5, 8 and Annex B.
 */
pw_status pw_unit_solve(const pw_unit *unit, const pw_env *env, const double absorbed[],
                        pw_unit_result *result, pw_err *err);

/* As pw_unit_solve, but only this balance: u is NAN. Half the work where the sun shines and U is not
 * wanted (an hourly year). */
pw_status pw_unit_balance(const pw_unit *unit, const pw_env *env, const double absorbed[],
                          pw_unit_result *result, pw_err *err);

/* Declared U by EN 673 (h_e, h_i of its 2011 edition, mean 283 K, 15 K across the gaps).
 * result carries u, gap[], and for show q and t[] at 20 / 0 C; the whole outdoor film is in h_c_out.
 * Emissivities are the corrected ones. */
pw_status pw_unit_en673(const pw_unit *unit, pw_unit_result *result, pw_err *err);

/* Corrected emissivity from the normal one. Source: EN 673 Annex A / EN 12898. */
pw_status pw_emissivity_corrected(double normal, double *corrected, pw_err *err);

enum { PW_FAR_FIRST_NM = 5500, PW_FAR_LAST_NM = 25000 };

/* Hemispherical emissivity of one side of a pane from its spectra in the far infrared.
 *
 * Given     nm[n] rising, t[n], r[n] shares of 1; from PW_FAR_FIRST_NM to PW_FAR_LAST_NM at least
 * Returned  *hemispherical  normal emissivity at the thirty ordinates of 283 K, then corrected
 * Status    PW_OK; PW_E_DOMAIN the span is short, or nothing is absorbed
 * Source    EN 12898:2001, ordinates from memory; beyond the last point its value stands.
 */
pw_status pw_emissivity_measured(const double nm[], const double t[], const double r[],
                                 size_t n, double *hemispherical, pw_err *err);

/* The ordinates, um. */
const double *pw_emissivity_ordinates(size_t *n);

/* SHGC by the two-state difference: tau_e + (q(sun) - q(dark)) / sun, inward positive.
 * Given  tau_e and absorbed[] of the angle in question. Source: ISO 15099:2003 4.2. */
pw_status pw_unit_shgc(const pw_unit *unit, const pw_env *env, double tau_e,
                       const double absorbed[], double *shgc, pw_err *err);

#endif
