/* --explain: the chain of a figure, from formula to the source and the spread of each input. */
#include <math.h>
#include <string.h>

#include "base/nearest.h"
#include "out/opening_facts.h"
#include "out/option_out.h"
#include "out/price_out.h"
#include "out/range_out.h"
#include "out/result.h"
#include "out/text_stream.h"
#include "out/wrap.h"
#include "panewright/units.h"

typedef struct figure {
  const char *name;
  pw_result result; /* what it is about, where it and its range are */
  const char *formula;
  unsigned enters; /* inputs that belong to it */
} figure;

enum {
  ENTERS_YEAR = PW_ENTERS_U | PW_ENTERS_SHGC | PW_ENTERS_YEAR,
  ENTERS_BILL = ENTERS_YEAR | PW_ENTERS_BILL,
  ENTERS_WORTH = ENTERS_BILL | PW_ENTERS_WORTH
};

static const char balance[] =
    "the heat balance of every surface and of the air, hour by hour, held at the set points";

/* In the order of the list. */
static const figure known[] = {
    {"u", PW_RESULT_U,
     "U = (U_c A_c + sum U_e A_e + sum U_f A_f + sum U_r A_r) / A: glass, a 63.5 mm (2.5 in) "
     "band along its edge, frame and bars, the old frame that stays; NFRC 100 / ISO 15099",
     PW_ENTERS_U},
    {"shgc", PW_RESULT_SHGC,
     "SHGC = (SHGC_glass A_glass + sum alpha U / h_out A_opaque) / A; NFRC 200 / ISO 15099",
     PW_ENTERS_SHGC},
    {"heating", PW_RESULT_HEATING, balance, ENTERS_YEAR},
    {"cooling", PW_RESULT_COOLING, balance, ENTERS_YEAR},
    {"bill", PW_RESULT_COST,
     "bill = heat / (efficiency x ducts) x price + cold / (COP x ducts) x price, month by "
     "month",
     ENTERS_BILL},
    {"saving", PW_RESULT_SAVING,
     "saving = bill with the existing windows - bill with the package; when the computed bill "
     "is above the one given, times given / computed",
     ENTERS_BILL},
    {"payback", PW_RESULT_PAYBACK,
     "payback = (installed price - rebates) / saving of the first year", ENTERS_WORTH},
    {"worth", PW_RESULT_WORTH,
     "worth = - (price - rebates) + sum saving (1 + rise)^i / (1 + discount)^i over the "
     "years of the horizon, not beyond the life of the window; NIST Handbook 135",
     ENTERS_WORTH},
    {"heating_fuel", PW_RESULT_HEATING_FUEL,
     "saved = sum over months of (heat with the existing windows - heat with the package) / "
     "(efficiency x ducts)",
     ENTERS_BILL},
    {"cooling_power", PW_RESULT_COOLING_POWER,
     "saved = sum over months of (cold with the existing windows - cold with the package) / "
     "(COP x ducts)",
     ENTERS_BILL},
};

/* Told elsewhere: compare_sound_out.h, tight_out.h, airing_out.h, covering_out.h, duct_out.h. */
static const char *const other[] = {"sound", "tightness", "airing", "coverings", "ducts"};
enum { KNOWN = sizeof known / sizeof known[0], NAMES = KNOWN + sizeof other / sizeof other[0] };

static pw_status find(const char *word, const figure **out, pw_err *err)
{
  const char *name[NAMES];
  char list[160] = "";
  for (size_t i = 0; i < NAMES; i++) {
    name[i] = i < KNOWN ? known[i].name : other[i - KNOWN];
    size_t n = strlen(list);
    snprintf(list + n, sizeof list - n, "%s%s", i ? ", " : "", name[i]);
    if (i < KNOWN && strcmp(word, name[i]) == 0) {
      *out = &known[i];
      return PW_OK;
    }
  }
  const char *near = pw_nearest(word, name, NAMES);
  if (near)
    return pw_fail(err, PW_E_DATA, "explain",
                   "--explain %.40s: no such figure; did you mean %s?", word, near);
  return pw_fail(err, PW_E_DATA, "explain", "--explain %.40s: no such figure; want %s", word,
                 list);
}

static double value_of(const pw_compare *c, pw_compare_set s, const figure *g)
{
  const pw_bill *now = &c->billed.existing_set.bill;
  switch (g->result) {
  case PW_RESULT_HEATING_FUEL:
    return now->heating_fuel_kwh - s.billed->bill.heating_fuel_kwh;
  case PW_RESULT_COOLING_POWER:
    return now->cooling_electricity_kwh - s.billed->bill.cooling_electricity_kwh;
  case PW_RESULT_PAYBACK:
  case PW_RESULT_WORTH:
    if (!(s.billed->price > 0.0)) return (double)NAN;
    break;
  default:
    break;
  }
  return pw_result_value(g->result, s);
}

