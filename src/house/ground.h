/* A slab on the ground. Internal; pw_house_ground is in panewright/zone.h. */
#ifndef HOUSE_GROUND_H
#define HOUSE_GROUND_H

#include "panewright/zone.h"

/* What lies below a bare slab of a square house as a resistance, m2 K/W: its U by ISO 13370:2007 9.1 (from
 * memory), with B' = A / (P/2) = side / 2 and d_t = w + soil (R_si + R_f + R_se), w 0.15 m, less what the
 * slab (r_f) and its inner film make up. */
double ground_soil_resistance(double side, double r_f);

#endif
