/* The materials of a job as rows: what, which size, how much, what is bought, by which rule and source. The paper and
 * materials.csv are the same rows. */
#ifndef OUT_MATERIALS_ROWS_H
#define OUT_MATERIALS_ROWS_H

#include <stddef.h>

#include "out/tongue.h"
#include "window/materials.h"

enum { PW_MATERIAL_ROWS = 128 };

typedef struct pw_material_row {
  const char *item; /* English, PW_TEXT; said by pw_tongue_say */
  char size[96];    /* in the tongue */
  double quantity;
  int decimals;
  const char *unit; /* "ft", "m", ... or a word, PW_TEXT */
  char buy[96];     /* in the tongue; begins with the number; "" nothing to buy by this row */
  int load;         /* 1: goes into the van */
  char rule[400];   /* in the tongue */
  const char *source, *how_known; /* of the row of reference/trade */
} pw_material_row;

/* Fills row[PW_MATERIAL_ROWS], returns the count. sealant: the job's word ("" none). */
size_t pw_materials_rows(const pw_materials_job *sum, const char *sealant, int si,
                         const pw_tongue *tongue, pw_material_row row[]);

#endif
