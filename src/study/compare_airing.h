/* How far the habit of opening windows moves what a year is: the same sets lived in by people who open little and by
 * people who open much, the ends of the rows of table air/airing (share that stands open, warmth over the heating set point and over outdoors, damp). */
#ifndef STUDY_COMPARE_AIRING_H
#define STUDY_COMPARE_AIRING_H

#include "study/compare.h"

enum { PW_AIRING_LITTLE = 0, PW_AIRING_MUCH, PW_AIRING_ENDS };

typedef struct pw_airing_end {
  double hours_warm, cooling_kwh; /* of the year, as pw_year_result has them */
} pw_airing_end;

typedef struct pw_compare_airing {
  int told; /* 1: the windows are opened, and the method lives hour by hour; else nothing else is set */
  pw_airing_end existing[PW_AIRING_ENDS];
  pw_airing_end package[PW_COMPARE_PACKAGES_MAX][PW_AIRING_ENDS];
} pw_compare_airing;

/* Given     compare with its weather, options and a workspace of the year (NULL: one for this call)
 * Returned  *airing
 * Status    PW_OK; as the year and the bill */
pw_status pw_compare_airing_of(const pw_compare *compare, const pw_weather *weather,
                               const pw_compare_options *options, pw_year_workspace *workspace,
                               pw_compare_airing *airing, pw_err *err);

#endif
