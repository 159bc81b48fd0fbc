/* One opening as measured, the insert that goes into it, and what is seen through either.
 *
 * The opening rectangle. Both windows are always rated over the same rectangle: the pocket after
 * everything that can come off has come off (both interior side fins, the sill lip), whether this
 * job cuts it or not, widened on every side by retained_face (usually 0). Fins or a lip that cannot
 * come off bound it. Its parts are
 *   existing window  its lites (daylight) and, around them, all of its metal: fins, lip, frame, sash
 *   insert           its lites and its own frame, inside its ordered size
 *   retained ring    the rectangle less the ordered size: clearance, fins or lip left, retained_face
 * so that existing_glass + existing_frame = insert_glass + insert_frame + retained = opening_area.
 * A mullion beside an opening of a mulled unit is part of its area and frame, before and after. An opening
 * that is no rectangle has the same parts by its outline (shape.h).
 * A retained_face is old aluminium that stays on every side beyond the pocket; what it lets through has a
 * table of its own (pw_catalogue_retained), bare before and as covered (retained_cover) after.
 * Existing sight lines (frame_face, sash_face) count from the bare pocket's edge.
 */
#ifndef PANEWRIGHT_FIT_H
#define PANEWRIGHT_FIT_H

#include <stddef.h>

#include "panewright/lites.h"
#include "panewright/message.h"
#include "panewright/shape.h"
#include "panewright/status.h"
#include "panewright/survey.h"

enum { PW_FINDINGS_MAX = 16, PW_CHOICES_MAX = 4 };

/* What can be seen wrong or doubtful in the readings, worst last in this list; from
 * PW_FINDING_REMEASURE on nothing is ordered before it is settled. */
typedef enum pw_finding_kind {
  PW_FINDING_NO_DIAGONAL = 0, /* squareness unknown */
  PW_FINDING_ONE_READING,     /* fewer than three readings of a side */
  PW_FINDING_ADJUST,          /* diagonals differ by 1/8 to 1/4 in */
  PW_FINDING_SPREAD,          /* three readings differ by more than 1/8 in */
  PW_FINDING_SHAPE,      /* a slider far higher than wide, a hung window far wider than high */
  PW_FINDING_FOOT,       /* a neighbour's size but for 1 ft, which windows are built in */
  PW_FINDING_TEN,        /* a neighbour's size but for 10 in, though the diagonals confirm it */
  PW_FINDING_REMEASURE,  /* diagonals differ by more than 1/4 in */
  PW_FINDING_UNSQUARE,   /* readings that are not square, and no diagonals */
  PW_FINDING_APART,      /* three readings differ by more than 1/2 in */
  PW_FINDING_FIN,        /* a fin or lip of more than 1 1/4 in */
  PW_FINDING_SILL,       /* a sill under 4 in, and no door */
  PW_FINDING_SLIP,       /* a neighbour's size but for 1 in or 10 in */
  PW_FINDING_TRANSPOSED, /* a reading that fits with two digits exchanged */
  PW_FINDING_SWAPPED,    /* width and height exchanged */
  PW_FINDING_DIAGONAL,   /* a diagonal that no such rectangle has */
  PW_FINDING_NO_SUCH,    /* measures that the named shape does not have */
  PW_FINDING_STOP        /* diagonals differ by more than 1/2 in: structure, other method */
} pw_finding_kind;

typedef struct pw_finding {
  pw_finding_kind kind;
  pw_message says; /* one plain line */
} pw_finding;

typedef enum pw_square {
  PW_SQUARE_NOT_ASKED = -1, /* a shape without corners to measure across */
  PW_SQUARE_UNKNOWN = 0,    /* no diagonals */
  PW_SQUARE_OK,             /* to 1/8 in */
  PW_SQUARE_ADJUST,         /* to 1/4 in */
  PW_SQUARE_REMEASURE,      /* above */
  PW_SQUARE_STOP            /* above 1/2 in */
} pw_square;

/* Clear opening when the window is open, for escape. */
typedef struct pw_clear {
  double width, height, area; /* m, m, m2; 0 where nothing opens wide enough to count */
  double bottom;              /* m above the floor; below 0 unknown */
} pw_clear;

/* One way to cut: what would be ordered and seen. */
typedef struct pw_cut_choice {
  int fins_cut, lip_cut;
  double pocket_width, pocket_height; /* m */
  double order_width, order_height;   /* m; 0 when no window fits this way */
  double glass_area;                  /* m2 */
  double glass_kept;                  /* share of the existing */
} pw_cut_choice;

