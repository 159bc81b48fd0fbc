/* Overhangs, side fins and reveals over a window: what they leave of beam, sky and ground; insect
 * screens. */
#ifndef CLIMATE_SHADE_H
#define CLIMATE_SHADE_H

#include "climate/sky.h"

/* What stands around a window in a vertical wall. Zero means nothing there. Lengths in m; left and
 * right as seen from inside, looking out.
 *
 *   overhang   a horizontal plate above the head: depth out of the wall's face, gap from the head
 *              up to it, how far it runs past the window's left and right edge (INFINITY: endless)
 *   fin        a vertical plate at each side: depth out of the wall's face, gap to the window's
 *              edge; from far below to far above
 *   reveal     the glass sits this deep behind the wall's face: its head, sill and sides shade
 */
typedef struct pw_shade {
  double width, height; /* of the window */
  double overhang_depth, overhang_gap, overhang_run[2];
  double fin_depth[2], fin_gap[2];
  double reveal;
} pw_shade;

/* Shares left of the parts that have no direction of their own, once a window. */
typedef struct pw_shade_factor {
  double dome;    /* even sky */
  double horizon; /* band at the horizon: only fins and reveals take from it */
  double ground;
} pw_shade_factor;

/* Shares left of dome, horizon band and ground, relative to the open wall.
 *
 * Status    PW_OK; PW_E_DOMAIN a size negative or not finite, width or height not above 0, a depth
 *           above 20 m
 * Notes     1) An endless overhang alone in closed form (METHODS.md section 7), else the sunlit
 *              share summed over the vault (error below 0.001 beside the closed form).
 *           2) The plates are black, and the ground in front is not taken to be shaded.
 */
pw_status pw_shade_factors(const pw_shade *shade, pw_shade_factor *out, pw_err *err);

/* Sunlit share of the window, 0..1, for the sun at an altitude and at gamma to the right of the
 * facade's normal (sun azimuth less facade azimuth); 0 when the sun is behind the wall. Exact for
 * these plates. Source: plane geometry; METHODS.md section 7 for an endless overhang. */
double pw_shade_sunlit(const pw_shade *shade, double altitude_deg, double gamma_deg);

/* Sunlit share of each hour with light (1 where the sun is behind: there is no beam then). */
pw_status pw_shade_year(const pw_shade *shade, const pw_facade *facade, const pw_sun_year *sun,
                        float sunlit[PW_HOURS], pw_err *err);

/* 1 when nothing is there. */
int pw_shade_none(const pw_shade *shade);

/* Share of sun that an insect screen passes.
 *
 * Given     openness   open area seen head on, 0..1; 0 means 0.66, the 18 x 16 mesh of 0.28 mm wire
 *           reflectance of the wire, 0..1; half of what it scatters goes forward
 *           cos_incidence; 0.5 (60 degrees) stands for diffuse light
 * Notes     A square weave of round wire, r wire over pitch: open (1 - r)(1 - r / cos), 0 when the
 *           wires close up.
 * Source    Own geometry; no published table of screens is at hand.
 */
double pw_screen_factor(double openness, double reflectance, double cos_incidence);

#endif
