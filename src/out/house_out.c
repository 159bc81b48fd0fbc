#include "out/house_out.h"

#include <jansson.h>
#include <math.h>

#include "out/calendar.h"
#include "out/json.h"
#include "out/units.h"
#include "panewright/units.h"

static const char *const method_name[PW_HOUSE_METHODS] = {"detailed", "simple", "monthly"};

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

static pw_status print_json(const pw_house_told *d, FILE *f, pw_err *err)
{
  json_t *root = json_object(), *methods = json_object();
  pw_json_set_text(root, "house", d->file->name);
  pw_json_set_text(root, "climate", d->weather->site.name);
  json_object_set_new(root, "values_read", json_integer((json_int_t)d->file->n_read));
  json_object_set_new(root, "values_from_memory", json_integer((json_int_t)d->file->n_memory));
  for (int m = 0; m < PW_HOUSE_METHODS; m++)
    json_object_set_new(methods, method_name[m], method_json(&d->year[m]));
  json_object_set_new(root, "methods", methods);
  return pw_json_print(root, f, err);
}

static pw_status print_grid(const pw_house_told *d, pw_format format, int si, FILE *f,
                            pw_err *err)
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
    for (int k = 0; k < PW_HOUSE_METHODS; k++) {
      pw_grid_number(g, d->year[k].heating_month_kwh[m], 0);
      pw_grid_number(g, d->year[k].cooling_month_kwh[m], 0);
    }
  }
  pw_grid_rule(g);
  pw_grid_cell(g, "year");
  for (int k = 0; k < PW_HOUSE_METHODS; k++) {
    pw_grid_number(g, d->year[k].heating_kwh, 0);
    pw_grid_number(g, d->year[k].cooling_kwh, 0);
  }
  if (format == PW_TEXT) fprintf(f, "%s; %s\n", d->file->name, d->weather->site.name);
  pw_status s = pw_grid_print(g, f, format, err);
  pw_grid_free(g);
  if (s != PW_OK || format != PW_TEXT) return s;
  const pw_year_result *r = &d->year[0];
  const pw_unit_set *units = pw_units(si);
  double power = si ? 1.0 : 1.0 / PW_BTU_H;
  fprintf(f,
          "highest hour: heating %.0f %s, cooling %.0f %s; air %.1f to %.1f %s\n"
          "the balance closes to %.0e of what is turned over\n",
          r->peak_heating_w * power, si ? "W" : "Btu/h", r->peak_cooling_w * power,
          si ? "W" : "Btu/h", pw_show_temperature(units, pw_k(r->t_air_min_c)),
          pw_show_temperature(units, pw_k(r->t_air_max_c)), units->temperature,
          fabs(r->residual_kwh) / (r->solar_kwh + r->gain_kwh + 1.0));
  return s;
}

pw_status pw_house_print(const pw_house_told *d, pw_format format, int si, FILE *f, pw_err *err)
{
  return format == PW_JSON ? print_json(d, f, err) : print_grid(d, format, si, f, err);
}
