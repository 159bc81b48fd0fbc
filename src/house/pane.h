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

typedef struct pane_window {
  const pane_unit *unit;
  double was[2 * PW_PANES_MAX]; /* K, as the last step left them */
  double h_out, e_out;          /* outer film of the step: W/(m2 K), and W/m2 at 0 K */
  double t[2 * PW_PANES_MAX];   /* K, faces from outdoors */
  double inverse[2 * PW_PANES_MAX],
      e[2 * PW_PANES_MAX]; /* of the elimination, for the way back */
  double link[2 * PW_PANES_MAX];
} pane_window;

/* Tabulates a unit. height of the glass m, pressure Pa. */
pw_status pane_unit_of(const pw_glazing *glazing, double height, double pressure,
                       pane_unit *unit, pw_err *err);

/* Convection in a cavity between faces at a and b. */
static inline double pane_gap_film(const pane_gap *gap, double a, double b)
{
  double x = fabs(a - b) / pane_gap_dt, y = (0.5 * (a + b) - pane_gap_t0) / pane_gap_tt;
  x = x < PANE_GAP_D - 1.001 ? x : PANE_GAP_D - 1.001;
  y = y < 0.0 ? 0.0 : y < PANE_GAP_T - 1.001 ? y : PANE_GAP_T - 1.001;
  int i = (int)x, j = (int)y;
  x -= i;
  y -= j;
  const double *low = &gap->h[j][i], *high = &gap->h[j + 1][i];
  return (1.0 - y) * (low[0] + x * (low[1] - low[0])) + y * (high[0] + x * (high[1] - high[0]));
}

/* Eliminates all faces but the innermost: it then takes *k per K and gives *j, W/m2, of which *sun
 * stems from the absorbed sun. h_out and e_out must be set. */
static inline void pane_chain(pane_window *w, const float absorbed[], double *k, double *j,
                              double *sun)
{
  const pane_unit *u = w->unit;
  double g = w->h_out, e = w->e_out, s = 0.0;
  size_t m = 0;
  for (size_t p = 0;; p++) {
    double half = 0.5 * (double)absorbed[p];
    e += half;
    s += half;
    double link = u->pane[p], inverse = 1.0 / (g + link), f = link * inverse;
    w->inverse[m] = inverse;
    w->e[m] = e;
    w->link[m++] = link;
    g *= f;
    e = e * f + half;
    s = s * f + half;
    if (p + 1 == u->n) break;
    double a = w->t[m], b = w->t[m + 1];
    link = pane_gap_film(&u->gap[p], a, b) + u->radiant[p] * film_radiant(a, b);
    inverse = 1.0 / (g + link);
    f = link * inverse;
    w->inverse[m] = inverse;
    w->e[m] = e;
    w->link[m++] = link;
    g *= f;
    e *= f;
    s *= f;
  }
  *k = g;
  *j = e;
  *sun = s;
}

/* The way back, once the innermost face is known. */
static inline void pane_faces(pane_window *w, double t_inner)
{
  size_t m = 2 * w->unit->n - 1;
  w->t[m] = t_inner;
  while (m-- > 0)
    w->t[m] = (w->e[m] + w->link[m] * w->t[m + 1]) * w->inverse[m];
}

#endif