typedef struct pw_fit {
  double width_min, height_min;         /* m, smallest readings, fins and lip on */
  double pocket_width, pocket_height;   /* m, after what this job cuts */
  double bare_width, bare_height;       /* m, after everything that can come off */
  double opening_width, opening_height; /* m, the opening rectangle (see top) */
  double opening_area;                  /* m2 */
  double opening_perimeter;             /* m */
  double order_area;                    /* m2 */
  double
      mullion_area; /* m2, of opening_area: between this and its neighbour of one unit, mulled.h */
  pw_shape_size shape,
      order_shape;             /* as measured (fins and lip on) and as ordered; a rectangle has
                                       only its kind, 0. Widths and heights beside are extents */
  double gap;                  /* m, of a shape: the least joint between order and pocket */
  double grown_fin, grown_lip; /* m, of a shape: the bare pocket beyond what was measured */
  double bare_area, bare_side[4]; /* m2, m, of a shape: the bare pocket, its outline by side */
  double diagonal_difference;     /* m, absolute; 0 when unknown */
  double lean;                    /* m, sideways over the height; 0 when unknown */
  pw_square square;
  double clearance;                 /* m in all */
  int lean_governs;                 /* 1: the lean, not the clearance, set the width */
  double order_width, order_height; /* m, to 1/8 in down */
  pw_lites existing, insert;        /* existing: over the bare pocket */
  double existing_frame_area;       /* m2, opening_area less existing glass */
  double retained_area;             /* m2, opening_area less order size */
  double retained_width[4];         /* m, ring a side: left, right, bottom, top */
  double retained_face;             /* m, of it: old face beyond the pocket, on every side */
  pw_cover retained_cover;          /* what covers that face indoors */
  pw_grille grille;                 /* bars of the insert; glass areas here are without them */
  double absorptance;               /* of its frame by its colour; 0 the frame line's */
  double glass_kept;                /* insert over existing glass area */
  size_t n_choice;
  pw_cut_choice choice[PW_CHOICES_MAX]; /* from nothing cut to all cut, as far as there is
                                               something to cut */
  double fins_width_gain,
      fins_glass_gain; /* m, m2: both fins cut against left, lip as in the job */
  double lip_height_gain, lip_glass_gain; /* m, m2: lip cut against left, fins as in the job */
  pw_clear clear_existing, clear_insert;
  size_t n_finding;
  pw_finding finding[PW_FINDINGS_MAX];
} pw_fit;

/* Fits an insert into an opening.
 *
 *   pocket  Wp = smallest width + fins_cut * fin_width,  Hp = smallest height + lip if cut
 *   lean    s = |D1^2 - D2^2| / (4 W_middle)
 *   order   W = floor8(min(Wp - c, Wp - s - 1/8 in)),  H = floor8(Hp - c),  c = clearance in all
 *
 * Given     opening, line (frame line of the insert for its operator; see frame_line.h)
 * Returned  *fit
 * Status    PW_OK; PW_E_DOMAIN a size out of 4 in to 20 ft (a pane's pocket), fins wider than the
 *           opening, no glass left (err->field names the column). On failure *fit is untouched.
 * Notes     1) Square within 1/8 in, adjust to 1/4, remeasure above, stop above 1/2.
 *           2) A pocket without diagonals is fitted with lean 0 and said to be unknown.
 *           3) Clear openings: the existing window takes the low, the insert the high end of the
 *              usual allowances, so that a pass is a pass and no loss is hidden.
 * Source    reference/trade/measure.md items 2 to 7, measure.csv M1..M12, F1..F8; allowances of
 *           reference/trade/SAFETY.md (from memory).
 */
pw_status pw_fit_opening(const pw_opening *opening, const pw_frame_line *line, pw_fit *fit,
                         pw_err *err);

/* Whether such a finding must be settled before the opening is ordered. */
int pw_finding_blocks(pw_finding_kind kind);

/* Sizes that a slip of 1 in, 10 in or 1 ft would make a neighbour's: the other side and the operator are
 * alike (1/4 in), no diagonals confirm the readings, and no other opening shares the size. Adds findings; where
 * diagonals confirm, 10 in alone is a remark.
 *
 * Given     opening[n]; fit[n] of pw_fit_opening
 * Source    measure.md item 12 (blunders); the steps: common practice, no source. */
void pw_fit_neighbours(const pw_opening opening[], size_t n, pw_fit fit[]);

/* What is said of squareness: by the diagonals, but never ok nor adjust beside a finding that blocks. */
pw_square pw_fit_square(const pw_fit *fit);

/* The measures of an opening that is no rectangle, from its readings (smallest of each): what is not read
 * follows from the others as shape.h says. */
pw_shape_size pw_fit_measured(const pw_opening *opening);

/* Outlines of a fit that is of a shape, for drawings: the opening, the bare pocket, the order. */
pw_status pw_fit_outlines(const pw_fit *fit, pw_bounds *opening, pw_bounds *bare,
                          pw_bounds *order);

/* "ok", "adjust", "remeasure", "stop", "unknown"; never NULL. */
const char *pw_square_name(pw_square square);

#endif
