/* The years of a comparison looked at closely: by facade, hour by hour, and how the saving grows. */
#ifndef STUDY_COMPARE_YEAR_H
#define STUDY_COMPARE_YEAR_H

#include "study/compare.h"

enum { PW_DAYS = 365 };

/* All windows that face one eighth of the compass. */
typedef struct pw_side_year {
  int n_window;            /* by quantity; 0: no window there */
  double area, glass_area; /* m2 */
  double solar_kwh, lost_kwh;
  double solar_month_kwh[12], lost_month_kwh[12];
  double heating_part_kwh, cooling_part_kwh; /* as in pw_year_window */
} pw_side_year;

/* Given     compare; package  below 0 the existing windows, else a package
 * Returned  side[]    N NE E SE S SW W NW; sums over the openings, which are all of the house's
 * Notes     A figure that the method does not give is not a number here, too.
 */
void pw_compare_sides(const pw_compare *compare, int package, pw_side_year side[PW_FACADES]);

/* The hours of every set of a comparison: set[0] the existing windows, set[1 + p] package p. */
typedef struct pw_compare_hours {
  size_t n_set;
  pw_year_hours set[1 + PW_COMPARE_PACKAGES_MAX];
  float *store; /* owned: what the series above point into */
} pw_compare_hours;

/* Runs the years once more and keeps their hours.
 *
 * Given     compare as pw_compare_run gave it, with the weather and method it was run with;
 *           workspace (NULL: one for this call)
 * Returned  *hours, to be freed by pw_compare_hours_free
 * Status    PW_OK; PW_E_DOMAIN the monthly method, which has no hours; PW_E_NOMEM; as pw_year_run.
 *           On failure *hours owns nothing.
 */
pw_status pw_compare_hours_run(const pw_compare *compare, const pw_weather *weather,
                               pw_year_method method, pw_year_workspace *workspace,
                               pw_compare_hours *hours, pw_err *err);
void pw_compare_hours_free(pw_compare_hours *hours);

/* The day 0..364 on which the house with the existing windows wants most heat, or most cooling; where
 * it never does, the day of the lowest or highest mean outdoor temperature. */
int pw_compare_cold_day(const pw_compare_hours *hours, const pw_weather *weather);
int pw_compare_hot_day(const pw_compare_hours *hours, const pw_weather *weather);

/* What a package has saved from 1 January to the end of each day. */
typedef struct pw_saved_days {
  double heating_kwh[PW_DAYS], cooling_kwh[PW_DAYS]; /* of need */
  double cost[PW_DAYS];                              /* $; ends at saving.cost_year */
} pw_saved_days;

/* Notes  A month's bill is laid on its days by their share of that month's heating and cooling, each
 *        at its mean price of the year; so each month ends where the bill says, whatever the tariff. */
void pw_compare_saved(const pw_compare *compare, const pw_compare_hours *hours, size_t package,
                      pw_saved_days *saved);

#endif
