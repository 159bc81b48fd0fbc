/* panewright house: a year in a house that is written down layer by layer, by all three methods. */
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "job/climate_file.h"
#include "job/house_file.h"
#include "out/calendar.h"
#include "out/json.h"
#include "out/units.h"
#include "panewright/units.h"

enum { METHODS = 3 };
static const char *const method_name[METHODS] = {"detailed", "simple", "monthly"};

typedef struct desk {
  pw_weather weather;
  pw_climate_report report;
  pw_house_file file;
  pw_year_result year[METHODS];
} desk;

/* "std140/600" is compiled in; anything else is a path. */
static pw_status open_house(const char *name, pw_house_file *file, pw_err *err)
{
  pw_status s = pw_house_file_read(name, file, err);
  if (s != PW_E_MISSING) return s;
  pw_err second = {0};
  return pw_house_file_builtin(name, file, &second) == PW_OK ? PW_OK : s;
}

static pw_status live(desk *d, const cli_args *args, pw_err *err)
{
  double steps = 1.0;
  const char *climate = cli_get(args, "climate");
  pw_status s = cli_number(args, "steps", 1.0, 12.0, &steps, err);
  if (s == PW_OK && steps != floor(steps))
    s = pw_fail(err, PW_E_DOMAIN, "option", "--steps %g: want a whole number", steps);
  if (s == PW_OK) s = open_house(args->word[0], &d->file, err);
  if (s == PW_OK)
    s = cli_ask(
        "climate",
        pw_climate_get(climate ? climate : "Denver", NULL, &d->weather, &d->report, NULL, err),
        err);
  pw_year_workspace *kept = s == PW_OK ? pw_year_workspace_new() : NULL;
  if (s == PW_OK && !kept) s = pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year");
  for (int m = 0; s == PW_OK && m < METHODS; m++) {
    pw_year_options o = {.method = (pw_year_method)m, .steps_per_hour = (int)steps};
    s = pw_year_run(&d->file.house, &d->weather, d->file.window, d->file.n_window, &o, kept,
                    &d->year[m], err);
  }
  pw_year_workspace_free(kept);
  return s;
}

static json_t *method_json(const pw_year_result *r)
{
  json_t *o = json_object();
  pw_json_set(o, "heating_kwh", r->heating_kwh);
  pw_json_set(o, "cooling_kwh", r->cooling_kwh);
  json_object_set_new(o, "heating_month_kwh", pw_json_array(r->heating_month_kwh, 12));
  json_object_set_new(o, "cooling_month_kwh", pw_json_array(r->cooling_month_kwh, 12));
  pw_json_set(o, "peak_heating_w", r->peak_heating_w);
  pw_json_set(o, "peak_cooling_w", r->peak_cooling_w);
  pw_json_set(o, "air_min_c", r->t_air_min_c);
  pw_json_set(o, "air_mean_c", r->t_air_mean_c);
  pw_json_set(o, "air_max_c", r->t_air_max_c);
  pw_json_set(o, "solar_kwh", r->solar_kwh);
  pw_json_set(o, "window_loss_kwh", r->window_loss_kwh);
  pw_json_set(o, "opaque_loss_kwh", r->opaque_loss_kwh);
  pw_json_set(o, "air_loss_kwh", r->air_loss_kwh);
  pw_json_set(o, "gain_kwh", r->gain_kwh);
  pw_json_set(o, "residual_kwh", r->residual_kwh);
  return o;
}

static pw_status print_json(const desk *d, pw_err *err)
{
  json_t *root = json_object(), *methods = json_object();
  pw_json_set_text(root, "house", d->file.name);
  pw_json_set_text(root, "climate", d->weather.site.name);
  json_object_set_new(root, "values_read", json_integer((json_int_t)d->file.n_read));
  json_object_set_new(root, "values_from_memory", json_integer((json_int_t)d->file.n_memory));
  for (int m = 0; m < METHODS; m++)
    json_object_set_new(methods, method_name[m], method_json(&d->year[m]));
  json_object_set_new(root, "methods", methods);
  return pw_json_print(root, stdout, err);
}

static pw_status print_grid(const desk *d, pw_format format, int si, pw_err *err)
{
  static const char *const text[] = {"<kWh",           "heating",        "cooling",
                                     "heating simple", "cooling simple", "heating monthly",
                                     "cooling monthly"};
  static const char *const csv[] = {"<month",
                                    "heating_kwh",
                                    "cooling_kwh",
                                    "simple_heating_kwh",
                                    "simple_cooling_kwh",
                                    "monthly_heating_kwh",
                                    "monthly_cooling_kwh"};
  pw_grid *g = pw_grid_new(7, format == PW_CSV ? csv : text);
  for (int m = 0; m < 12; m++) {
    pw_grid_cell(g, "%s", pw_month_name[m]);
    for (int k = 0; k < METHODS; k++) {
      pw_grid_number(g, d->year[k].heating_month_kwh[m], 0);
      pw_grid_number(g, d->year[k].cooling_month_kwh[m], 0);
    }
  }
  pw_grid_rule(g);
  pw_grid_cell(g, "year");
  for (int k = 0; k < METHODS; k++) {
    pw_grid_number(g, d->year[k].heating_kwh, 0);
    pw_grid_number(g, d->year[k].cooling_kwh, 0);
  }
  if (format == PW_TEXT) printf("%s; %s\n", d->file.name, d->weather.site.name);
  pw_status s = pw_grid_print(g, stdout, format, err);
  pw_grid_free(g);
  if (s != PW_OK || format != PW_TEXT) return s;
  const pw_year_result *r = &d->year[0];
  const pw_unit_set *units = pw_units(si);
  double power = si ? 1.0 : 1.0 / PW_BTU_H;
  printf("highest hour: heating %.0f %s, cooling %.0f %s; air %.1f to %.1f %s\n"
         "the balance closes to %.0e of what is turned over\n",
         r->peak_heating_w * power, si ? "W" : "Btu/h", r->peak_cooling_w * power,
         si ? "W" : "Btu/h", pw_show_temperature(units, pw_k(r->t_air_min_c)),
         pw_show_temperature(units, pw_k(r->t_air_max_c)), units->temperature,
         fabs(r->residual_kwh) / (r->solar_kwh + r->gain_kwh + 1.0));
  return s;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  desk *d = calloc(1, sizeof *d);
  if (!d) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory for a year");
    return cli_fail(&err);
  }
  pw_status s = live(d, args, &err);
  if (s == PW_OK)
    s = args->format == PW_JSON ? print_json(d, &err)
                                : print_grid(d, args->format, args->si, &err);
  free(d);
  if (s == PW_E_DOMAIN && err.field && strcmp(err.field, "option") == 0) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  return s == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"climate", "FILE|PLACE", "hourly file, or a built-in place (Denver)"},
    {"steps", "N", "steps an hour of the detailed method, 1 to 12 (1)"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_END};
extern const cli_command cli_house;
const cli_command cli_house = {
    "house",
    "FILE",
    "a year in a house written down layer by layer, by three methods",
    "FILE is a house in CSV (item, of, value, how_known, note); examples/std140 has the cases "
    "of\n"
    "Standard 140, also compiled in as std140/600 and so on. Heating and cooling are the "
    "sensible\n"
    "need of the zone; equipment is not in it.",
    option,
    1,
    1,
    run};
