/* Frame sections in place of catalogue values: each section that a frame line or an existing frame
 * names is solved with the glass, the spacer and the filling of the window it stands for. */
#ifndef STUDY_FRAMES_H
#define STUDY_FRAMES_H

#include "frame/section.h"
#include "panewright/fit.h"
#include "panewright/message.h"
#include "panewright/rating.h"

/* A section under the name by which the job calls it. */
typedef struct pw_named_section {
  char name[PW_TEXT_MAX];
  pw_section section; /* owned by whoever filled it */
} pw_named_section;

/* What a section is solved with. */
typedef struct pw_frame_given {
  double gap[PW_PANES_MAX - 1]; /* W/(m2 K), conductances; 0 no such gap */
  int spacer;                   /* pw_spacer; -1 where the drawing fixes it */
  int air;                      /* 1 air as filling, 0 foam; -1 where the drawing fixes it */
} pw_frame_given;

/* What one section gave. */
typedef struct pw_frame_solved {
  size_t section;
  pw_frame_given given;
  double u_frame, u_edge, u_glass; /* W/(m2 K), band figures and centre of glass */
  double l2d, low, high;           /* W/(m K) and its bracket */
  double b_frame;                  /* m, drawn frame width */
  double f_rsi;                    /* -, coldest indoor point, winter rating conditions */
  unsigned notes;                  /* pw_section_note */
} pw_frame_solved;

enum { PW_FRAMES_SOLVED_MAX = 1024, PW_FRAME_REMARKS_MAX = 24 };

typedef struct pw_frame_book {
  const pw_named_section *section; /* borrowed, never written to */
  size_t n_section;
  double tolerance;             /* bracket over the value; 0 means 0.01 */
  pw_section_mismatch mismatch; /* where the gaps of glass and drawing differ */
  size_t n_solved;
  pw_frame_solved *solved; /* owned; pw_frame_book_free */
  size_t n_remark;
  pw_message remark[PW_FRAME_REMARKS_MAX]; /* what every paper must say, once each */
} pw_frame_book;

/* Values for the existing window of an opening, or for the insert of a package in it: zero where no
 * section is named.
 *
 * Given     book (zeroed but for section, n_section, tolerance, mismatch); opening, its fit (NULL: no
 *           comparison with the widths of the job), line, package; glazing of the window
 * Returned  *values; remarks in the book
 * Status    PW_OK; PW_E_MISSING a section not in the book; PW_E_DATA the drawing has another number
 *           of gaps than the glass and the book refuses that; as pw_section_solve, with its name
 * Notes     1) Rating films (winter, 21 / -18 C); the gap's conductance from the unit's own balance
 *              there. Each solve works on a copy, so that no order of calls matters; a section seen
 *              before with the same glass, spacer and filling is not solved again.
 *           2) The existing section stands for sill, head and jamb alike.
 *           3) Where the drawn frame is over 3 mm wider or narrower than the job's face (and ring, when
 *              the section holds it), the heat of the whole opening is kept, not the U:
 *                U' b' = U b + U_glass (b' - b)
 *              Measured on own sections redrawn 10 mm narrower and wider: within 2 % of the frame's
 *              heat, where U kept per area is off by 6 to 8 % and heat kept per metre by 5 to 22 %.
 * Source    ISO 15099 / NFRC 100 band figures (reference/section/METHODS.md 1, 2).
 */
pw_status pw_frames_existing(pw_frame_book *book, const pw_opening *opening, const pw_fit *fit,
                             const pw_glazing *glazing, pw_frame_values *values, pw_err *err);
pw_status pw_frames_insert(pw_frame_book *book, const pw_frame_line *line,
                           const pw_package *package, const pw_fit *fit,
                           const pw_glazing *glazing, pw_frame_values *values, pw_err *err);

/* 1 when no drawn section of the line leaves that to the package; 0 also for a line without any. */
int pw_frames_fix(const pw_frame_book *book, const pw_frame_line *line, pw_stands stands);

/* 1 when the line's sill, head and jamb are drawn with the retained ring. */
int pw_frames_hold_ring(const pw_frame_line *line);

/* Accepts NULL, a zeroed struct and a second call. */
void pw_frame_book_free(pw_frame_book *book);

#endif
