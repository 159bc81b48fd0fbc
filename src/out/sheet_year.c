/* Part 3: the year in the house, and the money with its ranges. */
#include <math.h>
#include <stddef.h>

#include "out/clip.h"
#include "out/sheet_impl.h"
#include "panewright/ask_next.h"
#include "panewright/worth.h"

static const sheet_measure row[] = {
    {"Heating need", "kWh of heat a year", PW_FIGURE_KWH,
     offsetof(pw_compare_set, year.heating_kwh), "heating_kwh", -1, 1, 1},
    {"Cooling need", "kWh of cold a year", PW_FIGURE_KWH,
     offsetof(pw_compare_set, year.cooling_kwh), "cooling_kwh", -1, 1, 1},
    {"Cost of heating", "$ a year", PW_FIGURE_MONEY_5,
     offsetof(pw_compare_set, bill.heating_cost), "heating_cost", -1, 1, 1},
    {"Cost of cooling", "$ a year", PW_FIGURE_MONEY_5,
     offsetof(pw_compare_set, bill.cooling_cost), "cooling_cost", -1, 1, 1},
    {"Heating and cooling", "$ a year", PW_FIGURE_MONEY_5,
     offsetof(pw_compare_set, bill.cost_year), "cost", -1, 1, 1},
};

static void year_table(const pw_sheet *sheet, pw_html *h)
{
  static const sheet_measure carbon[] = {
      {"Carbon dioxide", "lb a year, of heating and cooling", PW_FIGURE_MASS,
       offsetof(pw_compare_set, bill.co2_kg), "co2_kg", -1, 1, 1},
      {"Carbon dioxide", "kg a year, of heating and cooling", PW_FIGURE_MASS,
       offsetof(pw_compare_set, bill.co2_kg), "co2_kg", -1, 1, 1}};
  pw_html_put(h, "<h2>A year in the house</h2>\n");
  pw_html_wide(h, "A year in the house");
  pw_html_put(h, "<table class=\"sets\">");
  sheet_measure_head(sheet, h, "Likely, for a typical year");
  pw_html_put(h, "<tbody>\n");
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    sheet_measure_row(sheet, h, &row[i]);
  if (!sheet->compare->rates.cools) {
    const sheet_measure warm = {"Hours too warm",
                                "a year with room air above the set point given, windows shut",
                                PW_FIGURE_HOURS,
                                offsetof(pw_compare_set, year.hours_warm),
                                "hours_above_cool_set",
                                -1,
                                1,
                                1};
    sheet_measure_row(sheet, h, &warm);
  }
  sheet_band_row(sheet, h, SHEET_BAND_COST);
  sheet_measure_row(sheet, h, &carbon[sheet->units->si ? 1 : 0]);
  pw_html_put(
      h,
      "</tbody></table></div>\n<p class=\"small\">Needs and their costs are middle values "
      "of a typical year%s.</p>\n",
      sheet->frame->range ? "; the range stands under their sum, and beside what is saved below"
                          : "");
}

/* ---------------------------------------------------------------- money */

