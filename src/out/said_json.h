/* Figures of a comparison's JSON as the papers round and write them, in the reader's units, for a page that may not compute. */
#ifndef OUT_SAID_JSON_H
#define OUT_SAID_JSON_H

#include <jansson.h>

#include "out/tongue.h"
#include "out/units.h"
#include "study/compare.h"
#include "study/range.h"

/* An object (new reference) of the same shape as root where it holds figures that have a kind on the papers (figure.h), each
 * a text: house.packages[0].u_w_m2k: "0.42"; and besides
 *   units   words of u, area, temperature
 *   claims  what each package saves, one sentence each, as it may be said, in the tongue
 *   code    limits; packages: what each one's labels come to, one line each, in the tongue (none where no code is known) */
json_t *pw_said_json(const json_t *root, const pw_compare *compare, const pw_range *range,
                     const pw_unit_set *units, const pw_tongue *tongue);

#endif
