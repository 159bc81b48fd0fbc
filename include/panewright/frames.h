/* Frame sections in place of catalogue values: each section that a frame line or an existing frame
 * names is solved with the glass that stands in it. */
#ifndef PANEWRIGHT_FRAMES_H
#define PANEWRIGHT_FRAMES_H

#include "panewright/fit.h"
#include "panewright/rating.h"
#include "panewright/section.h"

/* A section under the name by which the job calls it. Its gaps are set by the solver here. */
typedef struct pw_named_section {
  char name[PW_TEXT_MAX];
  pw_section section; /* owned by whoever filled it */
} pw_named_section;

/* What one section gave with one glass. */
typedef struct pw_frame_solved {
  size_t section;
  double gap[PW_PANES_MAX - 1]; /* W/(m2 K), conductances it was solved with */
  double u_frame, u_edge;       /* W/(m2 K), band figures */
  double l2d, low, high;        /* W/(m K) and its bracket */
  double b_frame;               /* m */
  double coldest;               /* K, indoor surface, winter rating conditions */
} pw_frame_solved;

enum { PW_FRAMES_SOLVED_MAX = 256 };

typedef struct pw_frame_book {
  pw_named_section *section; /* borrowed */
  size_t n_section;
  double tolerance; /* bracket over the value; 0 means 0.01 */
  size_t n_solved;
  pw_frame_solved *solved; /* owned, PW_FRAMES_SOLVED_MAX; pw_frame_book_free */
} pw_frame_book;

/* Values for the existing window of an opening, or for an insert: zero where nothing is named.
 *
 * Given     book (zeroed but for section, n_section, tolerance); opening or line; glazing in it
 * Returned  *values
 * Status    PW_OK; PW_E_MISSING a section not in the book; as pw_section_solve, with its name
 * Notes     1) Rating films (winter, 21 / -18 C); the gap's conductance from the unit's own balance
 *              there. A section seen before with the same gaps is not solved again.
 *           2) The existing section stands for sill, head and jamb alike.
 * Source    ISO 15099 / NFRC 100 band figures (reference/section/METHODS.md 1, 2).
 */
pw_status pw_frames_existing(pw_frame_book *book, const pw_opening *opening,
                             const pw_glazing *glazing, pw_frame_values *values, pw_err *err);
pw_status pw_frames_insert(pw_frame_book *book, const pw_frame_line *line,
                           const pw_glazing *glazing, pw_frame_values *values, pw_err *err);

/* Accepts NULL, a zeroed struct and a second call. */
void pw_frame_book_free(pw_frame_book *book);

#endif
