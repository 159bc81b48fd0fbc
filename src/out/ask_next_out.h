/* What to ask next, in text and JSON; the sheet has its own list of the same. */
#ifndef OUT_ASK_NEXT_OUT_H
#define OUT_ASK_NEXT_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "study/ask_next.h"

/* A table for a package; nothing where the job already says all that could be asked. */
pw_status pw_ask_next_text(const pw_compare *compare, const pw_range *range, size_t package,
                           FILE *f, pw_err *err);

/* [{question, where, input, narrows}], narrows a share of the range's width. */
json_t *pw_ask_next_json(const pw_range *range, size_t package);

#endif
