/* The picture of one opening to scale: the window there now and the new one that keeps the least glass. */
#ifndef OUT_SHEET_SCALE_H
#define OUT_SHEET_SCALE_H

#include "out/plot.h"
#include "out/tongue.h"
#include "study/compare.h"

/* The opening that gets a new window and whose glass is coldest inside on the cold night now. */
size_t sheet_coldest_opening(const pw_compare *compare);

/* The package that keeps the least glass of an opening. */
size_t sheet_least_glass(const pw_compare *compare, size_t opening);

/* The one or two openings that keep the least of their glass, least first; returns how many, 0 where none is replaced. */
size_t sheet_most_changed(const pw_compare *compare, size_t most[2]);

/* Old window and new one of that package, a plot to be freed; height is what fits a picture of that width (px). NULL: no memory. */
pw_plot *sheet_scale_plot(const pw_compare *compare, size_t opening, const pw_tongue *tongue,
                          int width, int *height);

#endif
