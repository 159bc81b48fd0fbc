/* Light through panes: one pane at one angle, a stack of panes, and the weighted table by angle.
 * Everything is worked out at each wavelength of the grid and weighted last. */
#ifndef GLASS_OPTICS_H
#define GLASS_OPTICS_H

#include "glass/spectrum.h"
#include "panewright/glazing.h"

/* One pane, or several as one, at one angle: shares of what falls on it, by wavelength. Front is
 * the outdoor side. */
typedef struct pw_sheet {
  double t[PW_LANE], rf[PW_LANE], rb[PW_LANE];
} pw_sheet;

/* How polarisation is carried. The mean of s and p is taken a pane before panes are combined
 * (PW_POL_MEAN): strictly less exact, but what the published table of the handbook follows.
 * PW_POL_APART carries s and p through the whole stack and averages last. Coated and measured
 * panes are known for unpolarised light only; both ways use their mean. */
typedef enum pw_pol { PW_POL_MEAN = 0, PW_POL_S, PW_POL_P, PW_POL_APART } pw_pol;

enum { PW_CLASS_ANGLES = 19 }; /* 0, 5 .. 90 degrees */

/* What a coating does with the angle beyond bare glass, in two bands (the middle of the
 * visible one, and the rest). */
typedef struct pw_film_angle {
  int used;
  double t[2][PW_CLASS_ANGLES];       /* factor on the transmittance of bare glass */
  double r_glass[2][PW_CLASS_ANGLES]; /* added to the rise of the bare reflectance */
  double r_film[2][PW_CLASS_ANGLES];
  double p_share[2][PW_CLASS_ANGLES]; /* of p in what the film alone lets through */
} pw_film_angle;

/* The coated panes of the tables: a film on its own glass, the film on the indoor face. */
typedef struct pw_film_pane {
  double n[PW_LANE], depth[PW_LANE], bare_t0[PW_LANE], bare_r0[PW_LANE]; /* the glass */
  pw_sheet normal; /* the pane at normal incidence; front is its glass side */
} pw_film_pane;

/* One pane, ready for any angle. */
typedef struct pw_layer {
  int fresnel;                               /* 1: n and depth say all */
  double n[PW_LANE];                         /* index of the glass, or of a like slab */
  double depth[PW_LANE];                     /* absorption coefficient times thickness */
  double bare_t0[PW_LANE], bare_r0[PW_LANE]; /* of that slab at normal incidence */
  pw_sheet normal;                           /* of the pane itself at normal incidence */
  pw_film_angle film[2];                     /* outdoor and indoor face */
  int exchanged;       /* 1: films of own[] stand on this glass, at every angle */
  pw_film_pane own[2]; /* of the films that are used */
  double emit[2];      /* hemispherical, 0 bare glass */
  double conductivity; /* W/(m K), 0 soda-lime glass */
} pw_layer;

/* A pane known by its measured spectra at normal incidence, brought to the grid. */
typedef struct pw_measured {
  char name[PW_NAME_MAX];    /* what a build-up calls it */
  double thickness;          /* m; 0: any */
  double emit[2];            /* 0: bare glass */
  char angular[PW_NAME_MAX]; /* coating whose angular dependence it takes, "" by its own n and
                                k when both sides reflect alike, else as uncoated clear glass */
  pw_sheet normal;
} pw_measured;

/* A pane from optical constants and thickness.
 *
 * Given     n, kappa (1/m) by wavelength, thickness (m, 0.5e-3 to 50e-3)
 * Status    PW_OK; PW_E_DOMAIN thickness
 * Source    ISO 9050 / EN 410 single pane; Fresnel. Incoherent: panes are thick.
 */
pw_status pw_layer_glass(const double n[PW_LANE], const double kappa[PW_LANE], double thickness,
                         pw_layer *layer, pw_err *err);

/* Coatings on the faces of a layer made by pw_layer_glass, by name ("" or NULL none): at every angle
 * the film is taken off its tabulated 3 mm clear pane and put on this glass, so that any thickness
 * and tint keeps its own absorption. PW_E_DATA an unknown name. Emissivities follow. */
pw_status pw_layer_coat(pw_layer *layer, const pw_spectrum *spectrum, const char *outdoor,
                        const char *indoor, pw_err *err);

/* Names of the known coatings, hard ones first. */
const char *const *pw_coating_names(size_t *n);

/* A measured pane. PW_E_DOMAIN a value outside 0..1 or t + r above 1; PW_E_DATA unknown class. */
pw_status pw_layer_measured(const pw_measured *measured, const pw_spectrum *spectrum,
                            pw_layer *layer, pw_err *err);

/* Broad-band values of a pane, turned into three flat bands (ultraviolet, visible, near infrared)
 * that give them back. PW_E_DOMAIN when no such bands exist (the values contradict). */
typedef struct pw_bands {
  double tau_e, rho_e_out, rho_e_in, tau_v, rho_v_out, rho_v_in, tau_uv;
} pw_bands;
pw_status pw_measured_from_bands(const pw_bands *bands, const pw_spectrum *spectrum,
                                 pw_measured *measured, pw_err *err);

/* The pane a build-up names: a glass kind or another row of reference/panes.csv, or one of
 * own[n_own], with its coatings.
 * Status    PW_OK; PW_E_DATA unknown kind or coating (the nearest is offered), a coating on a pane
 *           that is known only as a whole; PW_E_DOMAIN thickness */
