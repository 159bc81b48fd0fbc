/* A layered opaque element: conduction by finite volumes, carried through time by its own modes.
 *
 * Space: each layer is cut into cells (the count follows from the step, see pw_wall_init). Time:
 * the surface temperatures are held over a step and the cells solved exactly (eigenmodes of the
 * symmetric conduction problem), so that the mean flux of a step, and with it the energy, carries
 * no error in time however long the step is.
 */
#ifndef PANEWRIGHT_WALL_H
#define PANEWRIGHT_WALL_H

#include <stddef.h>

#include "panewright/status.h"

enum { PW_LAYERS_MAX = 10, PW_CELLS_MAX = 40, PW_MODES_MAX = 16 };

typedef struct pw_layer {
  double thickness;    /* m; 0: a bare resistance */
  double conductivity; /* W/(m K); with thickness 0 not used */
  double density;      /* kg/m3; 0: no heat stored */
  double heat;         /* J/(kg K) */
  double resistance;   /* m2 K/W, used when thickness is 0 */
} pw_layer;

typedef struct pw_layers {
  size_t n_layer;                /* 1..PW_LAYERS_MAX */
  pw_layer layer[PW_LAYERS_MAX]; /* outdoors to indoors */
} pw_layers;

/* The wall prepared for one step width. Per m2. Side 0 is outdoors, side 1 indoors. */
typedef struct pw_wall {
  double u;                       /* W/(m2 K), surface to surface */
  double store;                   /* J/(m2 K) */
  double step;                    /* s */
  size_t n_cell, n_mode;          /* cells; modes that remember beyond a step */
  double direct[2][2];            /* W/(m2 K): mean flux into side i for side j held at 1 K */
  double keep[PW_MODES_MAX];      /* share of a mode left after a step */
  double drive[2][PW_MODES_MAX];  /* what a step at 1 K adds to the mode */
  double recall[2][PW_MODES_MAX]; /* mean flux into side i from the mode's old value */
  double content[PW_MODES_MAX];   /* J/m2 in a mode's value of 1, dropped modes left out */
  double content_direct[2];       /* J/m2 held by the dropped modes for side j at 1 K */
  double error_estimate;          /* relative, of the daily admittance, against a finer mesh */
} pw_wall;

/* Given     layers; step s > 0
 * Returned  *wall
 * Status    PW_OK; PW_E_SHAPE count; PW_E_DOMAIN a layer's value; PW_E_CONVERGE eigenmodes
 * Notes     1) Cells per layer: thickness over a quarter of the depth sqrt(a step / pi) a daily
 *              wave's first hour reaches, at least 2, at most 12 a layer.
 *           2) Modes that fade to below 1e-9 within a step act at once and hold no state.
 */
pw_status pw_wall_init(const pw_layers *layers, double step, pw_wall *wall, pw_err *err);

/* The state of n_mode numbers that is steady at these surface temperatures (any one scale). */
void pw_wall_steady(const pw_wall *wall, const double t_surface[2], double state[]);

/* The flux into side 0 and 1 owed to what the wall remembers (add direct * t_surface). */
static inline void pw_wall_recall(const pw_wall *wall, const double state[], double flux[2])
{
  double a = 0.0, b = 0.0;
  for (size_t k = 0; k < wall->n_mode; k++) {
    a += wall->recall[0][k] * state[k];
    b += wall->recall[1][k] * state[k];
  }
  flux[0] = a;
  flux[1] = b;
}

/* Takes the state over one step with the surfaces held at t_surface. */
static inline void pw_wall_step(const pw_wall *wall, const double t_surface[2], double state[])
{
  for (size_t k = 0; k < wall->n_mode; k++)
    state[k] = wall->keep[k] * state[k] + wall->drive[0][k] * t_surface[0] +
               wall->drive[1][k] * t_surface[1];
}

/* J/m2 stored, on the scale of the temperatures used. */
double pw_wall_content(const pw_wall *wall, const double t_surface[2], const double state[]);

#endif
