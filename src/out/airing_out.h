/* Opened windows: what stands open, what it carries out, hours too warm; before and after. */
#ifndef OUT_AIRING_OUT_H
#define OUT_AIRING_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/units.h"
#include "study/compare_airing.h"

/* Nothing where the house's windows stay shut; span may be NULL. PW_E_IO when writing fails. */
pw_status pw_airing_text(const pw_compare *compare, const pw_compare_airing *span,
                         const pw_unit_set *units, FILE *f, pw_err *err);

/* The chain from each opening's lites to the flow, and the table's rows. PW_E_DATA where the windows stay shut. */
pw_status pw_airing_explain(const pw_compare *compare, const pw_unit_set *units, FILE *f,
                            pw_err *err);

/* The rule with what people who open little and much have (span may be NULL), and what goes into the object of one set. */
json_t *pw_airing_json(const pw_compare *compare, const pw_compare_airing *span);
void pw_airing_set_json(pw_compare_set set, json_t *object);

#endif
