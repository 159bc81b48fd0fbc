/* What every paper says of drawn frame sections and of where sweating is judged. */
#ifndef OUT_SECTION_SAID_H
#define OUT_SECTION_SAID_H

#include <jansson.h>
#include <stdio.h>

#include "study/compare.h"

/* The k-th line, NULL past the last: where the coldest point comes from, then the remarks of the
 * solver (frames.h). `line` is the caller's. */
const char *pw_section_said(const pw_compare *compare, size_t k, char line[PW_TEXT_MAX]);

/* As a block of text, and as an array of strings (new reference). */
void pw_section_said_text(const pw_compare *compare, FILE *f);
json_t *pw_section_said_json(const pw_compare *compare);

#endif
