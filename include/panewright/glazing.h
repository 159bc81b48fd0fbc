/* A glass build-up as it is named, and the glazing it makes: heat unit plus light by angle. */
#ifndef PANEWRIGHT_GLAZING_H
#define PANEWRIGHT_GLAZING_H

#include "panewright/unit.h"

enum { PW_NAME_MAX = 32, PW_ANGLES = 11, PW_ANGLE_DIFFUSE = 10 };

/* One pane as the build-up text names it. */
typedef struct pw_buildup_pane {
  double thickness;       /* m */
  char kind[PW_NAME_MAX]; /* clear, lowiron, bronze, gray, green, or an id of panes.csv */
  char coating[2]
              [PW_NAME_MAX]; /* on the outdoor-facing and the indoor-facing surface; "" none */
  double emit[2];            /* stated hemispherical emissivity; 0 not stated */
} pw_buildup_pane;

typedef struct pw_buildup {
  size_t n_pane;
  pw_buildup_pane pane[PW_PANES_MAX];
  pw_gap gap[PW_PANES_MAX - 1];
} pw_buildup;

/* Light by angle: index 0..9 is incidence 0, 10 .. 90 degrees, PW_ANGLE_DIFFUSE the hemisphere.
 * Shares of what falls on the outer face (back: on the inner face). */
typedef struct pw_light {
  size_t n_pane;
  double tau_e[PW_ANGLES], rho_e_out[PW_ANGLES], rho_e_in[PW_ANGLES];
  double tau_v[PW_ANGLES], rho_v_out[PW_ANGLES], rho_v_in[PW_ANGLES];
  double absorbed[PW_PANES_MAX][PW_ANGLES]; /* solar, from the front */
  double tau_uv, t_damage;                  /* normal incidence */
  double cie_x, cie_y;                      /* colour of D65 seen through it */
} pw_light;

typedef struct pw_glazing {
  pw_unit unit;
  pw_light light;
  double u_winter;        /* W/(m2 K), rating conditions, centre of glass */
  double shgc[PW_ANGLES]; /* rating summer conditions, by angle and hemispherical */
} pw_glazing;

/* Everything about a build-up: optics by angle, heat unit, U and SHGC at rating conditions.
 *
 * Given     buildup
 * Returned  *glazing
 * Status    PW_OK; PW_E_DATA an unknown pane or coating (the nearest known one is offered) or a
 *           coating on an impossible surface; PW_E_DOMAIN sizes
 */
pw_status pw_glazing_build(const pw_buildup *buildup, pw_glazing *glazing, pw_err *err);

/* ---- A build-up in words ----
 *
 * Read as the trade says it, outdoors to indoors, and says it back.
 *
 *   3mm clear / 12.7mm argon 90% / 3mm clear coat ag2@3
 *   1/8 in clear emit 0.10@2 / 1/2 in air / 1/8 in clear
 *   3 mm clear / 10 mm argon 60% krypton 30% / 3 mm clear
 *
 * Panes and gaps alternate, parts apart by "/". A thickness is decimal or a trade fraction
 * (1/2, 1 1/4, 1-1/4), in mm, cm, in or ". A "/" is a fraction bar only inside a thickness and
 * between two digits; everywhere else it separates parts, so blanks around it are optional.
 * After a pane stand any number of `coat NAME@SURFACE` and `emit E@SURFACE`; surfaces are
 * numbered 1..2n from outdoors. A gas without a share is pure; shares that sum below 100 % are
 * filled up with air. Letters may be of either case.
 */

/* Given     text      one line, ends with NUL
 * Returned  *buildup
 * Status    PW_OK; PW_E_DATA otherwise: err names the column (from 1; also in err->column), what
 *           was found there, what is accepted and the nearest known word. On failure *buildup is
 *           untouched.
 */
pw_status pw_buildup_parse(const char *text, pw_buildup *buildup, pw_err *err);

/* As pw_buildup_parse, with names of panes known beside those of the table (measured ones). */
pw_status pw_buildup_parse_own(const char *text, const char *const own[], size_t n_own,
                               pw_buildup *buildup, pw_err *err);

/* The same in words (mm, shares in %), such that parsing it gives the build-up back.
 *
 * Given     buildup, size of text
 * Returned  text, always terminated
 * Status    PW_OK; PW_E_SHAPE n_pane out of range or text too small (it then holds what fits); PW_E_DOMAIN
 *           a number that no digits of that form say (not finite, below 0, 1e-30)
 */
pw_status pw_buildup_print(const pw_buildup *buildup, char *text, size_t size, pw_err *err);

#endif
