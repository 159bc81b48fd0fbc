/* Cautions, reader's notes and findings on a terminal and in JSON; shared by fit, compare and the
 * papers. */
#ifndef OUT_CAUTION_OUT_H
#define OUT_CAUTION_OUT_H

#include <jansson.h>
#include <stdio.h>

#include "job/notes.h"
#include "window/caution.h"

/* The failed escape openings alone, framed, so that they cannot be overlooked: first why it matters, then
 * what would pass, then the figures; prints nothing when none fails. Goes first on every page.
 * fit[job->n_opening]. */
void pw_caution_banner(const pw_job *job, const pw_fit fit[], const pw_cautions *list, FILE *f);

/* What would pass and what would not, an array of objects. */
json_t *pw_remedies_json(const pw_opening *opening, const pw_fit *fit);

/* Left margin of a line about an opening: before, its tag in full (two openings must never read alike),
 * blanks up to that many columns of tag, and one more. */
void pw_tag_lead(char lead[], size_t size, const char *before, const char *tag, int columns);

/* All cautions, gravest first, by opening, with source and closing line; at most 100 columns. all: 0
 * leaves out the mere reminders. */
void pw_caution_text(const pw_job *job, const pw_cautions *list, int all, FILE *f);

/* An array: id, topic, rank, state, opening (tag or null), finding, source, how_known, decides. */
json_t *pw_caution_json(const pw_job *job, const pw_cautions *list);

/* Columns and items that no reader knows, if any: what stands first in every text. */
void pw_notes_head(const pw_notes *notes, FILE *f);

/* Every default used and every warning of the readers. */
void pw_notes_text(const pw_notes *notes, FILE *f);
json_t *pw_notes_json(const pw_notes *notes);

#endif
