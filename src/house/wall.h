/* A layered opaque element: conduction by finite volumes, carried through time by its own modes.
 *
 * Space: each layer is cut into cells. Time: a surface temperature is known by its mean over each
 * step; within the step it runs straight, with the slope from the mean before to this one. For
 * that course the cells are solved exactly (eigenmodes of the symmetric conduction problem), so the
 * mean flux of a step is the heat that passed: no energy is lost whatever the step, and the error
 * falls with the square of the step.
 */
#ifndef HOUSE_WALL_H
#define HOUSE_WALL_H

#include <stddef.h>

#include "panewright/zone.h"

enum { PW_CELLS_MAX = 40, PW_MODES_MAX = 40 };

/* m2 K/W of a layer, and of layers one behind another, without films. */
double pw_wall_layer_resistance(const pw_wall_layer *layer);
double pw_wall_resistance(const pw_wall_layers *layers);

/* The wall prepared for one step width. Per m2. Side 0 is outdoors, side 1 indoors. */
typedef struct pw_wall {
  double u;                      /* W/(m2 K), surface to surface */
  double store;                  /* J/(m2 K) */
  double step;                   /* s */
  size_t n_cell, n_mode;         /* cells; modes that remember beyond a step */
  double direct[2][2];           /* W/(m2 K): mean flux into side i for 1 K more on side j, */
  double past[2][2];             /* and for 1 K more in the step before */
  double keep[PW_MODES_MAX];     /* share of a mode left after a step */
  double drive[2][PW_MODES_MAX]; /* what 1 K on side j adds to the mode, now */
  double drive_past[2][PW_MODES_MAX]; /* and in the step before */
  double recall[2][PW_MODES_MAX];     /* mean flux into side i from the mode's old value */
  double content[PW_MODES_MAX];       /* J/m2 in a mode's value of 1 */
} pw_wall;

/* Given     layers; step s > 0
 * Returned  *wall
 * Status    PW_OK; PW_E_SHAPE count; PW_E_DOMAIN a layer's value; PW_E_CONVERGE eigenmodes
 * Notes     1) Cells do not depend on the step: half the depth sqrt(a 3600 s / pi) that an hour
 *              reaches, at least 2 a layer, at most PW_CELLS_MAX in all. Against the closed form
 *              the daily admittance of the walls of Standard 140 is then within 0.5 %.
 *           2) Modes whose share left after a step is below 1e-6 act at once and hold no heat;
 *              the flow through the wall stays exact.
 * Source    Semi-discrete conduction and its eigenmodes: any text on heat conduction.
 */
pw_status pw_wall_init(const pw_wall_layers *layers, double step, pw_wall *wall, pw_err *err);

/* The same, with all modes that remember beyond a step of `least` s, at most `step`: walls of one least step have the same
 * modes, so that a state may go on from one step width to another; `before` is then the mean over a time as long as the
 * step, right before it. */
pw_status pw_wall_init_cut(const pw_wall_layers *layers, double step, double least,
                           pw_wall *wall, pw_err *err);

/* The state of n_mode numbers that is steady at these surface temperatures (any one scale). */
void pw_wall_steady(const pw_wall *wall, const double t_surface[2], double state[]);

/* The mean flux into both sides owed to what the wall remembers: its state and the surface
 * temperatures of the step before. Add direct times the temperatures of this step. */
void pw_wall_recall(const pw_wall *wall, const double state[], const double before[2],
                    double flux[2]);

/* Takes the state over one step: mean surface temperatures of the step before and of this one. */
void pw_wall_step(const pw_wall *wall, const double before[2], const double now[2],
                  double state[]);

/* J/m2 stored, on the scale of the temperatures used. */
static inline double pw_wall_content(const pw_wall *wall, const double state[])
{
  double sum = 0.0;
  for (size_t k = 0; k < wall->n_mode; k++)
    sum += wall->content[k] * state[k];
  return sum;
}

#endif
