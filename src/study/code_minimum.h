/* What a new window must at least meet by the model energy code: the second base of a saving. */
#ifndef STUDY_CODE_MINIMUM_H
#define STUDY_CODE_MINIMUM_H

#include "panewright/status.h"
#include "panewright/weather.h"
#include "study/code_limit.h"

typedef struct pw_code_minimum {
  int zone;              /* climate zone 1..8; with California's code its own, 1..16 */
  double hdd65f, cdd50f; /* F day, from the hourly mean of each day */
  double u;              /* W/(m2 K), whole window */
  double shgc;           /* whole window; NAN when the code sets no limit there */
  char edition[8];
  const char *name; /* of the code; static, like those that follow */
  const char *source, *how_known;
} pw_code_minimum;

/* A new window that just meets the code: by the limits in force at the place (code_limit.h) where they are known and set a
 * U; else by the zone of degree-days, 2021 edition. Status PW_OK; PW_E_MISSING no row of reference/trade/criteria.csv. */
pw_status pw_code_minimum_at(const pw_code_place *place, const pw_code_limits *limits,
                             const pw_weather *weather, pw_code_minimum *minimum, pw_err *err);

/* The zone alone, from degree-days in F. */
int pw_code_zone(double hdd65f, double cdd50f);

#endif
