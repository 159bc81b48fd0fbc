/* A window cut into its lites: daylight, frame faces, meeting rails. */
#ifndef PANEWRIGHT_LITES_H
#define PANEWRIGHT_LITES_H

#include <stddef.h>

#include "panewright/kinds.h"
#include "panewright/shape.h"
#include "panewright/status.h"
#include "panewright/units.h"

enum { PW_LITES_MAX = 4 };

/* Sides, in the order of every array of four. */
enum { PW_LEFT = 0, PW_RIGHT, PW_BOTTOM, PW_TOP };

/* What a lite that is no rectangle has, by its own outline; all 0 of a rectangle. */
typedef struct pw_lite_round {
  double area, perimeter;   /* m2, m; 0: a rectangle */
  double center;            /* m2, inside the band of PW_EDGE_BAND */
  double edge[4], frame[4]; /* m2 by side: of the band, of the frame around it */
} pw_lite_round;

typedef struct pw_lite {
  double x, y; /* m, lower left corner of the daylight, from that of the window's rectangle */
  double width, height; /* m, daylight; of a shape its extents */
  double face[4]; /* m, frame (and sash) between daylight and the edge of the window; 0 where
                           the lite meets a meeting rail */
  int moving;
  pw_lite_round round;
} pw_lite;

/* A window cut into lites. Seen from outside; the first lite is left (or, hung, the lower one). */
typedef struct pw_lites {
  pw_operator operator_;
  double width,
      height; /* m, its outer size: the bare pocket (existing) or the order (insert) */
  size_t n_lite;
  pw_lite lite[PW_LITES_MAX];
  size_t n_meeting; /* meeting rails or stiles: 0, 1 or 2 */
  int meeting_upright;
  double meeting_width;   /* m, of one, across */
  double meeting_length;  /* m, of one, along; its area is the product */
  double glass_area;      /* m2, daylight of all lites */
  double frame_area;      /* m2, the rest of width x height, meeting rails included */
  double meeting_area;    /* m2, all meeting rails, part of frame_area */
  double glass_perimeter; /* m, daylight edge of all lites, where spacer and seam run */
} pw_lites;

/* Cuts a window of given outer size into lites.
 *
 * Given     operator_, config ("XO", "OX", "O/X" ..., "" means the first lite moves), width, height
 *           (m), frame_face where a lite is fixed, sash_face where it moves, meeting_face (m)
 * Returned  *lites
 * Status    PW_OK; PW_E_DOMAIN when a size is not above 0 or the faces leave no glass (says how
 *           much)
 * Notes     1) Slider, hung and door: lites of equal share about meeting rails, two unless the config
 *              of a slider or sliding door has three or four letters.
 *           2) Flanker: a fixed lite over half the width between two moving ones of a quarter
 *              each (common trade proportion, from memory).
 *           3) The faces are those of the table of measure.md item 7, which this reproduces.
 */
pw_status pw_lites_cut(pw_operator operator_, const char *config, double width, double height,
                       double frame_face, double sash_face, double meeting_face,
                       pw_lites *lites, pw_err *err);

/* Daylight of a lite, m2. */
double pw_lite_area(const pw_lite *lite);

/* The one lite of a window that is no rectangle, with the face all round it.
 *
 * Given     operator_ (of one lite), shape: its outer outline, lower left corner of its extents at x0, y0
 * Returned  *lites; width and height are extents
 * Status    PW_OK; PW_E_DOMAIN an operator of several lites (field operator), no glass left */
pw_status pw_lites_shaped(pw_operator operator_, const pw_bounds *shape, double face,
                          pw_lites *lites, pw_err *err);

/* "fixed", "slider", "single-hung" ...; never NULL. */
const char *pw_operator_name(pw_operator operator_);

/* Whether a window of that kind opens at all. */
int pw_operator_opens(pw_operator operator_);

/* Whether it is a door. */
int pw_operator_is_door(pw_operator operator_);

/* How many lites a window of that kind and config has: sliders and sliding doors by the letters of theirs,
 * two to four. */
size_t pw_operator_lites(pw_operator operator_, const char *config);

/* Share of the width that a slider or sliding door of three or four lites leaves free at once: the longest
 * run of moving lites that the fixed ones beside it can hold; 0 of any other window. */
double pw_operator_open_share(pw_operator operator_, const char *config);

#endif
