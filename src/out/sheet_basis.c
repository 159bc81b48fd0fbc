/* Part 4: how it was computed, sources, cautions, what is assumed, what is certified. */
#include <math.h>
#include <string.h>

#include "out/alarm.h"
#include "out/label_group.h"
#include "out/message_text.h"
#include "out/section_said.h"
#include "out/sheet_impl.h"
#include "panewright/code_default.h"

/* ---------------------------------------------------------------- certified */

static void label_cell(const pw_sheet *sheet, pw_html *h, pw_figure kind, double value)
{
  char text[32];
  if (!isfinite(value)) {
    pw_html_put(h, "<td class=\"open\">from label</td>");
    return;
  }
  pw_figure_text(kind, sheet->units, value, text);
  pw_html_put(h, "<td>%s</td>", text);
}

/* One label with what it is of. */
static void label_row(const pw_sheet *sheet, pw_html *h, const char *package, const char *tags,
                      const pw_label_row *k)
{
  pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi>", package);
  if (tags[0]) pw_html_put(h, " <small><bdi>%s</bdi></small>", tags);
  pw_html_put(h, "</th>");
  if (k->certificate[0])
    pw_html_put(h, "<td><bdi>%s</bdi></td>", k->certificate);
  else
    pw_html_put(h, "<td class=\"open\">from label</td>");
  label_cell(sheet, h, PW_FIGURE_U, k->u.value);
  label_cell(sheet, h, PW_FIGURE_RATIO, k->shgc.value);
  label_cell(sheet, h, PW_FIGURE_RATIO, k->vt.value);
  pw_html_put(h, "</tr>\n");
}

/* Each label of a package once; which windows have it is said where there are several. */
static int label_rows(const pw_sheet *sheet, pw_html *h, size_t p)
{
  const pw_compare *c = sheet->compare;
  pw_label_group g;
  int any = 0;
  for (size_t i = 0; pw_label_group_next(c, p, &i, &g);) {
    label_row(sheet, h, c->job->package[p].name, g.all ? "" : g.tags, &g.label);
    any |= g.label.certificate[0] != '\0';
  }
  return any;
}

static void certified(const pw_sheet *sheet, pw_html *h)
{
  const pw_job *job = sheet->compare->job;
  int any = 0;
  pw_html_put(
      h, "<h2>What is certified</h2>\n<table class=\"label\"><thead><tr><th scope=\"col\">"
         "package</th><th scope=\"col\">certificate no.</th><th scope=\"col\">U-factor</th>"
         "<th scope=\"col\">SHGC</th><th scope=\"col\">VT</th></tr></thead>\n<tbody>\n");
  for (size_t p = 0; p < job->n_package; p++)
    any |= label_rows(sheet, h, p);
  pw_html_put(
      h,
      "</tbody></table>\n<p>%s Everything else on this sheet is computed for these "
      "openings, the old frame included, and is no certified rating: a label rates the "
      "maker's product at a standard size, without the old frame. Paperwork uses the "
      "label.</p>\n",
      any ? "Only the figures in this table are certified, each by its certificate number."
          : "Nothing on this sheet is certified: the job holds no certificate number yet.");
}

/* ---------------------------------------------------------------- method */

