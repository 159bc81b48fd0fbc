/* Part 2: packages side by side, and what changes by opening. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "out/calendar.h"
#include "out/option_out.h"
#include "out/shape_out.h"
#include "out/sheet_impl.h"
#include "out/unit_out.h"
#include "panewright/tape.h"

static const sheet_measure row[] = {
    {"Heat-leak number", "whole opening; lower keeps more heat in", PW_FIGURE_U,
     offsetof(pw_compare_set, u), "u_w_m2k", -1, 1, 1},
    {"Sun-heat number (solar heat gain coefficient)", "share of the sun's heat let in",
     PW_FIGURE_RATIO, offsetof(pw_compare_set, shgc), "shgc", 0, 1, 1},
    {"Daylight number (visible transmittance)", "share of daylight let in", PW_FIGURE_RATIO,
     offsetof(pw_compare_set, vt), "vt", 1, 1, 0},
    {"Glass", "to look through", PW_FIGURE_AREA, offsetof(pw_compare_set, glass_area),
     "glass_area_m2", 1, 1, 0},
    {"Glass kept", NULL, PW_FIGURE_SHARE, offsetof(pw_compare_set, glass_kept), "glass_kept", 1,
     0, 0},
    {"Light kept", NULL, PW_FIGURE_SHARE, offsetof(pw_compare_set, light_kept), "light_kept", 1,
     0, 0},
    {"Begins to sweat above", "room humidity on the cold night; higher is drier",
     PW_FIGURE_SHARE, offsetof(pw_compare_set, sweat_rh), "sweat_above_rh", 1, 1, 0},
};

static void packages(const pw_sheet *sheet, pw_html *h)
{
  const pw_job *job = sheet->compare->job;
  pw_html_put(h, "<h2>The packages</h2>\n<dl class=\"packages\">\n");
  for (size_t p = 0; p < job->n_package; p++) {
    static const char *const rim[PW_SPACER_COUNT] = {"metal", "stainless steel", "insulating"};
    const pw_package *k = &job->package[p];
    pw_html_put(
        h,
        "<dt><bdi>%s</bdi></dt><dd>glass from outside <bdi>%s</bdi>; rim bar (spacer) %s; "
        "frame <bdi>%s</bdi>",
        k->name, k->glass_text, rim[k->spacer], k->frame_line);
    if (k->note[0]) pw_html_put(h, ". <bdi>%s</bdi>", k->note);
    pw_html_put(h, "</dd>\n");
  }
  pw_html_put(h, "</dl>\n");
  sheet_facts(sheet, h);
  pw_html_wide(h, "Windows, set by set");
  pw_html_put(h, "<table class=\"sets\">");
  sheet_measure_head(sheet, h, "All openings together");
  pw_html_put(h, "<tbody>\n");
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    sheet_measure_row(sheet, h, &row[i]);
    if (i == 0) sheet_band_row(sheet, h, SHEET_BAND_U);
  }
  pw_html_put(
      h,
      "</tbody></table></div>\n<p class=\"small\">Heat-leak numbers in %s, glass in %s. "
      "Shaded: best of its row.</p>\n",
      sheet->units->u, sheet->units->area);
}

/* ---------------------------------------------------------------- by opening */

/* The part of a window that sweats first, as it is named in the JSON. */
static double sweat_first(const pw_sweat *s, const char **part)
{
  const struct {
    const char *name;
    const pw_sweat_spot *spot;
  } spot[] = {{"center", &s->center},     {"edge", &s->edge},       {"frame", &s->frame},
              {"retained", &s->retained}, {"coldest", &s->coldest}, {"meeting", &s->meeting}};
  double rh = INFINITY;
  for (size_t i = 0; i < sizeof spot / sizeof spot[0]; i++)
    if (isfinite(spot[i].spot->t) && spot[i].spot->rh < rh) {
      rh = spot[i].spot->rh;
      *part = spot[i].name;
    }
  return rh;
}

/* Hours of discomfort are known to the hourly method only. */
static int has_hours(const pw_compare *c)
{
  for (size_t i = 0; i < c->n_opening; i++)
    if (c->existing_set.year.window[i].hours_uncomfortable > 0.0) return 1;
  return 0;
}

static void window_row(const pw_sheet *sheet, pw_html *h, int set, size_t i)
{
  const pw_compare *c = sheet->compare;
  const pw_compare_window *w = sheet_window(c, set, i);
  const char *part = "center";
  double rh = sweat_first(&w->sweat, &part);
  const struct {
    pw_figure kind;
    double value;
    const char *key;
  } cell[] = {
      {PW_FIGURE_U, w->rating.u, "u_w_m2k"},
      {PW_FIGURE_RATIO, w->rating.shgc, "shgc"},
      {PW_FIGURE_SHARE, w->glass_kept, "glass_kept"},
      {PW_FIGURE_SHARE, w->light_kept, "light_kept"},
      {PW_FIGURE_SHARE, rh, "sweat_above_rh."},
      {PW_FIGURE_TEMPERATURE, w->sweat.center.t, "inner_glass_design_night_c"},
      {PW_FIGURE_HOURS, sheet_set(c, set)->year.window[i].hours_uncomfortable,
       "year.hours_uncomfortable"},
  };
  size_t n = sizeof cell / sizeof cell[0] - (has_hours(c) ? 0 : 1);
  char key[48];
  sheet_window_key(set, i, key);
  const pw_opening *o = &c->job->opening[i];
  pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi>", sheet_set_title(c, set));
  if (set >= 0 && o->own_package)
    pw_html_put(h, " (here <bdi>%s</bdi>)", c->job->package[o->own_package - 1].name);
  else if (set >= 0 && o->glass_text[0])
    pw_html_put(h, " (own glass)");
  pw_html_put(h, "</th>");
  for (size_t k = 0; k < n; k++) {
    pw_html_put(h, "<td>");
    pw_figure_put(h, sheet->units, cell[k].kind, cell[k].value, "%s.%s%s", key, cell[k].key,
                  k == 4 ? part : "");
    pw_html_put(h, "</td>");
  }
  pw_html_put(h, "</tr>\n");
}

