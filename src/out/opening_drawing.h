/* An opening drawn from outside, for pages: old and new window over each other, what can come off, where the tape lies. */
#ifndef OUT_OPENING_DRAWING_H
#define OUT_OPENING_DRAWING_H

#include <jansson.h>

#include "panewright/fit.h"

/* An object (new reference), m, the opening's lower left corner at 0, 0 and y upward:
 *   width_m, height_m, sill_m (its bottom above the floor; null unknown)
 *   old, order         outer outline of the window there now and of the unit, [[x, y], ...]
 *   old_lites, lites   daylight of each: outline, moving
 *   fins, lip          what can come off: outline, cut (taken off by the job)
 *   tapes              where a reading lies: reading (the column), from, to */
json_t *pw_opening_drawing_json(const pw_opening *opening, const pw_fit *fit);

#endif
