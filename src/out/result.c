#include "out/result.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "out/json.h"
#include "panewright/units.h"
#include "study/first_window.h"

#define PW_DATA PW_FIGURE_COUNT /* stands on no paper */
#define RATED(member) PW_IN_RATED, offsetof(pw_rated_set, member)
#define LIVED(member) PW_IN_LIVED, offsetof(pw_lived_set, member)
#define BILLED(member) PW_IN_BILLED, offsetof(pw_billed_set, member)
#define RANGE(key, member) .ranged = key, .band = offsetof(pw_range_set, member)
#define EVERYWHERE .existing = 1, .minimum = 1

static const pw_result_form form[PW_RESULT_COUNT] = {
    [PW_RESULT_U] = {"u_w_m2k", PW_FIGURE_U, RATED(u), RANGE("u_w_m2k", u),
                     .about = "U-factor over all openings",
                     .say = PW_TEXT("Heat-leak number (U-factor)"),
                     .note = PW_TEXT("of the whole opening; lower keeps more heat in"),
                     .better = -1, EVERYWHERE, .said = 1},
    [PW_RESULT_SHGC] = {"shgc", PW_FIGURE_RATIO, RATED(shgc), RANGE("shgc", shgc),
                        .about = "solar heat gain coefficient over all openings",
                        .say = PW_TEXT("Sun-heat number (solar heat gain coefficient)"),
                        .note = PW_TEXT("share of the sun's heat let in, 0 to 1"), EVERYWHERE,
                        .said = 1},
    [PW_RESULT_VT] = {"vt", PW_FIGURE_RATIO, RATED(vt),
                      .say = PW_TEXT("Daylight number (visible transmittance)"),
                      .note = PW_TEXT("share of daylight let in, 0 to 1"), .better = 1,
                      .existing = 1, .said = 1},
    [PW_RESULT_GLASS_AREA] = {"glass_area_m2", PW_FIGURE_AREA, RATED(glass_area),
                              .say = PW_TEXT("Glass"), .note = PW_TEXT("area to look through"),
                              .better = 1, .existing = 1, .said = 1},
    [PW_RESULT_HEATING] = {"heating_kwh", PW_FIGURE_KWH, LIVED(year.heating_kwh),
                           .about = "heat the house needs, kWh a year",
                           .say = PW_TEXT("Heating need"),
                           .note = PW_TEXT("kWh of heat a year"), .better = -1, EVERYWHERE,
                           .said = 1},
    [PW_RESULT_COOLING] = {"cooling_kwh", PW_FIGURE_KWH, LIVED(year.cooling_kwh),
                           .about = "sensible cold the house needs, kWh a year",
                           .say = PW_TEXT("Cooling need"),
                           .note = PW_TEXT("kWh of cold a year"), .better = -1, EVERYWHERE,
                           .said = 1},
    [PW_RESULT_PEAK_HEATING] = {"peak_heating_w", PW_DATA, LIVED(year.peak_heating_w)},
    [PW_RESULT_PEAK_COOLING] = {"peak_cooling_w", PW_DATA, LIVED(year.peak_cooling_w)},
    [PW_RESULT_HOURS_OVERHEATED] = {"hours_overheated", PW_DATA, LIVED(year.hours_overheated)},
    [PW_RESULT_HOURS_WARM] = {"hours_above_cool_set", PW_FIGURE_HOURS, LIVED(year.hours_warm),
                              .say = PW_TEXT("Hours too warm"),
                              .note = PW_TEXT("a year with room air above the set point given, "
                                              "windows shut"),
                              .better = -1, EVERYWHERE},
    [PW_RESULT_COST] = {"cost", PW_FIGURE_MONEY_5, BILLED(bill.cost_year),
                        RANGE("cost_year", cost_year), .about = "heating and cooling, $ a year",
                        .said = 1},
    [PW_RESULT_HEATING_COST] = {"heating_cost", PW_DATA, BILLED(bill.heating_cost)},
    [PW_RESULT_COOLING_COST] = {"cooling_cost", PW_DATA, BILLED(bill.cooling_cost)},
    [PW_RESULT_CO2] = {"co2_kg", PW_FIGURE_MASS, BILLED(bill.co2_kg),
                       .say = PW_TEXT("Carbon dioxide"),
                       .note = PW_TEXT("lb a year, of heating and cooling"), .better = -1,
                       EVERYWHERE, .said = 1},
    [PW_RESULT_GLASS_KEPT] = {"glass_kept", PW_FIGURE_SHARE, RATED(glass_kept),
                              .say = PW_TEXT("Glass kept"),
                              .note = PW_TEXT("of the area there now"), .better = 1, .said = 1},
    [PW_RESULT_LIGHT_KEPT] = {"light_kept", PW_FIGURE_SHARE, RATED(light_kept),
                              .say = PW_TEXT("Light kept"),
                              .note = PW_TEXT("of the daylight that comes in now"), .better = 1,
                              .said = 1},
    [PW_RESULT_SWEAT] = {"sweat_above_rh", PW_FIGURE_SHARE, RATED(sweat_rh),
                         .say = PW_TEXT("Begins to sweat above"),
                         .note =
                             PW_TEXT("room humidity on the cold night, worst window; higher "
                                     "is drier"),
                         .better = 1, .existing = 1, .said = 1},
    [PW_RESULT_SAVING] = {"saving", PW_FIGURE_MONEY_5, BILLED(saving.cost_year),
                          RANGE("saving_cost_year", saving_cost),
                          .about = "saved on heating and cooling, $ a year", .said = 1},
    [PW_RESULT_SAVING_COMPUTED] = {"saving_computed", PW_DATA, BILLED(saving.cost_computed)},
    [PW_RESULT_SAVING_ENERGY] = {"saving_energy_kwh", PW_DATA, BILLED(saving.need_kwh),
                                 RANGE("saving_energy_kwh_year", saving_need_kwh)},
    [PW_RESULT_SAVING_FUEL] = {"saving_fuel_kwh", PW_FIGURE_KWH, BILLED(saving.fuel_kwh),
                               RANGE("saving_fuel_kwh_year", saving_fuel_kwh)},
    [PW_RESULT_SAVING_CO2] = {"saving_co2_kg", PW_DATA, BILLED(saving.co2_kg)},
    [PW_RESULT_SAVING_MINIMUM] = {"saving_over_code_minimum", PW_FIGURE_MONEY_5,
                                  BILLED(saving_minimum.cost_year),
                                  RANGE("saving_over_code_minimum_year", saving_minimum),
                                  .about = "the same against new windows of the code",
                                  .said = 1},
    [PW_RESULT_PRICE] = {"price", PW_FIGURE_MONEY, BILLED(price), .said = 1},
    [PW_RESULT_PAYBACK] = {"payback_years", PW_FIGURE_YEARS, BILLED(worth.simple_payback),
                           RANGE("payback_years", payback), .about = "simple payback, years",
                           .said = 1},
    [PW_RESULT_PAYBACK_DISCOUNTED] = {"discounted_payback_years", PW_DATA,
                                      BILLED(worth.discounted_payback)},
    [PW_RESULT_WORTH] = {"net_present_worth", PW_FIGURE_MONEY_5,
                         BILLED(worth.net_present_worth),
                         RANGE("net_present_worth", net_present_worth),
                         .about = "net present worth, $"},
    [PW_RESULT_RATE] = {"internal_rate", PW_DATA, BILLED(worth.internal_rate.rate)},
    [PW_RESULT_OPEN_AREA] = {"openable_m2", PW_FIGURE_AREA, RATED(open_area),
                             .say = PW_TEXT("Can be opened"),
                             .note = PW_TEXT("of all windows, at once"), .better = 1,
                             EVERYWHERE},
    [PW_RESULT_HEATING_FUEL] = {NULL, PW_DATA,
                                RANGE("saving_heating_fuel_kwh_year", saving_heating_fuel_kwh),
                                .about = "fuel saved on heating as its meter counts it, kWh a "
                                         "normal year"},
    [PW_RESULT_COOLING_POWER] = {NULL, PW_DATA,
                                 RANGE("saving_cooling_kwh_year", saving_cooling_kwh),
                                 .about =
                                     "electricity saved on cooling as its meter counts it, "
                                     "kWh a normal year"},
};

