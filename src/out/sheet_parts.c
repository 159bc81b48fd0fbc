#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "out/sheet_impl.h"
#include "out/svg.h"

/* The least half width of a printed range, as a share of its middle, unless the job gives a bill
 * (reference/trade/JOB.md, "Honest savings claims"). */
static const double range_floor = 0.25;

void sheet_set_name(const pw_sheet *sheet, pw_html *h, int set)
{
  if (set == PW_SET_MINIMUM)
    pw_html_text(h, pw_say(h, PW_TEXT("new, just meeting the code")));
  else if (set == PW_SET_EXISTING)
    pw_html_text(h, pw_say(h, PW_TEXT("now")));
  else
    pw_html_name(h, sheet->compare->rated.package_set[set].name);
}

void sheet_set_key(int set, char key[32])
{
  if (set >= 0)
    snprintf(key, 32, "house.packages.%d", set);
  else
    snprintf(key, 32, "house.%s", set == PW_SET_EXISTING ? "existing" : "code_minimum");
}

void sheet_window_key(int set, size_t opening, char key[48])
{
  if (set < 0)
    snprintf(key, 48, "openings.%zu.existing", opening);
  else
    snprintf(key, 48, "openings.%zu.packages.%d", opening, set);
}

const char *sheet_say(const pw_sheet *sheet, const pw_html *h, pw_figure_words *words,
                      pw_result result, int set)
{
  char key[32];
  sheet_set_key(set, key);
  return pw_figure_say(h, words, sheet->units, pw_result_of(result)->kind,
                       pw_result_value(result, pw_compare_set_of(sheet->compare, set)), "%s.%s",
                       key, pw_result_of(result)->key);
}

const char *sheet_window_say(const pw_sheet *sheet, const pw_html *h, pw_figure_words *words,
                             pw_window_result result, int set, size_t i)
{
  const pw_year_window *year = &pw_compare_set_of(sheet->compare, set).lived->year.window[i];
  char key[48];
  sheet_window_key(set, i, key);
  return pw_figure_say(
      h, words, sheet->units, pw_window_result_of(result)->kind,
      pw_window_value(result, pw_compare_window_of(&sheet->compare->rated, set, i), year),
      "%s.%s", key, pw_window_result_of(result)->key);
}

void sheet_value(const pw_sheet *sheet, pw_html *h, pw_result result, int set)
{
  pw_figure_words words;
  pw_html_put(h, "%s", sheet_say(sheet, h, &words, result, set));
}

/* ---------------------------------------------------------------- ranges */

const pw_band *sheet_band_of(const pw_sheet *sheet, pw_result result, int s)
{
  const pw_range *range = sheet->frame->range;
  return range ? pw_result_band(result, s < 0 ? &range->existing : &range->package[s]) : NULL;
}

int sheet_pays_late(const pw_sheet *sheet, size_t p)
{
  const pw_billed_set *set = &sheet->compare->billed.package_set[p];
  const pw_band *b = sheet_band_of(sheet, PW_RESULT_PAYBACK, (int)p);
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
static int widened(const pw_sheet *sheet, pw_result result)
{
  return (result == PW_RESULT_SAVING || result == PW_RESULT_SAVING_MINIMUM ||
          result == PW_RESULT_SAVING_FUEL) &&
         !sheet_held_to_bill(sheet);
}

/* One end of a range. */
static const char *end(const pw_sheet *sheet, const pw_html *h, pw_figure_words *words,
                       pw_result result, int set, int high)
{
  char key[32];
  const pw_band *b = sheet_band_of(sheet, result, set);
  const pw_result_form *form = pw_result_of(result);
  double v = high ? b->p90 : b->p10, sign = high ? 1.0 : -1.0;
  double least = b->p50 + sign * range_floor * fabs(b->p50);
  sheet_set_key(set, key);
  if (widened(sheet, result) && sign * (least - v) > 0.0)
    return pw_figure_say(h, words, sheet->units, form->kind, least, "%s.range.%s.p50 * %g", key,
                         form->ranged, least / b->p50);
  return pw_figure_say(h, words, sheet->units, form->kind, v, "%s.range.%s.%s", key,
                       form->ranged, high ? "p90" : "p10");
}

static void ends(const pw_sheet *sheet, pw_html *h, pw_result result, int set)
{
  pw_figure_words low, high;
  pw_html_put(h, "<span class=\"band\">%s to %s</span>", end(sheet, h, &low, result, set, 0),
              end(sheet, h, &high, result, set, 1));
}

void sheet_band(const pw_sheet *sheet, pw_html *h, pw_result result, size_t p)
{
  fputs("<span class=\"likely\">", h->f);
  if (!sheet->frame->range) {
    sheet_value(sheet, h, result, (int)p);
    pw_html_put(h, "</span> <span class=\"band\">range not computed</span>");
    return;
  }
  pw_figure_put(h, sheet->units, pw_result_of(result)->kind,
                sheet_band_of(sheet, result, (int)p)->p50, "house.packages.%zu.range.%s.p50", p,
                pw_result_of(result)->ranged);
  fputs("</span> ", h->f);
  ends(sheet, h, result, (int)p);
}

void sheet_band_row(const pw_sheet *sheet, pw_html *h, pw_result result, int code)
{
  if (!sheet->frame->range) return;
  pw_html_put(h, "<tr class=\"range\"><th scope=\"row\">range of 8 in 10</th><td>");
  ends(sheet, h, result, PW_SET_EXISTING);
  fputs(code ? "</td><td></td>" : "</td>", h->f);
  for (int p = 0; p < (int)sheet->compare->n_package; p++) {
    fputs("<td>", h->f);
    ends(sheet, h, result, p);
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

/* ---------------------------------------------------------------- tables of sets */

/* The package whose printed value is best, or -1 when two print alike or nothing is better. */
static int best_of(const pw_sheet *sheet, pw_result result)
{
  const pw_result_form *m = pw_result_of(result);
  int best = -1, shared = 0;
  double top = 0.0;
  for (size_t p = 0; m->better && p < sheet->compare->n_package; p++) {
    double v =
        m->better *
        pw_figure_rounded(m->kind, sheet->units,
                          pw_result_value(result, pw_compare_set_of(sheet->compare, (int)p)));
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
    pw_html_name(h, sheet->compare->rated.package_set[p].name);
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

void sheet_measure_row(const pw_sheet *sheet, pw_html *h, pw_result result, const char *note)
{
  const pw_compare *c = sheet->compare;
  const pw_result_form *m = pw_result_of(result);
  int best = best_of(sheet, result);
  pw_html_put(h, "<tr><th scope=\"row\">%s", pw_say(h, m->say));
  pw_html_put(h, "<small>%s</small></th>", pw_say(h, note ? note : m->note));
  static const int base[] = {PW_SET_EXISTING, PW_SET_MINIMUM};
  for (size_t i = 0; i < 2; i++) {
    fputs("<td>", h->f);
    if ((i == 0 ? m->existing : m->minimum) &&
        isfinite(pw_result_value(result, pw_compare_set_of(c, base[i]))))
      sheet_value(sheet, h, result, base[i]);
    fputs("</td>", h->f);
  }
  for (int p = 0; p < (int)c->n_package; p++) {
    fputs(p == best ? "<td class=\"best\">" : "<td>", h->f);
    sheet_value(sheet, h, result, p);
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
