/* Mulled units (openings that are one opening in the wall) in text, CSV and JSON. A job without units prints
 * none of it. */
#ifndef OUT_UNIT_OUT_H
#define OUT_UNIT_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/grid.h"
#include "out/tongue.h"
#include "out/units.h"
#include "study/compare_unit.h"

enum { PW_UNIT_COLUMNS = 3 };

/* Whether some opening of the job is part of a unit. */
int pw_job_has_units(const pw_job *job);

/* Further columns of a CSV, none where any is 0: unit, unit_joint, mullion_face_in. */
size_t pw_unit_headers(int any, const char *header[]);
void pw_unit_cells(int any, const pw_job *job, size_t opening, pw_grid *grid);

/* "mulled unit A: with W1, W2; over them, mullion 1 1/2 in" in that tongue (NULL: English), mm when si; "" for none. */
void pw_unit_words(const pw_tongue *tongue, const pw_job *job, size_t opening, int si,
                   char text[], size_t size);

/* Adds unit, unit_joint, mullion_face_m, mullion_area_m2 to an opening of a unit. */
void pw_unit_json_add(const pw_job *job, size_t opening, json_t *object);

/* Every unit as one window, existing and each package; NULL when there is none (new reference). */
json_t *pw_units_json(const pw_compare *compare);
pw_status pw_units_text(const pw_compare *compare, const pw_unit_set *units, FILE *f,
                        pw_err *err);

#endif
