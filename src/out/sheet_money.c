/* The table of page 1: what is saved, whether the code allows it, what it costs, when it pays. */
#include <math.h>

#include "base/date.h"
#include "out/range_out.h"
#include "out/sheet_impl.h"
#include "study/code_check.h"

/* What has to be said beside a figure, or NULL. */
static const char *warning(const pw_sheet *sheet, pw_result result, size_t p)
{
  const pw_billed_set *set = &sheet->compare->billed.package_set[p];
  const pw_band *b = sheet_band_of(sheet, result, (int)p);
  if (result == PW_RESULT_PAYBACK)
    return sheet_pays_late(sheet, p) ? PW_TEXT("longer than it is expected to live") : NULL;
  int code = result == PW_RESULT_SAVING_MINIMUM;
  double low = b ? b->p10 : code ? set->saving_minimum.cost_year : set->saving.cost_year;
  double high = b ? b->p90 : low;
  if (high < 0.0 && pw_figure_rounded(PW_FIGURE_MONEY_5, sheet->units, high) < 0.0)
    return code ? PW_TEXT("costs more than those, saves nothing against them")
                : PW_TEXT("costs more than now, saves nothing");
  if (high < 0.0) /* shown as $0 */
    return code ? PW_TEXT("saves nothing against those") : PW_TEXT("saves nothing against now");
  if (!b || low > 0.0) return NULL;
  return code ? PW_TEXT("the range holds zero: a saving against those is not sure")
              : PW_TEXT("the range holds zero: a saving is not sure");
}

