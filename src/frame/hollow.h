/* Air hollows of a frame: the conductivity of the solid that lets through as much heat. */
#ifndef FRAME_HOLLOW_H
#define FRAME_HOLLOW_H

#include "panewright/status.h"

/* ISO 10077-2 is the default. ISO 15099 here takes its convection from the published correlations
 * it rests on (see hollow.c); its wording of clause 6.6 is known from memory only. */
typedef enum pw_hollow_method { PW_HOLLOW_ISO10077 = 0, PW_HOLLOW_ISO15099 } pw_hollow_method;

typedef struct pw_hollow {
  double depth;   /* m, d: along the heat flow */
  double breadth; /* m, b: across it, in the plane of the section */
  double dt;      /* K, largest difference of wall temperature across it, >= 0 */
  double t_mean;  /* K */
  double emit[2]; /* of the two walls that the flow meets */
  int tall;       /* 1: gravity is out of the plane (jamb); used by ISO 15099 only */
} pw_hollow;

/* Conductivity of the solid that stands for an unventilated rectangular hollow.
 *
 *   k = d (h_a + h_r)
 *
 * Given     hollow, method
 * Returned  *conductivity W/(m K)
 * Status    PW_OK; PW_E_DOMAIN a size, temperature or emissivity out of range
 * Notes     1) A slightly ventilated hollow counts twice this (ISO 10077-2, open slit 2 to 10 mm).
 *           2) With dt 10 K and t_mean 283 K this is the fixed form of ISO 10077-2:2012.
 * Source    ISO 10077-2:2012 clause 6 (reference/section/METHODS.md 3, 4).
 */
pw_status pw_hollow_conductivity(const pw_hollow *hollow, pw_hollow_method method,
                                 double *conductivity, pw_err *err);

#endif
