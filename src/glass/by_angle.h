/* What glass does between the ten angles that a glazing is known at (0, 10 .. 90 degrees), and to light from all along the
 * horizon. */
#ifndef GLASS_BY_ANGLE_H
#define GLASS_BY_ANGLE_H

#include "panewright/glazing.h"

enum { PW_COSINES = 64 };

/* Which of the ten lies at or below an angle of so many steps of 10 degrees, and how far it is on to the next: *part, 0 to
 * 1. Shares are linear between them. */
static inline int pw_angle_below(double steps, double *part)
{
  int k = steps < 8.999 ? (int)steps : 8;
  *part = steps - k;
  return k;
}

/* A share there. */
static inline double pw_angle_share(const double share[PW_ANGLES], int k, double part)
{
  return share[k] + part * (share[k + 1] - share[k]);
}

/* Shares laid out over the cosine of incidence stand at i / PW_COSINES, one more for what looks past the end; between these
 * they are linear in the cosine. Which angle i is. */
int pw_cosine_below(int i, double *part);

/* Light from all along the horizon meets a wall at its azimuth from the normal: how much of it comes at each of the ten
 * angles, and all of it (trapezoid, by the cosine; the half of 90 degrees is 0); the mean of a share by them. */
extern const double pw_band_weight[10], pw_band_weights;
double pw_band_mean(const double share[PW_ANGLES]);

#endif
