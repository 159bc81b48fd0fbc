/* What a duct system delivers to the rooms of what goes into it. */
#ifndef HOUSE_DUCT_H
#define HOUSE_DUCT_H

#include "panewright/weather.h"

typedef struct pw_duct {
  double tight_supply, tight_return;     /* share of the air that stays in them, 0..1 */
  double ua_supply, ua_return;           /* W/K */
  double flow;                           /* m3/s */
  double t_supply, t_room;               /* C */
  double t_round_supply, t_round_return; /* C, around the ducts */
} pw_duct;

/* Share of the heat that reaches the rooms while it runs.
 *   DE = as Bs - as Bs (1 - ar Br) dtr/dte - as (1 - Bs) dts/dte,  B = exp(-UA / (rho c q))
 * Source  ASHRAE 152, heating form (from memory) */
double pw_duct_delivers(const pw_duct *duct);

/* Where the ducts of a house lie. */
typedef enum pw_duct_place {
  PW_DUCTS_BLANK = 0, /* not said */
  PW_DUCTS_ATTIC,
  PW_DUCTS_ATTIC_SEALED, /* tested tight, well insulated */
  PW_DUCTS_CRAWL,
  PW_DUCTS_BASEMENT, /* not heated */
  PW_DUCTS_INSIDE,
  PW_DUCT_PLACES
} pw_duct_place;

/* A season of the ducts of a house. */
typedef struct pw_duct_season {
  pw_duct duct;
  double t_out;    /* C, mean of the season by degree-hours */
  double delivers; /* share of heat or cold that reaches the rooms */
} pw_duct_season;

/* Given     place; cooling 0 or 1; floor_area m2; t_room C; weather
 * Returned  *season. Sheet metal of table air/ducts: supply and return by floor area, leaks half on each side, air by floor
 *           area; around them outdoors' season mean and what the place adds or shares with the rooms
 * Notes     Sensible heat alone, regain of a basement or crawl space only by their temperature; cycling not counted.
 * Source    pw_duct_delivers; table air/ducts, from memory or assumed; the table's spans by place hold it */
void pw_duct_season_of(pw_duct_place place, int cooling, double floor_area, double t_room,
                       const pw_weather *weather, pw_duct_season *season);

/* "attic", "attic_sealed", "crawl", "basement", "inside"; "" blank. */
const char *pw_duct_place_name(pw_duct_place place);

#endif
