/* The windows one by one, what is done and what is not. */
#include <string.h>

#include "out/figure.h"
#include "out/offer_impl.h"
#include "out/option_out.h"
#include "panewright/fit.h"
#include "panewright/lites.h"
#include "window/opening_package.h"

static int fins_off(const pw_opening *o)
{
  return o->fin_width > 0.0 && !o->fins_stay ? o->fins_cut : 0;
}

static int lip_off(const pw_opening *o)
{
  return o->sill_lip > 0.0 && !o->lip_stay && o->sill_lip_cut;
}

static void comes_off(const pw_opening *o, pw_html *h)
{
  int fins = fins_off(o), lip = lip_off(o);
  pw_html_put(h, "%s%s%s",
              fins == 2   ? pw_say(h, PW_TEXT("both side fins"))
              : fins == 1 ? pw_say(h, PW_TEXT("one side fin"))
              : lip       ? ""
                          : pw_say(h, PW_TEXT("nothing")),
              fins && lip ? ", " : "", lip ? pw_say(h, PW_TEXT("sill lip")) : "");
}

/* What stands between two of a list. */
static const char *after(int *n) { return (*n)++ ? "; " : ""; }

static void with_it(const pw_offer *of, size_t i, pw_html *h)
{
  const pw_opening *o = &of->compare->job->opening[i];
  char words[400];
  int n = 0;
  pw_option_words(h->tongue, o, of->paper.si, words, sizeof words);
  if (pw_caution_safety_glass(&of->compare->fitted.cautions, (int)i) || o->option.tempered)
    pw_html_put(h, "%s%s", after(&n), pw_say(h, PW_TEXT("safety glass")));
  if (pw_option_screened(o)) pw_html_put(h, "%s%s", after(&n), pw_say(h, PW_TEXT("screen")));
  if (words[0]) pw_html_put(h, "%s<bdi>%s</bdi>", after(&n), words);
  if (o->own_package)
    pw_html_put(h, "%s%s <bdi>%s</bdi>", after(&n), pw_say(h, PW_TEXT("package")),
                of->compare->job->package[o->own_package - 1].name);
  if (pw_phase_of(o) != 1)
    pw_html_put(h, "%s%s %d", after(&n), pw_say(h, PW_TEXT("phase")), pw_phase_of(o));
  if (of->line[i].settle)
    pw_html_put(h, "%s<b>%s</b>", after(&n),
                pw_say(h, PW_TEXT("checked again before it is ordered")));
}

void offer_windows(const pw_offer *of, pw_html *h)
{
  const pw_unit_set *units = pw_units(of->paper.si);
  pw_html_put(h, "<h2>2. The windows</h2>\n<table class=\"windows\"><thead><tr>"
                 "<th scope=\"col\">Window</th><th scope=\"col\">count</th>"
                 "<th scope=\"col\">new one</th>");
  pw_html_put(h, "<th scope=\"col\">opening, %s</th>", units->area);
  pw_html_put(h, "<th scope=\"col\">comes off the old frame</th><th scope=\"col\">with it"
                 "</th></tr></thead><tbody>\n");
  for (size_t i = 0; i < of->compare->n_opening; i++) {
    const pw_opening *o = &of->compare->job->opening[i];
    if (!offer_has(of, i)) continue;
    pw_html_put(h, "<tr><th scope=\"row\"><bdi>%s</bdi> ", o->tag);
    pw_html_name(h, o->room);
    pw_html_put(h, "</th><td>%d</td><td>%s %s</td><td>", o->quantity,
                pw_say(h, pw_operator_name(o->operator_insert)), o->config);
    pw_figure_put(h, units, PW_FIGURE_AREA, of->compare->fitted.fit[0][i].opening_area,
                  "openings.%zu.opening_area_m2", i);
    pw_html_put(h, "</td><td>");
    comes_off(o, h);
    pw_html_put(h, "</td><td>");
    with_it(of, i, h);
    pw_html_put(h, "</td></tr>\n");
  }
  pw_html_put(h, "</tbody></table>\n<p class=\"small\">X moves, O is fixed, seen from outside. "
                 "Sizes to order are taken by the firm.</p>\n");
}

/* ---------------------------------------------------------------- done, not done */