static void number(FILE *f, double v)
{
  if (isfinite(v))
    fprintf(f, fabs(v) >= 100.0 ? "%.0f" : "%.3g", v);
  else
    fprintf(f, isinf(v) ? "never" : "-");
}

/* The numbers that stand in the formula. */
static void numbers(const pw_compare *c, pw_compare_set s, const figure *g,
                    const pw_unit_set *units, FILE *f)
{
  const pw_billed_set *e = &c->billed.existing_set;
  switch (g->result) {
  case PW_RESULT_U:
    fprintf(f,
            "    = (%.1f + %.1f + %.1f + %.1f) %s / %.2f %s: middle, rim, frame and bars, old "
            "frame\n",
            pw_show_ua(units, s.rated->ua.center), pw_show_ua(units, s.rated->ua.edge),
            pw_show_ua(units, s.rated->ua.frame + s.rated->ua.divider),
            pw_show_ua(units, s.rated->ua.retained), units->ua,
            pw_show_area(units, s.rated->area), units->area);
    break;
  case PW_RESULT_COST:
    fprintf(f,
            "    = $%.0f heating (%.0f kWh of %s) + $%.0f cooling (%.0f kWh of electricity)\n",
            s.billed->bill.heating_cost, s.billed->bill.heating_fuel_kwh,
            pw_fuel_name(c->billed.rates.heating_fuel), s.billed->bill.cooling_cost,
            s.billed->bill.cooling_electricity_kwh);
    break;
  case PW_RESULT_SAVING:
    fprintf(f, "    = $%.2f - $%.2f", e->bill.cost_year, s.billed->bill.cost_year);
    if (s.billed->saving.notes & PW_BILL_SCALED)
      fprintf(f, ", times $%.0f given / $%.2f computed", c->job->house.bill_year.value,
              pw_compare_cost_of_bill(c));
    fprintf(f, "\n");
    break;
  case PW_RESULT_HEATING_FUEL:
    fprintf(f, "    = %.1f - %.1f kWh of %s\n", e->bill.heating_fuel_kwh,
            s.billed->bill.heating_fuel_kwh, pw_fuel_name(c->billed.rates.heating_fuel));
    break;
  case PW_RESULT_COOLING_POWER:
    fprintf(f, "    = %.1f - %.1f kWh of electricity\n", e->bill.cooling_electricity_kwh,
            s.billed->bill.cooling_electricity_kwh);
    break;
  case PW_RESULT_PAYBACK:
    if (s.billed->price > 0.0)
      fprintf(f, "    = $%.2f / $%.2f a year\n", s.billed->worth.outlay,
              s.billed->saving.cost_year);
    break;
  case PW_RESULT_WORTH:
    if (s.billed->price > 0.0)
      fprintf(
          f,
          "    outlay $%.2f, saving $%.2f, rise %.3g, discount %.3g, %.3g years, life %.3g\n",
          s.billed->worth.outlay, s.billed->saving.cost_year, s.billed->invest.escalation,
          s.billed->invest.discount, s.billed->invest.horizon, s.billed->invest.life);
    break;
  default:
    break;
  }
}

/* What the price in a formula is made of, where a price list says. */
static void price_parts(const pw_billed_set *s, const figure *g, FILE *f)
{
  char text[400];
  if (g->result != PW_RESULT_PAYBACK && g->result != PW_RESULT_WORTH) return;
  pw_price_parts_line(&s->parts, text);
  if (text[0] && s->price > 0.0) pw_wrap(f, "    price: ", text, 100);
}

static void set_line(const pw_compare *c, pw_compare_set s, const pw_range_set *r,
                     const figure *g, const pw_unit_set *units, FILE *f)
{
  double scale = g->result == PW_RESULT_U ? pw_show_u(units, 1.0) : 1.0;
  fprintf(f, "  %.40s: ", s.rated->name);
  number(f, scale * value_of(c, s, g));
  const pw_band *b = r && pw_result_of(g->result)->ranged ? pw_result_band(g->result, r) : NULL;
  if (b) {
    fprintf(f, "; 10, 50, 90 %%: ");
    number(f, scale * b->p10);
    fprintf(f, ", ");
    number(f, scale * b->p50);
    fprintf(f, ", ");
    number(f, scale * b->p90);
  }
  fprintf(f, "\n");
  numbers(c, s, g, units, f);
  price_parts(s.billed, g, f);
}

