/* What a fit says of an opening, ready to read: sizes and gains in the reader's units, and a verdict of one sentence. */
#ifndef OUT_OPENING_SAID_H
#define OUT_OPENING_SAID_H

#include <jansson.h>

#include "out/fit_out.h"
#include "out/length.h"

/* An object (new reference) of texts in the reader's units and tongue:
 *   state      fits; measure_again (readings that cannot all be true); escape_fails; not_yet (a question is open)
 *   verdict    one sentence for the state
 *   order, pocket, glass, glass_kept, sill (null unknown)
 *   fins, lip  what cutting buys (null where there is nothing to cut)
 *   findings, why   as in the opening's own keys, in that tongue */
json_t *pw_opening_said_json(const pw_fit_report *r, size_t opening, pw_reading as);

#endif
