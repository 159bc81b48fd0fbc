/* Where the readings of an opening are taken: an elevation, a cut through a side and one through the sill. Drawn by rule,
 * not to scale; nothing in it depends on colour. */
#ifndef OUT_MEASURE_DRAWING_H
#define OUT_MEASURE_DRAWING_H

#include "out/html.h"

/* One <svg> element. Letters are those of the boxes beside it (measure_form.h). */
void pw_measure_drawing(pw_html *h);

#endif
