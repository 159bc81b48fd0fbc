/* Sound reduction of a glass unit: leaves with sealed gaps between them. */
#ifndef SOUND_SOUND_UNIT_H
#define SOUND_SOUND_UNIT_H

#include "sound/leaf.h"

enum { PW_LEAVES_MAX = 6 };

/* What published data do not agree on; rows of reference/sound/unit_sets.csv. Zeroed: row safe. */
typedef struct pw_sound_set {
  double theta;     /* limiting angle of incidence, rad */
  double eta_mount; /* loss factor of a pane's mount */
  double h;         /* loss in the gap: k (1 - i h/2) */
  double k_db;      /* the spacer path passes so much less than the mean pane, a gap */
} pw_sound_set;

/* The set of a row: pw_ref_sound_unit_sets__safe, __central, __laboratory. */
pw_sound_set pw_sound_set_of(size_t row);

/* Sound reduction by thirds 50 to 5000 Hz.
 *
 *   tau = mean over angles and each band of the layers' tau + the spacer path
 *
 * Given     leaf[n]      from outdoors; n 1 to PW_LEAVES_MAX
 *           gap[n - 1]   m, counted as air whatever the gas
 *           set          never another one for the window it is compared with
 * Returned  *out         every band known
 * Status    PW_OK; PW_E_SHAPE n; PW_E_DOMAIN a leaf, a gap (1 to 300 mm) or a set
 * Notes     1) Layers: pane impedance i w m (1 - (f/fc)^2 sin^4 th (1 + i eta)), gaps as layers of
 *              lossy air; eta = leaf + mount + m/(485 sqrt f). Spacer path:
 *              10^-(mean R of the panes alone + k_db (n - 1))/10.
 *           2) Mean by a lattice of points in (lg f, sin^2 th), more of them at each coincidence; against
 *              2584 points within 0.7 dB in a band and 0.2 dB on Rw + Ctr.
 *           3) Sets were fitted, not validated: they differ by about 5 dB, above 20 mm gap all are up to
 *              12 dB low, three panes and laminates are not validated. Symmetric: outdoors and indoors
 *              may be swapped.
 * Source    layered media by transfer matrices (textbooks of building acoustics); sets as their table
 */
pw_status pw_sound_unit(const pw_leaf leaf[], const double gap[], size_t n,
                        const pw_sound_set *set, pw_thirds *out, pw_err *err);

/* Mass-air-mass resonance of two leaves, Hz: (1/2 pi) sqrt(1.4 P/d (1/m1 + 1/m2)), P 101325 Pa. */
double pw_sound_resonance(double m1, double m2, double gap);

#endif
