/* Air through the sashes of a closed window and through an insert, as leakage areas at 4 Pa; and the leakage area of a
 * house by a blower door. Areas of one window are never added to a flow: they are part of the house's (compare_tight.h).
 *
 * Source: reference/air/leakage.csv, METHODS.md section 4; most of it from memory.
 */
#ifndef HOUSE_SASH_LEAK_H
#define HOUSE_SASH_LEAK_H

#include "panewright/lites.h"

/* A leakage area, m2, from the least to the most it may be. */
typedef struct pw_leak_span {
  double low, usual, high;
} pw_leak_span;

/* Length of the joints round the sashes that move, m: midway in the face between daylight and the window's edge; a
 * meeting rail counts once, at its middle. Of a double-hung w x h with faces of nothing: 3 w + 2 h, as the handbook counts.
 * Of a window that is no rectangle by Steiner's formula for its daylight, widened by half the face. */
double pw_sash_crack(const pw_lites *lites);

/* Leakage area of the sashes that an opening has.
 *
 * Given     lites as cut; frame: of what the sashes are; state
 * Returned  the span; all 0 of a fixed window, of which nothing is published
 * Notes     Of a row's span low, value, high each state is a part, our reading: usual all of it; tight low to value, loose
 *           value to high, stuck low to the middle of tight; the middle of a part by the root of its ends' product.
 */
pw_leak_span pw_sash_leak(const pw_lites *lites, pw_frame_kind frame, pw_sash_state state);

/* The same of an insert: its sashes by the label's air leakage, m3/(s m2) at 75 Pa, else (not finite) by the published
 * range from 0.05 cfm/ft2 to the energy code's 0.3, which is taken as usual; on site up to twice the label. */
pw_leak_span pw_insert_leak(double label, double area);

/* And of the insert's joint to the old frame. foamed: 1 filled. */
pw_leak_span pw_joint_leak(double area, int foamed);

/* Leakage area of a house by the flow of a blower door at 50 Pa, m3/s. */
double pw_house_leak_area(double flow_50);

/* "tight", "usual", "loose", "stuck"; blank is usual. */
const char *pw_sash_state_name(pw_sash_state state);

#endif