static void cells(const pw_sheet *sheet, pw_html *h, pw_result result)
{
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    const char *words = warning(sheet, result, p);
    fputs("<td>", h->f);
    if (result == PW_RESULT_PAYBACK && !(sheet->compare->billed.package_set[p].price > 0.0))
      pw_html_text(h, pw_say(h, PW_TEXT("no price")));
    else
      sheet_band(sheet, h, result, p);
    if (words) pw_html_put(h, " <strong>%s</strong>", pw_say(h, words));
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

/* Whether a package may be put in here at all stands before its price. */
static void code_row(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  double u = pw_code_limit_of(&c->rated.code, PW_METRIC_U),
         shgc = pw_code_limit_of(&c->rated.code, PW_METRIC_SHGC);
  pw_figure_words most_u, most_shgc;
  if (!c->rated.code.known || c->rated.code.n_row == 0) return;
  pw_figure_say(h, &most_u, sheet->units, PW_FIGURE_U, u, "code.label_at_most.u_w_m2k");
  pw_figure_say(h, &most_shgc, sheet->units, PW_FIGURE_RATIO, shgc, "code.label_at_most.shgc");
  if (isfinite(u) && isfinite(shgc))
    pw_html_put(h,
                "<tr><th scope=\"row\">Energy code here<small>the label must say at most U %s, "
                "SHGC %s; the building department decides</small></th>",
                most_u.text, most_shgc.text);
  else if (isfinite(u))
    pw_html_put(h,
                "<tr><th scope=\"row\">Energy code here<small>the label must say at most U %s; "
                "the building department decides</small></th>",
                most_u.text);
  else if (isfinite(shgc))
    pw_html_put(h,
                "<tr><th scope=\"row\">Energy code here<small>the label must say at most SHGC "
                "%s; the building department decides</small></th>",
                most_shgc.text);
  else
    pw_html_put(h, "<tr><th scope=\"row\">Energy code here<small>the building department "
                   "decides</small></th>");
  for (size_t p = 0; p < c->n_package; p++) {
    pw_code_package k;
    if (pw_code_check_package(c, p, &k, NULL) != PW_OK) k.state = PW_CODE_NO_LIMIT;
    if (k.state == PW_CODE_NOT_MET)
      pw_html_put(h, "<td><strong>not met: cannot be installed here</strong></td>");
    else
      pw_html_put(h, "<td>%s</td>", pw_say(h, pw_code_state_name(k.state)));
  }
  fputs("</tr>\n", h->f);
}

/* What the price is made of, where a price list says; an option by its words. */
static void price_parts(const pw_sheet *sheet, pw_html *h, size_t p)
{
  const pw_price *price = &sheet->compare->billed.package_set[p].parts;
  if (!price->by_table || !(price->value > 0.0)) return;
  fputs("<br><small>", h->f);
  for (size_t k = 0; k < price->n_part; k++) {
    char item[PW_OPTION_MAX];
    sheet_plain(price->part[k].item, item, sizeof item);
    if (k) fputs(", ", h->f);
    pw_html_put(h, "<bdi>%s</bdi> ", pw_say(h, item));
    pw_figure_put(h, sheet->units, PW_FIGURE_MONEY, price->part[k].value,
                  "house.packages.%zu.price_parts.%zu.value", p, k);
  }
  fputs("</small>", h->f);
}

static void price_row(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  if (sheet->frame->rebate)
    pw_html_put(h, "<tr><th scope=\"row\">Price installed</th>");
  else
    pw_html_put(h, "<tr><th scope=\"row\">Price installed, no rebate counted</th>");
  for (int p = 0; p < (int)c->n_package; p++) {
    fputs("<td>", h->f);
    if (c->billed.package_set[p].price > 0.0) sheet_value(sheet, h, PW_RESULT_PRICE, p);
    price_parts(sheet, h, (size_t)p);
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

/* What the program given pays by the label values; the paybacks below count it. */
static void rebate_row(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(h, "<tr><th scope=\"row\">Rebate, by the label values<small>the program decides; "
                 "the paybacks count it</small></th>");
  for (int p = 0; p < (int)sheet->compare->n_package; p++) {
    const pw_rebate *r = &sheet->frame->rebate[p];
    char text[PW_MESSAGE_TEXT];
    fputs("<td>", h->f);
    pw_figure_put(h, sheet->units, PW_FIGURE_MONEY, r->amount.total,
                  "house.packages.%d.rebate.amount", p);
    if (r->result.verdict != PW_VERDICT_MEETS)
      pw_html_put(h, " <small>%s</small>", pw_program_said(h->tongue, &r->result, text));
    fputs("</td>", h->f);
  }
  fputs("</tr>\n", h->f);
}

int sheet_is_priced(const pw_sheet *sheet)
{
  for (size_t p = 0; p < sheet->compare->n_package; p++)
    if (sheet->compare->billed.package_set[p].price > 0.0) return 1;
  return 0;
}

void sheet_money_table(const pw_sheet *sheet, pw_html *h)
{
  fputs("<table class=\"bands\"><thead><tr>", h->f);
  if (sheet->frame->range)
    pw_html_put(h, "<th scope=\"col\">Likely, and the range of 8 in 10</th>");
  else
    pw_html_put(h, "<th scope=\"col\">Likely</th>");
  sheet_package_heads(sheet, h);
  fputs("</tr></thead>\n<tbody>\n", h->f);
  pw_html_put(h, "<tr><th scope=\"row\">Saved a year, against the windows there now</th>");
  cells(sheet, h, PW_RESULT_SAVING);
  pw_html_put(h, "<tr><th scope=\"row\">Saved a year, against new windows that just meet the "
                 "code</th>");
  cells(sheet, h, PW_RESULT_SAVING_MINIMUM);
  code_row(sheet, h);
  if (sheet_is_priced(sheet)) {
    price_row(sheet, h);
    if (sheet->frame->rebate) rebate_row(sheet, h);
    pw_html_put(h, "<tr><th scope=\"row\">Years until the saving has paid the price (simple "
                   "payback)</th>");
    cells(sheet, h, PW_RESULT_PAYBACK);
  }
  fputs("</tbody></table>\n", h->f);
}

void sheet_validity(const pw_sheet *sheet, pw_html *h)
{
  char last[11];
  int days = (int)sheet->paper.job->house.offer.valid_days;
  if (days <= 0 || !sheet_is_priced(sheet)) return;
  pw_date_write(pw_date_of_day(pw_date_day(sheet->paper.date) + days), last);
  pw_html_put(h, " Prices hold through %s.", last);
}
