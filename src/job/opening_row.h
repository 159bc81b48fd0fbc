/* Parts of reading a row of openings.csv, each in a file of its own. */
#ifndef JOB_OPENING_ROW_H
#define JOB_OPENING_ROW_H

#include <stddef.h>

#include "job/csv.h"
#include "job/notes.h"
#include "panewright/survey.h"

/* Whether width and height are known: a row without has not been measured yet. */
int job_opening_measured(const pw_opening *opening);

/* The column whose cell makes the measures none of the shape named, or of a rectangle; why says what is
 * wanted. NULL when they are right. */
const char *job_opening_shape_wrong(const pw_opening *opening, pw_err *why);

/* Letters of the lites into opening->config: X, O, and '/' between sashes. 0 when their count is not the
 * operator's. */
int job_opening_config(const char *text, const pw_csv *csv, size_t row, pw_opening *opening,
                       pw_notes *notes);

/* Joins openings of one unit as pw_mulled_join; a blank mullion_face is that of a meeting rail.
 * Status  PW_OK; PW_E_DATA a unit whose rows cannot be one opening, with its line */
pw_status job_openings_join(const char *file, pw_opening opening[], size_t n, pw_notes *notes,
                            pw_err *err);

/* Whether an official's word says who and on which day: "M. Reyes, building department, 2026-10-02". */
int job_official_word(const char *text);
extern const char *const job_official_word_wanted;

#endif
