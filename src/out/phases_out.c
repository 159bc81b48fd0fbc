#include "out/phases_out.h"
#include "out/text_stream.h"

#include <math.h>

#include "out/clip.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/result.h"

static void count(pw_grid *g, int n, int shown)
{
  if (shown)
    pw_grid_cell(g, "%d", n);
  else
    pw_grid_cell(g, "%s", "");
}

static double told_of(const pw_phase_step *s, int saving)
{
  return saving ? s->saving.cost_year : s->price;
}

double pw_phase_told(const pw_compare_phases *phases, size_t k, size_t p, int saving)
{
  double before = 0.0;
  for (size_t i = 0; i < k; i++)
    before += told_of(&phases->step[p][i], saving);
  return round(before + told_of(&phases->step[p][k], saving)) - round(before);
}

static void row(pw_grid *g, const pw_compare *c, size_t p, const pw_phase_step *s, double price,
                double saving)
{
  pw_grid_cell(g, "%s", pw_clip(c->rated.package_set[p].name, 16).text);
  pw_grid_dollars(g, s->price > 0.0 ? price : (double)NAN);
  pw_grid_dollars(g, saving);
  pw_grid_payback(g, s->payback);
  pw_grid_number(g, s->heating_kwh, 0);
  pw_grid_number(g, c->billed.rates.cools ? s->cooling_kwh : (double)NAN, 0);
  pw_grid_dollars(g, s->cost_year);
}

static pw_phase_step whole(const pw_compare *c, size_t p)
{
  const pw_compare_set set = pw_compare_set_of(c, (int)p);
  double saved = set.billed->saving.cost_year;
  return (pw_phase_step){.price = set.billed->price,
                         .heating_kwh = set.lived->year.heating_kwh,
                         .cooling_kwh = set.lived->year.cooling_kwh,
                         .cost_year = set.billed->bill.cost_year,
                         .saving = set.billed->saving,
                         .payback = !(set.billed->price > 0.0) ? (double)NAN
                                    : saved > 0.0              ? set.billed->price / saved
                                                               : (double)INFINITY};
}

pw_status pw_phases_text(const pw_compare *c, const pw_compare_phases *phases, FILE *f,
                         pw_err *err)
{
  static const char *const header[] = {"<phase",  "windows",  "<package", "price", "saved",
                                       "payback", "heat kWh", "cool kWh", "bill"};
  if (phases->n_phase < 2) return PW_OK;
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  int all = 0;
  for (size_t k = 0; k < phases->n_phase; k++) {
    all += phases->n_window[k];
    for (size_t p = 0; p < c->n_package; p++) {
      count(g, phases->number[k], p == 0);
      count(g, phases->n_window[k], p == 0);
      row(g, c, p, &phases->step[p][k], pw_phase_told(phases, k, p, 0),
          pw_phase_told(phases, k, p, 1));
    }
  }
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_phase_step sum = whole(c, p);
    pw_grid_cell(g, "%s", p ? "" : "together");
    count(g, all, p == 0);
    row(g, c, p, &sum, sum.price, sum.saving.cost_year);
  }
  fputs("\nPhase by phase: what each costs and saves, then the house after it for a year\n", f);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  fputs(
      "A phase saves what the house cost after the one before less what it costs after it; so\n"
      "prices and savings of the phases add up to those together. Payback before rebates.\n",
      f);
  if (phases->paid_once)
    fputs(
        "What is paid once for a job, as a permit, stands in its first phase; --phase N prices "
        "one by itself.\n",
        f);
  return status == PW_OK ? pw_text_written(f, "the phases", err) : status;
}

static json_t *step_json(const pw_compare *c, const pw_compare_phases *phases, size_t k,
                         size_t p)
{
  const pw_phase_step *s = &phases->step[p][k];
  json_t *o = json_object();
  pw_json_set_text(o, "package", c->rated.package_set[p].name);
  if (s->price > 0.0) {
    pw_result_set(o, PW_RESULT_PRICE, s->price);
    pw_json_set(o, "price_told", pw_phase_told(phases, k, p, 0));
    pw_result_set(o, PW_RESULT_PAYBACK, s->payback);
  }
  pw_result_set(o, PW_RESULT_SAVING, s->saving.cost_year);
  pw_json_set(o, "saving_told", pw_phase_told(phases, k, p, 1));
  pw_result_set(o, PW_RESULT_SAVING_COMPUTED, s->saving.cost_computed);
  pw_result_set(o, PW_RESULT_SAVING_ENERGY, s->saving.need_kwh);
  pw_result_set(o, PW_RESULT_SAVING_FUEL, s->saving.fuel_kwh);
  pw_result_set(o, PW_RESULT_SAVING_CO2, s->saving.co2_kg);
  pw_json_set(o, "heating_kwh_after", s->heating_kwh);
  pw_json_set(o, "cooling_kwh_after", s->cooling_kwh);
  pw_json_set(o, "cost_after", s->cost_year);
  return o;
}

json_t *pw_phases_json(const pw_compare *c, const pw_compare_phases *phases)
{
  json_t *all = json_array();
  for (size_t k = 0; k < phases->n_phase; k++) {
    json_t *o = json_object(), *packages = json_array();
    json_object_set_new(o, "phase", json_integer(phases->number[k]));
    json_object_set_new(o, "windows", json_integer(phases->n_window[k]));
    pw_json_set(o, "opening_area_m2", phases->area[k]);
    for (size_t p = 0; p < c->n_package; p++)
      json_array_append_new(packages, step_json(c, phases, k, p));
    json_object_set_new(o, "packages", packages);
    json_array_append_new(all, o);
  }
  return all;
}
