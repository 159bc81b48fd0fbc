/* Drapes and blinds: what they leave of the sun on each side of the house, now and with each package. */
#ifndef OUT_COVERING_OUT_H
#define OUT_COVERING_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "study/compare.h"

/* Nothing where the job tells of none. PW_E_IO when writing fails. */
pw_status pw_covering_text(const pw_compare *compare, FILE *f, pw_err *err);

/* The formula, each opening's and the table's rows. PW_E_DATA where the job tells of none. */
pw_status pw_covering_explain(const pw_compare *compare, FILE *f, pw_err *err);

/* An array by side. */
json_t *pw_covering_json(const pw_compare *compare);

#endif