static int priced(const pw_offer *of, const char *item)
{
  for (size_t k = 0; k < of->n_package; k++) {
    const pw_price *p = &of->compare->billed.package_set[of->package[k]].parts;
    for (size_t i = 0; i < p->n_part; i++)
      if (p->by_table && strcmp(p->part[i].item, item) == 0) return 1;
  }
  return 0;
}

static void done(const pw_offer *of, pw_html *h)
{
  const pw_job *job = of->compare->job;
  int foam = 1, cut = 0;
  for (size_t k = 0; k < of->n_package; k++)
    foam &= strcmp(job->package[of->package[k]].filling, "foam") == 0;
  for (size_t i = 0; i < job->n_opening; i++)
    cut |= offer_has(of, i) && (fins_off(&job->opening[i]) || lip_off(&job->opening[i]));
  pw_html_put(h, "<div><h2>3. What is done</h2>\n<ul>\n");
  pw_html_put(h, "<li>Old sashes and glass come out; the old frame stays in the wall.</li>\n");
  if (cut)
    pw_html_put(h, "<li>Fins and sill lips of the old frame come off where the table says so, "
                   "and nowhere else.</li>\n");
  pw_html_put(h, "<li>The new window is set inside the old frame, level and plumb, fastened as "
                 "its maker says.</li>\n");
  if (foam) pw_html_put(h, "<li>The gap round it is filled with low-expansion foam.</li>\n");
  pw_html_put(h,
              "<li>Outside it is sealed to the old frame with %s over backer rod; weeps stay "
              "open.</li>\n",
              job->house.sealant[0] ? pw_say(h, job->house.sealant)
                                    : pw_say(h, PW_TEXT("sealant")));
  pw_html_put(h, "<li>Every sash is tried, locks are set, glass is washed, the room is left "
                 "clean.</li>\n");
  if (priced(of, "disposal"))
    pw_html_put(h, "<li>The old parts are taken away; that is in the price.</li>\n");
  if (priced(of, "permit"))
    pw_html_put(h, "<li>The firm asks for the building permit; that is in the price.</li>\n");
  pw_html_put(h, "</ul></div>\n");
}

static void staying(const pw_offer *of, pw_html *h)
{
  size_t n = 0;
  for (size_t i = 0; i < of->compare->n_opening; i++)
    n += of->line[i].state == PW_NO_WORK;
  if (n == 0) return;
  pw_html_put(h, "<li>These windows are left as they are: ");
  offer_list(of, PW_NO_WORK, h);
  pw_html_put(h, ".</li>\n");
}

static void not_done(const pw_offer *of, pw_html *h)
{
  pw_html_put(h, "<div><h2>4. What is not done</h2>\n<ul>\n");
  staying(of, h);
  pw_html_put(h, "<li>Stucco, flashing, framing and header are not touched; a sound joint "
                 "between old frame and stucco stays.</li>\n");
  pw_html_put(h,
              "<li>No paint, no repair of stucco, rot or a leak in the wall. What is found "
              "is shown to you first; more work and its price are agreed in writing.</li>\n");
  pw_html_put(h, "<li>Blinds, curtains, alarm contacts, bars: taken down and put back only "
                 "where written here: <span class=\"line wide-line\">&nbsp;</span></li>\n");
  if (!priced(of, "disposal"))
    pw_html_put(
        h,
        "<li>No price for taking the old parts away stands apart: in the price "
        "<span class=\"tick\">&nbsp;</span> yes <span class=\"tick\">&nbsp;</span> no</li>\n");
  if (!priced(of, "permit"))
    pw_html_put(
        h, "<li>No price for a building permit stands apart: asked for by <span "
           "class=\"tick\">&nbsp;</span> the firm <span class=\"tick\">&nbsp;</span> you <span "
           "class=\"tick\">&nbsp;</span> none is needed</li>\n");
  pw_html_put(h, "<li>Approval of an owners' association or historic district, where there is "
                 "one, comes from you before the order.</li>\n</ul></div>\n");
}

void offer_work(const pw_offer *of, pw_html *h)
{
  pw_html_put(h, "<div class=\"beside\">\n");
  done(of, h);
  not_done(of, h);
  pw_html_put(h, "</div>\n");
}