pw_status pw_layer_init(const pw_buildup_pane *pane, const pw_measured own[], size_t n_own,
                        const pw_spectrum *spectrum, pw_layer *layer, pw_err *err);

/* The pane at one angle; cosine above 0, up to 1. For PW_POL_APART use S and P apart. */
void pw_layer_at(const pw_layer *layer, const pw_spectrum *spectrum, double cosine, pw_pol pol,
                 pw_sheet *sheet);

/* A stack seen from outdoors (sheet[0]) and its mirror.
 *
 * Returned  system; absorbed[i] the share of light from the front that pane i takes (may be NULL)
 * Notes     t + rf + sum of absorbed is 1 within rounding at each wavelength.
 * Source    EN 410 / ISO 9050 for two and three panes, written for n: q back to front, then the
 *           flow front to back.
 */
void pw_stack_solve(const pw_sheet *const sheet[], size_t n, pw_sheet *system,
                    double absorbed[][PW_LANE]);

/* All panes at one angle through the stack. pol PW_POL_APART runs s and p and averages. */
void pw_stack_at(const pw_layer *const layer[], size_t n, const pw_spectrum *spectrum,
                 double cosine, pw_pol pol, pw_sheet *system, double absorbed[][PW_LANE]);

enum { PW_HEMI = 8, PW_FAN = 9 + PW_HEMI }; /* 0..80 by 10 degrees, then the Gauss points */

/* A pane at every angle the table needs; lets a search over build-ups reuse it. */
typedef struct pw_fan {
  pw_sheet at[PW_FAN];
} pw_fan;
pw_status pw_fan_init(const pw_layer *layer, const pw_spectrum *spectrum, pw_fan *fan,
                      pw_err *err);

/* The whole table of light by angle, from layers or from fans.
 *
 * Status    PW_OK; PW_E_SHAPE n outside 1..PW_PANES_MAX
 * Notes     Hemispherical values by Gauss-Legendre quadrature in sin^2 of the angle.
 */
pw_status pw_light_build(const pw_layer *const layer[], size_t n, const pw_spectrum *spectrum,
                         pw_pol pol, pw_light *light, pw_err *err);
pw_status pw_light_from_fans(const pw_fan *const fan[], size_t n, const pw_spectrum *spectrum,
                             pw_light *light, pw_err *err);

/* The weighted values of one angle, all else as in pw_light. */
typedef struct pw_light_row {
  double tau_e, rho_e_out, rho_e_in, tau_v, rho_v_out, rho_v_in, absorbed[PW_PANES_MAX];
} pw_light_row;

/* One angle of incidence, 0 to 90 degrees. PW_E_DOMAIN outside. */
pw_status pw_light_at(const pw_layer *const layer[], size_t n, const pw_spectrum *spectrum,
                      double degree, pw_pol pol, pw_light_row *out, pw_err *err);

/* The layers of a build-up on their grid (about 100 kB). list[] points into layer[]. */
typedef struct pw_layers {
  pw_spectrum spectrum;
  size_t n;
  pw_layer layer[PW_PANES_MAX];
  const pw_layer *list[PW_PANES_MAX];
} pw_layers;

/* own[n_own] are panes known beside those of reference/panes.csv. Status as pw_glazing_build. Do
 * not copy the struct: it points into itself. */
pw_status pw_layers_init(const pw_buildup *buildup, const pw_measured own[], size_t n_own,
                         pw_layers *layers, pw_err *err);

/* The heat unit and the light of a build-up. Status as pw_glazing_build. */
pw_status pw_glazing_optics(const pw_buildup *buildup, const pw_measured own[], size_t n_own,
                            pw_pol pol, pw_unit *unit, pw_light *light, pw_err *err);

/* As pw_glazing_build, with panes of the caller's own. */
pw_status pw_glazing_build_with(const pw_buildup *buildup, const pw_measured own[],
                                size_t n_own, pw_glazing *glazing, pw_err *err);

/* The heat unit of a build-up from its layers; a stated emissivity outranks that of a coating. */
void pw_glazing_unit(const pw_buildup *buildup, const pw_layer *const layer[], pw_unit *unit);

/* U and SHGC of a glazing whose unit and light are there, at rating conditions. */
pw_status pw_glazing_heat(pw_glazing *glazing, pw_err *err);

/* Only its SHGC. */
pw_status pw_glazing_sun(pw_glazing *glazing, pw_err *err);

/* SHGC of a built glazing under other conditions, at one of the PW_ANGLES. */
pw_status pw_glazing_shgc(const pw_glazing *glazing, const pw_env *env, size_t angle,
                          double *shgc, pw_err *err);

/* Solar factor g by EN 410 at one of the PW_ANGLES: secondary heat by fixed films (h_e 23,
 * h_i 3.6 + 4.4 e / 0.837) and conductances face to face, gaps of EN 673 and glass. Not an SHGC.
 * Source    EN 410:2011; films from memory. */
pw_status pw_glazing_g_en410(const pw_glazing *glazing, size_t angle, double *g, pw_err *err);

/* Plain words for the colour of D65 light seen through glass: "neutral", "slightly bluish",
 * "greenish" ... y_share is the visible transmittance. Static text. */
const char *pw_colour_word(double x, double y, double y_share);

#endif
