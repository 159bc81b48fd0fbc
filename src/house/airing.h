/* Windows that people open: when, how much of them, and what air comes through. */
#ifndef HOUSE_AIRING_H
#define HOUSE_AIRING_H

#include <stddef.h>

#include "panewright/lites.h"
#include "panewright/zone.h"

/* By the table air/airing: the middle of its rows. heat_set: C, by day; cool_set: C, NAN none.
 * habit blank: never with cooling, always without. */
void pw_airing_of(pw_airing_habit habit, double heat_set, double cool_set, pw_airing *airing);

/* "never", "evenings", "always"; a blank habit is what it stands for in a house with cooling or without. */
const char *pw_airing_name(pw_airing_habit habit, int cools);

/* What one window gives free at once, all sashes that can be open together. */
typedef struct pw_openable {
  double area, height; /* m2, m; 0 of a window that does not open */
} pw_openable;

/* Of what slides: the daylight of the sashes that the fixed lites can hold; of what is hinged: the share of its daylight in
 * table air/airing. A sash painted or rusted shut opens nothing. */
void pw_openable_of(const pw_lites *lites, int stuck, pw_openable *openable);

/* Flow with an insect screen over flow without. */
double pw_airing_screen(void);

/* An opening that may stand open, all of a kind. */
typedef struct pw_airing_hole {
  double facing_deg, area, height; /* m2 in all; m of one */
} pw_airing_hole;

/* Given     hole[n]; share and flow as in pw_airing; terrain: exponent of the wind profile (zone.h)
 * Returned  *out
 * Notes     1) All windows alike: each wall has its share open, heights by area.
 *           2) On one of four walls: de Gids and Phaff 1982, v of the mast. On more: EN 16798-7 for two sides with the site's
 *              wind at 10 m and the pressure difference of a suburb; the area across is the mean over a wind from each of the
 *              four sides of that wall in series with the rest (its form from memory). Whichever gives more wind.
 * Source    open_window.h; table air/airing
 */
void pw_airing_flow_of(const pw_airing_hole hole[], size_t n, double share, double flow,
                       double terrain, pw_airing_flow *out);

#endif
