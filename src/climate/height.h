/* A year of weather at another height than its station's. */
#ifndef CLIMATE_HEIGHT_H
#define CLIMATE_HEIGHT_H

#include "panewright/weather.h"

/* Fall of the temperature with height, K/m: the standard atmosphere's. Source: ISO 2533 (from memory). */
#define PW_LAPSE 0.0065

/* Less than this apart, two stations of one town differ as much by themselves: nothing is corrected.
 * Source: reference/climate2 README, check 6 (neighbours within 45 km differ by 0.57 K at the median, which
 * is 88 m); 30 m is assumed. */
#define PW_HEIGHT_LEAST 30.0

/* Moves the year from its site's height to elevation (m): temperature by PW_LAPSE a metre, the dew point with
 * it and never above the air, pressure of the standard atmosphere, long-wave of the sky by its temperature
 * as before. Sun and wind stay. The site's elevation becomes the new one.
 *
 * Returned  the change of temperature, K; 0 when the height differs by less than PW_HEIGHT_LEAST or is not
 *           finite: then nothing is changed */
double pw_weather_to_height(pw_weather *weather, double elevation);

#endif
