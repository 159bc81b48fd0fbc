/* Part 1: the house, the question, the answer in plain words, one picture. */
#include <math.h>
#include <string.h>

#include "out/alarm.h"
#include "out/compare_sound_out.h"
#include "out/job_title.h"
#include "out/option_out.h"
#include "out/range_out.h"
#include "out/sheet_impl.h"
#include "out/sheet_scale.h"
#include "panewright/code_check.h"
#include "panewright/date.h"

/* Last day on which a window placed in service earned the federal credit: 26 USC 25C as amended in
 * 2025 (reference/trade/rebate_form.md, read). */
static const pw_date credit_ends = 20251231;

/* "0.41 with good, 0.34 with better and 0.28 with best". */
static void each(const pw_sheet *sheet, pw_html *h, pw_figure kind, size_t offset,
                 const char *key)
{
  const pw_compare *c = sheet->compare;
  for (size_t p = 0; p < c->n_package; p++) {
    double v;
    memcpy(&v, (const char *)&c->package_set[p] + offset, sizeof v);
    pw_html_put(h, "%s", p == 0 ? "" : p + 1 == c->n_package ? " and " : ", ");
    sheet_value(sheet, h, kind, (int)p, v, key);
    pw_html_put(h, " with <bdi>%s</bdi>", c->package_set[p].name);
  }
}

static void heat(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(
      h, "<li><b>Heat.</b> The windows there now have a heat-leak number (U-factor, %s) of ",
      sheet->units->u);
  sheet_value(sheet, h, PW_FIGURE_U, SHEET_EXISTING, sheet->compare->existing_set.u, "u_w_m2k");
  pw_html_put(h, "; it would be ");
  each(sheet, h, PW_FIGURE_U, offsetof(pw_compare_set, u), "u_w_m2k");
  pw_html_put(h, ". Lower keeps more heat in.</li>\n");
}

static void view(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(
      h,
      "<li><b>View.</b> The new frame stands inside the old one, so some glass is lost%s: "
      "you keep ",
      pw_option_has_bars(sheet->compare->job) ? ", and bars in the glass cover some" : "");
  each(sheet, h, PW_FIGURE_SHARE, offsetof(pw_compare_set, glass_kept), "glass_kept");
  pw_html_put(h, " of the glass, and of the daylight ");
  each(sheet, h, PW_FIGURE_SHARE, offsetof(pw_compare_set, light_kept), "light_kept");
  pw_html_put(h, ".</li>\n");
}

static void sweating(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  char in[32];
  pw_figure_text(PW_FIGURE_TEMPERATURE, sheet->units, c->t_in, in);
  pw_html_put(h, "<li><b>Sweating.</b> On a cold night here (");
  pw_figure_put(h, sheet->units, PW_FIGURE_TEMPERATURE, c->t_design_out, "design_outdoor_c");
  pw_html_put(
      h,
      " %s outside, %s inside) the worst window there now begins to sweat when the room "
      "air is at ",
      sheet->units->temperature, in);
  sheet_value(sheet, h, PW_FIGURE_SHARE, SHEET_EXISTING, c->existing_set.sweat_rh,
              "sweat_above_rh");
  pw_html_put(h, pw_compare_n_replaced(c) < c->n_opening
                     ? " humidity; afterwards the worst one, of those that stay too, at "
                     : " humidity; the worst new one at ");
  each(sheet, h, PW_FIGURE_SHARE, offsetof(pw_compare_set, sweat_rh), "sweat_above_rh");
  pw_html_put(h, ".</li>\n");
}

static void comfort(const pw_sheet *sheet, size_t i, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_opening *o = &c->job->opening[i];
  pw_html_put(h,
              "<li><b>Comfort.</b> That night the inside of the glass in <bdi>%s</bdi> "
              "(<bdi>%s</bdi>) is at ",
              o->room, o->tag);
  for (int s = SHEET_EXISTING; s < (int)c->n_package; s++) {
    char key[48];
    sheet_window_key(s, i, key);
    if (s >= 0) pw_html_put(h, "%s", s == 0 ? " now, " : ", ");
    pw_figure_put(h, sheet->units, PW_FIGURE_TEMPERATURE, sheet_window(c, s, i)->sweat.center.t,
                  "%s.inner_glass_design_night_c", key);
    pw_html_put(h, " %s", sheet->units->temperature);
    if (s >= 0) pw_html_put(h, " with <bdi>%s</bdi>", c->package_set[s].name);
  }
  pw_html_put(h, ".</li>\n");
}

