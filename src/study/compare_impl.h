/* The stages of the comparison, and steps of them that the studies share. */
#ifndef STUDY_COMPARE_IMPL_H
#define STUDY_COMPARE_IMPL_H

#include "house/infiltration.h"
#include "study/compare.h"

/* The stages, in this order. Each fills its own struct, given zeroed, and leaves it to be freed also when it fails. */
pw_status pw_compare_make_fitted(const pw_job *job, pw_compare_fitted *fitted, pw_err *err);
pw_status pw_compare_make_rated(const pw_job *job, const pw_compare_fitted *fitted,
                                const pw_weather *weather, const pw_compare_options *options,
                                pw_compare_rated *rated, pw_err *err);
pw_status pw_compare_make_lived(const pw_job *job, const pw_compare_fitted *fitted,
                                const pw_compare_rated *rated, const pw_weather *weather,
                                const pw_compare_options *options, pw_year_workspace *workspace,
                                pw_compare_lived *lived, pw_err *err);
/* weather, workspace: of the house before any phase, where the job looks at a later one. */
pw_status pw_compare_make_billed(const pw_job *job, const pw_compare_rated *rated,
                                 const pw_compare_lived *lived, const pw_weather *weather,
                                 const pw_compare_options *options,
                                 pw_year_workspace *workspace, pw_compare_billed *billed,
                                 pw_err *err);
void pw_compare_fitted_free(pw_compare_fitted *fitted);
void pw_compare_rated_free(pw_compare_rated *rated);
void pw_compare_lived_free(pw_compare_lived *lived);

/* Puts "kind name: " before the message of a failure and returns it. */
pw_status pw_compare_blame(pw_status status, pw_err *err, const char *kind, const char *name);

/* ---- rated */

/* Shares of glass and light that an insert keeps of the existing window. */
void pw_compare_kept(pw_compare_window *now, const pw_glazing *existing,
                     pw_compare_window *insert, const pw_glazing *glass);

/* Limits of the code, the size and the glass of a window that just meets them, from the windows as rated. */
pw_status pw_compare_minimum_find(const pw_job *job, const pw_weather *weather,
                                  pw_compare_rated *rated, pw_err *err);

/* 1st percentile of the hourly temperatures, K. Status PW_OK; PW_E_NOMEM. */
pw_status pw_compare_design_night(const pw_weather *weather, double *t_out, pw_err *err);

/* ---- lived */

/* One window of an opening as the year takes it. */
void pw_compare_house_window(const pw_opening *opening, const pw_lites *lites,
                             const pw_rating *rating, const pw_glazing *glazing,
                             pw_house_window *window);

/* Windows of the size of the package that leaves the least glass, with the U of the code, and its SHGC
 * where it sets one: the heat beside the glass and the sun let in are moved to what the code asks for.
 * Returns the count. */
size_t pw_compare_minimum_windows(const pw_job *job, const pw_compare_fitted *fitted,
                                  const pw_compare_rated *rated, pw_house_window window[]);

/* Moves the windows of rooms inside the energy of the house to the front, in their order, and returns
 * their count: what a year is run with. */
size_t pw_compare_inside(const pw_job *job, pw_house_window window[]);

/* A set of windows to be lived with. window[n_opening] is one an opening and is moved by
 * pw_compare_inside. name: for messages. hours[2][PW_HOURS]: W of heating and cooling to be kept;
 * NULL: none. */
typedef struct compare_lane {
  const char *name;
  pw_house_window *window;
  pw_lived_set *set;
  float *hours;
} compare_lane;

/* A year of each set of windows in a house, into the set's year and needs; n at most
 * PW_COMPARE_PACKAGES_MAX + 2. */
pw_status pw_compare_live(const pw_job *job, const pw_house *house, const pw_weather *weather,
                          const pw_compare_options *options, pw_year_workspace *workspace,
                          const compare_lane lane[], size_t n, pw_err *err);

/* Whether any fuel has a tariff (NULL: none has), so that bills want the hours of the needs. */
int pw_compare_hourly(const pw_tariff *const tariff[PW_FUEL_COUNT]);

/* The air through the joints of a package's windows, where the labels tell it. volume: of the house, m3. */
pw_status pw_compare_joints(const pw_job *job, const pw_compare_rated *rated, size_t package,
                            const pw_weather *weather, double volume, pw_lived_set *set,
                            pw_err *err);

/* Where the job gives cfm50 and no air_changes, the house's rate by it; where it names a model of infiltration, each
 * hour's share of the rate by it. In every set alike. */
pw_status pw_compare_air(const pw_house_facts *facts, double t_in, const pw_weather *weather,
                         pw_compare_lived *lived, pw_err *err);

/* Whether the air hangs on what stands round the house and where it leaks: by the hour, or its rate by a blower door. */
int pw_compare_air_drawn(const pw_house_facts *facts);

/* The same house with other shelter, terrain (classes, between them straight) and share of the leaks in floor and ceiling,
 * added to what is taken. Returns its mean rate over the comparison's, 1 where that is stated; hour[PW_HOURS]: the share of
 * each hour, mean 1. */
double pw_compare_air_at(const pw_compare *compare, const pw_weather *weather, double shield,
                         double terrain, double level, float hour[]);

/* The model that the job names, of a constant rate Sherman-Grimsrud; what stands round the house, as taken. */
pw_infiltration pw_compare_air_model(const pw_house_facts *facts);
pw_infiltration_site pw_compare_air_site(const pw_house_facts *facts, const pw_house *house);

/* Where the job says where the ducts lie: what they deliver of heat and cold in their season. */
void pw_compare_ducts(const pw_house_facts *facts, const pw_weather *weather,
                      pw_compare_lived *lived);

/* ---- billed */

/* The bill of needs; hours[2][PW_HOURS]: W of the year they are of, for hourly prices, or NULL. name: for messages. */
pw_status pw_compare_bill(const pw_rates *rates, const char *name, const pw_needs *needs,
                          const float *hours, pw_bill *bill, pw_err *err);

/* A set of windows that is none of the comparison's, lived with in a house and billed. */
typedef struct compare_trial {
  pw_lived_set lived;
  pw_bill bill;
} compare_trial;

/* window[n_opening] is moved by pw_compare_inside. */
pw_status pw_compare_try(const pw_compare *compare, const pw_house *house, const char *name,
                         pw_house_window window[], const pw_weather *weather,
                         const pw_compare_options *options, pw_year_workspace *workspace,
                         compare_trial *trial, pw_err *err);

/* What the house before any phase costs as computed, $ a year. */
pw_status pw_compare_cost_before(const pw_job *job, const pw_weather *weather,
                                 const pw_compare_options *options,
                                 pw_year_workspace *workspace, double *cost, pw_err *err);

#endif