#define PW_SWEAT "sweat_above_rh."
#define PW_OF_WINDOW(member) PW_IN_WINDOW, offsetof(pw_compare_window, member)
#define PW_OF_YEAR(member) PW_IN_YEAR, offsetof(pw_year_window, member)
#define PW_OF_FIRST(member) PW_IN_FIRST, offsetof(pw_first_window, member)
#define PW_WINDOW_FORM(name, ...) [PW_WINDOW_##name] = {__VA_ARGS__},

static const pw_window_form window[PW_WINDOW_COUNT] = {PW_WINDOW_RESULTS(PW_WINDOW_FORM)};

const pw_result_form *pw_result_of(pw_result r) { return &form[r]; }
const pw_window_form *pw_window_result_of(pw_window_result r) { return &window[r]; }

static double at(const void *start, size_t offset)
{
  double v;
  memcpy(&v, (const char *)start + offset, sizeof v);
  return v;
}

double pw_result_value(pw_result r, pw_compare_set set)
{
  const void *const of[] = {set.rated, set.lived, set.billed};
  return at(of[form[r].stage], form[r].at);
}

const pw_band *pw_result_band(pw_result r, const pw_range_set *set)
{
  return (const pw_band *)(const void *)((const char *)set + form[r].band);
}

void pw_result_set(json_t *o, pw_result r, double value) { pw_json_set(o, form[r].key, value); }

