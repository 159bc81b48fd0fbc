#include "out/range_out.h"

#include <math.h>
#include <string.h>

#include "out/ask_next_out.h"
#include "out/clip.h"
#include "out/grid.h"
#include "out/json.h"
#include "out/result.h"

enum { DRIVERS_SHOWN = 8 };

/* ---------------------------------------------------------------- text */

void pw_band_dollars(pw_grid *g, const pw_band *b)
{
  const double v[] = {b->p10, b->p50, b->p90};
  for (size_t i = 0; i < 3; i++)
    pw_grid_cell(g, "%s", pw_dollars_of(v[i]).text);
}

static void band_cells(pw_grid *g, pw_result result, const pw_band *b, const pw_unit_set *units)
{
  const pw_figure kind = pw_result_of(result)->kind;
  const double v[] = {b->p10, b->p50, b->p90};
  for (size_t i = 0; i < 3; i++)
    if (kind == PW_FIGURE_MONEY_5)
      pw_grid_cell(g, "%s", pw_dollars_of(v[i]).text);
    else if (isinf(v[i]))
      pw_grid_cell(g, "never");
    else
      pw_figure_cell(g, kind, units, v[i]);
}

static const char *label(pw_result result, const pw_unit_set *units, char text[40])
{
  snprintf(text, 40, "U, %s", units->u);
  return result == PW_RESULT_U         ? text
         : result == PW_RESULT_SHGC    ? "SHGC"
         : result == PW_RESULT_PAYBACK ? "payback, years"
                                       : pw_result_of(result)->about;
}

/* The name of the windows stands in the first row alone. */
static void set_rows(pw_grid *g, const char *name, const pw_range_set *s,
                     const pw_result result[], size_t n, int priced, const pw_unit_set *units)
{
  char text[40];
  for (size_t i = 0; i < n; i++) {
    if (result[i] == PW_RESULT_PAYBACK && !priced) continue;
    pw_grid_cell(g, "%s", i ? "" : pw_clip(name, 20).text);
    pw_grid_cell(g, "%s", label(result[i], units, text));
    band_cells(g, result[i], pw_result_band(result[i], s), units);
  }
}

