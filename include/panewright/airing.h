/* Windows that people open: when, how much of them, and what air comes through. */
#ifndef PANEWRIGHT_AIRING_H
#define PANEWRIGHT_AIRING_H

#include <stddef.h>

#include "panewright/lites.h"

/* How the job says it. */
typedef enum pw_airing_habit {
  PW_AIRING_BLANK = 0, /* with cooling never, without it always */
  PW_AIRING_NEVER,
  PW_AIRING_EVENINGS, /* and nights */
  PW_AIRING_ALWAYS,   /* whenever it helps */
  PW_AIRING_HABITS
} pw_airing_habit;

/* The rule of a house. Windows stand open in an hour of the clock allowed, while with them shut the rooms would be warmer
 * than down_to_c and than outdoors by over_out, and it is not too damp outside; they are drawn to so far that the rooms do
 * not cool below down_to_c and the air is not changed more often than most_changes. Where there is cooling, they are shut
 * and it runs once the air alone would not hold its set point. */
typedef struct pw_airing {
  unsigned hours;      /* bit h: from h to h + 1 o'clock; 0: never */
  double share;        /* of the openable area, whole windows, that stands open; 0..1 */
  double flow;         /* times the flow of the equations; their scatter */
  double down_to_c;    /* C of room air */
  double over_out;     /* K */
  double dew_most_c;   /* C, dew point outdoors above which they are shut */
  double most_changes; /* 1/h */
} pw_airing;

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

/* Flow through all that stands open in a house: flow^2 = wind v^2 + stack dT + still, m3/s; v m/s at the mast, 10 m. */
typedef struct pw_airing_flow {
  double wind, stack, still;
  int cross; /* 1: on two walls and by EN 16798-7; 0: by de Gids and Phaff */
} pw_airing_flow;

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
