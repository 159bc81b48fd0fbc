/* The sound of a whole opening: glass, frame and joints side by side. */
#ifndef WINDOW_OPENING_SOUND_H
#define WINDOW_OPENING_SOUND_H

#include <stddef.h>

#include "panewright/lites.h"
#include "panewright/status.h"
#include "sound/slit.h"
#include "sound/thirds.h"

typedef struct pw_sound_part {
  double area; /* m2 */
  const pw_thirds *r;
} pw_sound_part;

typedef struct pw_sound_joint {
  double area; /* m2, open: length times width */
  pw_slit slit;
} pw_sound_joint;

/* Composite reduction over `area`.
 *
 *   tau = (sum S_i tau_i + sum s_j tau_slit,j) / S
 *
 * Given     part[n], joint[m] (m 0: NULL), area m2
 * Returned  *out; NAN in a band that a part does not know
 * Status    PW_OK; PW_E_SHAPE n 0; PW_E_DOMAIN an area below 0, area not above 0
 * Source    energy sum, any textbook (Hopkins, Sound Insulation, eq. 4.92)
 */
pw_status pw_sound_composite(const pw_sound_part part[], size_t n, const pw_sound_joint joint[],
                             size_t m, double area, pw_thirds *out, pw_err *err);

/* Joints that sound passes, m: round what moves, and the edge of what is fixed. */
typedef struct pw_joint_lengths {
  double moving, fixed;
} pw_joint_lengths;
void pw_joints_of(const pw_lites *lites, pw_joint_lengths *joints);

/* The open joint of an effective leakage area (m2, at 4 Pa) along length m; `gape` 0 to 1 from even all
 * along to gaping a millimetre (joints.csv width) in part. No length or no area: no joint. */
pw_sound_joint pw_sound_joint_of(double open_area, double length, double gape, double depth);

/* A new window by itself from its glass unit.
 *
 * Given     rw, rw_ctr   of the unit, whole dB; area of the window, m2
 * Returned  *window_rw, *window_rw_ctr; NAN where the unit lies outside the table
 * Notes     For a single window that opens, without glazing bars, with soft continuous seals, air class 3
 *           (sliding 2) or better. It does not cover a window in a retained aluminium frame.
 * Source    EN 14351-1 annex B, reference/sound/en14351.csv (from memory, limits read)
 */
void pw_window_en_14351(double rw, double rw_ctr, double area, double *window_rw,
                        double *window_rw_ctr);

#endif