static pw_status figures(const pw_compare *c, const pw_range *r, const pw_unit_set *units,
                         FILE *f, pw_err *err)
{
  static const char *const header[] = {"<windows", "<figure", "low", "typical", "high"};
  static const pw_result existing[] = {PW_RESULT_COST, PW_RESULT_U, PW_RESULT_SHGC},
                         package[] = {PW_RESULT_SAVING, PW_RESULT_SAVING_MINIMUM,
                                      PW_RESULT_PAYBACK, PW_RESULT_U, PW_RESULT_SHGC};
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  set_rows(g, "existing", &r->existing, existing, sizeof existing / sizeof existing[0], 0,
           units);
  for (size_t p = 0; p < r->n_package; p++)
    set_rows(g, c->rated.package_set[p].name, &r->package[p], package,
             sizeof package / sizeof package[0], c->billed.package_set[p].price > 0.0, units);
  fprintf(f, "\nHow sure: eight of ten cases lie between low and high, half below typical\n");
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

static pw_status drivers(const pw_compare *c, const pw_range *r, size_t p, FILE *f, pw_err *err)
{
  static const char *const header[] = {"<input", "from", "value", "to", "<", "alone", "in all"};
  const pw_range_set *s = &r->package[p];
  pw_grid *g = pw_grid_new(sizeof header / sizeof header[0], header);
  for (size_t k = 0; k < DRIVERS_SHOWN && k < r->n_input; k++) {
    const pw_range_input *in = &r->input[s->rank[k]];
    const pw_sensitivity *x = &s->sensitivity[s->rank[k]];
    pw_grid_cell(g, "%s", in->name);
    pw_grid_cell(g, isnan(in->low) ? "" : "%.3g", in->low);
    pw_grid_cell(g, "%.3g", in->value);
    pw_grid_cell(g, isnan(in->high) ? "" : "%.3g", in->high);
    pw_grid_cell(g, "%s", in->unit);
    pw_grid_cell(g, "%.0f %%", 100.0 * fmax(0.0, x->first_order));
    pw_grid_cell(g, "%.0f %%", 100.0 * fmax(0.0, x->total));
  }
  fprintf(f,
          "\nWhat drives the saving of %.40s: share of its variance (alone, and with all it "
          "works with)\n",
          c->rated.package_set[p].name);
  pw_status status = pw_grid_print(g, f, PW_TEXT, err);
  pw_grid_free(g);
  return status;
}

/* In cases of 100; a chance that is not quite certain is not rounded to certain. */
static void of_hundred(FILE *f, const char *what, double chance)
{
  const char *about = chance > 0.995 && chance < 1.0   ? "over 99"
                      : chance < 0.005 && chance > 0.0 ? "under 1"
                                                       : NULL;
  if (about)
    fprintf(f, "%s in %s", what, about);
  else
    fprintf(f, "%s in %.0f", what, 100.0 * chance);
}

static void chances(const pw_compare *c, const pw_range *r, size_t p, FILE *f)
{
  const pw_range_set *s = &r->package[p];
  char what[60];
  fprintf(f, "%.40s: ", c->rated.package_set[p].name);
  of_hundred(f, "saves something", s->chance_positive);
  fprintf(f, " of 100 cases");
  if (r->beat > 0.0) {
    snprintf(what, sizeof what, ", more than $%.0f a year", r->beat);
    of_hundred(f, what, s->chance_beats);
  }
  if (c->billed.package_set[p].price > 0.0)
    of_hundred(f, ", pays back within its life", s->chance_pays);
  fprintf(f, "\n");
}

pw_status pw_range_text(const pw_compare *c, const pw_range *r, const pw_unit_set *units,
                        FILE *f, pw_err *err)
{
  pw_status status = figures(c, r, units, f, err);
  if (status != PW_OK) return status;
  for (size_t p = 0; p < r->n_package; p++)
    chances(c, r, p, f);
  for (size_t p = 0; p < r->n_package && status == PW_OK; p++)
    status = drivers(c, r, p, f, err);
  for (size_t p = 0; p < r->n_package && status == PW_OK; p++)
    status = pw_ask_next_text(c, r, p, f, err);
  fprintf(f, "\n%zu draws shared by all windows, seed %llu, %zu house years; ", r->n_draw,
          (unsigned long long)r->seed, r->n_year);
  if (r->reduced)
    fprintf(
        f,
        "the years between by a\nresponse surface that misses a left-out year by %.1f %% of "
        "the range.\n",
        100.0 * r->error_of_band);
  else
    fprintf(f, "every draw by its own year.\n");
  int given = c->job->house.bill_year.value > 0.0;
  if (given && pw_compare_is_later(c->job))
    fprintf(f,
            "The bill given is of the house before any phase, so no draw is weighed by it.\n");
  if (status == PW_OK) status = pw_range_bill_year_text(c, r, f, err);
  return status == PW_OK ? pw_range_bills_text(c, r, f, err) : status;
}

/* ---------------------------------------------------------------- JSON */

json_t *pw_band_json(const pw_band *b)
{
  json_t *band = json_object();
  pw_json_set(band, "p10", b->p10);
  pw_json_set(band, "p50", b->p50);
  pw_json_set(band, "p90", b->p90);
  return band;
}

/* Those figures of a set that have a range, by their keys. */
static void set_bands(json_t *o, const pw_range_set *s, const pw_result result[], size_t n)
{
  for (size_t i = 0; i < n; i++)
    json_object_set_new(o, pw_result_of(result[i])->ranged,
                        pw_band_json(pw_result_band(result[i], s)));
}

/* The forms that a draw chooses among, in words. */
static void forms(pw_form_kind kind, json_t *input)
{
  json_t *list = json_array();
  for (int k = 0; pw_form_at(kind, k).words; k++)
    json_array_append_new(list, json_string(pw_form_at(kind, k).words));
  json_object_set_new(input, "forms", list);
}

static json_t *ranked(const pw_range *r, const pw_range_set *s)
{
  json_t *list = json_array();
  for (size_t k = 0; k < r->n_input; k++) {
    size_t i = s->rank[k];
    json_t *o = json_object();
    pw_json_set_text(o, "input", r->input[i].name);
    pw_json_set(o, "first_order", s->sensitivity[i].first_order);
    pw_json_set(o, "total", s->sensitivity[i].total);
    pw_json_set(o, "value", r->input[i].value);
    pw_json_set(o, "low", r->input[i].low);
    pw_json_set(o, "high", r->input[i].high);
    pw_json_set_text(o, "unit", r->input[i].unit);
    if (r->input[i].spread.shape == PW_SHAPE_CHOICE) forms(r->input[i].form, o);
    json_array_append_new(list, o);
  }
  return list;
}

void pw_range_json(const pw_range *r, size_t p, json_t *package)
{
  static const pw_result first[] = {PW_RESULT_SAVING,        PW_RESULT_SAVING_MINIMUM,
                                    PW_RESULT_SAVING_ENERGY, PW_RESULT_SAVING_FUEL,
                                    PW_RESULT_PAYBACK,       PW_RESULT_U,
                                    PW_RESULT_SHGC,          PW_RESULT_COST,
                                    PW_RESULT_WORTH},
                         meters[] = {PW_RESULT_HEATING_FUEL, PW_RESULT_COOLING_POWER};
  const pw_range_set *s = &r->package[p];
  json_t *o = json_object();
  set_bands(o, s, first, sizeof first / sizeof first[0]);
  pw_json_set(o, "chance_saving_positive", s->chance_positive);
  if (r->beat > 0.0) pw_json_set(o, "chance_saving_beats", s->chance_beats);
  pw_json_set(o, "chance_pays_within_life", s->chance_pays);
  json_object_set_new(o, "saving_includes_zero", json_boolean(s->includes_zero));
  set_bands(o, s, meters, sizeof meters / sizeof meters[0]);
  json_object_set_new(package, "range", o);
  if (!r->with_drivers) return;
  json_object_set_new(package, "sensitivity", ranked(r, s));
  json_object_set_new(package, "ask_next", pw_ask_next_json(r, p));
}

void pw_range_existing_json(const pw_range *r, json_t *existing)
{
  static const pw_result told[] = {PW_RESULT_U, PW_RESULT_COST};
  json_t *o = json_object();
  set_bands(o, &r->existing, told, sizeof told / sizeof told[0]);
  json_object_set_new(existing, "range", o);
}

json_t *pw_range_run_json(const pw_range *r)
{
  json_t *o = json_object();
  json_object_set_new(o, "draws", json_integer((json_int_t)r->n_draw));
  json_object_set_new(o, "seed", json_integer((json_int_t)r->seed));
  json_object_set_new(o, "house_years", json_integer((json_int_t)r->n_year));
  json_object_set_new(o, "reduced", json_boolean(r->reduced));
  pw_json_set(o, "reduced_error_of_band", r->error_of_band);
  pw_json_set(o, "draws_worth", r->n_worth);
  if (r->beat > 0.0) pw_json_set(o, "beat", r->beat);
  if (r->bills.given) json_object_set_new(o, "bills", pw_range_bills_json(r, &r->bills));
  if (r->bill_year.given)
    json_object_set_new(o, "bill_year", pw_range_bills_json(r, &r->bill_year));
  return o;
}

/* ---------------------------------------------------------------- pictures */

pw_plot *pw_range_picture(const pw_compare *c, const pw_range *r, size_t p)
{
  const pw_range_set *s = &r->package[p];
  pw_plot *plot = pw_plot_new("plots/drivers.gp");
  char title[120];
  snprintf(title, sizeof title, "What drives the saving of %.40s",
           c->rated.package_set[p].name);
  pw_plot_text(plot, "title", title);
  pw_plot_number(plot, "n", DRIVERS_SHOWN);
  pw_plot_number(plot, "top", 110.0 * fmax(0.05, s->sensitivity[s->rank[0]].total));
  pw_plot_block(plot, "D");
  for (size_t k = 0; k < DRIVERS_SHOWN; k++) {
    const pw_sensitivity *x = &s->sensitivity[s->rank[k]];
    double total = 100.0 * fmax(0.0, x->total);
    double first = fmin(total, 100.0 * fmax(0.0, x->first_order));
    pw_plot_row(plot, "sff", r->input[s->rank[k]].name, first, total);
  }
  pw_plot_end_block(plot);
  return plot;
}

pw_plot *pw_cash_picture(const pw_compare *c)
{
  pw_plot *plot = pw_plot_new("plots/cash.gp");
  size_t years = 0, shown = c->n_package < 4 ? c->n_package : 4;
  pw_plot_text(plot, "title", "Outlay and savings added up, in today's money");
  pw_plot_number(plot, "k", (double)shown);
  for (size_t p = 0; p < 4; p++) {
    char key[8];
    snprintf(key, sizeof key, "name%zu", p + 1);
    pw_plot_text(plot, key, p < shown ? c->rated.package_set[p].name : "");
    if (p < shown && c->billed.package_set[p].price > 0.0 &&
        c->billed.package_set[p].worth.n_year > years)
      years = c->billed.package_set[p].worth.n_year;
  }
  pw_plot_number(plot, "years", (double)years);
  pw_plot_block(plot, "D");
  for (size_t y = 0; y <= years; y++) {
    double v[4];
    for (size_t p = 0; p < 4; p++) {
      const pw_billed_set *s = p < shown ? &c->billed.package_set[p] : NULL;
      v[p] = s && s->price > 0.0 && y <= s->worth.n_year ? s->worth.discounted[y] : (double)NAN;
    }
    pw_plot_row(plot, "fffff", (double)y, v[0], v[1], v[2], v[3]);
  }
  pw_plot_end_block(plot);
  return plot;
}
