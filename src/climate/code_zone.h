/* The climate zone of the energy code from what a job says of its place. */
#ifndef CLIMATE_CODE_ZONE_H
#define CLIMATE_CODE_ZONE_H

#include "panewright/status.h"

typedef struct pw_code_zone_said {
  char zone[4];  /* "4B", "4"; "" not said */
  int ca_zone;   /* 1..16; 0 not said */
  char from[80]; /* "as the job says", "of Maricopa County, AZ" */
} pw_code_zone_said;

/* A zone as a job names it: "4B" or "zone 4" (1 to 8, with or without A, B or C), "CA 12" or "California
 * zone 12", or a county ("Maricopa", "Maricopa County"), for which the state's two letters are needed.
 *
 * Status    PW_OK; PW_E_DATA none of these (the message says what is accepted, and the nearest county)
 * Source    reference/climate2/zone_by_county.csv: zones of the 2012 edition.
 */
pw_status pw_code_zone_look(const char *text, const char *state, pw_code_zone_said *said,
                            pw_err *err);

#endif
