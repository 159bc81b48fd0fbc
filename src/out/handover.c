#include "out/handover.h"

#include <math.h>
#include <string.h>

#include "out/figure.h"
#include "out/offer_impl.h"
#include "out/result.h"
#include "out/saving_said.h"
#include "panewright/lites.h"
#include "window/install.h"
#include "window/opening_label.h"

pw_date pw_paint_not_before(const pw_house_facts *house, double *days)
{
  pw_install wait = {0};
  pw_date day = 0;
  pw_paint_wait(house, &wait);
  *days = wait.paintable && isfinite(wait.paint_days_high) ? ceil(wait.paint_days_high) : 0.0;
  if (!(*days > 0.0) || pw_date_read(house->install_date, &day, NULL) != PW_OK || day == 0)
    return 0;
  return pw_date_of_day(pw_date_day(day) + (int)*days);
}

/* ---------------------------------------------------------------- what was put in */

static void label_cell(const pw_offer *of, size_t i, pw_figure kind, const pw_given *value,
                       const char *key, pw_html *h)
{
  pw_html_put(h, "<td>");
  if (isfinite(value->value))
    pw_figure_put(h, pw_units(of->paper.si), kind, value->value,
                  "openings.%zu.packages.%zu.code.label.%s", i, of->package[0], key);
  else
    pw_html_put(h, "<span class=\"line short\">&nbsp;</span>");
  pw_html_put(h, "</td>");
}

static void put_in(const pw_offer *of, pw_html *h)
{
  pw_html_put(h, "<h2>1. What was put in</h2>\n<table class=\"windows\"><thead><tr>"
                 "<th scope=\"col\">Window</th><th scope=\"col\">count</th>"
                 "<th scope=\"col\">kind</th>");
  pw_html_put(
      h,
      "<th scope=\"col\">label: U, %s</th><th scope=\"col\">SHGC</th>"
      "<th scope=\"col\">VT</th><th scope=\"col\">certificate</th></tr></thead><tbody>\n",
      pw_units(of->paper.si)->u);
  for (size_t i = 0; i < of->compare->n_opening; i++) {
    const pw_opening *o = &of->compare->job->opening[i];
    pw_label_row label = {.u.value = NAN, .shgc.value = NAN, .vt.value = NAN};
    if (!offer_has(of, i)) continue;
    if (pw_opening_label(of->compare->job, of->package[0], o, &label, NULL) != PW_OK)
      label = (pw_label_row){.u.value = NAN, .shgc.value = NAN, .vt.value = NAN};
    pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi> ", o->tag);
    pw_html_name(h, o->room);
    pw_html_put(h, "</th><td>%d</td><td>%s %s</td>", o->quantity,
                pw_say(h, pw_operator_name(o->operator_insert)), o->config);
    label_cell(of, i, PW_FIGURE_U, &label.u, "u_w_m2k", h);
    label_cell(of, i, PW_FIGURE_RATIO, &label.shgc, "shgc", h);
    label_cell(of, i, PW_FIGURE_RATIO, &label.vt, "vt", h);
    if (label.certificate[0])
      pw_html_put(h, "<td><bdi>%s</bdi></td></tr>\n", label.certificate);
    else
      pw_html_put(h, "<td><span class=\"line\">&nbsp;</span></td></tr>\n");
  }
  pw_html_put(h,
              "</tbody></table>\n<p class=\"small\">Values are those of the certified labels, "
              "not computed ones; where a line is blank, copy it from the sticker before it "
              "comes off.</p>\n");
}

static void photographs(pw_html *h)
{
  static const char *const what[] = {
      PW_TEXT("the label on each new window"),
      PW_TEXT("the permanent mark in each pane of safety glass"),
      PW_TEXT("the sealed joint outside, and the open weeps"),
      PW_TEXT("what was under the old sashes: frame, sill, anything found"),
      PW_TEXT("the invoice, the permit and its final, this paper")};
  pw_html_put(h, "<h3>Photographs and papers to keep</h3>\n<ul class=\"boxes\">\n");
  for (size_t i = 0; i < sizeof what / sizeof what[0]; i++)
    pw_html_put(h, "<li><span class=\"tick\">&nbsp;</span>%s</li>\n", pw_say(h, what[i]));
  pw_html_put(h, "</ul>\n");
}

/* ---------------------------------------------------------------- use and care */

