/* A second model of the house year, written apart from src/house: textbook films, finite differences, a single
 * temperature of the zone. It shares with the first the description of the house and the weather, no code. */
#ifndef CHECK_SECOND_MODEL_H
#define CHECK_SECOND_MODEL_H

#include "panewright/weather.h"
#include "panewright/year.h"

typedef struct second_year {
  double heating_kwh[12], cooling_kwh[12];
} second_year;

/* Given     house and windows as pw_year_run takes them; count 0 means 1
 * Returned  *out
 * Status    PW_OK; PW_E_NOMEM
 * Source    Films: ISO 6946:2017 R_si 0.10, 0.13, 0.17; outdoors 4 + 4 v before the wall and 5.1 times the
 *           emittance by radiation. Sol-air temperature with 63 W/m2 to the sky from a roof, none from a
 *           wall (ASHRAE handbook of fundamentals). Sun: Spencer 1971; sky: Hay & Davies 1980 with the
 *           ground's 0.2. Walls: implicit differences, four nodes a layer. Window: U of the rating with the
 *           outdoor film moved to the hour's wind, SHGC by angle of incidence; three fifths of the sun on
 *           the floor. Wind before the wall: half of the mast's. All from memory.
 */
pw_status second_year_of(const pw_house *house, const pw_weather *weather,
                         const pw_house_window window[], size_t n, second_year *out,
                         pw_err *err);

#endif
