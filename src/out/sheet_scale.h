/* The picture of one opening to scale: the window there now and the first packages. */
#ifndef OUT_SHEET_SCALE_H
#define OUT_SHEET_SCALE_H

#include "out/plot.h"
#include "panewright/compare.h"

/* The opening that stands for the house: its glass kept is nearest to the house's. */
size_t sheet_typical_opening(const pw_compare *compare);

/* A plot to be freed; height is what fits a picture of that width (px). NULL: no memory. */
pw_plot *sheet_scale_plot(const pw_compare *compare, size_t opening, int width, int *height);

#endif
