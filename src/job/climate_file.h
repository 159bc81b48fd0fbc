/* Hourly weather files of three open data sets, read into a year: TMY3 csv, NSRDB (PSM) csv, PVGIS
 * TMY csv; plain or gzip; told apart by what they hold, not by their name. */
#ifndef JOB_CLIMATE_FILE_H
#define JOB_CLIMATE_FILE_H

#include "climate/place_find.h"
#include "panewright/weather.h"

typedef enum pw_climate_layout {
  PW_CLIMATE_TMY3 = 0,
  PW_CLIMATE_NSRDB,
  PW_CLIMATE_PVGIS
} pw_climate_layout;

/* What was done to a file on the way in. */
typedef struct pw_climate_report {
  pw_climate_layout layout;
  size_t rows;        /* data rows read */
  int per_hour;       /* rows an hour */
  size_t repaired;    /* hours in which something was filled by interpolation */
  size_t absent;      /* rows that the file does not have, of those filled */
  size_t longest_gap; /* h */
  size_t leap_rows;   /* rows of 29 February, left out */
  size_t
      inconsistent; /* hours whose global is not beam and diffuse together: warned, not mended */
} pw_climate_report;

/* Reads a file.
 *
 * Given     path
 * Returned  *weather; *report (may be NULL)
 * Status    PW_OK; PW_E_MISSING no such file; PW_E_DATA with file, line and column: no known
 *           layout, a row cut short or with a wrong count of columns, a value that is no number or
 *           out of its range, two years in one month (TMY layouts) or in the file (NSRDB), an hour
 *           given twice, a site off the globe, a gap of over 6 h; PW_E_IO; PW_E_NOMEM
 * Notes     1) Missing marks (-999, -9900, -9999, an empty cell) and absent rows are filled
 *              linearly over up to 6 h in beam, diffuse, global, temperature, dew point and wind;
 *              cloud, ceiling, albedo stay unknown; pressure follows the elevation.
 *           2) Rows of under an hour are averaged and the sun is taken at their middle (sun_shift_h);
 *              a mean over broken cloud makes the Perez sky 1 to 2 % brighter than its parts do.
 *           3) UTC files are turned to the whole-hour zone of their longitude.
 * Source    reference/climate/METHODS.md section 9 and reference/checks/README.md.
 */
pw_status pw_climate_read(const char *path, pw_weather *weather, pw_climate_report *report,
                          pw_err *err);

/* The same from text in memory, which is not changed; name is for messages. */
pw_status pw_climate_parse(const char *text, size_t size, const char *name, pw_weather *weather,
                           pw_climate_report *report, pw_err *err);

/* The weather that a job or a command names: an hourly file (sought beside `folder` first, which may
 * be NULL), or a built-in place by ZIP code, town, station or "latitude,longitude" (place_find.h), whose
 * year is made from its monthly normals.
 *
 * Returned  *weather; *report (may be NULL; zero but for the layout when made); *hit (may be NULL) which
 *           place was taken and how far it is; zero for a file
 * Status    as pw_climate_read and pw_place_look; a word that is neither says so
 */
pw_status pw_climate_get(const char *text, const char *folder, pw_weather *weather,
                         pw_climate_report *report, pw_place_hit *hit, pw_err *err);

const char *pw_climate_layout_name(pw_climate_layout layout);

#endif
