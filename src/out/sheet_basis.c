/* Part 4: cautions, what is certified, how it was computed, where the figures put in come from. */
#include <math.h>
#include <string.h>

#include "out/alarm.h"
#include "out/label_group.h"
#include "out/message_text.h"
#include "out/sheet_impl.h"
#include "window/code_default.h"

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
  static const char *const head[] = {PW_TEXT("package"), PW_TEXT("certificate no."),
                                     PW_TEXT("U-factor"), "SHGC", "VT"};
  const pw_job *job = sheet->compare->job;
  int any = 0;
  pw_html_put(h, "<h3>What is certified</h3>\n");
  fputs("<table class=\"label\"><thead><tr>", h->f);
  for (size_t i = 0; i < sizeof head / sizeof head[0]; i++)
    pw_html_put(h, "<th scope=\"col\">%s</th>", pw_say(h, head[i]));
  fputs("</tr></thead>\n<tbody>\n", h->f);
  for (size_t p = 0; p < job->n_package; p++)
    any |= label_rows(sheet, h, p);
  fputs("</tbody></table>\n", h->f);
  if (any)
    pw_html_put(h, "<p>Only the figures in this table are certified, each by its certificate "
                   "number.");
  else
    pw_html_put(h, "<p>Nothing on this sheet is certified: the job holds no certificate number "
                   "yet.");
  pw_html_put(h, " Everything else on this sheet is computed for these openings, the old frame "
                 "included, and is no certified rating: a label rates the maker's product at a "
                 "standard size, without the old frame. Paperwork uses the label.</p>\n");
}

/* ---------------------------------------------------------------- method */

static void code_step(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  pw_figure_words u, shgc;
  sheet_say(sheet, h, &u, PW_RESULT_U, PW_SET_MINIMUM);
  if (isfinite(c->rated.minimum_set.shgc))
    pw_html_put(
        h,
        "<li><b>Code.</b> \"New, just meeting the code\": %s of %s, zone %d, U %s, SHGC "
        "%s. The local edition governs.</li>\n",
        pw_say(h, c->rated.minimum.name), c->rated.minimum.edition, c->rated.minimum.zone,
        u.text, sheet_say(sheet, h, &shgc, PW_RESULT_SHGC, PW_SET_MINIMUM));
  else
    pw_html_put(h,
                "<li><b>Code.</b> \"New, just meeting the code\": %s of %s, zone %d, U %s. The "
                "local edition governs.</li>\n",
                pw_say(h, c->rated.minimum.name), c->rated.minimum.edition,
                c->rated.minimum.zone, u.text);
}

static void range_step(const pw_range *r, pw_html *h)
{
  if (!r) return;
  pw_html_put(
      h,
      "<li><b>Range.</b> Every input drawn %zu times within its spread, the same draws "
      "for old and new windows (%s; seed %.0f). 8 of 10 draws lie in the range, 1 below, "
      "1 above.</li>\n",
      r->n_draw,
      pw_say(h, r->reduced ? PW_TEXT("a fitted surface stands for the year")
                           : PW_TEXT("a full year each")),
      (double)r->seed);
}

static void method(const pw_sheet *sheet, pw_html *h)
{
  pw_html_put(h, "<h3>How it was computed</h3>\n");
  fputs("<ol class=\"steps\">\n", h->f);
  pw_html_put(h, "<li><b>Fit.</b> The new window is sized from the smallest tape readings, "
                 "squareness and clearance.</li>\n");
  pw_html_put(h,
              "<li><b>Window.</b> Old and new are figured over the same opening, old frame "
              "included: middle of glass, rim of glass (2 1/2 in band), frame, meeting rail, "
              "metal left in, each by its area (ISO 15099, NFRC 100 and 200 as "
              "methods).</li>\n");
  pw_html_put(h,
              "<li><b>Glass.</b> Heat through each pane and gap by the balance of ISO 15099; "
              "sun and light by wavelength and angle.</li>\n");
  pw_html_put(h, "<li><b>Sweating.</b> Inner faces against the dew point of the room air (ISO "
                 "13788).</li>\n");
  if (sheet->frame->sound)
    pw_html_put(
        h,
        "<li><b>Sound.</b> Glass by layered impedance with the spacer's path, three parameter "
        "sets that differ as published data do, frame and joints beside it; the change of Rw + "
        "Ctr (ISO 717-1) of the whole opening, old and new in the same draws. Numbers of a "
        "laboratory stand apart and go before these.</li>\n");
  pw_html_put(h,
              "<li><b>Year.</b> %s. The house is the same in every column but for its "
              "windows.</li>\n",
              pw_say(h, sheet->frame->method));
  code_step(sheet, h);
  range_step(sheet->frame->range, h);
  fputs("</ol>\n", h->f);
}

