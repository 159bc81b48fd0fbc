/* Steps of the comparison that the studies share. */
#ifndef STUDY_COMPARE_IMPL_H
#define STUDY_COMPARE_IMPL_H

#include "house/infiltration.h"
#include "study/compare.h"

/* The first steps, in this order. */
pw_status pw_compare_build_glass(pw_compare *compare, pw_err *err);
pw_status pw_compare_fit_all(pw_compare *compare, pw_err *err);
pw_status pw_compare_rate_all(pw_compare *compare, pw_err *err);

/* Puts "kind name: " before the message of a failure and returns it. */
pw_status pw_compare_blame(pw_status status, pw_err *err, const char *kind, const char *name);

/* One window of an opening as the year takes it. */
void pw_compare_house_window(const pw_opening *opening, const pw_lites *lites,
                             const pw_rating *rating, const pw_glazing *glazing,
                             pw_house_window *window);

/* Shares of glass and light that an insert keeps of the existing window. */
void pw_compare_kept(pw_compare_window *now, const pw_glazing *existing,
                     pw_compare_window *insert, const pw_glazing *glass);

/* Windows of the size of the package that leaves the least glass, with the U of the code, and its SHGC
 * where it sets one: the heat beside the glass and the sun let in are moved to what the code asks for.
 * Returns the count. */
size_t pw_compare_minimum_windows(const pw_compare *compare, pw_house_window window[]);

/* Sums of a set from its windows: areas, UA, mean U, SHGC, VT, light, sweating. */
void pw_compare_sum(const pw_compare *compare, int package, pw_compare_set *set);

/* Moves the windows of rooms inside the energy of the house to the front, in their order, and returns
 * their count: what a year is run with. After it each window's year is put back to its opening; one
 * outside has none. */
size_t pw_compare_lived(const pw_compare *compare, pw_house_window window[]);
void pw_compare_put_back(const pw_compare *compare, pw_year_result *year);

/* A set of windows to be lived with. window[n_opening] is one an opening and is moved by
 * pw_compare_lived. hours: for hourly prices, heating and cooling; NULL for flat ones. */
typedef struct compare_lane {
  pw_house_window *window;
  pw_compare_set *set;
  float (*hours)[PW_HOURS];
} compare_lane;

/* A year of each set of windows and its bill, into the set's year, needs and bill; n at most
 * PW_COMPARE_PACKAGES_MAX + 2. */
pw_status pw_compare_live(const pw_compare *compare, const pw_weather *weather,
                          const pw_compare_options *options, pw_year_workspace *workspace,
                          const compare_lane lane[], size_t n, pw_err *err);

/* The air through the joints of a package's windows, where the labels tell it. */
pw_status pw_compare_joints(pw_compare *compare, size_t package, const pw_weather *weather,
                            pw_err *err);

/* Where the job gives cfm50 and no air_changes, the house's rate by it; where it names a model of infiltration, each
 * hour's share of the rate by it. In every set alike. */
pw_status pw_compare_air(pw_compare *compare, const pw_weather *weather, pw_err *err);

/* Where the job says where the ducts lie: what they deliver of heat and cold in their season, into the rates. */
void pw_compare_ducts(pw_compare *compare, const pw_weather *weather);

/* Whether the air hangs on what stands round the house and where it leaks: by the hour, or its rate by a blower door. */
int pw_compare_air_drawn(const pw_compare *compare);

/* The same house with other shelter, terrain (classes, between them straight) and share of the leaks in floor and ceiling,
 * added to what is taken. Returns its mean rate over the comparison's, 1 where that is stated; hour[PW_HOURS]: the share of
 * each hour, mean 1. */
double pw_compare_air_at(const pw_compare *compare, const pw_weather *weather, double shield,
                         double terrain, double level, float hour[]);

/* The model that the job names, of a constant rate Sherman-Grimsrud; what stands round the house, as taken. */
pw_infiltration pw_compare_air_model(const pw_compare *compare);
pw_infiltration_site pw_compare_air_site(const pw_compare *compare);

/* Whether any fuel has a tariff, so that bills want the hours of the needs. */
int pw_compare_hourly(const pw_compare *compare);

/* What the house before any phase costs as computed, $ a year. */
pw_status pw_compare_cost_before(const pw_compare *compare, const pw_weather *weather,
                                 const pw_compare_options *options,
                                 pw_year_workspace *workspace, double *cost, pw_err *err);

/* Needs by month out of a year. */
void pw_compare_needs(const pw_year_result *year, pw_needs *needs);

/* 1st percentile of the hourly temperatures, K. Status PW_OK; PW_E_NOMEM. */
pw_status pw_compare_design_night(const pw_weather *weather, double *t_out, pw_err *err);

#endif
