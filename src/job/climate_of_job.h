/* The year of weather that a job names: an hourly file, or a built-in place. */
#ifndef JOB_CLIMATE_OF_JOB_H
#define JOB_CLIMATE_OF_JOB_H

#include "panewright/weather.h"

/* Given     text       job.csv's climate item: a file (path below dir, or absolute), a place's name,
 *                      or "lat,lon"
 *           dir        the job folder
 * Returned  *weather
 *           line       one plain line for print: what was taken and how good it is
 * Status    PW_OK; PW_E_MISSING no such file; PW_E_DATA no such place (the nearest is offered),
 *           a bad file; PW_E_IO. The message does not say where job.csv names it
 */
pw_status pw_job_climate(const char *text, const char *dir, pw_weather *weather, char line[240],
                         pw_err *err);

#endif