static void source(pw_html *h, const char *what, const char *fuel, const pw_given *g)
{
  if (fuel)
    pw_html_put(h, "<li>%s (%s): %s</li>\n", pw_say(h, what), pw_say(h, fuel),
                pw_say(h, sheet_origin(g->origin)));
  else
    pw_html_put(h, "<li>%s: %s</li>\n", pw_say(h, what), pw_say(h, sheet_origin(g->origin)));
}

/* Where each figure put in comes from; which table, the contractor's printout says. */
static void sources(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  size_t first = pw_compare_first(c->job);
  const pw_rating *old = &c->rated.existing[first].rating,
                  *new = pw_compare_rating(&c->rated, 0, first);
  const struct {
    const char *what;
    const pw_given *given;
  } row[] = {{PW_TEXT("old frame"), &old->u_frame},
             {PW_TEXT("old rim of glass"), &old->u_edge},
             {PW_TEXT("new frame"), &new->u_frame},
             {PW_TEXT("new rim of glass"), &new->u_edge},
             {PW_TEXT("metal left in"), &new->u_retained},
             {PW_TEXT("heating efficiency"), &c->billed.rates.heating_efficiency},
             {PW_TEXT("cooling efficiency"), &c->billed.rates.cooling_cop}};
  pw_html_put(h, "<h3>Where the figures put in come from</h3>\n");
  fputs("<ul class=\"sources\">\n", h->f);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (row[i].given->source) source(h, row[i].what, NULL, row[i].given);
  for (int fuel = 0; fuel < PW_FUEL_COUNT; fuel++)
    if (fuel == PW_FUEL_ELECTRICITY || fuel == (int)c->billed.rates.heating_fuel) {
      const char *name = pw_fuel_name((pw_fuel)fuel);
      source(h, PW_TEXT("price"), name, &c->billed.rates.price[fuel]);
      source(h, PW_TEXT("carbon dioxide"), name, &c->billed.rates.co2_kg_kwh[fuel]);
    }
  fputs("</ul>\n", h->f);
}

static void upper_check(const pw_sheet *sheet, pw_html *h)
{
  pw_code_values v;
  const pw_compare *c = sheet->compare;
  size_t first = pw_compare_first(c->job);
  const pw_opening *o = &c->job->opening[first];
  pw_figure_words code, here;
  if (pw_code_default_of(PW_CODE_IECC, o, &v, NULL) != PW_OK || !isfinite(v.u)) return;
  pw_html_put(
      h,
      "<p>Upper check: for a window without label like <bdi>%s</bdi> a code puts down U "
      "%s; computed here %s, which is the base of every saving.</p>\n",
      o->tag,
      pw_figure_say(h, &code, sheet->units, PW_FIGURE_U, v.u,
                    "openings.%zu.existing.code_default.u_w_m2k", first),
      sheet_window_say(sheet, h, &here, PW_WINDOW_U, PW_SET_EXISTING, first));
}

/* ---------------------------------------------------------------- cautions */

static void where(const pw_compare *c, const pw_caution *k, pw_html *h)
{
  if (k->opening >= 0)
    pw_html_name(h, c->job->opening[k->opening].tag);
  else
    pw_html_text(h, pw_say(h, PW_TEXT("house")));
}

