/* Ducts by season: what they deliver of heat and cold, where the job says where they lie. */
#ifndef OUT_DUCT_OUT_H
#define OUT_DUCT_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/units.h"
#include "study/compare.h"

/* One line; nothing where the job does not say. */
void pw_duct_text(const pw_compare *compare, FILE *f);

/* The formula with its numbers, and the table's rows. PW_E_DATA where the job does not say. */
pw_status pw_duct_explain(const pw_compare *compare, const pw_unit_set *units, FILE *f,
                          pw_err *err);

json_t *pw_duct_json(const pw_compare *compare);

#endif