void pw_results_json(json_t *o, pw_compare_set set, pw_result first, pw_result last)
{
  for (int r = first; r <= (int)last; r++)
    pw_result_set(o, (pw_result)r, pw_result_value((pw_result)r, set));
}

double pw_window_value(pw_window_result r, const pw_compare_window *w, const pw_year_window *y)
{
  switch (r) {
  case PW_WINDOW_UA:
    return w->rating.u * w->rating.area;
  case PW_WINDOW_NEED:
    return y->heating_part_kwh + y->cooling_part_kwh;
  case PW_WINDOW_SWEAT_RETAINED:
    return isfinite(w->sweat.retained.t) ? w->sweat.retained.rh : (double)NAN;
  case PW_WINDOW_SWEAT_MEETING:
    return isfinite(w->sweat.meeting.t) ? w->sweat.meeting.rh : (double)NAN;
  default:
    return window[r].owner == PW_IN_YEAR ? at(y, window[r].at) : at(w, window[r].at);
  }
}

pw_window_result pw_window_sweats_first(const pw_compare_window *w)
{
  static const pw_window_result part[] = {PW_WINDOW_SWEAT_CENTER,  PW_WINDOW_SWEAT_EDGE,
                                          PW_WINDOW_SWEAT_FRAME,   PW_WINDOW_SWEAT_RETAINED,
                                          PW_WINDOW_SWEAT_COLDEST, PW_WINDOW_SWEAT_MEETING};
  pw_window_result first = part[0];
  for (size_t i = 1; i < sizeof part / sizeof part[0]; i++)
    if (pw_window_value(part[i], w, NULL) < pw_window_value(first, w, NULL)) first = part[i];
  return first;
}

/* By a path: "year.need_kwh" is need_kwh of the object year, made when it is not there. */
static void set_path(json_t *o, const char *path, double v)
{
  const char *dot = strchr(path, '.');
  if (dot) {
    char name[32];
    snprintf(name, sizeof name, "%.*s", (int)(dot - path), path);
    if (!json_object_get(o, name)) json_object_set_new(o, name, json_object());
    o = json_object_get(o, name);
  }
  pw_json_set(o, dot ? dot + 1 : path, v);
}

/* Whether a window without such a part lacks the key, too; else it is null. */
static int left_out(pw_window_result r, const pw_compare_window *w)
{
  if (r == PW_WINDOW_BARS_AREA || r == PW_WINDOW_BARS_UA) return !(w->rating.bars_area > 0.0);
  return r == PW_WINDOW_SWEAT_MEETING && !isfinite(w->sweat.meeting.t);
}

void pw_window_results_json(json_t *o, const pw_compare_window *w, const pw_year_window *y)
{
  for (int i = 0; i < PW_WINDOW_COUNT; i++) {
    pw_window_result r = (pw_window_result)i;
    if (!window[r].key || window[r].owner == PW_IN_FIRST || left_out(r, w)) continue;
    double v = pw_window_value(r, w, y);
    set_path(o, window[r].key, window[r].kind == PW_FIGURE_TEMPERATURE ? pw_c(v) : v);
  }
}

/* The key of a number of which a path says where it stands. */
static int ends_in(const char *path, const char *key)
{
  const char *dot = path ? strchr(path, '.') : NULL;
  return path && strcmp(dot ? dot + 1 : path, key) == 0;
}

int pw_result_said(const char *key, pw_figure *kind)
{
  *kind = strcmp(key, "opening_area_m2") == 0    ? PW_FIGURE_AREA
          : strcmp(key, "design_outdoor_c") == 0 ? PW_FIGURE_TEMPERATURE
                                                 : PW_DATA;
  for (size_t i = 0; *kind == PW_DATA && i < PW_RESULT_COUNT; i++)
    if (form[i].said && (ends_in(form[i].key, key) || ends_in(form[i].ranged, key)))
      *kind = form[i].kind;
  for (size_t i = 0; *kind == PW_DATA && i < PW_WINDOW_COUNT; i++)
    if (window[i].said && ends_in(window[i].key, key)) *kind = window[i].kind;
  return *kind != PW_DATA;
}
