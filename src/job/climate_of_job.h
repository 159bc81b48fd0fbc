/* The year of weather that a job names: an hourly file, or a built-in place. */
#ifndef JOB_CLIMATE_OF_JOB_H
#define JOB_CLIMATE_OF_JOB_H

#include "panewright/message.h"
#include "panewright/survey.h"
#include "panewright/weather.h"
#include "study/code_limit.h"

/* What weather was taken, how far it is, how good it is; then at what height. */
enum { PW_CLIMATE_SAYS = 2 };

/* A made year is brought to the job's elevation (height.h) when the job gives one; an hourly file only when
 * correct_height says yes.
 *
 * Given     house      job.csv's climate item: a file (path below dir, or absolute), a ZIP code, a
 *                      town or station, or "lat,lon"
 *           dir        the job folder
 * Returned  *weather
 *           said       in two messages (out/climate_text.h)
 * Status    PW_OK; PW_E_MISSING no such file; PW_E_DATA no such place (the nearest is offered),
 *           a bad file; PW_E_IO. The message does not say where job.csv names it
 */
pw_status pw_job_climate(const pw_house_facts *house, const char *dir, pw_weather *weather,
                         pw_message said[PW_CLIMATE_SAYS], pw_err *err);

/* Where the job stands for the energy code, by its item code_zone, else by the place of its weather
 * (a place built in; an hourly file tells none).
 *
 * Returned  *place; its zone is "" when neither tells it, and its area 0
 * Status    PW_OK; PW_E_DATA a code_zone that is none; a bad install_date
 */
pw_status pw_job_code_place(const pw_house_facts *house, const pw_weather *weather,
                            pw_code_place *place, pw_err *err);

#endif
