/* The energy code beside each package: limits in force, each opening's label, what cannot be installed. */
#ifndef OUT_CODE_OUT_H
#define OUT_CODE_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/tongue.h"
#include "out/units.h"
#include "study/code_check.h"

/* Limits as a label must say them: "U <= 0.30, SHGC <= 0.40"; "no limit" when there is none. */
void pw_code_limits_text(const pw_code_limits *limits, const pw_unit_set *units,
                         char text[120]);

/* What a package's labels come to, one plain line without its name, in the tongue (NULL: English). */
void pw_code_package_text(const pw_code_package *check, const pw_unit_set *units,
                          const pw_tongue *tongue, char text[320]);

/* The table and what has to be said of it, before any price. */
pw_status pw_code_text(const pw_compare *compare, const pw_unit_set *units, FILE *f,
                       pw_err *err);

/* Of the job, with each package; and of one opening under a package (new references). */
json_t *pw_code_json(const pw_compare *compare);
json_t *pw_code_opening_json(const pw_compare *compare, size_t package, size_t opening);

#endif
