#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "out/sheet_impl.h"
#include "out/svg.h"

/* The least half width of a printed range, as a share of its middle, unless the job gives a bill
 * (reference/trade/JOB.md, "Honest savings claims"). */
static const double range_floor = 0.25;

const pw_compare_set *sheet_set(const pw_compare *compare, int set)
{
  return set == SHEET_MINIMUM    ? &compare->minimum_set
         : set == SHEET_EXISTING ? &compare->existing_set
                                 : &compare->package_set[set];
}

void sheet_set_name(const pw_sheet *sheet, pw_html *h, int set)
{
  if (set == SHEET_MINIMUM)
    pw_html_text(h, pw_say(h, PW_TEXT("new, just meeting the code")));
  else if (set == SHEET_EXISTING)
    pw_html_text(h, pw_say(h, PW_TEXT("now")));
  else
    pw_html_name(h, sheet->compare->package_set[set].name);
}

void sheet_set_key(int set, char key[32])
{
  if (set >= 0)
    snprintf(key, 32, "house.packages.%d", set);
  else
    snprintf(key, 32, "house.%s", set == SHEET_EXISTING ? "existing" : "code_minimum");
}

const pw_compare_window *sheet_window(const pw_compare *compare, int set, size_t opening)
{
  return set < 0 ? &compare->existing[opening]
                 : pw_compare_window_of(compare, (size_t)set, opening);
}

void sheet_window_key(int set, size_t opening, char key[48])
{
  if (set < 0)
    snprintf(key, 48, "openings.%zu.existing", opening);
  else
    snprintf(key, 48, "openings.%zu.packages.%d", opening, set);
}

void sheet_value(const pw_sheet *sheet, pw_html *h, pw_figure kind, int set, double value,
                 const char *below)
{
  char key[32];
  sheet_set_key(set, key);
  pw_figure_put(h, sheet->units, kind, value, "%s.%s", key, below);
}

/* ---------------------------------------------------------------- ranges */

/* By sheet_band_kind: the figure, its name in the range and its name as a lone value. */
static const struct {
  pw_figure kind;
  const char *ranged, *alone;
} band_form[] = {
    [SHEET_BAND_SAVING] = {PW_FIGURE_MONEY_5, "saving_cost_year", "saving"},
    [SHEET_BAND_MINIMUM] = {PW_FIGURE_MONEY_5, "saving_over_code_minimum_year",
                            "saving_over_code_minimum"},
    [SHEET_BAND_ENERGY] = {PW_FIGURE_KWH, "saving_fuel_kwh_year", "saving_fuel_kwh"},
    [SHEET_BAND_PAYBACK] = {PW_FIGURE_YEARS, "payback_years", "payback_years"},
    [SHEET_BAND_WORTH] = {PW_FIGURE_MONEY_5, "net_present_worth", "net_present_worth"},
    [SHEET_BAND_U] = {PW_FIGURE_U, "u_w_m2k", "u_w_m2k"},
    [SHEET_BAND_COST] = {PW_FIGURE_MONEY_5, "cost_year", "cost"},
};

const pw_band *sheet_band_of(const pw_sheet *sheet, sheet_band_kind kind, int s)
{
  if (!sheet->frame->range) return NULL;
  const pw_range *range = sheet->frame->range;
  const pw_range_set *set = s < 0 ? &range->existing : &range->package[s];
  return kind == SHEET_BAND_SAVING    ? &set->saving_cost
         : kind == SHEET_BAND_MINIMUM ? &set->saving_minimum
         : kind == SHEET_BAND_ENERGY  ? &set->saving_fuel_kwh
         : kind == SHEET_BAND_PAYBACK ? &set->payback
         : kind == SHEET_BAND_WORTH   ? &set->net_present_worth
         : kind == SHEET_BAND_COST    ? &set->cost_year
                                      : &set->u;
}

static double alone(const pw_compare_set *set, sheet_band_kind kind)
{
  return kind == SHEET_BAND_SAVING    ? set->saving.cost_year
         : kind == SHEET_BAND_MINIMUM ? set->saving_minimum.cost_year
         : kind == SHEET_BAND_ENERGY  ? set->saving.fuel_kwh
         : kind == SHEET_BAND_PAYBACK ? set->worth.simple_payback
         : kind == SHEET_BAND_WORTH   ? set->worth.net_present_worth
         : kind == SHEET_BAND_COST    ? set->bill.cost_year
                                      : set->u;
}

int sheet_pays_late(const pw_sheet *sheet, size_t p)
{
  const pw_compare_set *set = &sheet->compare->package_set[p];
  const pw_band *b = sheet_band_of(sheet, SHEET_BAND_PAYBACK, (int)p);
  double years = b ? b->p50 : set->worth.simple_payback;
  return set->price > 0.0 && !(years <= set->invest.life);
}

int sheet_held_to_bill(const pw_sheet *sheet)
{
  const pw_range *range = sheet->frame->range;
  return range ? range->bill_year.used || range->bills.used
               : sheet->compare->job->house.bill_year.value > 0.0;
}

/* Whether a band must be shown wider than it is. */
static int widened(const pw_sheet *sheet, sheet_band_kind kind)
{
  return kind <= SHEET_BAND_ENERGY && !sheet_held_to_bill(sheet);
}

/* One end of a range. */
static const char *end(const pw_sheet *sheet, const pw_html *h, pw_figure_words *words,
                       sheet_band_kind kind, int set, int high)
{
  char key[32];
  const pw_band *b = sheet_band_of(sheet, kind, set);
  const char *name = band_form[kind].ranged;
  double v = high ? b->p90 : b->p10, sign = high ? 1.0 : -1.0;
  double least = b->p50 + sign * range_floor * fabs(b->p50);
  sheet_set_key(set, key);
  if (widened(sheet, kind) && sign * (least - v) > 0.0)
    return pw_figure_say(h, words, sheet->units, band_form[kind].kind, least,
                         "%s.range.%s.p50 * %g", key, name, least / b->p50);
  return pw_figure_say(h, words, sheet->units, band_form[kind].kind, v, "%s.range.%s.%s", key,
                       name, high ? "p90" : "p10");
}