/* "With good you would not hear a difference, -2 to 2 dB; with better ..." */
static void quiet(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_compare_sound *s = sheet->frame->sound;
  int louder = 0;
  if (!s) return;
  pw_html_put(h, "<li><b>Quiet.</b> The change against %s: ", pw_sound_noise_text(s));
  for (size_t p = 0; p < c->n_package; p++) {
    pw_html_put(h, "%swith <bdi>%s</bdi> %s, ", p ? "; " : "", c->package_set[p].name,
                pw_heard_text(s->heard[p]));
    pw_figure_put(h, sheet->units, PW_FIGURE_DB, s->change[p].p10,
                  "sound.packages.%zu.change_rw_ctr_db.p10", p);
    pw_html_put(h, " to ");
    pw_figure_put(h, sheet->units, PW_FIGURE_DB, s->change[p].p90,
                  "sound.packages.%zu.change_rw_ctr_db.p90", p);
    pw_html_put(h, " dB quieter");
    if (s->change[p].p10 < -0.5) louder = 1;
  }
  pw_html_put(h,
              "%s. 3 dB is just noticed, 10 dB is heard as half as loud; all windows together, "
              "8 in 10.</li>\n",
              louder ? " (below 0: louder than now)" : "");
}

/* Whether the price comes back within the life of the window, said plainly. */
static void money(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  size_t priced = 0, late = 0;
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_compare_set *set = &c->package_set[p];
    if (!(set->price > 0.0)) continue;
    priced++;
    if (sheet_pays_late(sheet, p)) late++;
  }
  pw_html_put(h, "<li><b>Money.</b> The savings below are of heating and cooling, the windows' "
                 "share of it, for a whole year. ");
  if (priced == 0)
    pw_html_put(h, "The job gives no price, so no payback is figured.");
  else if (late == priced)
    pw_html_put(h,
                "<strong>%s payback is longer than the new windows are expected to live: the "
                "saving alone does not carry the price.</strong> Comfort, sweating, noise and "
                "easy opening are reasons of their own.",
                priced == 1 ? "The" : "Every");
  else if (late)
    pw_html_put(h, "<strong>Some paybacks are longer than the new windows are expected to "
                   "live</strong>; the table marks them.");
  else
    pw_html_put(h, "By the likely saving the price comes back within the life of the windows.");
  pw_html_put(h, "</li>\n");
}

/* What has to be said beside a figure, or NULL. */
static const char *warning(const pw_sheet *sheet, sheet_band_kind kind, size_t p)
{
  const pw_compare_set *set = &sheet->compare->package_set[p];
  const pw_band *b = sheet_band_of(sheet, kind, (int)p);
  if (kind == SHEET_BAND_PAYBACK)
    return sheet_pays_late(sheet, p) ? "longer than it is expected to live" : NULL;
  double low = b                            ? b->p10
               : kind == SHEET_BAND_MINIMUM ? set->saving_minimum.cost_year
                                            : set->saving.cost_year;
  double high = b ? b->p90 : low;
  if (high < 0.0)
    return pw_figure_rounded(PW_FIGURE_MONEY_5, sheet->units, high) < 0.0
               ? "costs more, saves nothing"
               : "saves nothing"; /* shown as $0 */
  return b && low <= 0.0 ? "the range holds zero: a saving is not sure" : NULL;
}

