#include "out/airing_out.h"
#include "out/text_stream.h"

#include <math.h>

#include "gen/reference.h"
#include "house/airing.h"
#include "out/clip.h"
#include "out/compare_out.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/ref_row.h"
#include "out/result.h"
#include "out/wrap.h"
#include "panewright/units.h"

enum { WIDE = 100 };

#define ROW(name) (&pw_ref_air_airing[pw_ref_air_airing__##name])

static double kelvin(const pw_unit_set *units, double k) { return units->si ? k : 1.8 * k; }

static const char *habit(const pw_compare *c)
{
  return pw_airing_name((pw_airing_habit)c->job->house.airing, c->billed.rates.cools);
}

/* Air changes an hour while windows are open, as a mean; 0 never. */
static double pw_airing_changes(const pw_compare *c, const pw_lived_set *set)
{
  return set->year.open_m3_s * 3600.0 / c->lived.house.volume;
}

static const pw_airing_end *ends_of(const pw_compare_airing *span, int s)
{
  return s < 0 ? span->existing : span->package[s];
}

static pw_status table(const pw_compare *c, const pw_compare_airing *span,
                       const pw_unit_set *units, FILE *f, pw_err *err)
{
  const int cools = c->billed.rates.cools, told = span && span->told;
  const char *const header[] = {
      "<windows",     units->si ? "opens m2" : "opens ft2", "hours open", "air 1/h",
      "heat out kWh", cools ? "cool kWh" : "warm h",        "little",     "much"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0] - (told ? 0 : 2), header);
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_compare_set set = pw_compare_set_of(c, s);
    pw_grid_cell(g, "%s", pw_clip(set.rated->name, 16).text);
    pw_grid_number(g, pw_show_area(units, set.rated->open_area), 1);
    pw_grid_number(g, set.lived->year.hours_open, 0);
    pw_grid_number(g, pw_airing_changes(c, set.lived), 1);
    pw_grid_number(g, set.lived->year.airing_kwh, 0);
    pw_grid_number(g, cools ? set.lived->year.cooling_kwh : set.lived->year.hours_warm, 0);
    for (int k = 0; told && k < PW_AIRING_ENDS; k++) {
      const pw_airing_end *end = &ends_of(span, s)[k];
      pw_grid_number(g, cools ? end->cooling_kwh : end->hours_warm, 0);
    }
  }
  fprintf(
      f,
      "\nOpened windows, %s: what can be opened, the hours of a year in which some are, the "
      "air then,\nthe heat that leaves with it%s\n",
      habit(c),
      !told   ? ""
      : cools ? "; cooling, and that of people who open little and much"
              : "; warm hours, and those of people who open little and much");
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

static pw_status rule(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  const pw_airing *a = &c->lived.house.airing;
  char text[700];
  pw_airing_flow flow;
  pw_status status = pw_compare_open_flow(c, -1, &flow, err);
  if (status != PW_OK) return status;
  snprintf(
      text, sizeof text,
      "%.0f %% of it stands open, whole windows, while with them shut the rooms would be "
      "over %.0f %s and %.1f %s warmer than outdoors, the dew point outdoors is %.0f %s at "
      "most and the air is changed %.0f times an hour at most; they are drawn to before "
      "the rooms get cooler than that.%s",
      100.0 * a->share, pw_show_temperature(units, pw_k(a->down_to_c)), units->temperature,
      kelvin(units, a->over_out), units->si ? "K" : "F",
      pw_show_temperature(units, pw_k(a->dew_most_c)), units->temperature, a->most_changes,
      c->billed.rates.cools ? " Where the air alone would not hold cool_set they are shut and "
                              "the cooling runs."
                            : "");
  pw_wrap(f, "", text, WIDE);
  snprintf(
      text, sizeof text,
      "Air by %s, an insect screen holds back a quarter. A sash painted shut (sash_leak "
      "stuck) opens nothing. Most of this is from memory, and people differ more than "
      "weather: little is a share of %.0f %%, %.1f over the heating set point, %.1f over "
      "outdoors and %.0f %s, much %.0f %%, %.1f, %.1f and %.0f %s; --range draws them, and "
      "the flow.",
      flow.cross ? "EN 16798-7 for windows on more than one wall, wind of a suburb"
                 : "de Gids and Phaff 1982, windows on one wall",
      100.0 * ROW(share)->low, kelvin(units, ROW(over_heat)->high),
      kelvin(units, ROW(over_out)->high), pw_show_temperature(units, pw_k(ROW(dew_most)->low)),
      units->temperature, 100.0 * ROW(share)->high, kelvin(units, ROW(over_heat)->low),
      kelvin(units, ROW(over_out)->low), pw_show_temperature(units, pw_k(ROW(dew_most)->high)),
      units->temperature);
  pw_wrap(f, "", text, WIDE);
  return PW_OK;
}

pw_status pw_airing_text(const pw_compare *c, const pw_compare_airing *span,
                         const pw_unit_set *units, FILE *f, pw_err *err)
{
  if (!c->lived.house.airing.hours) return PW_OK;
  if (!isfinite(c->lived.existing_set.year.hours_open)) {
    fputs("\nOpened windows: the monthly method keeps them shut.\n", f);
    return PW_OK;
  }
  pw_status status = table(c, span, units, f, err);
  if (status == PW_OK) status = rule(c, units, f, err);
  if (status != PW_OK) return status;
  return pw_text_written(f, "the airing", err);
}

/* ---------------------------------------------------------------- JSON */

void pw_airing_set_json(pw_compare_set set, json_t *o)
{
  pw_result_set(o, PW_RESULT_OPEN_AREA, set.rated->open_area);
  pw_json_set(o, "hours_open", set.lived->year.hours_open);
  pw_json_set(o, "open_flow_m3_s", set.lived->year.open_m3_s);
  pw_json_set(o, "airing_kwh", set.lived->year.airing_kwh);
}

