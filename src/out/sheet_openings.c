/* Part 2: packages side by side, two windows drawn, and what changes by opening. */
#include <stdio.h>
#include <string.h>

#include "base/tape.h"
#include "out/calendar.h"
#include "out/option_out.h"
#include "out/shape_out.h"
#include "out/sheet_impl.h"
#include "out/sheet_scale.h"
#include "out/unit_out.h"

static void packages(const pw_sheet *sheet, pw_html *h)
{
  static const pw_result row[] = {
      PW_RESULT_U,          PW_RESULT_SHGC,       PW_RESULT_VT,   PW_RESULT_GLASS_AREA,
      PW_RESULT_GLASS_KEPT, PW_RESULT_LIGHT_KEPT, PW_RESULT_SWEAT};
  pw_html_put(h, "<h2>2. The windows</h2>\n<h3>The packages</h3>\n");
  sheet_packages(sheet, h);
  sheet_facts(sheet, h);
  pw_html_wide(h, pw_say(h, PW_TEXT("Windows, set by set")));
  fputs("<table class=\"sets\">", h->f);
  sheet_measure_head(sheet, h, PW_TEXT("All openings together"));
  fputs("<tbody>\n", h->f);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    sheet_measure_row(sheet, h, row[i], NULL);
    if (row[i] == PW_RESULT_U) sheet_band_row(sheet, h, PW_RESULT_U, 1);
  }
  fputs("</tbody></table></div>\n", h->f);
  pw_html_put(
      h,
      "<p class=\"small\">Heat-leak numbers in %s, glass in %s. Shaded: best of its row.</p>\n",
      sheet->units->u, sheet->units->area);
}

/* ---------------------------------------------------------------- by opening */

/* Hours of discomfort are known to the hourly method only. */
static int has_hours(const pw_compare *c)
{
  for (size_t i = 0; i < c->n_opening; i++)
    if (c->lived.existing_set.year.window[i].hours_uncomfortable > 0.0) return 1;
  return 0;
}

static void window_name(const pw_sheet *sheet, pw_html *h, int set, size_t i)
{
  const pw_compare *c = sheet->compare;
  const pw_opening *o = &c->job->opening[i];
  fputs("<tr><th scope=\"row\">", h->f);
  sheet_set_name(sheet, h, set);
  if (set >= 0 && o->own_package)
    pw_html_put(h, " (here <bdi>%s</bdi>)", c->job->package[o->own_package - 1].name);
  else if (set >= 0 && o->glass_text[0])
    pw_html_put(h, " (own glass)");
  fputs("</th>", h->f);
}

static void window_row(const pw_sheet *sheet, pw_html *h, int set, size_t i)
{
  const pw_compare *c = sheet->compare;
  const pw_window_result cell[] = {
      PW_WINDOW_U,
      PW_WINDOW_SHGC,
      PW_WINDOW_GLASS_KEPT,
      PW_WINDOW_LIGHT_KEPT,
      pw_window_sweats_first(pw_compare_window_of(&c->rated, set, i)),
      PW_WINDOW_INNER_GLASS,
      PW_WINDOW_UNCOMFORTABLE};
  size_t n = sizeof cell / sizeof cell[0] - (has_hours(c) ? 0 : 1);
  pw_figure_words words;
  window_name(sheet, h, set, i);
  for (size_t k = 0; k < n; k++)
    pw_html_put(h, "<td>%s</td>", sheet_window_say(sheet, h, &words, cell[k], set, i));
  fputs("</tr>\n", h->f);
}

/* Size, options, shape, unit of an opening, each after a semicolon. */
static void opening_facts(const pw_sheet *sheet, pw_html *h, size_t i)
{
  const pw_compare *c = sheet->compare;
  const pw_opening *o = &c->job->opening[i];
  const pw_fit *fit = &c->fitted.fit[0][i];
  char width[24], height[24], words[400];
  pw_tape_text(fit->order_width, 8, width, sizeof width);
  pw_tape_text(fit->order_height, 8, height, sizeof height);
  if (o->quantity > 1) pw_html_put(h, ", %d alike", o->quantity);
  if (o->standing == PW_DONE)
    pw_html_put(h, "; replaced in an earlier phase");
  else if (o->standing != PW_REPLACED)
    pw_html_put(h, "; stays as it is");
  else if (sheet->units->si)
    pw_html_put(h, "; new size %.0f by %.0f mm", 1000.0 * fit->order_width,
                1000.0 * fit->order_height);
  else
    pw_html_put(h, "; new size %s by %s in", width, height);
  if (pw_option_any(o)) {
    pw_option_words(h->tongue, o, sheet->units->si, words, sizeof words);
    if (words[0]) pw_html_put(h, "; with <bdi>%s</bdi>", words);
  }
  if (o->shape != PW_SHAPE_RECTANGLE) {
    pw_shape_words_plain(h->tongue, fit, sheet->units->si, words, sizeof words);
    pw_html_put(h, "; %s", words);
  }
  if (o->unit[0]) {
    pw_unit_words(h->tongue, c->job, i, 0, words, sizeof words);
    pw_html_put(h, "; <bdi>%s</bdi>", words);
  }
}

static void opening_rows(const pw_sheet *sheet, pw_html *h, size_t i, int columns)
{
  const pw_compare *c = sheet->compare;
  const pw_opening *o = &c->job->opening[i];
  pw_html_put(
      h,
      "<tbody><tr class=\"opening\"><th colspan=\"%d\" scope=\"rowgroup\"><bdi>%s</bdi> "
      "<bdi>%s</bdi>, facing %s, %s",
      columns, o->tag, o->room, pw_say(h, pw_side_word(o->facing_deg)),
      pw_say(h, pw_operator_name(o->operator_insert)));
  opening_facts(sheet, h, i);
  if (pw_caution_escape_fails(&c->fitted.cautions, (int)i))
    pw_html_put(h, " <strong class=\"flag\">escape window too small</strong>");
  fputs("</th></tr>\n", h->f);
  int last = o->standing == PW_REPLACED ? (int)c->n_package : 0;
  for (int s = PW_SET_EXISTING; s < last; s++)
    window_row(sheet, h, s, i);
  fputs("</tbody>\n", h->f);
}

