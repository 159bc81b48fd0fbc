/* What an opening has beside its measures: whether it stays, its phase, its own package or glass, an
 * unconditioned room, its dwelling. Said only where a job uses them. */
#ifndef OUT_OPENING_FACTS_H
#define OUT_OPENING_FACTS_H

#include <jansson.h>
#include <stdio.h>

#include "out/clip.h"
#include "out/grid.h"
#include "out/tongue.h"
#include "panewright/survey.h"
#include "study/compare.h"

/* Further columns of a CSV: pw_facts_headers(job, header) fills up to PW_FACTS names and returns their
 * count, 0 for a job that uses none; pw_facts_cells then fills a row. */
enum { PW_FACTS = 6 };
size_t pw_facts_headers(const pw_job *job, const char *header[PW_FACTS]);
void pw_facts_cells(const pw_job *job, const pw_opening *opening, pw_grid *grid);

/* Members action, phase, own_package, own_glass, conditioned, dwelling: those that are not as usual. */
void pw_facts_json(const pw_job *job, const pw_opening *opening, json_t *object);

/* What to call the window of an opening in a set (below 0 the existing): the set's name; "stays"; an
 * opening's own package marked by '=', also where an earlier phase has set it. */
pw_clipped pw_window_name(const pw_compare *compare, int set, size_t opening, int columns);

/* Sentence k about the windows that stay, come later ...: 1; 0 where none does; -1 past the last. codes 0: without the build-ups of
 * glass, for a customer. */
enum { PW_FACTS_LINE = 1600 };
int pw_facts_line(const pw_job *job, size_t k, const pw_tongue *tongue, int codes,
                  char line[PW_FACTS_LINE]);

/* A line each for windows that stay, come later, are done, have a package or glass of their own, stand
 * outside the energy of the house; nothing where there are none. */
void pw_facts_text(const pw_job *job, FILE *f);

#endif
