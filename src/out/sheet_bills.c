/* What the house's own bills did to the range: before them, with them, or why they are not used. */
#include "out/sheet_impl.h"
#include "panewright/rates.h"

static void cell(const pw_sheet *sheet, pw_html *h, const pw_band *b, const char *key)
{
  pw_figure_words low, high;
  fputs("<td><span class=\"likely\">", h->f);
  pw_figure_put(h, sheet->units, PW_FIGURE_MONEY_5, b->p50, "%s.p50", key);
  fputs("</span> ", h->f);
  pw_html_put(h, "<span class=\"band\">%s to %s</span>",
              pw_figure_say(h, &low, sheet->units, PW_FIGURE_MONEY_5, b->p10, "%s.p10", key),
              pw_figure_say(h, &high, sheet->units, PW_FIGURE_MONEY_5, b->p90, "%s.p90", key));
  fputs("</td>", h->f);
}

/* The range of a set as it is now. */
static void ranged(const pw_sheet *sheet, pw_html *h, pw_result result, int set)
{
  char key[32], path[80];
  sheet_set_key(set, key);
  snprintf(path, sizeof path, "%s.range.%s", key, pw_result_of(result)->ranged);
  cell(sheet, h, sheet_band_of(sheet, result, set), path);
}

/* name: where the figures of before stand in JSON, range_run.<name>. */
static void table(const pw_sheet *sheet, const pw_range *r, const pw_range_conditioned *b,
                  const char *name, pw_html *h)
{
  char key[80];
  pw_html_put(
      h, "<table class=\"bands own\"><thead><tr><th scope=\"col\">$ a year, likely and the "
         "range of 8 in 10</th><th scope=\"col\">");
  if (b == &r->bills)
    pw_html_put(h, "before your bills</th><th scope=\"col\">with your bills</th></tr></thead>\n"
                   "<tbody>\n");
  else
    pw_html_put(h, "before your bill</th><th scope=\"col\">with your bill</th></tr></thead>\n"
                   "<tbody>\n");
  pw_html_put(h, "<tr><th scope=\"row\">Heating and cooling, windows there now</th>");
  snprintf(key, sizeof key, "range_run.%s.%s_before", name,
           pw_result_of(PW_RESULT_COST)->ranged);
  cell(sheet, h, &b->before_cost, key);
  ranged(sheet, h, PW_RESULT_COST, PW_SET_EXISTING);
  fputs("</tr>\n", h->f);
  for (size_t p = 0; p < r->n_package; p++) {
    pw_html_put(h, "<tr><th scope=\"row\">Saved by <bdi>%s</bdi></th>",
                sheet->compare->rated.package_set[p].name);
    snprintf(key, sizeof key, "range_run.%s.%s_before.%zu", name,
             pw_result_of(PW_RESULT_SAVING)->ranged, p);
    cell(sheet, h, &b->before_saving[p], key);
    ranged(sheet, h, PW_RESULT_SAVING, (int)p);
    fputs("</tr>\n", h->f);
  }
  fputs("</tbody></table>\n", h->f);
}

void sheet_bill_year(const pw_sheet *sheet, pw_html *h)
{
  const pw_range *r = sheet->frame->range;
  if (!r || !r->bill_year.used || r->bills.used) return;
  pw_html_put(h, "<h3>Your bill of a year</h3>\n");
  table(sheet, r, &r->bill_year, "bill_year", h);
}

static const char *why_not(pw_condition_refusal refused)
{
  return refused == PW_CONDITION_FAR
             ? PW_TEXT("they do not fit this house as it is described. Look at floor area, "
                       "heating and cooling, set points, or a second meter.")
         : refused
             ? PW_TEXT("too few of the houses that were drawn come near them.")
             : PW_TEXT("no fuel that heats or cools this house has bills that can be used.");
}

void sheet_bills(const pw_sheet *sheet, pw_html *h)
{
  const pw_range *r = sheet->frame->range;
  if (!r || !r->bills.given) return;
  pw_html_put(h, "<h3>Your own bills</h3>\n");
  if (!r->bills.used) {
    pw_html_put(h,
                "<p class=\"bills\">Your bills are not used: %s The ranges are those without "
                "them.</p>\n",
                pw_say(h, why_not(r->bills.condition.refused)));
    return;
  }
  table(sheet, r, &r->bills, "bills", h);
  pw_html_put(h, "<p class=\"small bills\">The ranges on this sheet are weighed by ");
  for (int f = 0, n = 0; f < PW_FUEL_COUNT; f++) {
    if (!r->bills.n_bill[f]) continue;
    if (n++) fputs(", ", h->f);
    pw_html_put(h, "%zu bills (%s)", r->bills.n_bill[f], pw_say(h, pw_fuel_name((pw_fuel)f)));
  }
  pw_html_put(h, ". A range that rests on bills is still a range: nothing in it was "
                 "measured.</p>\n");
}
