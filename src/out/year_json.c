#include <math.h>
#include <stdio.h>

#include "out/calendar.h"
#include "out/climate_text.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/result.h"
#include "out/year_out.h"

static json_t *side_json(const pw_side_year *side, size_t k)
{
  json_t *o = json_object();
  pw_json_set_text(o, "facing", pw_side_name[k]);
  json_object_set_new(o, "windows", json_integer(side->n_window));
  pw_json_set(o, "opening_area_m2", side->area);
  pw_json_set(o, "glass_area_m2", side->glass_area);
  pw_json_set(o, "solar_gain_kwh", side->solar_kwh);
  pw_json_set(o, "heat_lost_kwh", side->lost_kwh);
  pw_json_set(o, "heating_part_kwh", side->heating_part_kwh);
  pw_json_set(o, "cooling_part_kwh", side->cooling_part_kwh);
  json_object_set_new(o, "solar_gain_month_kwh", pw_json_array(side->solar_month_kwh, 12));
  json_object_set_new(o, "heat_lost_month_kwh", pw_json_array(side->lost_month_kwh, 12));
  return o;
}

static json_t *opening_json(const pw_opening *opening, const pw_year_window *w)
{
  json_t *o = json_object();
  pw_json_set_text(o, "tag", opening->tag);
  pw_json_set(o, "quantity", (double)opening->quantity);
  pw_json_set(o, "facing_deg", opening->facing_deg);
  pw_json_set(o, "sun_on_glass_kwh", w->incident_kwh);
  pw_json_set(o, "sun_passed_kwh", w->transmitted_kwh);
  pw_json_set(o, "solar_gain_kwh", w->solar_kwh);
  pw_json_set(o, "heat_lost_kwh", w->heat_lost_kwh);
  pw_json_set(o, "heating_part_kwh", w->heating_part_kwh);
  pw_json_set(o, "cooling_part_kwh", w->cooling_part_kwh);
  json_object_set_new(o, "solar_gain_month_kwh", pw_json_array(w->solar_month_kwh, 12));
  json_object_set_new(o, "heat_lost_month_kwh", pw_json_array(w->lost_month_kwh, 12));
  pw_json_set(o, "hours_uncomfortable", w->hours_uncomfortable);
  pw_json_set(o, "radiant_min_c", w->radiant_min_c);
  pw_json_set(o, "inner_glass_min_c", w->t_inner_min_c);
  pw_json_set(o, "inner_glass_max_c", w->t_inner_max_c);
  return o;
}

/* The hour of a peak as a day of the year and the clock hour it begins at; null without a peak. */
static void set_hour(json_t *o, const char *key, double w, int hour)
{
  char text[48];
  int day = hour / 24, month = pw_month_of_day(hour >= 0 ? day : 0);
  if (!(hour >= 0 && w > 0.0)) {
    json_object_set_new(o, key, json_null());
    return;
  }
  snprintf(text, sizeof text, "%02d-%02dT%02d", month + 1, day - pw_month_start[month] + 1,
           hour % 24);
  pw_json_set_text(o, key, text);
}

static json_t *set_json(const pw_compare *c, int s)
{
  json_t *o = json_object(), *sides = json_array(), *openings = json_array();
  const pw_compare_set set = pw_compare_set_of(c, s);
  const pw_year_result *y = &set.lived->year;
  pw_side_year side[PW_FACADES];
  pw_compare_sides(c, s, side);
  if (s >= 0) pw_json_set_text(o, "package", set.rated->name);
  pw_result_set(o, PW_RESULT_HEATING, y->heating_kwh);
  pw_result_set(o, PW_RESULT_COOLING, y->cooling_kwh);
  json_object_set_new(o, "heating_month_kwh", pw_json_array(y->heating_month_kwh, 12));
  json_object_set_new(o, "cooling_month_kwh", pw_json_array(y->cooling_month_kwh, 12));
  pw_json_set(o, "peak_heating_w", y->peak_heating_w);
  set_hour(o, "peak_heating_at", y->peak_heating_w, y->peak_heating_hour);
  pw_json_set(o, "peak_cooling_w", y->peak_cooling_w);
  set_hour(o, "peak_cooling_at", y->peak_cooling_w, y->peak_cooling_hour);
  pw_json_set(o, "hours_overheated", y->hours_overheated);
  pw_json_set(o, "hours_cold", y->hours_cold);
  pw_json_set(o, "air_min_c", y->t_air_min_c);
  pw_json_set(o, "air_max_c", y->t_air_max_c);
  pw_json_set(o, "air_mean_c", y->t_air_mean_c);
  pw_json_set(o, "solar_gain_kwh", y->solar_kwh);
  pw_json_set(o, "window_loss_kwh", y->window_loss_kwh);
  pw_json_set(o, "opaque_loss_kwh", y->opaque_loss_kwh);
  pw_json_set(o, "air_loss_kwh", y->air_loss_kwh);
  pw_json_set(o, "inside_gain_kwh", y->gain_kwh);
  pw_json_set(o, "stored_kwh", y->stored_kwh);
  pw_result_set(o, PW_RESULT_COST, set.billed->bill.cost_year);
  for (size_t k = 0; k < PW_FACADES; k++)
    if (side[k].n_window) json_array_append_new(sides, side_json(&side[k], k));
  json_object_set_new(o, "facades", sides);
  for (size_t i = 0; i < c->n_opening; i++)
    json_array_append_new(openings, opening_json(&c->job->opening[i], &y->window[i]));
  json_object_set_new(o, "openings", openings);
  return o;
}