static const char *const how[PW_OPERATOR_COUNT] = {
    [PW_FIXED] = PW_TEXT("does not open. Wash both sides from where you can stand safely."),
    [PW_SLIDER] = PW_TEXT("unlock, slide by the handle, not by the glass. Keep grit out of the "
                          "track: vacuum it twice a year; no oil, a dry silicone spray if it "
                          "drags."),
    [PW_SINGLE_HUNG] =
        PW_TEXT("unlock, lift the lower sash with both hands. Where it tilts in for "
                "washing, raise it a hand's width first and hold it at the top."),
    [PW_DOUBLE_HUNG] =
        PW_TEXT("unlock; the lower sash lifts, the upper one comes down. Where they "
                "tilt in for washing, lower one first, and hold it at the top."),
    [PW_CASEMENT] =
        PW_TEXT("unlock, turn the crank; do not push the sash. Close it in wind. A drop "
                "of light oil at hinge and crank once a year."),
    [PW_AWNING] =
        PW_TEXT("unlock, turn the crank or push by the handle; it sheds light rain, not "
                "wind. A drop of light oil at the hinges once a year."),
    [PW_FLANKER] =
        PW_TEXT("the middle is fixed, the sides open: unlock and slide or crank them as "
                "the others."),
    [PW_SLIDING_DOOR] =
        PW_TEXT("unlock, slide by the handle. Vacuum the track each month; the "
                "rollers are set by a screw at the foot of the leaf. It is safety "
                "glass: look for the mark."),
    [PW_HOPPER] =
        PW_TEXT("unlock, let it tilt inward onto its stays. A drop of light oil at the "
                "hinges once a year."),
    [PW_HINGED_DOOR] =
        PW_TEXT("lift or turn the handle to set the lock. A drop of light oil at "
                "the hinges once a year; the threshold stays clean.")};

static void use(const pw_offer *of, pw_html *h)
{
  int bedroom = 0;
  pw_html_put(h, "<h2>2. How to open, lock and clean</h2>\n<ul>\n");
  for (int k = 0; k < PW_OPERATOR_COUNT; k++) {
    int any = 0;
    for (size_t i = 0; i < of->compare->n_opening; i++) {
      const pw_opening *o = &of->compare->job->opening[i];
      if (!offer_has(of, i)) continue;
      any |= (int)o->operator_insert == k;
      bedroom |= o->use == PW_USE_BEDROOM;
    }
    if (any && how[k])
      pw_html_put(h, "<li><b>%s</b>: %s</li>\n", pw_say(h, pw_operator_name((pw_operator)k)),
                  pw_say(h, how[k]));
  }
  pw_html_put(h,
              "<li><b>Glass and frame</b>: water and a little dish soap, a soft cloth. No "
              "blade, no solvent, no pressure washer, no ammonia on coatings or seals.</li>\n");
  if (bedroom) {
    pw_html_put(h, "<li>");
    offer_both(h,
               PW_TEXT("Bedroom windows are the second way out in a fire: try each one now and "
                       "twice a year. No lock, bar or furniture that one cannot clear in the "
                       "dark without a key."));
    pw_html_put(h, "</li>\n");
  }
  pw_html_put(h, "<li>");
  offer_both(h, PW_TEXT("A screen keeps insects out; it does not keep a child in."));
  pw_html_put(h, "</li>\n</ul>\n");
}

static void sealant(const pw_offer *of, pw_html *h)
{
  const pw_house_facts *house = &of->compare->job->house;
  pw_install wait = {0};
  char date[11];
  double days;
  pw_paint_wait(house, &wait);
  pw_date day = pw_paint_not_before(house, &days);
  pw_html_put(h,
              "<h2>3. Weeps and sealant</h2>\n<ul>\n<li>The small slots at the bottom outside "
              "are weeps: rain that gets into the frame runs out there. Keep them open in the "
              "new window and in the old frame; never seal them. Pour a cup of water into the "
              "track once a year and see it come out.</li>\n<li>");
  if (!wait.paintable) {
    pw_html_put(h, "The sealant is silicone: it takes no paint.");
  } else if (day > 0) {
    pw_date_write(day, date);
    pw_html_put(
        h,
        "Do not paint the sealant before <b class=\"day\">%s</b>: %.0f days from %s. If "
        "the work ended later, count from its last day.",
        date, days, house->install_date);
  } else if (days > 0.0) {
    pw_html_put(h,
                "Do not paint the sealant before %.0f days after the last day of the work: "
                "<span class=\"line\">&nbsp;</span>",
                days);
  } else {
    pw_html_put(h, "Do not paint the sealant before its data sheet allows it: <span "
                   "class=\"line\">&nbsp;</span>");
  }
  pw_html_put(h,
              "</li>\n<li>Look at the sealed joint each autumn. Where it is split or has come "
              "loose, call; do not smear over it.</li>\n</ul>\n");
}

/* The new window that sweats first; at which humidity and by which part. */
static size_t first_to_sweat(const pw_offer *of, double *rh, pw_window_result *part)
{
  const pw_compare *c = of->compare;
  size_t worst = 0;
  *rh = INFINITY;
  for (size_t i = 0; i < c->n_opening; i++) {
    const pw_compare_window *w = &c->rated.package[of->package[0]][i];
    const pw_window_result first = pw_window_sweats_first(w);
    if (!offer_has(of, i) || c->job->opening[i].unconditioned) continue;
    if (pw_window_value(first, w, NULL) < *rh) {
      *rh = pw_window_value(first, w, NULL);
      *part = first;
      worst = i;
    }
  }
  return worst;
}