static void method(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  pw_html_put(
      h, "<h2>How it was computed</h2>\n<ol class=\"steps\">\n"
         "<li><b>Fit.</b> The new window is sized from the smallest tape readings, squareness "
         "and clearance.</li>\n"
         "<li><b>Window.</b> Old and new are figured over the same opening, old frame "
         "included: middle of glass, rim of glass (2 1/2 in band), frame, meeting rail, metal "
         "left in, each by its area (ISO 15099, NFRC 100 and 200 as methods).</li>\n"
         "<li><b>Glass.</b> Heat through each pane and gap by the balance of ISO 15099; sun "
         "and light by wavelength and angle.</li>\n"
         "<li><b>Sweating.</b> Inner faces against the dew point of the room air (ISO 13788)."
         "</li>\n");
  if (sheet->frame->sound)
    pw_html_put(
        h,
        "<li><b>Sound.</b> Glass by layered impedance with the spacer's path, three parameter "
        "sets that differ as published data do, frame and joints beside it; the change of Rw + "
        "Ctr (ISO 717-1) of the whole opening, old and new in the same draws. Numbers of a "
        "laboratory stand apart and go before these.</li>\n");
  pw_html_put(h,
              "<li><b>Year.</b> %s. Weather: <bdi>%s</bdi>. The house is the same in every "
              "column but for its windows.</li>\n",
              sheet->frame->method, sheet->frame->climate_line);
  pw_html_put(h,
              "<li><b>Code.</b> \"New, just meeting the code\": %s of %s, zone "
              "%d, U ",
              c->minimum.name, c->minimum.edition, c->minimum.zone);
  sheet_value(sheet, h, PW_FIGURE_U, SHEET_MINIMUM, c->minimum_set.u, "u_w_m2k");
  if (isfinite(c->minimum_set.shgc)) {
    pw_html_put(h, ", SHGC ");
    sheet_value(sheet, h, PW_FIGURE_RATIO, SHEET_MINIMUM, c->minimum_set.shgc, "shgc");
  }
  pw_html_put(h, " (%s; %s). The local edition governs.</li>\n", c->minimum.source,
              c->minimum.how_known);
  const pw_range *r = sheet->frame->range;
  if (r)
    pw_html_put(
        h,
        "<li><b>Range.</b> Every input drawn %zu times within its spread, the same draws "
        "for old and new windows (%s; seed %.0f). 8 of 10 draws lie in the range, 1 below, "
        "1 above.</li>\n",
        r->n_draw, r->reduced ? "a fitted surface stands for the year" : "a full year each",
        (double)r->seed);
  pw_html_put(h, "</ol>\n");
}

static void source_line(pw_html *h, const char *what, const pw_given *g)
{
  if (g->source) pw_html_put(h, "<li>%s: %s</li>\n", what, g->source);
}

static void sources(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  size_t first = pw_compare_first(c);
  const pw_rating *old = &c->existing[first].rating, *new = pw_compare_rating(c, 0, first);
  pw_html_put(h, "<h3>Sources of the figures put in</h3>\n<ul class=\"sources\">\n");
  source_line(h, "old frame", &old->u_frame);
  source_line(h, "old rim of glass", &old->u_edge);
  source_line(h, "new frame", &new->u_frame);
  source_line(h, "new rim of glass", &new->u_edge);
  source_line(h, "metal left in", &new->u_retained);
  source_line(h, "heating efficiency", &c->rates.heating_efficiency);
  source_line(h, "cooling efficiency", &c->rates.cooling_cop);
  for (int fuel = 0; fuel < PW_FUEL_COUNT; fuel++)
    if (fuel == PW_FUEL_ELECTRICITY || fuel == (int)c->rates.heating_fuel) {
      char what[64];
      snprintf(what, sizeof what, "price of %s", pw_fuel_name((pw_fuel)fuel));
      source_line(h, what, &c->rates.price[fuel]);
      snprintf(what, sizeof what, "carbon dioxide of %s", pw_fuel_name((pw_fuel)fuel));
      source_line(h, what, &c->rates.co2_kg_kwh[fuel]);
    }
  pw_html_put(h, "</ul>\n");
}

static void upper_check(const pw_sheet *sheet, pw_html *h)
{
  pw_code_values v;
  const pw_compare *c = sheet->compare;
  size_t first = pw_compare_first(c);
  const pw_opening *o = &c->job->opening[first];
  if (pw_code_default_of(PW_CODE_IECC, o, &v, NULL) != PW_OK || !isfinite(v.u)) return;
  pw_html_put(
      h, "<p>Upper check: for a window without label like <bdi>%s</bdi> a code puts down U ",
      o->tag);
  pw_figure_put(h, sheet->units, PW_FIGURE_U, v.u, "openings.%zu.existing.code_default.u_w_m2k",
                first);
  pw_html_put(h, "; computed here ");
  pw_figure_put(h, sheet->units, PW_FIGURE_U, c->existing[first].rating.u,
                "openings.%zu.existing.u_w_m2k", first);
  pw_html_put(h, ", which is the base of every saving.</p>\n");
}

/* ---------------------------------------------------------------- cautions, assumptions */

static void caution_row(const pw_compare *c, const pw_caution *k, pw_html *h)
{
  char text[PW_MESSAGE_TEXT];
  pw_html_put(h,
              "<tr class=\"state%d\"><th scope=\"row\"><bdi>%s</bdi></th><td>%s</td><td>%s</td>"
              "<td>%s; %s</td></tr>\n",
              (int)k->state, k->opening >= 0 ? c->job->opening[k->opening].tag : "house",
              pw_caution_state_name(k->state),
              pw_message_text(h->tongue, &k->finding, text, sizeof text), k->defer_to,
              k->source);
}

