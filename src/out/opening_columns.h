/* What an opening has beside its measures, as columns of a list: its facts (opening_facts.h), options, shape and
 * unit. A job that uses none of a kind has no column of it. */
#ifndef OUT_OPENING_COLUMNS_H
#define OUT_OPENING_COLUMNS_H

#include "out/opening_facts.h"
#include "out/option_out.h"
#include "out/shape_out.h"
#include "out/unit_out.h"

enum { PW_OPENING_COLUMNS = PW_FACTS + PW_OPTION_HEADERS + PW_SHAPE_COLUMNS + PW_UNIT_COLUMNS };

typedef struct pw_opening_columns {
  int options, shapes, units; /* used by any job */
} pw_opening_columns;

/* Takes a job, one dwelling of several, into what the list has. */
void pw_opening_columns_add(pw_opening_columns *columns, const pw_job *job);

/* Fills header[PW_OPENING_COLUMNS] and returns the count. */
size_t pw_opening_columns_headers(const pw_opening_columns *columns, const pw_job *job,
                                  const char *header[]);

/* The cells of one opening. */
void pw_opening_columns_cells(const pw_opening_columns *columns, const pw_job *job,
                              size_t opening, const pw_fit *fit, pw_grid *grid);

#endif
