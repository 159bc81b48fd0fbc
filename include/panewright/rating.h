/* A whole window over its opening: areas, U, SHGC, VT, by area weighting and in the psi form. */
#ifndef PANEWRIGHT_RATING_H
#define PANEWRIGHT_RATING_H

#include <stddef.h>

#include "panewright/fit.h"
#include "panewright/glazing.h"
#include "panewright/survey.h"

/* One light as seen: glass between sight lines, with its edge band. */
typedef struct pw_rating_lite {
  double width, height; /* m; of a shape its extents */
  double u_edge[4];     /* W/(m2 K), edge of glass along PW_LEFT, _RIGHT, _BOTTOM, _TOP */
} pw_rating_lite;

typedef enum pw_part_kind { PW_PART_FRAME = 0, PW_PART_DIVIDER, PW_PART_RETAINED } pw_part_kind;

/* One opaque part. Dividers are meeting rails and glazing bars; the retained ring is what lies
 * between an insert and the edge of the opening. */
typedef struct pw_rating_part {
  pw_part_kind kind;
  double area;        /* m2, projected */
  double u;           /* W/(m2 K) */
  double absorptance; /* solar, outer face; 0 means 0.3 */
  double developed;   /* wetted over projected outdoor area; 0 means 1 */
} pw_rating_part;

/* What is rated. The glass and the parts fill the opening. */
typedef struct pw_rating_input {
  double width, height; /* m, the opening; of a shape its extents */
  double area;          /* m2, of the opening where it is no rectangle; 0: width x height */
  double u_center;      /* W/(m2 K) */
  double shgc, vt;      /* of the glass */
  const pw_rating_lite *lite;
  const pw_lite_round
      *round; /* of each light, its band PW_EDGE_BAND; NULL: all are rectangles */
  size_t n_lite;
  const pw_rating_part *part;
  size_t n_part;
  double band;  /* m, edge of glass; 0 means 63.5 mm */
  double h_out; /* W/(m2 K), outdoor film of the frame's solar share; 0 means 30 */
} pw_rating_input;

/* A quantity by part of the window. */
typedef struct pw_parts {
  double center, edge, frame, divider, retained;
} pw_parts;

/* How cold the coldest indoor point gets: the solved sections', where all of the window is drawn; else
 * by the relation of own sections (pw_catalogue_coldest), and the colder of the two. */
typedef struct pw_coldest {
  double f_rsi;        /* of the sections, least; 0 none is drawn */
  int all_drawn;       /* 1: no part of it hangs on the relation */
  double base, slope;  /* 1 - f = base + slope (1 - f of the centre of glass) */
  double below, above; /* what own sections lie below and above that by */
} pw_coldest;

typedef struct pw_rating {
  double area;            /* m2, the opening */
  double glass_area;      /* m2, centre and edge */
  double glass_perimeter; /* m */
  pw_parts areas;         /* m2; they sum to area within 1e-12 of it */
  pw_parts ua;            /* W/K */
  double u;               /* W/(m2 K), over the opening */
  double u_psi;    /* W/(m2 K), second method, see pw_rating_u_psi; NAN when not worked out */
  double shgc, vt; /* over the opening */
  double shgc_opaque; /* mean of frame, divider and retained ring; 0 when there is none */
  pw_coldest cold, cold_meeting; /* around the glass; of meeting rails */
  double bars_area, bars_ua;     /* m2, W/K: glazing bars, part of the divider's */
  pw_given u_center, u_edge, u_frame, u_retained; /* area means, with origin and source */
} pw_rating;

/* Rates by areas.
 *
 *   U    = (U_c A_c + sum U_e A_e + sum U_i A_i) / A
 *   SHGC = (SHGC_glass A_glass + sum alpha_i U_i / (h_out D_i) A_i) / A,  D = developed/projected
 *   VT   = VT_glass A_glass / A
 *
 * Given     input; a light narrower than two bands is all edge. Where the edge U differs by side,
 *           the band is cut at its corners along the mitre.
 * Returned  *rating; u_psi is NAN
 * Status    PW_OK; PW_E_SHAPE no light, or glass and parts do not fill the rectangle to 1e-9;
 *           PW_E_DOMAIN a value out of range (the field is named). On failure *rating is untouched.
 * Notes     1) A remainder below 1e-9 of the area is rounding and goes to the last part.
 *           2) h_out 30 is 26 + 4 of the winter condition, to which a winter U_f belongs;
 *              neither it nor 20 (summer) is confirmed from the procedure (optics/METHODS.md 7).
 * Source    NFRC 100 and 200 / ISO 15099:2003 4.1, 4.2 (clauses from memory).
 */
