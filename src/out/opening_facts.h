/* What an opening has beside its measures: whether it stays, its phase, its own package or glass, an
 * unconditioned room, its dwelling. Said only where a job uses them. */
#ifndef OUT_OPENING_FACTS_H
#define OUT_OPENING_FACTS_H

#include <jansson.h>
#include <stdio.h>

#include "out/grid.h"
#include "panewright/survey.h"

/* Whether any opening of the job has one of them. */
int pw_facts_used(const pw_job *job);

/* Further columns of a CSV: pw_facts_headers(job, header) fills up to PW_FACTS names and returns their
 * count, 0 for a job that uses none; pw_facts_cells then fills a row. */
enum { PW_FACTS = 6 };
size_t pw_facts_headers(const pw_job *job, const char *header[PW_FACTS]);
void pw_facts_cells(const pw_job *job, const pw_opening *opening, pw_grid *grid);

/* Members action, phase, own_package, own_glass, conditioned, dwelling: those that are not as usual. */
void pw_facts_json(const pw_job *job, const pw_opening *opening, json_t *object);

/* A line each for windows that stay, come later, are done, have a package or glass of their own, stand
 * outside the energy of the house; nothing where there are none. */
void pw_facts_text(const pw_job *job, FILE *f);

#endif
