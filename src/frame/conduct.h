/* What a frame section lets through: steady conduction in its plane, with the numerical error. */
#ifndef FRAME_CONDUCT_H
#define FRAME_CONDUCT_H

#include "frame/hollow.h"
#include "frame/section.h"

/* Film resistances, m2 K/W. A zero stands for a surface held at air temperature. */
typedef struct pw_films {
  double outdoor, indoor, reduced;
} pw_films;

/* ISO 10077-2: 0.04, 0.13, 0.20. */
extern const pw_films pw_films_iso10077;

/* Films of the rating procedure for a frame whose indoor face is metal, metal with a thermal break,
 * or neither: convection 26 outdoors and 3.29, 3.00 or 2.44 indoors, plus long-wave exchange at
 * emissivity 0.9 (from memory: reference/section/METHODS.md 2). */
typedef enum pw_frame_face {
  PW_FACE_METAL = 0,
  PW_FACE_METAL_BREAK,
  PW_FACE_OTHER
} pw_frame_face;
pw_films pw_films_rating(pw_frame_face face, double t_out, double t_in);

/* Which of them a section is: by the indoor faces up to the sight line, metal when more than half
 * of their length is; with a break when a thermal-break material is drawn anywhere. */
pw_status pw_section_face(const pw_section *section, pw_frame_face *face, pw_err *err);

typedef struct pw_section_options {
  double t_out, t_in;    /* K; both 0 means 0 C and 20 C */
  const pw_films *films; /* NULL: pw_films_iso10077 */
  double tolerance;      /* width of the bracket over the value; 0 means 0.002 */
  pw_hollow_method hollow;
  int tall;         /* jamb: gravity out of the plane (ISO 15099 hollows only) */
  int fixed_hollow; /* 1: hollows at dT 10 K and 283 K (the fixed form), no rounds */
  double u_glass;   /* W/(m2 K), centre of glass for psi; 0: of the layers at the glass end */
  size_t cells_max; /* 0 means 2 000 000; past it the bracket reached is reported */
  const double *probe; /* n_probe pairs x, y (m) whose temperature is wanted; borrowed */
  size_t n_probe;
  double *t_probe; /* n_probe, filled (K; NAN outside the solid); borrowed */
  int keep_field;  /* 1: fill result.field */
} pw_section_options;

/* The solved field on its grid, for pictures. Arrays owned by the result. */
typedef struct pw_section_field {
  size_t n_x, n_y; /* cells */
  double *x, *y;   /* n_x + 1, n_y + 1 lines, m */
  int *material;   /* n_x * n_y: index into the section's materials, -1 painted by nothing */
  double *t;       /* (n_x + 1) * (n_y + 1) nodes, K; NAN off the solid; t[j * (n_x + 1) + i] */
  double *flux_x, *flux_y; /* n_x * n_y cells, W/m2 */
  double
      *stream; /* nodes, W/m: between two nodes of one body flows the difference; NAN off it */
} pw_section_field;

typedef enum pw_section_note {
  PW_SECTION_COARSE = 1,  /* the bracket is wider than the tolerance: cells_max reached */
  PW_SECTION_ISLAND = 2,  /* a solid that touches neither side nor the rest was left out */
  PW_SECTION_NO_BAND = 4, /* the glass ends within the edge band */
  PW_SECTION_SIGHT = 8,   /* the sight line was found, not given */
  PW_SECTION_BELOW =
      16 /* parts lie before 0: the opening's edge is 0, their heat is the frame's */
} pw_section_note;

typedef struct pw_section_result {
  double l2d, low, high;   /* W/(m K): value and bracket */
  double q;                /* W/m, from indoors */
  double u_frame, u_edge;  /* W/(m2 K), band figures; NAN where there is no band */
  double u_glass, b_glass; /* W/(m2 K) centre of glass, m from the sight line to the end */
  double
      u_panel_frame;  /* W/(m2 K), U_f by the panel method; NAN unless the glazing is a panel */
  double frame_start; /* m, where the frame begins: opening edge, or the other sight line */
  double other_sight_line;    /* m, of the glass at the other end; NAN: glass at one end only */
  double glass_end;           /* m, coordinate of the far end of the glass */
  double sight_line, b_frame; /* m, coordinate and projected frame width (psi and U_f too) */
  double f_rsi, coldest;      /* -, K: coldest indoor surface */
  double coldest_x, coldest_y; /* m */
  double residual;         /* |heat in - heat out| over heat in, the worse of both methods */
  size_t n_cell, n_hollow; /* cells solved, hollows found */
  int passes;              /* grids used */
  int flow_axis;           /* 0 along x, 1 along y */
  unsigned notes;          /* pw_section_note */
  size_t bytes;            /* largest memory held by the solver */
  pw_section_field field;  /* filled when asked for */
} pw_section_result;

/* Steady two-dimensional conduction with its numerical error.
 *
 *   div(k grad T) = 0; q = (T_air - T_s) / R on air-facing faces
 *
 * Given     section, options (zeroed means the defaults above)
 * Returned  *result: l2d = (2 high + low) / 3; low from cell-centred finite volumes, high from
 *           bilinear elements on the same grid, each with the parabolas on its edges that lower its
 *           energy most. For given conductivities low <= exact <= high
 *           (the principles of least complementary and least potential energy).
 * Status    PW_OK; PW_E_DATA as pw_section_check, or a gap without conductance; PW_E_DOMAIN an
 *           option; PW_E_SHAPE too many cells; PW_E_NOMEM; PW_E_CONVERGE. On failure *result is
 *           zeroed and owns nothing.
 * Notes     1) Reentrant: no shared state. 2) U_frame is indoor heat up to the sight line over the
 *           projected frame width; it rises when a frame gets narrower though its heat falls, so
 *           compare heat over the same opening, never U_frame alone.
 *           3) With glass at both ends (a meeting rail) the frame lies between two sight lines,
 *           U_edge is the mean of both bands, and there is no panel method.
 * Source    ISO 10211, ISO 10077-2 (reference/section/METHODS.md).
 */
pw_status pw_section_solve(const pw_section *section, const pw_section_options *options,
                           pw_section_result *result, pw_err *err);
void pw_section_result_free(pw_section_result *result);

/* psi = l2d - u_f b_f - u_g b_g of the edge, linear method of ISO 10077-2, from the same section
 * solved with glass and with the panel. */
double pw_section_psi(const pw_section_result *glass, const pw_section_result *panel);

#endif