static void worth_row(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  double years = c->job->house.horizon_years.value;
  if (!(years > 0.0)) years = PW_YEARS_DEFAULT;
  pw_html_put(
      h,
      "<tr><th scope=\"row\">Worth over %.0f years (net present worth)<small>price and "
      "savings together in today's money, at %.1f %% a year above inflation</small></th>",
      years, 100.0 * c->job->house.discount.value);
  for (size_t p = 0; p < c->n_package; p++) {
    pw_html_put(h, "<td>");
    if (c->package_set[p].price > 0.0) sheet_band(sheet, h, SHEET_BAND_WORTH, p);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

static void chance_row(const pw_sheet *sheet, pw_html *h)
{
  if (!sheet->frame->range) return;
  pw_html_put(h, "<tr><th scope=\"row\">Chance that anything is saved at all</th>");
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    pw_html_put(h, "<td>");
    pw_figure_put(h, sheet->units, PW_FIGURE_SHARE,
                  sheet->frame->range->package[p].chance_positive,
                  "house.packages.%zu.range.chance_saving_positive", p);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

static void energy_row(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(h, "<tr><th scope=\"row\">Energy saved a year<small>kWh of fuel and electricity, "
                 "against the windows there now</small></th>");
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    pw_html_put(h, "<td>");
    sheet_band(sheet, h, SHEET_BAND_ENERGY, p);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

static void money_table(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  int priced = 0;
  pw_html_put(h, "<h2>What is saved, and how sure that is</h2>\n");
  sheet_bands_head(sheet, h);
  for (size_t p = 0; p < c->n_package; p++)
    priced |= c->package_set[p].price > 0.0;
  energy_row(sheet, h);
  sheet_money_rows(sheet, h);
  if (priced) worth_row(sheet, h);
  chance_row(sheet, h);
  pw_html_put(h, "</tbody></table>\n");
  sheet_phases(sheet, h);
  sheet_tight(sheet, h);
}

/* What the reader of the money has to know, each only where it holds. */
static void remarks(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_house_facts *facts = &c->job->house;
  unsigned notes = c->rates.notes | c->existing_set.bill.notes;
  for (size_t p = 0; p < c->n_package; p++)
    notes |= c->package_set[p].saving.notes;
  pw_html_put(h, "<ul class=\"remarks\">\n");
  if (facts->bill_year.value > 0.0) {
    pw_html_put(h, "<li>The bill given is $%.0f a year; this house is computed to cost ",
                facts->bill_year.value);
    if (pw_compare_is_later(c)) /* which the data of one phase do not hold */
      pw_html_put(h, "$%.0f before any phase", pw_compare_cost_of_bill(c));
    else
      sheet_value(sheet, h, PW_FIGURE_MONEY_5, SHEET_EXISTING, c->existing_set.bill.cost_year,
                  "cost");
    pw_html_put(
        h, ".%s%s</li>\n",
        notes & PW_BILL_SCALED ? " The savings are scaled down to the bill." : "",
        notes & PW_BILL_FAR_FROM_GIVEN
            ? " The two lie more than a quarter apart: check habits, prices and equipment."
            : "");
  }
  if (notes & (PW_BILL_STATE_AVERAGE | PW_BILL_NATIONAL))
    pw_html_put(h,
                "<li>A price is a published average (%s), not the one on this household's bill."
                "</li>\n",
                notes & PW_BILL_NATIONAL ? "national" : "of the state");
  if (notes & PW_BILL_NO_HEATING)
    pw_html_put(h,
                "<li>The house has no heating: no heat is billed and none is saved; what new "
                "windows keep warm is comfort.</li>\n");
  if (notes & PW_BILL_NO_COOLING)
    pw_html_put(h,
                "<li>The house has no cooling machine: it floats above its set point. What new "
                "windows take off the heat of summer is comfort, not money.</li>\n");
  if (notes & PW_BILL_EFFICIENCY)
    pw_html_put(
        h, "<li>An efficiency is the usual one of its kind, not read from a plate.</li>\n");
  for (size_t p = 0; sheet->frame->range && p < c->n_package; p++)
    if (sheet->frame->range->package[p].includes_zero)
      pw_html_put(h,
                  "<li><strong>The range of the saving with <bdi>%s</bdi> holds zero: a saving "
                  "is not sure.</strong></li>\n",
                  c->package_set[p].name);
  if (!sheet->frame->range)
    pw_html_put(
        h, "<li><strong>The ranges were not computed for this sheet: take every saving as a "
           "middle value only.</strong></li>\n");
  pw_html_put(
      h,
      "<li>Savings are of heating and cooling only, never of a whole energy bill, and to "
      "the nearest $5 a year. Energy prices rise with inflation%s.</li>\n</ul>\n",
      facts->escalation.value != 0.0 ? ", and as the job says" : "");
}

/* The facts that would narrow that range most. */
static void ask_next(const pw_sheet *sheet, pw_html *h)
{
  pw_ask ask[PW_ASK_NEXT];
  size_t n = pw_ask_next(sheet->frame->range, 0, ask);
  if (n == 0) return;
  pw_html_put(h, "<h3>What to tell us next: each would narrow the range by about</h3>\n<ol>\n");
  for (size_t k = 0; k < n; k++) {
    pw_html_put(h, "<li>%s: ", ask[k].question);
    pw_figure_put(h, sheet->units, PW_FIGURE_SHARE, ask[k].narrows,
                  "house.packages.0.ask_next.%zu.narrows", k);
    pw_html_put(h, "</li>\n");
  }
  pw_html_put(h, "</ol>\n");
}

/* The inputs that the saving of the first package hangs on most. */
static void drivers(const pw_sheet *sheet, pw_html *h)
{
  enum { SHOWN = 5 };
  const pw_range *r = sheet->frame->range;
  if (!r) return;
  const pw_range_set *set = &r->package[0];
  pw_html_put(h,
              "<h3>What moves the saving with <bdi>%s</bdi> most</h3>\n<ol "
              "class=\"drivers\">\n",
              sheet->compare->package_set[0].name);
  for (size_t k = 0; k < SHOWN && k < r->n_input; k++) {
    pw_html_put(h, "<li>%s: ", r->input[set->rank[k]].name);
    pw_figure_put(h, sheet->units, PW_FIGURE_SHARE, set->sensitivity[set->rank[k]].total,
                  "house.packages.0.sensitivity.%zu.total", k);
    pw_html_put(h, " of the spread</li>\n");
  }
  pw_html_put(h, "</ol>\n");
  ask_next(sheet, h);
}

/* ---------------------------------------------------------------- pictures */

static void bill_row(pw_plot *p, const char *name, double cost, const pw_band *band,
                     double *top)
{
  double low = band ? band->p10 : (double)NAN, high = band ? band->p90 : (double)NAN;
  double likely = band ? band->p50 : cost;
  *top = fmax(*top, band ? high : likely);
  pw_plot_row(p, "sfff", name, likely, low, high);
}

static pw_status bills(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  const pw_range *r = sheet->frame->range;
  double top = 0.0;
  pw_plot *p = pw_plot_new("plots/bills.gp");
  pw_plot_block(p, "D");
  bill_row(p, "there now", c->existing_set.bill.cost_year, r ? &r->existing.cost_year : NULL,
           &top);
  bill_row(p, "code", c->minimum_set.bill.cost_year, NULL, &top);
  for (size_t i = 0; i < c->n_package; i++)
    bill_row(p, pw_clip(c->package_set[i].name, 10).text, c->package_set[i].bill.cost_year,
             r ? &r->package[i].cost_year : NULL, &top);
  pw_plot_end_block(p);
  pw_plot_text(p, "title", "Heating and cooling, $ a year");
  pw_plot_text(p, "unit", "$ a year");
  pw_plot_number(p, "n", (double)c->n_package + 2.0);
  pw_plot_number(p, "top", top > 0.0 ? top : 1.0); /* an axis also where nothing is bought */
  return sheet_figure(
      h, p, 640, 300, "bills", "Cost of heating and cooling a year",
      r ? "Bars: likely. Lines: the range of 8 in 10; the windows share most of what "
          "is unsure, so their difference is surer than each."
        : "Likely cost; ranges not computed.",
      err);
}

/* ---------------------------------------------------------------- which windows first */

/* What a window costs the year: heat lost while heating and sun gained while cooling. */
static double burden(const pw_year_window *w)
{
  return w->heating_part_kwh + w->cooling_part_kwh;
}

static void first_windows(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  pw_html_put(h, "<h2>Which windows first?</h2>\n");
  pw_html_wide(h, "Which windows first?");
  pw_html_put(h, "<table class=\"sets\"><thead><tr>"
                 "<th scope=\"col\">kWh a year off heating and cooling need</th>");
  sheet_package_heads(sheet, h);
  pw_html_put(h, "</tr></thead>\n<tbody>\n");
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_opening *o = &c->job->opening[i];
    if (!pw_compare_replaces(c, i) || o->unconditioned) continue;
    pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi> <bdi>%s</bdi></th>", o->tag, o->room);
    for (size_t p = 0; p < c->n_package; p++) {
      pw_html_put(h, "<td>");
      pw_figure_put(
          h, sheet->units, PW_FIGURE_KWH,
          burden(&c->existing_set.year.window[i]) - burden(&c->package_set[p].year.window[i]),
          "openings.%zu.existing.year.need_kwh - openings.%zu.packages.%zu.year.need_kwh", i, i,
          p);
      pw_html_put(h, "</td>");
    }
    pw_html_put(h, "</tr>\n");
  }
  pw_html_put(h, "</tbody></table></div>\n");
}

pw_status sheet_year(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  pw_html_put(h, "<section class=\"part\" id=\"year\">\n");
  year_table(sheet, h);
  pw_plot *plot = NULL;
  pw_status status = pw_compare_picture(c, sheet->units, PW_PICTURE_MONTHLY, &plot, err);
  if (status == PW_OK)
    status = sheet_figure(h, plot, 640, 500, "months", "Heating and cooling need by month",
                          "What the house needs month by month.", err);
  if (status != PW_OK) return status;
  money_table(sheet, h);
  status = bills(sheet, h, err);
  remarks(sheet, h);
  drivers(sheet, h);
  first_windows(sheet, h);
  sheet_assumptions(sheet, h);
  pw_html_put(h, "</section>\n");
  return status;
}
