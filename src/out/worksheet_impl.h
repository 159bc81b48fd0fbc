/* What the blocks of the worksheet share. */
#ifndef OUT_WORKSHEET_IMPL_H
#define OUT_WORKSHEET_IMPL_H

#include "out/worksheet.h"

/* Appends a field with a value of text; "" leaves it blank. */
#if defined(__GNUC__)
__attribute__((format(printf, 7, 8)))
#endif
void
worksheet_add(pw_worksheet *w, const char *block, const char *mark, const char *name,
              pw_field_origin origin, const char *note, const char *value, ...);

/* Appends a computed figure with its place in the JSON of the comparison. */
#if defined(__GNUC__)
__attribute__((format(printf, 7, 8)))
#endif
void
worksheet_figure(pw_worksheet *w, const char *block, const char *mark, const char *name,
                 pw_figure kind, double value, const char *key, ...);

/* The blocks, in the order of the form. */
void worksheet_people(const pw_worksheet_input *input, pw_worksheet *w);  /* who and where */
void worksheet_windows(const pw_worksheet_input *input, pw_worksheet *w); /* old, new, sizes */
void worksheet_claim(const pw_worksheet_input *input, pw_worksheet *w);   /* criteria, money */
void worksheet_papers(const pw_worksheet_input *input,
                      pw_worksheet *w); /* dates to signatures */

#endif
