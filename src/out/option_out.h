/* What openings have over their package, in words, in the order list and as JSON. */
#ifndef OUT_OPTION_OUT_H
#define OUT_OPTION_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "out/grid.h"
#include "out/tongue.h"
#include "out/units.h"
#include "study/compare.h"
#include "window/options.h"

enum { PW_OPTION_HEADERS = 11 };

/* Whether an opening has more than its package; a screen alone is none. */
int pw_option_any(const pw_opening *opening);

/* Whether it has an insect screen, which its new window gets too. */
int pw_option_screened(const pw_opening *opening);

/* In words for a person, in that tongue (NULL: English), parted by ", ": "grilles between the panes 3 x 2 (bars 3/4 in), bronze tint, colour black".
 * The note to the maker is not among them. "" when there is nothing. */
void pw_option_words(const pw_tongue *tongue, const pw_opening *opening, int si, char text[],
                     size_t size);

/* Whether any opening of a job has, or has a screen. */
int pw_option_used(const pw_job *job);

/* Whether any opening of a job has glazing bars. */
int pw_option_has_bars(const pw_job *job);

/* Columns of a list of the openings: none, when none has anything (any 0). Fills header[PW_OPTION_HEADERS]; returns
 * the count. pw_option_cells puts the cells of one row. */
size_t pw_option_headers(int any, const char *header[]);
void pw_option_cells(int any, const pw_opening *opening, pw_grid *grid);

/* The glass as ordered, of that package as the opening gets it: its text, or, with tint or pattern, the build-up that
 * results. */
void pw_option_glass(const pw_options *option, const pw_package *package, char text[],
                     size_t size);

/* Whether one cannot see through the glass there now, but through the one ordered. */
int pw_option_opens_view(const pw_opening *opening, const pw_package *package);

/* All of it as an object, for the list of the openings (new reference). */
json_t *pw_option_json(const pw_opening *opening);

/* A heading and a line an opening, if any has one. maker: with the note to the maker. */
void pw_option_text(const pw_job *job, int si, int maker, FILE *f);

/* What is taken for patterns and colours; the bars of every opening and package: area, heat with its range. For
 * --explain of u and shgc; nothing where no opening has any. PW_OK or as the ratings. */
pw_status pw_option_explain(const pw_compare *compare, const pw_unit_set *units, FILE *f,
                            pw_err *err);

#endif