/* Each measure before the table that it first heads. */
static void explained(const pw_sheet *sheet, pw_html *h, int hours)
{
  pw_figure_words out;
  pw_html_put(
      h,
      "<p class=\"small\">Heat leak in %s, sun heat as a share: as in the table above. "
      "Glass and light kept: beside the window there now. Sweats above: humidity of the "
      "room on a cold night. Glass, cold night: its inner face at %s %s outside.",
      sheet->units->u,
      pw_figure_say(h, &out, sheet->units, PW_FIGURE_TEMPERATURE,
                    sheet->compare->rated.t_design_out, "design_outdoor_c"),
      sheet->units->temperature);
  if (hours)
    pw_html_put(
        h, " Hours too cold or hot: in a year, to somebody 3 ft (1 m) before the glass, who "
           "feels colder than 66 F (19 C) or warmer than 81 F (27 C).");
  fputs("</p>\n", h->f);
}

static void by_opening(const pw_sheet *sheet, pw_html *h)
{
  static const char *const head[] = {PW_TEXT("windows"),    PW_TEXT("heat leak"),
                                     PW_TEXT("sun heat"),   PW_TEXT("glass kept"),
                                     PW_TEXT("light kept"), PW_TEXT("sweats above")};
  const char *title = pw_say(h, PW_TEXT("Opening by opening"));
  int hours = has_hours(sheet->compare), n = (int)(sizeof head / sizeof head[0]);
  /* a page and more: it begins one */
  size_t lines = sheet->compare->n_opening * (sheet->compare->n_package + 2);
  fputs(lines > 40 ? "<h3 class=\"long\">" : "<h3>", h->f);
  pw_html_put(h, "%s</h3>\n", title);
  explained(sheet, h, hours);
  pw_html_wide(h, title);
  fputs("<table class=\"byopening\"><thead><tr>", h->f);
  for (int k = 0; k < n; k++)
    pw_html_put(h, "<th scope=\"col\">%s</th>", pw_say(h, head[k]));
  pw_html_put(h, "<th scope=\"col\">glass, cold night, %s</th>", sheet->units->temperature);
  if (hours) pw_html_put(h, "<th scope=\"col\">hours too cold or hot</th>");
  fputs("</tr></thead>\n", h->f);
  for (size_t i = 0; i < sheet->compare->n_opening; i++)
    opening_rows(sheet, h, i, n + 1 + hours);
  fputs("</table></div>\n", h->f);
}

/* ---------------------------------------------------------------- pictures */

static pw_status drawn(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  const pw_compare *c = sheet->compare;
  size_t most[2], n = sheet_most_changed(c, most);
  pw_status status = PW_OK;
  if (n == 0) return PW_OK;
  pw_html_put(h, n == 1 ? "<h3>The window that changes most, to scale from outside</h3>\n"
                        : "<h3>The two windows that change most, to scale from outside</h3>\n");
  fputs("<div class=\"pair\">\n", h->f);
  for (size_t k = 0; status == PW_OK && k < n; k++) {
    const pw_opening *o = &c->job->opening[most[k]];
    int width = 520, height = 0;
    char caption[400], id[16];
    size_t p = sheet_least_glass(c, most[k]);
    pw_plot *plot = sheet_scale_plot(c, most[k], h->tongue, width, &height);
    snprintf(id, sizeof id, "scale%zu", k + 1);
    pw_tongue_put(h->tongue, caption, sizeof caption,
                  "%s, %s: there now, and with %s, which keeps %.0f %% of its glass. Grey: old "
                  "metal.",
                  o->tag, o->room, c->rated.package_set[p].name,
                  100.0 * c->rated.package[p][most[k]].glass_kept);
    status = sheet_figure(h, plot, width, height, id, PW_TEXT("Old and new window to scale"),
                          caption, err);
  }
  fputs("</div>\n", h->f);
  return status;
}

static pw_status picture(const pw_sheet *sheet, pw_html *h, pw_compare_picture_kind kind,
                         const char *id, const char *alt, const char *caption, pw_err *err)
{
  pw_plot *plot = NULL;
  pw_status status =
      pw_compare_picture(sheet->compare, sheet->units, h->tongue, kind, &plot, err);
  return status == PW_OK ? sheet_figure(h, plot, 520, 280, id, alt, pw_say(h, caption), err)
                         : status;
}

pw_status sheet_openings(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  fputs("<section class=\"part\" id=\"openings\">\n", h->f);
  packages(sheet, h);
  pw_status status = drawn(sheet, h, err);
  fputs("<div class=\"pair\">\n", h->f);
  if (status == PW_OK)
    status = picture(sheet, h, PW_PICTURE_SWEATING, "sweat",
                     PW_TEXT("Room humidity at which sweating begins"),
                     PW_TEXT("Of the window that sweats first afterwards. Above its line its "
                             "glass or frame sweats."),
                     err);
  if (status == PW_OK)
    status =
        picture(sheet, h, PW_PICTURE_HEAT_PATH, "path", PW_TEXT("Heat by part of the window"),
                PW_TEXT("Through which part the heat goes."), err);
  fputs("</div>\n", h->f);
  by_opening(sheet, h);
  fputs("</section>\n", h->f);
  return status;
}
