/* The simple hourly method: one mass node, five conductances. */
#ifndef HOUSE_SIMPLE_H
#define HOUSE_SIMPLE_H

#include <stddef.h>

#include "panewright/status.h"

typedef struct pw_simple {
  double floor_area;         /* m2 */
  double total_area;         /* m2, A_t; 0 means 4.5 floor areas */
  double mass_area;          /* m2, A_m */
  double mass_store;         /* J/K, C_m */
  double h_is;               /* W/(m2 K), surface to air; 0 means 3.45 */
  double h_opaque, h_window; /* W/K */
  double h_air;              /* W/K, leakage and ventilation; 0 allowed */
} pw_simple;

/* The derived conductances, W/K. */
typedef struct pw_simple_net {
  double h_is, h_ms, h_em, h_1, h_2, h_3, total;
} pw_simple_net;

/* What drives one hour. */
typedef struct pw_simple_drive {
  double t_out, t_supply;    /* C */
  double gain, solar;        /* W */
  double heat_set, cool_set; /* C; NAN off */
} pw_simple_drive;

typedef struct pw_simple_hour {
  double need; /* W, heating positive, cooling negative */
  double t_air, t_surface, t_operative;
} pw_simple_hour;

/* Status    PW_E_DOMAIN: a value out of range, or h_opaque not below h_ms (C.2 fails) */
pw_status pw_simple_init(const pw_simple *simple, pw_simple_net *net, pw_err *err);

/* One hour: t_mass is taken from the start to the end of it. Source: ISO 13790:2008 Annex C. */
void pw_simple_step(const pw_simple *simple, const pw_simple_net *net,
                    const pw_simple_drive *drive, double *t_mass, pw_simple_hour *hour);

#endif