static void cells(const pw_sheet *sheet, pw_html *h, const char *head, sheet_band_kind kind)
{
  pw_html_put(h, "<tr><th scope=\"row\">%s</th>", head);
  for (size_t p = 0; p < sheet->compare->n_package; p++) {
    const char *words = warning(sheet, kind, p);
    pw_html_put(h, "<td>");
    if (kind == SHEET_BAND_PAYBACK && !(sheet->compare->package_set[p].price > 0.0))
      pw_html_put(h, "no price");
    else
      sheet_band(sheet, h, kind, p);
    if (words) pw_html_put(h, " <strong>%s</strong>", words);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

/* Whether a package may be put in here at all stands before its price. */
static void code_row(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const struct {
    pw_metric metric;
    pw_figure kind;
    const char *name, *key;
  } limit[] = {{PW_METRIC_U, PW_FIGURE_U, "U", "code.label_at_most.u_w_m2k"},
               {PW_METRIC_SHGC, PW_FIGURE_RATIO, "SHGC", "code.label_at_most.shgc"}};
  if (!c->code.known || c->code.n_row == 0) return;
  pw_html_put(h, "<tr><th scope=\"row\">Energy code here<small>the label must say at most");
  for (size_t k = 0; k < sizeof limit / sizeof limit[0]; k++) {
    double value = pw_code_limit_of(&c->code, limit[k].metric);
    if (!isfinite(value)) continue;
    pw_html_put(h, "%s %s ", k ? "," : "", limit[k].name);
    pw_figure_put(h, sheet->units, limit[k].kind, value, "%s", limit[k].key);
  }
  pw_html_put(h, "; the building department decides</small></th>");
  for (size_t p = 0; p < c->n_package; p++) {
    pw_code_package k;
    if (pw_code_check_package(c, p, &k, NULL) != PW_OK) k.state = PW_CODE_NO_LIMIT;
    if (k.state == PW_CODE_NOT_MET)
      pw_html_put(h, "<td><strong>not met: cannot be installed here</strong></td>");
    else
      pw_html_put(h, "<td>%s</td>", pw_code_state_name(k.state));
  }
  pw_html_put(h, "</tr>\n");
}

/* What the price is made of, where a price list says. */
static void price_parts(const pw_sheet *sheet, pw_html *h, size_t p)
{
  const pw_price *price = &sheet->compare->package_set[p].parts;
  if (!price->by_table || !(price->value > 0.0)) return;
  pw_html_put(h, "<br><small>");
  for (size_t k = 0; k < price->n_part; k++) {
    pw_html_put(h, "%s<bdi>%s</bdi> ", k ? ", " : "", price->part[k].item);
    pw_figure_put(h, sheet->units, PW_FIGURE_MONEY, price->part[k].value,
                  "house.packages.%zu.price_parts.%zu.value", p, k);
  }
  pw_html_put(h, "</small>");
}

static void price_row(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  pw_html_put(h, "<tr><th scope=\"row\">Price installed%s</th>",
              sheet->frame->rebate ? "" : ", no rebate counted");
  for (int p = 0; p < (int)c->n_package; p++) {
    pw_html_put(h, "<td>");
    if (c->package_set[p].price > 0.0)
      sheet_value(sheet, h, PW_FIGURE_MONEY, p, c->package_set[p].price, "price");
    price_parts(sheet, h, (size_t)p);
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

/* What the program given pays by the label values; the paybacks below count it. */
static void rebate_row(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(h, "<tr><th scope=\"row\">Rebate, by the label values<small>the program decides; "
                 "the paybacks count it</small></th>");
  for (int p = 0; p < (int)sheet->compare->n_package; p++) {
    const pw_rebate *r = &sheet->frame->rebate[p];
    char text[PW_MESSAGE_TEXT];
    pw_html_put(h, "<td>");
    sheet_value(sheet, h, PW_FIGURE_MONEY, p, r->amount.total, "rebate.amount");
    if (r->result.verdict != PW_VERDICT_MEETS)
      pw_html_put(h, " <small>%s</small>", pw_program_said(h->tongue, &r->result, text));
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

void sheet_money_rows(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  int priced = 0;
  cells(sheet, h, "Saved a year, against the windows there now", SHEET_BAND_SAVING);
  cells(sheet, h, "Saved a year, against new windows that just meet the code",
        SHEET_BAND_MINIMUM);
  for (size_t p = 0; p < c->n_package; p++)
    priced |= c->package_set[p].price > 0.0;
  code_row(sheet, h);
  if (!priced) return;
  price_row(sheet, h);
  if (sheet->frame->rebate) rebate_row(sheet, h);
  cells(sheet, h, "Years until the saving has paid the price (simple payback)",
        SHEET_BAND_PAYBACK);
}

static void credit(const pw_sheet *sheet, pw_html *h)
{
  pw_date date = 0;
  const char *text = sheet->compare->job->house.install_date;
  if (pw_date_read(text, &date, NULL) != PW_OK) date = 0;
  if (date && date <= credit_ends)
    pw_html_put(
        h, "<p>A federal credit may hold for windows placed in service by the end of 2025; "
           "it is not counted here. Ask a tax adviser.</p>\n");
  else
    pw_html_put(
        h,
        "<p>No federal window credit is counted: it ended for windows placed in service "
        "after 2025-12-31%s%s.</p>\n",
        date ? ", and these are planned for " : "", date ? text : "");
}

static void house_lines(const pw_sheet *sheet, pw_html *h)
{
  const pw_house_facts *facts = &sheet->compare->job->house;
  const pw_job *job = sheet->compare->job;
  int n = 0, replaced = 0;
  for (size_t i = 0; i < sheet->compare->n_opening; i++) {
    n += job->opening[i].quantity;
    if (pw_compare_replaces(sheet->compare, i)) replaced += job->opening[i].quantity;
  }
  pw_html_put(h, "<header>\n");
  if (facts->contractor[0])
    pw_html_put(h, "<p class=\"firm\"><bdi>%s</bdi></p>\n", facts->contractor);
  pw_html_put(h, "<h1>What new windows would change</h1>\n<p class=\"house\">");
  if (facts->customer[0]) pw_html_put(h, "<bdi>%s</bdi>. ", facts->customer);
  if (facts->place_label[0]) pw_html_put(h, "<bdi>%s</bdi>. ", facts->place_label);
  pw_html_put(h, "Job <bdi>%s</bdi>, %d %s, ", pw_job_title(job).text, n,
              n == 1 ? "window" : "windows");
  if (replaced < n) pw_html_put(h, "%d of them replaced, ", replaced);
  pw_figure_put(h, sheet->units, PW_FIGURE_AREA, sheet->compare->existing_set.area,
                "house.opening_area_m2");
  pw_html_put(h, " %s of opening.</p>\n</header>\n", sheet->units->area);
}

pw_status sheet_answer(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  size_t typical = sheet_typical_opening(c);
  pw_html_put(h, "<section class=\"part\" id=\"answer\">\n");
  house_lines(sheet, h);
  pw_alarm_html(sheet->compare, h);
  pw_html_put(
      h, "<h2>The question</h2>\n<p class=\"question\">What do new windows, slid into the "
         "old frames that stay in the wall, do in this house beside the windows there now, "
         "and what do they take away?</p>\n<h2>The answer</h2>\n<ul>\n");
  heat(sheet, h);
  view(sheet, h);
  sweating(sheet, h);
  comfort(sheet, typical, h);
  quiet(sheet, h);
  money(sheet, h);
  pw_html_put(h, "</ul>\n");
  sheet_bands_head(sheet, h);
  sheet_money_rows(sheet, h);
  pw_html_put(h, "</tbody></table>\n");
  credit(sheet, h);
  sheet_assumptions(sheet, h);
  char caption[320];
  int width = 520, height = 0;
  pw_plot *plot = sheet_scale_plot(c, typical, width, &height);
  snprintf(caption, sizeof caption,
           "Opening %s, %s, to scale from outside: the one whose loss of glass is nearest to "
           "the house's. Grey: old metal.",
           c->job->opening[typical].tag, c->job->opening[typical].room);
  pw_status status = sheet_figure(h, plot, width, height, "scale",
                                  "Windows of one opening to scale", caption, err);
  pw_html_put(h, "</section>\n");
  return status;
}