static void caution_row(const pw_compare *c, const pw_caution *k, pw_html *h)
{
  static const char *const state[] = {
      [PW_CAUTION_ASK] = PW_TEXT("find out"),
      [PW_CAUTION_FLAG] = PW_TEXT("take care"),
      [PW_CAUTION_FAIL] = PW_TEXT("not met"),
  };
  char text[PW_MESSAGE_TEXT];
  pw_html_put(h, "<tr class=\"state%d\"><th scope=\"row\">", (int)k->state);
  where(c, k, h);
  pw_html_put(h, "</th><td>%s</td><td>%s</td><td>%s; %s</td></tr>\n",
              pw_say(h, state[k->state]),
              pw_message_text(h->tongue, &k->finding, text, sizeof text),
              pw_say(h, k->defer_to), k->source);
}

/* What was found on this job as a table, without what the red box holds; what holds for every such job as a list below it. */
static void cautions(const pw_sheet *sheet, pw_html *h)
{
  static const char *const head[] = {PW_TEXT("opening"), PW_TEXT("state"), PW_TEXT("finding"),
                                     PW_TEXT("who decides; source")};
  const pw_compare *c = sheet->compare;
  int boxed = 0;
  pw_html_put(h, "<h3>Cautions</h3>\n");
  fputs("<table class=\"cautions\"><thead><tr>", h->f);
  for (size_t i = 0; i < sizeof head / sizeof head[0]; i++)
    pw_html_put(h, "<th scope=\"col\">%s</th>", pw_say(h, head[i]));
  fputs("</tr></thead>\n<tbody>\n", h->f);
  for (size_t i = 0; i < c->fitted.cautions.n; i++) {
    const pw_caution *k = &c->fitted.cautions.caution[i];
    if (pw_alarm_holds(c, k))
      boxed = 1;
    else if (k->state > PW_CAUTION_REMIND)
      caution_row(c, k, h);
  }
  fputs("</tbody></table>\n", h->f);
  if (boxed) pw_html_put(h, "<p>What stands in the red box of page 1 comes first.</p>\n");
  pw_html_put(h, "<h3>To keep in mind on every such job</h3>\n");
  fputs("<ul class=\"remind\">\n", h->f);
  for (size_t i = 0; i < c->fitted.cautions.n; i++) {
    const pw_caution *k = &c->fitted.cautions.caution[i];
    if (k->state != PW_CAUTION_REMIND) continue;
    fputs("<li>", h->f);
    if (k->opening >= 0) pw_html_put(h, "<bdi>%s</bdi>: ", c->job->opening[k->opening].tag);
    char text[PW_MESSAGE_TEXT];
    pw_html_put(h, "%s (%s)</li>\n", pw_message_text(h->tongue, &k->finding, text, sizeof text),
                k->source);
  }
  pw_html_put(h, "</ul>\n<p><strong>%s</strong></p>\n",
              pw_message_word(h->tongue, PW_SAY_CAUTION_CLOSING));
}

/* Questions that a household asks and this program does not answer, and what to wait for. */
static void silent(const pw_sheet *sheet, pw_html *h)
{
  const pw_house_facts *facts = &sheet->compare->job->house;
  pw_html_put(h, "<h3>What this sheet does not say</h3>\n<p>");
  if (!sheet->frame->sound) pw_html_put(h, "Noise is not computed. ");
  pw_html_put(h, "Films, storm windows and shades are not compared. Code approval, structure, "
                 "lead and asbestos clearance, certified ratings, taxes and warranty are for "
                 "those who are licensed for them. No bill is promised.</p>\n");
  if (facts->sealant[0] && facts->paint_wait_days > 0.0)
    pw_html_put(h,
                "<p>Paint: the sealant (%s) wants %.0f days before it is painted, as the job "
                "says; the maker's data sheet decides.</p>\n",
                pw_say(h, facts->sealant), facts->paint_wait_days);
}

pw_status sheet_basis(const pw_sheet *sheet, pw_html *h, pw_err *err)
{
  (void)err;
  fputs("<section class=\"part\" id=\"basis\">\n", h->f);
  pw_html_put(h, "<h2>4. Cautions, and how it was computed</h2>\n");
  cautions(sheet, h);
  certified(sheet, h);
  method(sheet, h);
  upper_check(sheet, h);
  sources(sheet, h);
  silent(sheet, h);
  sheet_granted(sheet, h);
  fputs("</section>\n", h->f);
  return PW_OK;
}
