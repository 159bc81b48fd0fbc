/* Several dwellings of one job: each told by itself, and their sum beside. */
#ifndef OUT_DWELLINGS_OUT_H
#define OUT_DWELLINGS_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/compare_out.h"
#include "study/together.h"

/* The line that stands above a dwelling's own pages. */
void pw_dwelling_head(const char *name, FILE *f);

/* The table of all of them: each dwelling, then together. PW_E_IO when writing fails. */
pw_status pw_dwellings_text(const pw_compare *const compare[], size_t n, FILE *f, pw_err *err);

/* job, dwellings: the comparison of each with its name, together: their sum. New reference; takes the
 * n references of each. */
json_t *pw_dwellings_json(const pw_compare *const compare[], json_t *const each[], size_t n);

#endif
