/* Part 3: the year in the house, the money with its ranges, which windows first. */
#include <math.h>

#include "money/worth.h"
#include "out/clip.h"
#include "out/sheet_impl.h"
#include "panewright/bill.h"
#include "study/ask_next.h"

static void year_table(const pw_sheet *sheet, pw_html *h)
{
  const int aired = sheet->compare->lived.house.airing.hours != 0;
  const char *title = pw_say(h, PW_TEXT("A year in the house"));
  pw_html_put(h, "<h2>3. The year and the money</h2>\n<h3>%s</h3>\n", title);
  pw_html_wide(h, title);
  fputs("<table class=\"sets\">", h->f);
  sheet_measure_head(sheet, h, PW_TEXT("Middle values of a typical year"));
  fputs("<tbody>\n", h->f);
  sheet_measure_row(sheet, h, PW_RESULT_HEATING, NULL);
  sheet_measure_row(sheet, h, PW_RESULT_COOLING, NULL);
  if (!sheet->compare->billed.rates.cools)
    sheet_measure_row(sheet, h, PW_RESULT_HOURS_WARM,
                      aired ? PW_TEXT("a year with room air above the set point given, windows "
                                      "opened when that helps")
                            : NULL);
  if (aired) sheet_measure_row(sheet, h, PW_RESULT_OPEN_AREA, NULL);
  sheet_measure_row(sheet, h, PW_RESULT_CO2,
                    sheet->units->si ? PW_TEXT("kg a year, of heating and cooling") : NULL);
  fputs("</tbody></table></div>\n", h->f);
}

/* ---------------------------------------------------------------- money */

/* The likely value of a figure of a set, times share where no range is told, and its place. */
static double likely(const pw_sheet *sheet, pw_result result, int set, double share,
                     char place[80])
{
  const pw_band *b = sheet_band_of(sheet, result, set);
  const pw_result_form *form = pw_result_of(result);
  char key[32];
  sheet_set_key(set, key);
  if (b)
    snprintf(place, 80, "%s.range.%s.p50", key, form->ranged);
  else if (share < 1.0)
    snprintf(place, 80, "%s.%s * %.9g", key, form->key, share);
  else
    snprintf(place, 80, "%s.%s", key, form->key);
  return b ? b->p50 : share * pw_result_value(result, pw_compare_set_of(sheet->compare, set));
}

/* The base of the dollars: what heating and cooling cost now, likely, held to the bill given. */
static double cost_now(const pw_sheet *sheet, char key[80])
{
  double share = pw_bill_share(sheet->compare->billed.package_set[0].saving.bill_ratio);
  return likely(sheet, PW_RESULT_COST, PW_SET_EXISTING, share, key);
}

static double saved(const pw_sheet *sheet, size_t p, char key[80])
{
  return likely(sheet, PW_RESULT_SAVING, (int)p, 1.0, key);
}

static void cell_of(const pw_sheet *sheet, pw_html *h, double value, const char *key)
{
  fputs("<td>", h->f);
  pw_figure_put(h, sheet->units, PW_FIGURE_MONEY_5, value, "%s", key);
  fputs("</td>", h->f);
}

/* What it costs now, less what is saved, is what it costs then: in print, too. */
static void cost_rows(const pw_sheet *sheet, pw_html *h)
{
  char now_key[80], key[80], both[200];
  double now = cost_now(sheet, now_key);
  pw_html_put(h, "<tr><th scope=\"row\">Heating and cooling<small>$ a year</small></th>");
  cell_of(sheet, h, now, now_key);
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    double less = saved(sheet, p, key);
    snprintf(both, sizeof both, "%s less %s", now_key, key);
    cell_of(sheet, h, pw_figure_less(PW_FIGURE_MONEY_5, sheet->units, now, less), both);
  }
  fputs("</tr>\n", h->f);
  sheet_band_row(sheet, h, PW_RESULT_COST, 0);
  pw_html_put(h, "<tr><th scope=\"row\">Saved a year<small>$, against the windows there "
                 "now</small></th><td></td>");
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    double value = saved(sheet, p, key);
    cell_of(sheet, h, value, key);
  }
  fputs("</tr>\n", h->f);
}