static json_t *series(const float hour[], int day)
{
  double v[24];
  for (int i = 0; i < 24; i++)
    v[i] = (double)hour[24 * day + i];
  return pw_json_array(v, 24);
}

static json_t *day_of_set(const pw_year_hours *h, int day)
{
  json_t *o = json_object();
  json_object_set_new(o, "heating_w", series(h->heating_w, day));
  json_object_set_new(o, "cooling_w", series(h->cooling_w, day));
  json_object_set_new(o, "air_c", series(h->t_air_c, day));
  json_object_set_new(o, "radiant_c", series(h->t_radiant_c, day));
  json_object_set_new(o, "window_w", series(h->window_w, day));
  json_object_set_new(o, "solar_gain_w", series(h->solar_w, day));
  json_object_set_new(o, "sun_passed_w", series(h->transmitted, day));
  return o;
}

static json_t *day_json(const pw_compare *c, const pw_compare_hours *hours,
                        const pw_weather *weather, int day)
{
  json_t *o = json_object(), *packages = json_array();
  double out[24];
  char text[8];
  int month = pw_month_of_day(day);
  snprintf(text, sizeof text, "%02d-%02d", (month + 1) % 100,
           (day - pw_month_start[month] + 1) % 100);
  pw_json_set_text(o, "date", text);
  for (int i = 0; i < 24; i++)
    out[i] = (double)weather->hour[24 * day + i].t_air;
  json_object_set_new(o, "outdoor_c", pw_json_array(out, 24));
  json_object_set_new(o, "existing", day_of_set(&hours->set[0], day));
  for (size_t p = 0; p < c->n_package; p++) {
    json_t *one = day_of_set(&hours->set[1 + p], day);
    pw_json_set_text(one, "package", c->rated.package_set[p].name);
    json_array_append_new(packages, one);
  }
  json_object_set_new(o, "packages", packages);
  return o;
}

static json_t *saved_json(const pw_compare *c, const pw_compare_hours *hours, size_t p)
{
  json_t *o = json_object();
  pw_saved_days saved;
  pw_compare_saved(c, hours, p, &saved);
  json_object_set_new(o, "heating_kwh", pw_json_array(saved.heating_kwh, PW_DAYS));
  json_object_set_new(o, "cooling_kwh", pw_json_array(saved.cooling_kwh, PW_DAYS));
  json_object_set_new(o, "cost", pw_json_array(saved.cost, PW_DAYS));
  return o;
}

json_t *pw_year_json(const pw_compare *c, const pw_compare_frame *frame,
                     const pw_compare_hours *hours, const pw_weather *weather)
{
  int with_hours = hours && hours->n_set;
  json_t *root = json_object(), *packages = json_array();
  pw_json_set_text(root, "job", c->job->house.job);
  pw_json_set_text(root, "climate",
                   pw_climate_text(NULL, frame->climate, (char[PW_CLIMATE_TEXT]){""}));
  pw_json_set_text(root, "method", frame->method);
  json_object_set_new(root, "existing", set_json(c, -1));
  for (size_t p = 0; p < c->n_package; p++) {
    json_t *o = set_json(c, (int)p);
    if (with_hours) json_object_set_new(o, "saved_by_day", saved_json(c, hours, p));
    json_array_append_new(packages, o);
  }
  json_object_set_new(root, "packages", packages);
  if (!with_hours) return root;
  json_object_set_new(root, "cold_day",
                      day_json(c, hours, weather, pw_compare_cold_day(hours, weather)));
  json_object_set_new(root, "hot_day",
                      day_json(c, hours, weather, pw_compare_hot_day(hours, weather)));
  return root;
}

/* Rows of one set and month; month 12 is the year. */
static void csv_rows(pw_grid *g, pw_compare_set set, const pw_side_year side[], int m)
{
  const pw_year_result *y = &set.lived->year;
  double sun = 0.0, lost = 0.0;
  char month[8];
  snprintf(month, sizeof month, "%d", (m + 1) % 100);
  for (size_t k = 0; k <= PW_FACADES; k++) {
    int all = k == PW_FACADES;
    if (!all && !side[k].n_window) continue;
    double in = all ? sun : m == 12 ? side[k].solar_kwh : side[k].solar_month_kwh[m];
    double out = all ? lost : m == 12 ? side[k].lost_kwh : side[k].lost_month_kwh[m];
    sun += in;
    lost += out;
    pw_grid_cell(g, "%s", set.rated->name);
    pw_grid_cell(g, "%s", m == 12 ? "year" : month);
    pw_grid_cell(g, "%s", all ? "all" : pw_side_name[k]);
    pw_grid_number(g, in, 2);
    pw_grid_number(g, out, 2);
    pw_grid_number(g, in - out, 2);
    if (all) {
      pw_grid_number(g, m == 12 ? y->heating_kwh : y->heating_month_kwh[m], 2);
      pw_grid_number(g, m == 12 ? y->cooling_kwh : y->cooling_month_kwh[m], 2);
    } else {
      pw_grid_cell(g, "%s", "");
      pw_grid_cell(g, "%s", "");
    }
  }
}

pw_status pw_year_csv(const pw_compare *c, FILE *f, pw_err *err)
{
  static const char *const header[] = {"windows",        "month",         "facing",
                                       "solar_gain_kwh", "heat_lost_kwh", "net_in_kwh",
                                       "heating_kwh",    "cooling_kwh"};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (int s = -1; s < (int)c->n_package; s++) {
    pw_side_year side[PW_FACADES];
    pw_compare_sides(c, s, side);
    for (int m = 0; m <= 12; m++)
      csv_rows(g, pw_compare_set_of(c, s), side, m);
  }
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}
