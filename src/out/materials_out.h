/* The materials of a job: the paper and materials.csv. */
#ifndef OUT_MATERIALS_OUT_H
#define OUT_MATERIALS_OUT_H

#include <stdio.h>

#include "out/paper.h"
#include "window/materials.h"
#include "window/order_check.h"

typedef struct pw_materials_paper {
  pw_paper paper;
  size_t column; /* the package, a row of packages.csv */
  const pw_fit *fit;
  const pw_order_check *check; /* [job->n_opening] */
  const pw_materials_job *sum;
} pw_materials_paper;

/* Writes the whole document. Status PW_OK; PW_E_IO the stream failed. */
pw_status pw_materials_html(const pw_materials_paper *paper, pw_html *h, pw_err *err);

/* item, size, quantity, unit, buy, rule, source; English, in the paper's units. Status PW_OK; PW_E_IO, PW_E_NOMEM. */
pw_status pw_materials_csv(const pw_materials_paper *paper, FILE *f, pw_err *err);

/* "left", "right", "sill", "head" of a side of lites.h (PW_TEXT). */
const char *pw_side_of_opening(int side);

#endif