pw_status pw_rating_window(const pw_rating_input *input, pw_rating *rating, pw_err *err);

/* The psi form over the same opening:
 *   U = (U_g A_g + sum U_i A_i + psi l_g) / A
 * Given     input (u_center and u_edge are not used), u_glass, psi (W/(m K))
 * Source    ISO 10077-1:2017 6.4 (clause from memory). */
pw_status pw_rating_u_psi(const pw_rating_input *input, double u_glass, double psi, double *u,
                          pw_err *err);

/* Which frame section a value belongs to. */
enum { PW_SIDE_SILL = 0, PW_SIDE_HEAD, PW_SIDE_JAMB, PW_SIDE_MEETING, PW_SIDE_COUNT };

/* Values of computed sections that stand in for the catalogue; 0 means the catalogue. */
typedef struct pw_frame_values {
  struct {
    double u_frame; /* W/(m2 K), over the projected width */
    double u_edge;  /* W/(m2 K), over the 63.5 mm band, with this very glass */
    double f_rsi;   /* coldest indoor point, (T - T_out)/(T_in - T_out) */
  } side[PW_SIDE_COUNT];
  int with_ring;      /* 1: u_frame of sill, head and jamb covers the retained ring as well */
  const char *source; /* static text or borrowed, must outlive the rating */
} pw_frame_values;

/* The window that is there now, over the whole opening rectangle of its fit.
 *
 * Given     opening, fit (of pw_fit_opening), glazing of its glass, values (NULL: catalogue)
 * Returned  *rating; u_psi with U_g by EN 673, psi by ISO 10077-1 and the same frame U
 * Status    as pw_rating_window and the catalogue
 */
pw_status pw_rating_existing(const pw_opening *opening, const pw_fit *fit,
                             const pw_glazing *glazing, const pw_frame_values *values,
                             pw_rating *rating, pw_err *err);

/* The insert over the same rectangle, retained ring included. Frame U by line->frame_u when it has
 * one, else by the catalogue for line->kind; ring by pw_catalogue_ring and package->filling. With the bars of
 * fit->grille (pw_rating_add_bars); the frame's absorptance is fit->absorptance, where that is above 0. */
pw_status pw_rating_insert(const pw_fit *fit, const pw_package *package,
                           const pw_frame_line *line, const pw_glazing *glazing,
                           const pw_frame_values *values, pw_rating *rating, pw_err *err);

/* One opening from the tape to its ratings: fitted, its old glass and the package's built, both rated.
 *
 * Given     opening (pw_opening_init), package (pw_package_init, and its glass) of a built-in frame line; nothing of its own over
 *           the package but grilles and colour, no drawn sections
 * Returned  *existing, *insert
 * Status    as pw_frame_line_named, pw_fit_opening, pw_glazing_build and the two ratings. On failure both are untouched. */
pw_status pw_rate_opening(const pw_opening *opening, const pw_package *package,
                          pw_rating *existing, pw_rating *insert, pw_err *err);

/* Bars in the glass of a rated window.
 *
 *   UA' = UA + sum (U_bar - U_c) A_bar + sum (U_edge - U_c) A_edge
 *   SHGC', VT': less the glass's over A_bar, more the bars' share of the sun
 *
 * Given     grille, lites of the window, its glazing, absorptance of the bars (0 means 0.3)
 * Returned  *rating changed in place; as it was where the grille has no bars
 * Status    PW_OK; as pw_grille_cut and pw_grille_heat_of. On failure *rating is untouched.
 * Notes     1) What bars add stands on top of what the glass and its edge lose without them, so none is credited.
 *           2) The band beside a bar, 63.5 mm or half a cell, is cut at corners of two bars by the mitre.
 *           3) u_psi is more by what u is; u_edge and the coldest points stay those of the frame.
 * Source    dividers and divider edges: NFRC 100, ISO 15099:2003 4.1 (clauses from memory); see grille.h. */
pw_status pw_rating_add_bars(const pw_grille *grille, const pw_lites *lites,
                             const pw_glazing *glazing, double absorptance, pw_rating *rating,
                             pw_err *err);

#endif
