/* Rows of reference/house_presets.csv. */
#ifndef HOUSE_PRESET_H
#define HOUSE_PRESET_H

#include "gen/reference.h"
#include "house/wall.h"

typedef struct pw_preset {
  const char *name, *source, *how_known; /* static */
  pw_wall_layers layers;
  double absorptance;
  double value; /* of a row without layers; NAN otherwise */
} pw_preset;

/* The row of a part (pw_ref_house_presets__part_wall, ...) by name, or, with name "", the one of the year built (0: 1972, assumed).
 * Status PW_OK; PW_E_DATA an unknown name (the nearest or all are offered). */
pw_status pw_preset_find(unsigned part, const char *name, int year, pw_preset *preset,
                         pw_err *err);

#endif
