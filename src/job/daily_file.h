/* Daily mean temperatures of a place from what weather services give out:
 *
 *   date,t_mean_c            a day a row (t_mean_f, tmax and tmin are read, too)
 *   day,t_mean_c             a typical year, days 1 to 365
 *   GHCN-Daily               .dly (fixed columns), by-year rows, or a table with DATE, TMAX, TMIN, TAVG
 *   ISD-Lite                 hours in UTC; --zone tells the place's
 *   hourly years             TMY3, NSRDB, PVGIS, as job/climate_file.h; a PVGIS series of years
 */
#ifndef JOB_DAILY_FILE_H
#define JOB_DAILY_FILE_H

#include "meter/normal_use.h"
#include "panewright/weather.h"

/* Reads files.
 *
 * Given     paths  one, or several with commas between; zone_h hours of local standard time less UTC, NAN
 *                  not given
 * Returned  *daily; *site (may be NULL): of an hourly year, else zeroed; kind (may be NULL) what it was
 * Status    PW_OK; PW_E_MISSING; PW_E_DATA with the place: no layout known, a day twice, a value that is
 *           no temperature, typical and dated years together, ISD-Lite without a zone; PW_E_IO; PW_E_NOMEM
 * Notes     1) GHCN: the middle of TMAX and TMIN, else TAVG; values with a quality flag are left out.
 *           2) A day of hours needs half of them.
 * Source    reference/meter/METHODS.md section 1; GHCN-Daily readme.txt and ISD-Lite format text of
 *           NOAA NCEI (from memory); open method text 2.2.3.3 (half of the hours).
 */
pw_status pw_daily_read(const char *paths, double zone_h, pw_daily *daily, pw_site *site,
                        const char **kind, pw_err *err);

/* One file in memory. */
pw_status pw_daily_parse(const char *name, const char *text, size_t size, double zone_h,
                         pw_daily *daily, pw_err *err);

/* Daily means of an hourly year. */
pw_status pw_daily_of_weather(const pw_weather *weather, pw_daily *daily, pw_err *err);

#endif
