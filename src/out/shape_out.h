/* Shapes of openings in text, CSV and JSON: the measures of what is ordered, and who wants a template.
 * A job of rectangles only prints none of it. */
#ifndef OUT_SHAPE_OUT_H
#define OUT_SHAPE_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/grid.h"
#include "out/tongue.h"
#include "panewright/fit.h"

enum { PW_SHAPE_COLUMNS = 7 };

/* Whether some opening of the job is no rectangle. */
int pw_job_has_shapes(const pw_job *job);

/* Further columns of a CSV, none where any is 0: shape, rise_in, leg_left_in, leg_right_in, peak_at_in,
 * radius_in, template. Fills header[PW_SHAPE_COLUMNS] and returns the count. */
size_t pw_shape_headers(int any, const char *header[]);

/* Their cells; a measure that the shape does not have is blank. */
void pw_shape_cells(int any, const pw_fit *fit, pw_grid *grid);

/* "half_round 47 1/2 wide, 23 5/8 high, rise 23 5/8, radius 24; template wanted" in that tongue (NULL: English); mm when
 * si. plain: "half round", for a paper; the lists keep the word of openings.csv. */
void pw_shape_words(const pw_tongue *tongue, const pw_fit *fit, int si, char text[],
                    size_t size);
void pw_shape_words_plain(const pw_tongue *tongue, const pw_fit *fit, int si, char text[],
                          size_t size);

/* A line a shape under a heading; nothing for a job of rectangles. */
void pw_shapes_text(const pw_job *job, const pw_fit fit[], int si, FILE *f);

/* name, measures of pocket and order in m, template_wanted (new reference). */
json_t *pw_shape_json(const pw_fit *fit);

#endif