static void opening_rows(const pw_sheet *sheet, pw_html *h, size_t i, int columns)
{
  const pw_compare *c = sheet->compare;
  const pw_opening *o = &c->job->opening[i];
  const pw_fit *fit = pw_compare_fit(c, 0, i);
  char width[24], height[24];
  pw_tape_text(fit->order_width, 8, width, sizeof width);
  pw_tape_text(fit->order_height, 8, height, sizeof height);
  pw_html_put(
      h,
      "<tbody><tr class=\"opening\"><th colspan=\"%d\" scope=\"rowgroup\"><bdi>%s</bdi> "
      "<bdi>%s</bdi>, facing %s, %s",
      columns, o->tag, o->room, pw_side_word(o->facing_deg),
      pw_operator_name(o->operator_insert));
  if (o->quantity > 1) pw_html_put(h, ", %d alike", o->quantity);
  if (o->standing != PW_REPLACED)
    pw_html_put(h, "; %s",
                o->standing == PW_DONE ? "replaced in an earlier phase" : "stays as it is");
  else if (sheet->units->si)
    pw_html_put(h, "; new size %.0f by %.0f mm", 1000.0 * fit->order_width,
                1000.0 * fit->order_height);
  else
    pw_html_put(h, "; new size %s by %s in", width, height);
  if (pw_option_any(o)) {
    char words[400];
    pw_option_words(h->tongue, o, sheet->units->si, words, sizeof words);
    if (words[0]) pw_html_put(h, "; with <bdi>%s</bdi>", words);
  }
  if (o->shape != PW_SHAPE_RECTANGLE) {
    char shape[240];
    pw_shape_words_plain(h->tongue, fit, sheet->units->si, shape, sizeof shape);
    pw_html_put(h, "; %s", shape);
  }
  if (o->unit[0]) {
    char unit[240];
    pw_unit_words(h->tongue, c->job, i, 0, unit, sizeof unit);
    pw_html_put(h, "; <bdi>%s</bdi>", unit);
  }
  if (pw_caution_escape_fails(&c->cautions, (int)i))
    pw_html_put(h, " <strong class=\"flag\">escape window too small</strong>");
  pw_html_put(h, "</th></tr>\n");
  int last = o->standing == PW_REPLACED ? (int)c->n_package : 0;
  for (int s = SHEET_EXISTING; s < last; s++)
    window_row(sheet, h, s, i);
  pw_html_put(h, "</tbody>\n");
}

pw_status sheet_openings(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  int hours = has_hours(c);
  pw_html_put(h, "<section class=\"part\" id=\"openings\">\n");
  packages(sheet, h);
  pw_plot *plot = NULL;
  pw_status status = pw_compare_picture(c, sheet->units, PW_PICTURE_SWEATING, &plot, err);
  if (status == PW_OK)
    status = sheet_figure(h, plot, 520, 310, "sweat", "Room humidity at which sweating begins",
                          "Above the line of a window its glass or frame sweats.", err);
  pw_html_put(h, "<h2>Opening by opening</h2>\n");
  pw_html_wide(h, "Opening by opening");
  pw_html_put(h,
              "<table class=\"byopening\"><thead>"
              "<tr><th scope=\"col\">windows</th><th scope=\"col\">heat leak</th>"
              "<th scope=\"col\">sun heat</th><th scope=\"col\">glass kept</th>"
              "<th scope=\"col\">light kept</th><th scope=\"col\">sweats above</th>"
              "<th scope=\"col\">glass, cold night, %s</th>",
              sheet->units->temperature);
  if (hours) pw_html_put(h, "<th scope=\"col\">hours off</th>");
  pw_html_put(h, "</tr></thead>\n");
  for (size_t i = 0; i < c->n_opening; i++)
    opening_rows(sheet, h, i, 7 + hours);
  pw_html_put(h, "</table></div>\n<p class=\"small\">Glass, cold night: inner face at ");
  pw_figure_put(h, sheet->units, PW_FIGURE_TEMPERATURE, c->t_design_out, "design_outdoor_c");
  pw_html_put(h, " %s outside.", sheet->units->temperature);
  if (hours)
    pw_html_put(h,
                " Hours off: hours a year in which it feels colder than 66 F (19 C) or warmer "
                "than 81 F (27 C) to somebody 3 ft (1 m) before the glass.");
  pw_html_put(h, "</p>\n</section>\n");
  return status;
}
