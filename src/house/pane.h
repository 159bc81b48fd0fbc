/* A window's glass at work in the house: the unit's balance as a chain, its cavities tabulated once
 * a build-up. Internal. */
#ifndef HOUSE_PANE_H
#define HOUSE_PANE_H

#include "house/film.h"
#include "panewright/glazing.h"

enum { PANE_GAP_D = 33, PANE_GAP_T = 7 };

/* Convection across a cavity, W/(m2 K), over temperature difference and mean. Bilinear in between:
 * within 1 % of the balance's own (tests/test_zone.c). */
typedef struct pane_gap {
  double h[PANE_GAP_T][PANE_GAP_D];
} pane_gap;

static const double pane_gap_dt = 2.5;    /* K between columns, from 0 */
static const double pane_gap_t0 = 233.15; /* K of the first row */
static const double pane_gap_tt = 20.0;   /* K between rows */

typedef struct pane_unit {
  size_t n;                     /* panes */
  double pane[PW_PANES_MAX];    /* W/(m2 K) */
  double radiant[PW_PANES_MAX]; /* effective emissivity of each gap */
  double emit_out, emit_in;     /* outermost and innermost face */
  double room;                  /* W/(m2 K^1.25): indoor film at a 1 K difference */
  pane_gap gap[PW_PANES_MAX - 1];
} pane_unit;

/* Tabulates a unit. height of the glass m, pressure Pa. */
pw_status pane_unit_of(const pw_glazing *glazing, double height, double pressure,
                       pane_unit *unit, pw_err *err);

#endif