static void sweating(const pw_offer *of, pw_html *h)
{
  const pw_compare *c = of->compare;
  pw_window_result part = PW_WINDOW_SWEAT_CENTER;
  double rh;
  size_t i = first_to_sweat(of, &rh, &part);
  pw_html_put(h, "<h2>4. Sweating: what is normal, what is not</h2>\n<ul>\n<li><b>On the room "
                 "side</b>: moist room air on cold glass.");
  if (isfinite(rh)) {
    pw_html_put(h, " On a cold night here (");
    pw_figure_put(h, pw_units(of->paper.si), PW_FIGURE_TEMPERATURE, c->rated.t_design_out,
                  "design_outdoor_c");
    pw_html_put(h,
                " %s) the first of the new windows, <bdi>%s</bdi>, begins to sweat when the "
                "room air is at ",
                pw_units(of->paper.si)->temperature, c->job->opening[i].tag);
    pw_figure_put(h, pw_units(of->paper.si), pw_window_result_of(part)->kind, rh,
                  "openings.%zu.packages.%zu.%s", i, of->package[0],
                  pw_window_result_of(part)->key);
    pw_html_put(h, " humidity.");
  }
  pw_html_put(h, " Run the fans, open the curtains, air the room. Normal now and then; "
                 "wiped up, it does no harm.</li>\n<li><b>Between the panes</b>: a seal has "
                 "failed. It does not dry and cannot be wiped off. Call: it is a matter of the "
                 "warranty.</li>\n<li><b>On the outside</b>, on clear still mornings: dew. The "
                 "glass keeps the heat in, so its outer face is cold. Normal, gone with the "
                 "sun.</li>\n</ul>\n");
}

/* ---------------------------------------------------------------- the claim, the bills */

static void saving(const pw_offer *of, pw_html *h)
{
  const pw_sheet sheet = offer_sheet(of);
  pw_html_put(h, "<h2>5. What was said of the saving, and how to hold it against your bills"
                 "</h2>\n");
  if (pw_saving_any(&sheet, of->package, 1)) {
    pw_html_put(h, "<table class=\"choice\"><thead><tr><th scope=\"col\">Package</th><th "
                   "scope=\"col\">");
    pw_html_name(h, of->compare->job->package[of->package[0]].name);
    pw_html_put(h, "</th></tr></thead><tbody>\n");
    pw_saving_rows(&sheet, of->package, 1, h);
    pw_html_put(h, "</tbody></table>\n");
    pw_saving_note(&sheet, of->package, 1, h);
  } else {
    pw_html_put(h, "<p>No saving of money was claimed for these windows.</p>\n");
  }
  pw_html_put(h,
              "<ul>\n<li>Keep every bill of gas and electricity: those of the year before the "
              "work and those of twelve months after it.</li>\n<li>Do not hold one month "
              "against another: a mild winter saves by itself. The firm can take the weather "
              "out of both years and show what is left.</li>\n<li>Write down what else has "
              "changed: thermostat, people, a new appliance, shade, prices. They hide a saving "
              "or pretend one.</li>\n</ul>\n");
}

static void contacts(const pw_offer *of, pw_html *h)
{
  const pw_job *job = of->compare->job;
  const pw_offer_terms *t = &job->house.offer;
  char maker[140], firm[240];
  snprintf(maker, sizeof maker, "%s%s%s", job->house.maker, job->house.model[0] ? " " : "",
           job->house.model);
  snprintf(firm, sizeof firm, "%s%s%s%s%s", job->house.contractor,
           job->firm.phone[0] ? ", " : "", job->firm.phone, job->firm.mail[0] ? ", " : "",
           job->firm.mail);
  pw_html_put(h, "<h2>6. Warranty: whom to call</h2>\n<table class=\"terms\"><tbody>\n");
  offer_words(h, PW_TEXT("The firm"), firm);
  offer_words(h, PW_TEXT("Warranty on the work"), t->warranty_work);
  offer_words(h, PW_TEXT("Maker and model"), maker);
  offer_words(h, PW_TEXT("Warranty on the windows"), t->warranty_product);
  pw_html_put(h,
              "</tbody></table>\n<p>Before you call: which window, what you see, since when, "
              "a photograph. Windows and work: ");
  pw_html_put(h, "handed over on <span class=\"line\">&nbsp;</span>, received by <span "
                 "class=\"line wide-line\">&nbsp;</span></p>\n");
}

pw_status pw_handover_html(const pw_offer *of, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/offer.css",
                                      "plots/handover.css", NULL};
  pw_paper_begin(&of->paper, PW_TEXT("Your new windows"), style,
                 PW_TEXT("Keep this paper with the house"), h);
  if (offer_count(of) == 0) {
    pw_html_put(h,
                "<p>There is nothing to hand over: no window of this job is replaced.</p>\n");
    return pw_paper_end(h, err);
  }
  put_in(of, h);
  photographs(h);
  use(of, h);
  sealant(of, h);
  sweating(of, h);
  saving(of, h);
  contacts(of, h);
  return pw_paper_end(h, err);
}
