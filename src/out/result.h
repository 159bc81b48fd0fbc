/* The figures of a comparison, each written once: its place in the JSON, the column of the CSV, how paper rounds it, its
 * plain words, and where the comparison and its range hold it. Text, JSON, CSV, customer's pages, worksheet, --explain and the
 * page (by the JSON's key said) take them from here. */
#ifndef OUT_RESULT_H
#define OUT_RESULT_H

#include <jansson.h>

#include "out/figure.h"
#include "study/compare.h"
#include "study/range.h"

/* Of a set of windows, in the order of its JSON. */
typedef enum pw_result {
  PW_RESULT_U = 0,
  PW_RESULT_SHGC,
  PW_RESULT_VT,
  PW_RESULT_GLASS_AREA,
  PW_RESULT_HEATING,
  PW_RESULT_COOLING, /* months follow */
  PW_RESULT_PEAK_HEATING,
  PW_RESULT_PEAK_COOLING,
  PW_RESULT_HOURS_OVERHEATED,
  PW_RESULT_HOURS_WARM,
  PW_RESULT_COST,
  PW_RESULT_HEATING_COST,
  PW_RESULT_COOLING_COST,
  PW_RESULT_CO2, /* the last that the windows there now and those of the code have, too */
  PW_RESULT_GLASS_KEPT,
  PW_RESULT_LIGHT_KEPT,
  PW_RESULT_SWEAT,
  PW_RESULT_SAVING,
  PW_RESULT_SAVING_COMPUTED,
  PW_RESULT_SAVING_ENERGY,
  PW_RESULT_SAVING_FUEL,
  PW_RESULT_SAVING_CO2,
  PW_RESULT_SAVING_MINIMUM, /* the last without a price */
  PW_RESULT_PRICE,
  PW_RESULT_PAYBACK,
  PW_RESULT_PAYBACK_DISCOUNTED,
  PW_RESULT_WORTH,
  PW_RESULT_RATE,
  PW_RESULT_OPEN_AREA,     /* of a house whose windows are opened */
  PW_RESULT_HEATING_FUEL,  /* saved, by its meter; only with a range */
  PW_RESULT_COOLING_POWER, /* the same */
  PW_RESULT_COUNT
} pw_result;

typedef struct pw_result_form {
  const char *key; /* below the set in the JSON; NULL: only its range stands there */
  pw_figure kind;  /* PW_FIGURE_COUNT: on no paper */
  enum { PW_IN_RATED, PW_IN_LIVED, PW_IN_BILLED } stage; /* whose struct of the set holds it */
  size_t at;                                             /* of the double there */
  const char *ranged;     /* its key below "range"; NULL: no range is told */
  size_t band;            /* of the pw_band in pw_range_set */
  const char *about;      /* on a terminal */
  const char *say, *note; /* on the customer's pages, PW_TEXT; what stands under it */
  int better;             /* 1 more is better, -1 less, 0 neither */
  int existing, minimum;  /* 1: the pages tell it of those sets, too */
  int said;               /* 1: ready to read in the JSON's said, by both keys */
} pw_result_form;

const pw_result_form *pw_result_of(pw_result result);
double pw_result_value(pw_result result, pw_compare_set set);
const pw_band *pw_result_band(pw_result result, const pw_range_set *set);

/* A figure of something else that stands by the same key. */
void pw_result_set(json_t *object, pw_result result, double value);

/* Adds the figures from first to last to the object of a set. */
void pw_results_json(json_t *object, pw_compare_set set, pw_result first, pw_result last);

// clang-format off
/* Of one window of an opening, in the order of its JSON and of the CSV: path below the window in the JSON, column of the CSV
 * (NULL: not there), kind, 1 where it is said, where its double lies. */
