/* Part 1: the house, the question, the answer in plain words, what it saves and costs. */
#include <math.h>
#include <string.h>

#include "out/alarm.h"
#include "out/compare_sound_out.h"
#include "out/credit.h"
#include "out/job_title.h"
#include "out/option_out.h"
#include "out/sheet_impl.h"
#include "out/sheet_scale.h"

/* "0.41 (good), 0.34 (better), 0.28 (best)": a list at the end of a sentence, the same in every tongue. */
static void each(const pw_sheet *sheet, pw_html *h, pw_result result)
{
  const pw_compare *c = sheet->compare;
  for (size_t p = 0; p < c->n_package; p++) {
    if (p) fputs(", ", h->f);
    sheet_value(sheet, h, result, (int)p);
    fputs(" (", h->f);
    pw_html_name(h, c->rated.package_set[p].name);
    fputs(")", h->f);
  }
}

static void heat(const pw_sheet *sheet, pw_html *h)
{
  pw_figure_words now;
  pw_html_put(
      h,
      "<li><b>Heat.</b> The heat-leak number (U-factor, %s) of the windows there now is %s; "
      "lower keeps more heat in. With the new ones it would be ",
      sheet->units->u, sheet_say(sheet, h, &now, PW_RESULT_U, PW_SET_EXISTING));
  each(sheet, h, PW_RESULT_U);
  fputs(".</li>\n", h->f);
}

static void view(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(h, "<li><b>View.</b> The new frame stands inside the old one, so some glass is "
                 "lost. ");
  if (pw_option_has_bars(sheet->compare->job))
    pw_html_put(h, "Bars in the glass cover some, too. ");
  pw_html_put(h, "Of the glass you keep ");
  each(sheet, h, PW_RESULT_GLASS_KEPT);
  pw_html_put(h, ". Of the daylight you keep ");
  each(sheet, h, PW_RESULT_LIGHT_KEPT);
  fputs(".</li>\n", h->f);
}

static void sweating(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  char in[32];
  pw_figure_words out, rh;
  pw_figure_text(PW_FIGURE_TEMPERATURE, sheet->units, c->rated.t_in, in);
  pw_figure_say(h, &out, sheet->units, PW_FIGURE_TEMPERATURE, c->rated.t_design_out,
                "design_outdoor_c");
  sheet_say(sheet, h, &rh, PW_RESULT_SWEAT, PW_SET_EXISTING);
  if (pw_compare_n_replaced(c->job) < c->n_opening)
    pw_html_put(
        h,
        "<li><b>Sweating.</b> On a cold night here (%s %s outside, %s inside) the worst "
        "window there now begins to sweat when the room air is at %s humidity; "
        "afterwards the worst one, of those that stay too, at ",
        out.text, sheet->units->temperature, in, rh.text);
  else
    pw_html_put(
        h,
        "<li><b>Sweating.</b> On a cold night here (%s %s outside, %s inside) the worst "
        "window there now begins to sweat when the room air is at %s humidity; the "
        "worst new one at ",
        out.text, sheet->units->temperature, in, rh.text);
  each(sheet, h, PW_RESULT_SWEAT);
  fputs(".</li>\n", h->f);
}

/* Of the window that is coldest to sit by now. */
static void comfort(const pw_sheet *sheet, size_t i, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_opening *o = &c->job->opening[i];
  pw_figure_words now;
  pw_html_put(h,
              "<li><b>Comfort.</b> That night the inside of the glass in <bdi>%s</bdi> "
              "(<bdi>%s</bdi>) is at %s %s with the window there now. With a new one it is at ",
              o->room, o->tag,
              sheet_window_say(sheet, h, &now, PW_WINDOW_INNER_GLASS, PW_SET_EXISTING, i),
              sheet->units->temperature);
  for (size_t p = 0; p < c->n_package; p++) {
    if (p) fputs(", ", h->f);
    pw_html_put(h, "%s", sheet_window_say(sheet, h, &now, PW_WINDOW_INNER_GLASS, (int)p, i));
    fprintf(h->f, " %s (", sheet->units->temperature);
    pw_html_name(h, c->rated.package_set[p].name);
    fputs(")", h->f);
  }
  fputs(".</li>\n", h->f);
}

/* "good: you would not hear a difference, -2 to 2 dB quieter; better: ..." */
static void quiet(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_compare_sound *s = sheet->frame->sound;
  int louder = 0;
  if (!s) return;
  pw_html_put(h,
              "<li><b>Quiet.</b> The change against %s: ", pw_say(h, pw_sound_noise_text(s)));
  for (size_t p = 0; p < c->n_package; p++) {
    pw_figure_words low, high;
    if (p) fputs("; ", h->f);
    pw_html_put(h, "<bdi>%s</bdi> %s, %s to %s dB quieter", c->rated.package_set[p].name,
                pw_say(h, pw_heard_text(s->heard[p])),
                pw_figure_say(h, &low, sheet->units, PW_FIGURE_DB, s->change[p].p10,
                              "sound.packages.%zu.change_rw_ctr_db.p10", p),
                pw_figure_say(h, &high, sheet->units, PW_FIGURE_DB, s->change[p].p90,
                              "sound.packages.%zu.change_rw_ctr_db.p90", p));
    if (s->change[p].p10 < -0.5) louder = 1;
  }
  fputs(". ", h->f);
  if (louder) pw_html_put(h, "Below 0 is louder than now. ");
  pw_html_put(h,
              "3 dB is just noticed, 10 dB is heard as half as loud; all windows together, 8 "
              "cases in 10.</li>\n");
}