/* What was found on this job as a table; what holds for every such job as a list below it. */
static void cautions(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  pw_html_put(
      h, "<h2>Cautions</h2>\n<table class=\"cautions\"><thead><tr><th scope=\"col\">opening"
         "</th><th scope=\"col\">state</th><th scope=\"col\">finding</th><th scope=\"col\">who "
         "decides; source</th></tr></thead>\n<tbody>\n");
  for (size_t i = 0; i < c->cautions.n; i++)
    if (c->cautions.caution[i].state > PW_CAUTION_REMIND)
      caution_row(c, &c->cautions.caution[i], h);
  pw_html_put(h, "</tbody></table>\n<h3>To keep in mind on every such job</h3>\n<ul "
                 "class=\"remind\">\n");
  for (size_t i = 0; i < c->cautions.n; i++) {
    const pw_caution *k = &c->cautions.caution[i];
    char text[PW_MESSAGE_TEXT];
    if (k->state != PW_CAUTION_REMIND) continue;
    pw_html_put(h, "<li>");
    if (k->opening >= 0) pw_html_put(h, "<bdi>%s</bdi>: ", c->job->opening[k->opening].tag);
    pw_html_put(h, "%s (%s)</li>\n", pw_message_text(h->tongue, &k->finding, text, sizeof text),
                k->source);
  }
  pw_html_put(h, "</ul>\n<p><strong>%s</strong></p>\n",
              pw_message_word(h->tongue, PW_SAY_CAUTION_CLOSING));
}

static void assumed(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_notes *notes = sheet->frame->notes;
  pw_html_put(h,
              "<h2>Taken for granted where the job is silent</h2>\n<ul class=\"granted\">\n");
  for (size_t i = 0; i < c->house_notes.n_assumed; i++) {
    const pw_house_assumed *a = &c->house_notes.assumed[i];
    char value[PW_MESSAGE_TEXT];
    pw_html_put(h, "<li>%s: %s (%s)</li>\n", pw_message_word(h->tongue, a->item),
                pw_message_text(h->tongue, &a->value, value, sizeof value), a->source);
  }
  char said[PW_TEXT_MAX];
  const char *text;
  for (size_t k = 0; (text = pw_section_said(c, k, said)) != NULL; k++)
    pw_html_put(h, "<li>%s</li>\n", text);
  for (size_t i = 0; notes && i < notes->n; i++) {
    char line[400];
    pw_notes_line(&notes->note[i], line, sizeof line);
    pw_html_put(h, "<li>%s</li>\n", line);
  }
  pw_html_put(h, "</ul>\n");
}

/* Questions that a household asks and this program does not answer, and what to wait for. */
static void silent(const pw_sheet *sheet, pw_html *h)
{
  const pw_house_facts *facts = &sheet->compare->job->house;
  pw_html_put(
      h,
      "<h2>What this sheet does not say</h2>\n<p>%sFilms, storm "
      "windows and shades are not compared. Code approval, structure, lead and asbestos "
      "clearance, certified ratings, taxes and warranty are for those who are licensed "
      "for them. No bill is promised.</p>\n",
      sheet->frame->sound ? "" : "Noise is not computed. ");
  if (facts->sealant[0] && facts->paint_wait_days > 0.0)
    pw_html_put(h,
                "<p>Paint: the sealant (%s) wants %.0f days before it is painted, as the job "
                "says; the maker's data sheet decides.</p>\n",
                facts->sealant, facts->paint_wait_days);
}

pw_status sheet_basis(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  pw_html_put(h, "<section class=\"part\" id=\"basis\">\n");
  pw_alarm_html(sheet->compare, h);
  cautions(sheet, h);
  certified(sheet, h);
  method(sheet, h);
  pw_plot *plot = NULL;
  pw_status status =
      pw_compare_picture(sheet->compare, sheet->units, PW_PICTURE_HEAT_PATH, &plot, err);
  if (status == PW_OK)
    status = sheet_figure(h, plot, 520, 260, "path", "Heat by part of the window",
                          "Through which part the heat goes.", err);
  upper_check(sheet, h);
  sources(sheet, h);
  silent(sheet, h);
  assumed(sheet, h);
  pw_html_put(h, "</section>\n");
  return status;
}