#define PW_WINDOW_RESULTS(X) \
  X(AREA, NULL, "opening_area_m2", PW_DATA, 0, PW_OF_WINDOW(rating.area)) \
  X(U, "u_w_m2k", "u_w_m2k", PW_FIGURE_U, 1, PW_OF_WINDOW(rating.u)) \
  X(U_PSI, "u_psi_form_w_m2k", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.u_psi)) \
  X(SHGC, "shgc", "shgc", PW_FIGURE_RATIO, 1, PW_OF_WINDOW(rating.shgc)) \
  X(VT, "vt", "vt", PW_FIGURE_RATIO, 1, PW_OF_WINDOW(rating.vt)) \
  X(GLASS_AREA, "glass_area_m2", "glass_area_m2", PW_FIGURE_AREA, 1, \
    PW_OF_WINDOW(rating.glass_area)) \
  X(GLASS_KEPT, "glass_kept", "glass_kept", PW_FIGURE_SHARE, 1, PW_OF_WINDOW(glass_kept)) \
  X(LIGHT_KEPT, "light_kept", "light_kept", PW_FIGURE_SHARE, 1, PW_OF_WINDOW(light_kept)) \
  X(AREA_CENTER, "areas.center", "center_m2", PW_DATA, 0, PW_OF_WINDOW(rating.areas.center)) \
  X(AREA_EDGE, "areas.edge", "edge_m2", PW_DATA, 0, PW_OF_WINDOW(rating.areas.edge)) \
  X(AREA_FRAME, "areas.frame", "frame_m2", PW_DATA, 0, PW_OF_WINDOW(rating.areas.frame)) \
  X(AREA_DIVIDER, "areas.divider", "divider_m2", PW_DATA, 0, \
    PW_OF_WINDOW(rating.areas.divider)) \
  X(AREA_RETAINED, "areas.retained", "retained_m2", PW_DATA, 0, \
    PW_OF_WINDOW(rating.areas.retained)) \
  X(UA, NULL, "ua_w_k", PW_DATA, 0, PW_OF_WINDOW(rating.u) /* times the area */) \
  X(UA_CENTER, "ua_w_k.center", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.ua.center)) \
  X(UA_EDGE, "ua_w_k.edge", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.ua.edge)) \
  X(UA_FRAME, "ua_w_k.frame", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.ua.frame)) \
  X(UA_DIVIDER, "ua_w_k.divider", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.ua.divider)) \
  X(UA_RETAINED, "ua_w_k.retained", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.ua.retained)) \
  X(BARS_AREA, "bars_area_m2", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.bars_area)) \
  X(BARS_UA, "bars_ua_w_k", NULL, PW_DATA, 0, PW_OF_WINDOW(rating.bars_ua)) \
  X(SWEAT_CENTER, PW_SWEAT "center", "sweat_center_rh", PW_FIGURE_SHARE, 0, \
    PW_OF_WINDOW(sweat.center.rh)) \
  X(SWEAT_EDGE, PW_SWEAT "edge", "sweat_edge_rh", PW_FIGURE_SHARE, 0, \
    PW_OF_WINDOW(sweat.edge.rh)) \
  X(SWEAT_FRAME, PW_SWEAT "frame", "sweat_frame_rh", PW_FIGURE_SHARE, 0, \
    PW_OF_WINDOW(sweat.frame.rh)) \
  X(SWEAT_RETAINED, PW_SWEAT "retained", NULL, PW_FIGURE_SHARE, 0, \
    PW_OF_WINDOW(sweat.retained.rh)) \
  X(SWEAT_COLDEST, PW_SWEAT "coldest", "sweat_coldest_rh", PW_FIGURE_SHARE, 1, \
    PW_OF_WINDOW(sweat.coldest.rh)) \
  X(SWEAT_LOW, PW_SWEAT "coldest_low", NULL, PW_DATA, 0, PW_OF_WINDOW(sweat.coldest_rh[0])) \
  X(SWEAT_HIGH, PW_SWEAT "coldest_high", NULL, PW_DATA, 0, PW_OF_WINDOW(sweat.coldest_rh[1])) \
  X(SWEAT_MEETING, PW_SWEAT "meeting", "sweat_meeting_rh", PW_FIGURE_SHARE, 0, \
    PW_OF_WINDOW(sweat.meeting.rh)) \
  X(INNER_GLASS, "inner_glass_design_night_c", NULL, PW_FIGURE_TEMPERATURE, 1, \
    PW_OF_WINDOW(sweat.center.t)) \
  X(SOLAR, "year.solar_gain_kwh", "solar_kwh", PW_DATA, 0, PW_OF_YEAR(solar_kwh)) \
  X(LOST, "year.heat_lost_kwh", "heat_lost_kwh", PW_DATA, 0, PW_OF_YEAR(heat_lost_kwh)) \
  X(HEATING_PART, "year.heating_part_kwh", NULL, PW_DATA, 0, PW_OF_YEAR(heating_part_kwh)) \
  X(COOLING_PART, "year.cooling_part_kwh", NULL, PW_DATA, 0, PW_OF_YEAR(cooling_part_kwh)) \
  X(NEED, "year.need_kwh", NULL, PW_DATA, 0, PW_OF_YEAR(heating_part_kwh) /* and cooling */) \
  X(UNCOMFORTABLE, "year.hours_uncomfortable", NULL, PW_FIGURE_HOURS, 1, \
    PW_OF_YEAR(hours_uncomfortable)) \
  X(SAVING, "window_saving_cost_year", NULL, PW_FIGURE_MONEY, 1, PW_OF_FIRST(saving)) \
  X(PRICE, "window_price", NULL, PW_FIGURE_MONEY, 1, PW_OF_FIRST(price))
// clang-format on
#define PW_WINDOW_NAME(name, ...) PW_WINDOW_##name,
typedef enum pw_window_result {
  PW_WINDOW_RESULTS(PW_WINDOW_NAME) PW_WINDOW_COUNT
} pw_window_result;

typedef struct pw_window_form {
  const char *key, *csv;
  pw_figure kind;
  int said;
  enum {
    PW_IN_WINDOW,
    PW_IN_YEAR,
    PW_IN_FIRST
  } owner; /* a pw_compare_window, pw_year_window, pw_first_window */
  size_t at;
} pw_window_form;

const pw_window_form *pw_window_result_of(pw_window_result result);

/* NAN where the window has no such part. Of one that lies in the window or its year. */
double pw_window_value(pw_window_result result, const pw_compare_window *window,
                       const pw_year_window *year);

/* Which part of a window sweats first: one of PW_WINDOW_SWEAT_... */
pw_window_result pw_window_sweats_first(const pw_compare_window *window);

/* All of those that have a key, into the window's object; what few windows have is left out where it is not. */
void pw_window_results_json(json_t *object, const pw_compare_window *window,
                            const pw_year_window *year);

/* How a number of the JSON by that key is said; 0 when it is not. */
int pw_result_said(const char *key, pw_figure *kind);

#endif