/* Whether the price comes back within the life of the window, said plainly. */
static void money(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  size_t priced = 0, late = 0;
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_billed_set *set = &c->billed.package_set[p];
    if (!(set->price > 0.0)) continue;
    priced++;
    if (sheet_pays_late(sheet, p)) late++;
  }
  pw_html_put(h, "<li><b>Money.</b> The savings below are of heating and cooling, the windows' "
                 "share of it, for a whole year. ");
  if (priced == 0)
    pw_html_put(h, "The job gives no price, so no payback is figured.");
  else if (late == priced && priced == 1)
    pw_html_put(h, "<strong>The payback is longer than the new windows are expected to live: "
                   "the saving alone does not carry the price.</strong>");
  else if (late == priced)
    pw_html_put(h, "<strong>Every payback is longer than the new windows are expected to live: "
                   "the saving alone does not carry the price.</strong>");
  else if (late)
    pw_html_put(h, "<strong>Some paybacks are longer than the new windows are expected to "
                   "live</strong>; the table marks them.");
  else
    pw_html_put(h, "By the likely saving the price comes back within the life of the windows.");
  if (priced && late == priced)
    pw_html_put(h, " Comfort, sweating, noise and easy opening are reasons of their own.");
  fputs("</li>\n", h->f);
}

static void credit(const pw_sheet *sheet, pw_html *h)
{
  const pw_house_facts *house = &sheet->compare->job->house;
  const pw_credit when = pw_credit_of(house);
  if (when == PW_CREDIT_BEFORE_END)
    pw_html_put(
        h, "<p>A federal credit may hold for windows placed in service by the end of 2025; "
           "it is not counted here. Ask a tax adviser.</p>\n");
  else if (when == PW_CREDIT_ENDED)
    pw_html_put(
        h,
        "<p>No federal window credit is counted: it ended for windows placed in service "
        "after 2025-12-31, and these are planned for %s.</p>\n",
        house->install_date);
  else
    pw_html_put(
        h,
        "<p>No federal window credit is counted: it ended for windows placed in service after "
        "2025-12-31.</p>\n");
}

static void house_lines(const pw_sheet *sheet, pw_html *h)
{
  const pw_job *job = sheet->compare->job;
  pw_figure_words area;
  int n = 0, replaced = 0;
  for (size_t i = 0; i < sheet->compare->n_opening; i++) {
    n += job->opening[i].quantity;
    if (pw_compare_replaces(sheet->compare->job, i)) replaced += job->opening[i].quantity;
  }
  pw_figure_say(h, &area, sheet->units, PW_FIGURE_AREA, sheet->compare->rated.existing_set.area,
                "house.opening_area_m2");
  fputs("<p class=\"house\">", h->f);
  if (job->house.customer[0]) {
    pw_html_name(h, job->house.customer);
    fputs(". ", h->f);
  }
  if (replaced < n)
    pw_html_put(h, "%d windows, %d of them replaced, %s %s of opening.", n, replaced, area.text,
                sheet->units->area);
  else
    pw_html_put(h,
                pw_tongue_count(h->tongue, "%d window, %s %s of opening.",
                                "%d windows, %s %s of opening.", n),
                n, area.text, sheet->units->area);
  sheet_validity(sheet, h);
  fputs("</p>\n", h->f);
}

pw_status sheet_answer(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  (void)err;
  fputs("<section class=\"part\" id=\"answer\">\n", h->f);
  house_lines(sheet, h);
  pw_alarm_html(sheet->compare, h);
  pw_html_put(
      h, "<h2>1. The question and the answer</h2>\n<p class=\"question\">What do new windows, "
         "slid into the old frames that stay in the wall, do in this house beside the windows "
         "there now, and what do they take away?</p>\n");
  fputs("<ul class=\"answer\">\n", h->f);
  heat(sheet, h);
  view(sheet, h);
  sweating(sheet, h);
  comfort(sheet, sheet_coldest_opening(c), h);
  quiet(sheet, h);
  money(sheet, h);
  fputs("</ul>\n", h->f);
  sheet_money_table(sheet, h);
  sheet_bills(sheet, h);
  credit(sheet, h);
  sheet_assumptions(sheet, h);
  fputs("</section>\n", h->f);
  return PW_OK;
}