static void band_cells(const pw_sheet *sheet, pw_html *h, pw_result result)
{
  fputs("<td></td>", h->f);
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    fputs("<td>", h->f);
    if (result != PW_RESULT_WORTH || sheet->compare->billed.package_set[p].price > 0.0)
      sheet_band(sheet, h, result, p);
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

static void worth_row(const pw_sheet *sheet, pw_html *h)
{
  const pw_house_facts *facts = &sheet->compare->job->house;
  double years = facts->horizon_years.value;
  if (!(years > 0.0)) years = PW_YEARS_DEFAULT;
  pw_html_put(
      h,
      "<tr><th scope=\"row\">Worth over %.0f years (net present worth)<small>price and "
      "savings together in today's money, at %.1f %% a year above inflation</small></th>",
      years, 100.0 * facts->discount.value);
  band_cells(sheet, h, PW_RESULT_WORTH);
}

static void chance_row(const pw_sheet *sheet, pw_html *h)
{
  if (!sheet->frame->range) return;
  pw_html_put(h,
              "<tr><th scope=\"row\">Chance that anything is saved against the windows there "
              "now</th><td></td>");
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    fputs("<td>", h->f);
    pw_figure_put(h, sheet->units, PW_FIGURE_SHARE,
                  sheet->frame->range->package[p].chance_positive,
                  "house.packages.%zu.range.chance_saving_positive", p);
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

static void money_table(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(h, "<h3>What is saved, and how sure that is</h3>\n");
  fputs("<table class=\"bands\"><thead><tr>", h->f);
  if (sheet->frame->range)
    pw_html_put(h, "<th scope=\"col\">Likely, and the range of 8 in 10</th><th "
                   "scope=\"col\">there now</th>");
  else
    pw_html_put(h, "<th scope=\"col\">Likely</th><th scope=\"col\">there now</th>");
  sheet_package_heads(sheet, h);
  fputs("</tr></thead>\n<tbody>\n", h->f);
  cost_rows(sheet, h);
  pw_html_put(h, "<tr><th scope=\"row\">Energy saved a year<small>kWh of fuel and electricity, "
                 "against the windows there now</small></th>");
  band_cells(sheet, h, PW_RESULT_SAVING_FUEL);
  if (sheet_is_priced(sheet)) worth_row(sheet, h);
  chance_row(sheet, h);
  fputs("</tbody></table>\n", h->f);
}

/* The bill given and the one computed, apart and said. */
static void bill_remark(const pw_sheet *sheet, unsigned notes, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  double bill = c->job->house.bill_year.value;
  char given[32], before[32];
  pw_figure_words cost;
  if (!(bill > 0.0)) return;
  pw_figure_text(PW_FIGURE_MONEY, sheet->units, bill, given);
  pw_figure_text(PW_FIGURE_MONEY_5, sheet->units, pw_compare_cost_of_bill(c), before);
  if (pw_compare_is_later(c->job)) /* which the data of one phase do not hold */
    pw_html_put(h,
                "<li>The bill given is %s a year; this house before any phase is computed to "
                "cost %s without that bill.",
                given, before);
  else
    pw_html_put(
        h,
        "<li>The bill given is %s a year; this house is computed to cost %s without that "
        "bill.",
        given, sheet_say(sheet, h, &cost, PW_RESULT_COST, PW_SET_EXISTING));
  const pw_range *range = sheet->frame->range;
  int refused = range && range->bill_year.given && !range->bill_year.used;
  if (refused && range->bill_year.condition.refused == PW_CONDITION_FAR)
    pw_html_put(h,
                " The bill does not fit this house as described, so the table goes by what is "
                "computed.");
  else if (refused)
    pw_html_put(h,
                " Too few of the houses that were drawn come near the bill, so the table goes "
                "by what is computed.");
  else if (range)
    pw_html_put(h, " The table takes both into account: likely is what fits the bill best.");
  else if (notes & PW_BILL_SCALED)
    pw_html_put(h, " The table is scaled down to the bill.");
  else
    pw_html_put(h, " The table goes by what is computed.");
  if (notes & PW_BILL_FAR_FROM_GIVEN)
    pw_html_put(h,
                " The two lie more than a quarter apart: check habits, prices and equipment.");
  fputs("</li>\n", h->f);
}

static void plant_remarks(unsigned notes, pw_html *h)
{
  static const struct {
    unsigned note;
    const char *say;
  } remark[] = {
      {PW_BILL_NATIONAL, PW_TEXT("A price is a published average of the nation, not the one on "
                                 "this household's bill.")},
      {PW_BILL_NO_HEATING, PW_TEXT("The house has no heating: no heat is billed and none is "
                                   "saved; what new windows keep warm is comfort.")},
      {PW_BILL_NO_COOLING, PW_TEXT("The house has no cooling machine: it floats above its set "
                                   "point. What new windows take off the heat of summer is "
                                   "comfort, not money.")},
      {PW_BILL_EFFICIENCY,
       PW_TEXT("An efficiency is the usual one of its kind, not read from a "
               "plate.")},
  };
  if ((notes & PW_BILL_STATE_AVERAGE) && !(notes & PW_BILL_NATIONAL))
    pw_html_put(h, "<li>A price is a published average of the state, not the one on this "
                   "household's bill.</li>\n");
  for (size_t i = 0; i < sizeof remark / sizeof remark[0]; i++)
    if (notes & remark[i].note) pw_html_put(h, "<li>%s</li>\n", pw_say(h, remark[i].say));
}

/* What the reader of the money has to know, each only where it holds. */
static void remarks(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  unsigned notes = c->billed.rates.notes | c->billed.existing_set.bill.notes;
  for (size_t p = 0; p < c->n_package; p++)
    notes |= c->billed.package_set[p].saving.notes;
  fputs("<ul class=\"remarks\">\n", h->f);
  bill_remark(sheet, notes, h);
  plant_remarks(notes, h);
  for (size_t p = 0; sheet->frame->range && p < c->n_package; p++)
    if (sheet->frame->range->package[p].includes_zero)
      pw_html_put(h,
                  "<li><strong>The range of the saving with <bdi>%s</bdi> against the windows "
                  "there now holds zero: a saving is not sure.</strong></li>\n",
                  c->rated.package_set[p].name);
  if (!sheet->frame->range)
    pw_html_put(
        h, "<li><strong>The ranges were not computed for this sheet: take every saving as a "
           "middle value only.</strong></li>\n");
  pw_html_put(h,
              "<li>Savings are of heating and cooling only, never of a whole energy bill, and "
              "those of the house to the nearest $5 a year.");
  if (c->job->house.escalation.value != 0.0)
    pw_html_put(h, " Energy prices rise with inflation and as the job says.</li>\n");
  else
    pw_html_put(h, " Energy prices rise with inflation.</li>\n");
  fputs("</ul>\n", h->f);
}

/* The facts that would narrow that range most. */
static void ask_next(const pw_sheet *sheet, pw_html *h)
{
  pw_ask ask[PW_ASK_NEXT];
  size_t n = pw_ask_next(sheet->frame->range, 0, ask);
  if (n == 0) return;
  pw_html_put(h, "<div><h3>What to tell us next: each would narrow that range by about</h3>\n");
  fputs("<ol>\n", h->f);
  for (size_t k = 0; k < n; k++) {
    pw_html_put(h, "<li>%s: ", pw_say(h, ask[k].question));
    pw_figure_put(h, sheet->units, PW_FIGURE_SHARE, ask[k].narrows,
                  "house.packages.0.ask_next.%zu.narrows", k);
    fputs("</li>\n", h->f);
  }
  fputs("</ol></div>\n", h->f);
}

/* The inputs that the saving of the first package hangs on most. */
static void drivers(const pw_sheet *sheet, pw_html *h)
{
  enum { SHOWN = 5 };
  const pw_range *r = sheet->frame->range;
  if (!r) return;
  const pw_range_set *set = &r->package[0];
  fputs("<div class=\"pair\"><div>", h->f);
  pw_html_put(h,
              "<h3>What moves the saving with <bdi>%s</bdi> most: share of its range</h3>\n<ol "
              "class=\"drivers\">\n",
              sheet->compare->rated.package_set[0].name);
  for (size_t k = 0; k < SHOWN && k < r->n_input; k++) {
    pw_html_put(h, "<li>%s: ", pw_say(h, r->input[set->rank[k]].name));
    pw_figure_put(h, sheet->units, PW_FIGURE_SHARE, set->sensitivity[set->rank[k]].total,
                  "house.packages.0.sensitivity.%zu.total", k);
    fputs("</li>\n", h->f);
  }
  fputs("</ol></div>\n", h->f);
  ask_next(sheet, h);
  fputs("</div>\n", h->f);
}

/* ---------------------------------------------------------------- pictures */

static void bill_row(const pw_sheet *sheet, pw_plot *p, const char *name, double value,
                     const pw_band *band, double *top)
{
  double likely = pw_figure_rounded(PW_FIGURE_MONEY_5, sheet->units, value);
  *top = fmax(*top, band ? band->p90 : likely);
  pw_plot_row(p, "sfff", name, likely, band ? band->p10 : (double)NAN,
              band ? band->p90 : (double)NAN);
}

/* The same numbers as in the table beside it. */
static pw_status bills(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  const pw_range *r = sheet->frame->range;
  char key[80];
  double top = 0.0, now = cost_now(sheet, key);
  pw_plot *p = pw_plot_new("plots/bills.gp");
  pw_plot_block(p, "D");
  bill_row(sheet, p, pw_say(h, PW_TEXT("there now")), now, r ? &r->existing.cost_year : NULL,
           &top);
  for (size_t i = 0; i < c->n_package; i++)
    bill_row(sheet, p, pw_clip(c->rated.package_set[i].name, 10).text,
             pw_figure_less(PW_FIGURE_MONEY_5, sheet->units, now, saved(sheet, i, key)),
             r ? &r->package[i].cost_year : NULL, &top);
  pw_plot_end_block(p);
  pw_plot_text(p, "title", pw_say(h, PW_TEXT("Cost of heating and cooling")));
  pw_plot_text(p, "unit", pw_say(h, PW_TEXT("$ a year")));
  pw_plot_number(p, "n", (double)c->n_package + 1.0);
  pw_plot_number(p, "top", top > 0.0 ? top : 1.0); /* an axis also where nothing is bought */
  return sheet_figure(
      h, p, 520, 370, "bills", PW_TEXT("Cost of heating and cooling a year"),
      pw_say(h, r ? PW_TEXT("Bars: likely. Lines: the range of 8 in 10; the windows share most "
                            "of what is unsure, so their difference is surer than each.")
                  : PW_TEXT("Likely cost; ranges not computed.")),
      err);
}

static pw_status pictures(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  pw_plot *plot = NULL;
  fputs("<div class=\"pair\">\n", h->f);
  pw_status status = pw_compare_picture(sheet->compare, sheet->units, h->tongue,
                                        PW_PICTURE_MONTHLY, &plot, err);
  if (status == PW_OK)
    status =
        sheet_figure(h, plot, 520, 370, "months", PW_TEXT("Heating and cooling need by month"),
                     pw_say(h, PW_TEXT("What the house needs month by month, kWh.")), err);
  if (status == PW_OK) status = bills(sheet, h, err);
  fputs("</div>\n", h->f);
  return status;
}

pw_status sheet_year(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  fputs("<section class=\"part\" id=\"year\">\n", h->f);
  year_table(sheet, h);
  money_table(sheet, h);
  pw_status status = pictures(sheet, h, err);
  remarks(sheet, h);
  sheet_bill_year(sheet, h);
  sheet_phases(sheet, h);
  sheet_airing(sheet, h);
  sheet_tight(sheet, h);
  if (status == PW_OK) status = sheet_first(sheet, h, err);
  drivers(sheet, h);
  fputs("</section>\n", h->f);
  return status;
}