/* Units of the inputs (study/range_inputs.c) and what stands for them in inch and pound. */
static const struct {
  const char *si, *ip;
  double scale, shift; /* ip = scale si + shift */
} input_unit[] = {{"W/m2K", "Btu/h-ft2-F", 1.0 / PW_U_IP, 0.0},
                  {"W/K", "Btu/h-F", 1.0 / (PW_U_IP * PW_FOOT2), 0.0},
                  {"W", "Btu/h", 1.0 / PW_BTU_H, 0.0},
                  {"C", "F", 1.8, 32.0},
                  {"m2", "ft2", 1.0 / PW_FOOT2, 0.0},
                  {"m", "ft", 1.0 / PW_FOOT, 0.0},
                  {"m, off", "in, off", 12.0 / PW_FOOT, 0.0}};

static const char *show_input(const pw_range_input *in, const pw_unit_set *units, double v[3])
{
  v[0] = in->value;
  v[1] = in->low;
  v[2] = in->high;
  for (size_t k = 0; !units->si && k < sizeof input_unit / sizeof input_unit[0]; k++) {
    if (strcmp(in->unit, input_unit[k].si) != 0) continue;
    for (int i = 0; i < 3; i++)
      v[i] = input_unit[k].scale * v[i] + input_unit[k].shift;
    return input_unit[k].ip;
  }
  return in->unit;
}

/* The forms of a model that a draw chooses among. */
static void form_lines(const pw_range_input *in, FILE *f)
{
  fprintf(f, "  %s: one of %.0f published forms, each as likely\n", in->name, in->value);
  for (int k = 0; k < (int)in->value; k++) {
    pw_form form = pw_form_at(in->form, k);
    char text[400];
    snprintf(text, sizeof text, "%s%s; %s (%s)", form.words,
             form.code == 0 ? " (the comparison's own)" : "", form.source, form.how_known);
    pw_wrap(f, "      ", text, 100);
  }
}

static void input_line(const pw_range_input *in, const pw_unit_set *units, FILE *f)
{
  static const char *const origin[] = {"assumed",  "from a table",   "stated in the job",
                                       "measured", "from the label", "computed"};
  static const char *const shape[] = {[PW_SHAPE_FIXED] = "fixed",
                                      [PW_SHAPE_UNIFORM] = "uniform",
                                      [PW_SHAPE_TRIANGULAR] = "triangular",
                                      [PW_SHAPE_NORMAL] = "normal, cut",
                                      [PW_SHAPE_CHOICE] = "choice",
                                      [PW_SHAPE_SOME] = "the least in some, even in others"};
  char text[700], where[32] = "";
  if (in->given.line > 0) snprintf(where, sizeof where, ", line %d", in->given.line);
  if (in->spread.shape == PW_SHAPE_CHOICE) {
    form_lines(in, f);
    return;
  }
  double v[3];
  const char *unit = show_input(in, units, v);
  fprintf(f, "  %s: %.4g%s%s, %.4g .. %.4g (%s)\n", in->name, v[0], unit[0] ? " " : "", unit,
          v[1], v[2], shape[in->spread.shape]);
  snprintf(text, sizeof text, "value %s%s%s%.150s; spread: %.250s (%s)",
           origin[in->given.origin], where, in->given.source ? ": " : "",
           in->given.source ? in->given.source : "",
           in->spread.source ? in->spread.source : "none",
           in->spread.how_known ? in->spread.how_known : "assumed");
  pw_wrap(f, "      ", text, 100);
}

pw_status pw_explain_text(const pw_compare *c, const pw_weather *weather, const pw_range *range,
                          const char *word, const pw_unit_set *units, FILE *f, pw_err *err)
{
  const figure *g = NULL;
  pw_range_input input[PW_RANGE_INPUTS_MAX];
  size_t n = 0;
  pw_status status = find(word, &g, err);
  if (status == PW_OK) status = pw_range_list(c, weather, input, &n, err);
  if (status != PW_OK) return status;
  fprintf(f, "%s: %s%s%s\n", g->name, pw_result_of(g->result)->about,
          g->result == PW_RESULT_U ? ", " : "", g->result == PW_RESULT_U ? units->u : "");
  pw_wrap(f, "  ", g->formula, 100);
  fprintf(f, "\n");
  pw_facts_text(c->job, f);
  if (!(g->enters & PW_ENTERS_BILL) || g->result == PW_RESULT_COST)
    set_line(c, pw_compare_set_of(c, PW_SET_EXISTING), range ? &range->existing : NULL, g,
             units, f);
  for (size_t p = 0; p < c->n_package; p++)
    set_line(c, pw_compare_set_of(c, (int)p), range ? &range->package[p] : NULL, g, units, f);
  if ((g->result == PW_RESULT_U || g->result == PW_RESULT_SHGC))
    status = pw_option_explain(c, units, f, err);
  if (status != PW_OK) return status;
  fprintf(f, "\nWhat goes in (glass, frames and price of the first opening and package)\n");
  for (size_t i = 0; i < n; i++)
    if (input[i].enters & g->enters) input_line(&input[i], units, f);
  return pw_text_written(f, "the explanation", err);
}
