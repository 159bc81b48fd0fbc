/* What tighter windows save, apart from the glass: a table with what follows from it, and the same as JSON. */
#ifndef OUT_TIGHT_OUT_H
#define OUT_TIGHT_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/units.h"
#include "study/compare_tight.h"

/* Nothing where the job gives nothing of it. PW_E_IO when writing fails. */
pw_status pw_tight_text(const pw_compare *compare, const pw_compare_tight *tight,
                        const pw_unit_set *units, FILE *f, pw_err *err);

/* The chain from each opening's sashes to the saving. PW_E_DATA where the job says nothing of it. */
pw_status pw_tight_explain(const pw_compare *compare, const pw_compare_tight *tight, FILE *f,
                           pw_err *err);

/* An object: house, sashes by opening, packages, cautions. */
json_t *pw_tight_json(const pw_compare *compare, const pw_compare_tight *tight);

/* "AIM-2", "Sherman and Grimsrud 1980". */
const char *pw_tight_model(const pw_compare_tight *tight);

#endif