static void ends(const pw_sheet *sheet, pw_html *h, sheet_band_kind kind, int set)
{
  pw_figure_words low, high;
  pw_html_put(h, "<span class=\"band\">%s to %s</span>", end(sheet, h, &low, kind, set, 0),
              end(sheet, h, &high, kind, set, 1));
}

void sheet_band(const pw_sheet *sheet, pw_html *h, sheet_band_kind kind, size_t p)
{
  fputs("<span class=\"likely\">", h->f);
  if (!sheet->frame->range) {
    sheet_value(sheet, h, band_form[kind].kind, (int)p,
                alone(&sheet->compare->package_set[p], kind), band_form[kind].alone);
    pw_html_put(h, "</span> <span class=\"band\">range not computed</span>");
    return;
  }
  pw_figure_put(h, sheet->units, band_form[kind].kind, sheet_band_of(sheet, kind, (int)p)->p50,
                "house.packages.%zu.range.%s.p50", p, band_form[kind].ranged);
  fputs("</span> ", h->f);
  ends(sheet, h, kind, (int)p);
}

/* Row of ranges; the column of the code, which has none, where the table has it. */
static void band_row(const pw_sheet *sheet, pw_html *h, sheet_band_kind kind, int code)
{
  if (!sheet->frame->range) return;
  pw_html_put(h, "<tr class=\"range\"><th scope=\"row\">range of 8 in 10</th><td>");
  ends(sheet, h, kind, SHEET_EXISTING);
  fputs(code ? "</td><td></td>" : "</td>", h->f);
  for (int p = 0; p < (int)sheet->compare->n_package; p++) {
    fputs("<td>", h->f);
    ends(sheet, h, kind, p);
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

void sheet_band_row(const pw_sheet *sheet, pw_html *h, sheet_band_kind kind)
{
  band_row(sheet, h, kind, 1);
}

void sheet_cost_band_row(const pw_sheet *sheet, pw_html *h)
{
  band_row(sheet, h, SHEET_BAND_COST, 0);
}

/* ---------------------------------------------------------------- tables of sets */

static double at_offset(const pw_compare_set *set, size_t offset)
{
  double v;
  memcpy(&v, (const char *)set + offset, sizeof v);
  return v;
}

/* The package whose printed value is best, or -1 when two print alike or nothing is better. */
static int best_of(const pw_sheet *sheet, const sheet_measure *m)
{
  int best = -1, shared = 0;
  double top = 0.0;
  for (size_t p = 0; m->better && p < sheet->compare->n_package; p++) {
    double v =
        m->better * pw_figure_rounded(m->kind, sheet->units,
                                      at_offset(&sheet->compare->package_set[p], m->offset));
    if (!isfinite(v)) continue;
    if (best >= 0 && v == top) shared = 1;
    if (best < 0 || v > top) {
      best = (int)p;
      top = v;
      shared = 0;
    }
  }
  return shared || sheet->compare->n_package < 2 ? -1 : best;
}

void sheet_package_heads(const pw_sheet *sheet, pw_html *h)
{
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    fputs("<th scope=\"col\">", h->f);
    pw_html_name(h, sheet->compare->package_set[p].name);
    fputs("</th>", h->f);
  }
}

void sheet_measure_head(const pw_sheet *sheet, pw_html *h, const char *corner)
{
  pw_html_put(h,
              "<thead><tr><th scope=\"col\">%s</th><th scope=\"col\">there now</th>"
              "<th scope=\"col\">new, just meeting the code</th>",
              pw_say(h, corner));
  sheet_package_heads(sheet, h);
  fputs("</tr></thead>\n", h->f);
}

void sheet_measure_row(const pw_sheet *sheet, pw_html *h, const sheet_measure *m)
{
  const pw_compare *c = sheet->compare;
  int best = best_of(sheet, m);
  pw_html_put(h, "<tr><th scope=\"row\">%s", pw_say(h, m->say));
  if (m->note) pw_html_put(h, "<small>%s</small>", pw_say(h, m->note));
  fputs("</th>", h->f);
  static const int base[] = {SHEET_EXISTING, SHEET_MINIMUM};
  for (size_t i = 0; i < 2; i++) {
    fputs("<td>", h->f);
    double v = at_offset(sheet_set(c, base[i]), m->offset);
    if ((i == 0 ? m->existing : m->minimum) && isfinite(v))
      sheet_value(sheet, h, m->kind, base[i], v, m->key);
    fputs("</td>", h->f);
  }
  for (int p = 0; p < (int)c->n_package; p++) {
    fputs(p == best ? "<td class=\"best\">" : "<td>", h->f);
    sheet_value(sheet, h, m->kind, p, at_offset(sheet_set(c, p), m->offset), m->key);
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

/* ---------------------------------------------------------------- pictures */

pw_status sheet_figure(pw_html *h, pw_plot *plot, int width, int height, const char *id,
                       const char *alt, const char *caption, pw_err *err)
{
  char *svg = NULL;
  pw_status status = pw_plot_svg(plot, width, height, &svg, err);
  pw_plot_free(plot);
  if (status != PW_OK) return status;
  pw_html_put(h, "<figure class=\"%s\">", id);
  pw_svg_inline(h, svg, id, pw_say(h, alt));
  pw_html_put(h, "<figcaption>%s</figcaption></figure>\n", caption);
  free(svg);
  return PW_OK;
}
