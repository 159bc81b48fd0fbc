/* A leaf that sound passes: a pane, a sheet, a laminate, as a thin plate. */
#ifndef SOUND_LEAF_H
#define SOUND_LEAF_H

#include <stddef.h>

#include "panewright/status.h"
#include "sound/thirds.h"

/* Air as in the parameter sets, 20 C. */
#define PW_SOUND_RHO 1.205 /* kg/m3 */
#define PW_SOUND_C 343.0   /* m/s */

typedef struct pw_leaf {
  double mass; /* kg/m2 */
  double fc;   /* critical frequency, Hz, in air of 343 m/s */
  double eta;  /* loss factor of the leaf by itself, without its mount */
} pw_leaf;

/* A sheet of a material. fc = c^2/(2 pi) sqrt(m/B), B = E t^3/(12 (1 - nu^2)).
 *
 * Given     thickness  m
 *           material   row of reference/sound/leaf.csv
 * Status    PW_OK; PW_E_DOMAIN thickness not in 0.5 to 50 mm, or no such row
 */
pw_status pw_leaf_sheet(double thickness, size_t material, pw_leaf *leaf, pw_err *err);

/* Two plies of glass and an interlayer.
 *
 * Given     ply         m, of each ply
 *           interlayer  m
 *           kind        row of reference/sound/interlayer.csv
 *           at          0 to 1 between the low and the high loss factor and stiffness of that row (0.5
 *                       the middle): nobody knows them for a product that is not tested
 * Notes     The bending stiffness lies between two loose plies and one solid pane, the mass is kept.
 *           Unsure: published laminates differ by 4 to 8 dB from this.
 */
pw_status pw_leaf_laminate(const double ply[2], double interlayer, size_t kind, double at,
                           pw_leaf *leaf, pw_err *err);

/* Sound reduction of one leaf by ISO 12354-1:2017 annex B (equations from memory, held against its
 * annex L), thirds 50 to 5000 Hz.
 *
 * Given     l1, l2   m, sides of the leaf
 *           eta      total loss factor by third octave
 *           rho, c   of the air
 * Status    PW_OK; PW_E_DOMAIN a value not above 0, or a slip of the pen (a side over 100 m)
 * Notes     fc is taken at the speed of sound given (fc of the leaf, times (c/343)^2).
 */
typedef struct pw_leaf_annex_b {
  double l1, l2, rho, c;
} pw_leaf_annex_b;
pw_status pw_leaf_iso_12354(const pw_leaf *leaf, const double eta[PW_THIRDS],
                            const pw_leaf_annex_b *in, pw_thirds *out, pw_err *err);

/* Its parts: radiation factors of free (sigma) and forced waves (sigma_f), and R at one frequency. */
double pw_leaf_sigma(double f, double fc, double l1, double l2, double c);
double pw_leaf_sigma_forced(double f, double l1, double l2, double c);

/* Loss through the mount in a laboratory, to be added to the leaf's own: m/(485 sqrt f), ISO 12354-1
 * annex C (from memory). */
double pw_leaf_eta_laboratory(double mass, double f);

#endif