static json_t *ends_json(const pw_airing_end end[PW_AIRING_ENDS])
{
  static const char *const name[] = {"opened_little", "opened_much"};
  json_t *o = json_object();
  for (int k = 0; k < PW_AIRING_ENDS; k++) {
    json_t *one = json_object();
    pw_result_set(one, PW_RESULT_HOURS_WARM, end[k].hours_warm);
    pw_result_set(one, PW_RESULT_COOLING, end[k].cooling_kwh);
    json_object_set_new(o, name[k], one);
  }
  return o;
}

json_t *pw_airing_json(const pw_compare *c, const pw_compare_airing *span)
{
  const pw_airing *a = &c->lived.house.airing;
  json_t *o = json_object(), *hours = json_array();
  for (int h = 0; h < 24; h++)
    if (a->hours >> h & 1u) json_array_append_new(hours, json_integer(h));
  pw_json_set_text(o, "habit", habit(c));
  json_object_set_new(o, "hours", hours);
  pw_json_set(o, "share_open", a->share);
  pw_json_set(o, "rooms_down_to_c", a->down_to_c);
  pw_json_set(o, "over_outdoors_k", a->over_out);
  pw_json_set(o, "dew_point_at_most_c", a->dew_most_c);
  pw_json_set(o, "changes_at_most_1_h", a->most_changes);
  if (!span || !span->told) return o;
  json_t *packages = json_array();
  json_object_set_new(o, "existing", ends_json(span->existing));
  for (size_t p = 0; p < c->n_package; p++)
    json_array_append_new(packages, ends_json(span->package[p]));
  json_object_set_new(o, "packages", packages);
  return o;
}

/* ---------------------------------------------------------------- the chain */

static pw_status windows(const pw_compare *c, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<opening", "<now",  "windows",  "faces", "opens m2",
                                       "high m",   "<with", "opens m2", "high m"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    pw_openable open;
    if (o->unconditioned) continue;
    pw_grid_cell(g, "%s", o->tag);
    for (int p = -1; p < 1; p++) {
      const pw_lites *lites = pw_compare_lites(c->job, &c->fitted, p, i);
      int stuck = pw_compare_is_stuck(c->job, p, i);
      pw_openable_of(lites, stuck, &open);
      pw_grid_cell(g, "%s%s", pw_operator_name(lites->operator_), stuck ? ", stuck" : "");
      if (p < 0) {
        pw_grid_cell(g, "%d", o->quantity);
        pw_grid_cell(g, "%.0f", o->facing_deg);
      }
      pw_grid_number(g, open.area, 3);
      pw_grid_number(g, open.height, 2);
    }
  }
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

static pw_status flows(const pw_compare *c, FILE *f, pw_err *err)
{
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_compare_set set = pw_compare_set_of(c, s);
    pw_airing_flow k;
    char text[400];
    pw_status status = pw_compare_open_flow(c, s, &k, err);
    if (status != PW_OK) return status;
    double at = sqrt(k.wind * 9.0 + k.stack * 4.0 + k.still);
    snprintf(
        text, sizeof text,
        "%.40s: %.3f m2 can be opened; flow^2 = %.3g v^2 + %.3g dT + %.3g (m3/s)^2 by %s; "
        "at 3 m/s and 4 K %.3f m3/s, %.2f changes an hour; in the year open %.0f h at %.3f "
        "m3/s in the mean, %.0f kWh carried out",
        set.rated->name, set.rated->open_area, k.wind, k.stack, k.still,
        k.cross ? "EN 16798-7, two sides" : "de Gids and Phaff 1982", at,
        at * 3600.0 / c->lived.house.volume, set.lived->year.hours_open,
        set.lived->year.open_m3_s, set.lived->year.airing_kwh);
    pw_wrap(f, "  ", text, WIDE);
  }
  return PW_OK;
}

pw_status pw_airing_explain(const pw_compare *c, const pw_unit_set *units, FILE *f, pw_err *err)
{
  if (!c->lived.house.airing.hours)
    return pw_fail(err, PW_E_DATA, "explain",
                   "--explain airing: this house's windows stay shut; want airing evenings or "
                   "always in job.csv");
  fputs("airing: what opened windows carry out of the house\n", f);
  pw_wrap(f, "  ",
          "open area = what opens of each window x share; of a window that slides the daylight "
          "of the sashes that its fixed lites can hold, of a hinged one a share of its "
          "daylight. One wall: Q = A/2 sqrt(0.001 v^2 + 0.0035 H dT + 0.01); more: Q^2 = (Cd "
          "A_across v sqrt(dCp))^2 + (A/2)^2 0.0035 H dT, A_across the mean over a wind from "
          "each side of 1/sqrt(1/A_that^2 + 1/A_rest^2), v of the site at 10 m. Heat out = "
          "rho c Q (Ti - To)",
          WIDE);
  fputs("\nWindows, each; the first package\n", f);
  pw_status status = windows(c, f, err);
  if (status != PW_OK) return status;
  fputs("\nThe house\n", f);
  if (isfinite(c->lived.existing_set.year.hours_open)) {
    status = flows(c, f, err);
    if (status == PW_OK) status = rule(c, units, f, err);
  }
  fputs("\nWhat goes in (reference/air/airing.csv)\n", f);
  for (size_t i = 0; i < (size_t)pw_ref_air_airing__n; i++) {
    const pw_ref_air_airing_row *r = &pw_ref_air_airing[i];
    pw_ref_row_say(f, r->key, r->value, r->low, r->high, r->unit, r->source, r->how_known);
  }
  if (status != PW_OK) return status;
  return pw_text_written(f, "the airing", err);
}
