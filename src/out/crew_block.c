/* What is done at one opening. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "gen/reference.h"
#include "out/calendar.h"
#include "out/crew_day.h"
#include "out/crew_drawing.h"
#include "out/materials_out.h"
#include "panewright/lites.h"
#include "panewright/units.h"
#include "window/options.h"

#define MEASURE(id) (&pw_ref_trade_measure[pw_ref_trade_measure__##id])
#define RULE(id) (&pw_ref_trade_materials[pw_ref_trade_materials__##id])

/* One opening with all that stands beside it. */
typedef struct block {
  const pw_crew_day *day;
  size_t i;
  const pw_opening *o;
  const pw_fit *fit;
  const pw_install *plan;
  const pw_materials *m;
  pw_reading as;
} block;

int pw_crew_safety_glass(const pw_crew_day *day, size_t i)
{
  return day->paper.job->opening[i].option.tempered ||
         pw_caution_safety_glass(day->cautions, (int)i);
}

static void row(pw_html *h, const char *what)
{
  pw_html_put(h, "<tr><th scope=\"row\">%s</th><td>", pw_say(h, what));
}

static void row_end(pw_html *h) { pw_html_put(h, "</td></tr>\n"); }

/* ---------------------------------------------------------------- pocket and unit */

static void sizes(const block *b, pw_html *h)
{
  double gap[4];
  pw_crew_gap(b->fit, gap);
  row(h, PW_TEXT("Pocket, W x H"));
  pw_html_put(h, "<b class=\"big\">%s x %s</b>",
              pw_length_of(b->as, b->fit->pocket_width, 16).text,
              pw_length_of(b->as, b->fit->pocket_height, 16).text);
  row_end(h);
  row(h, PW_TEXT("Unit, W x H"));
  pw_html_put(h, "<b class=\"big\">%s x %s</b>",
              pw_length_of(b->as, b->fit->order_width, 8).text,
              pw_length_of(b->as, b->fit->order_height, 8).text);
  if (b->fit->shape.kind != PW_SHAPE_RECTANGLE) {
    char shape[32];
    snprintf(shape, sizeof shape, "%s", pw_shape_name(b->fit->shape.kind));
    for (char *p = shape; *p; p++)
      if (*p == '_') *p = ' ';
    pw_html_put(h, " in all, %s", pw_say(h, shape));
  }
  row_end(h);
  row(h, PW_TEXT("Gap a side"));
  if (b->fit->shape.kind == PW_SHAPE_RECTANGLE)
    pw_html_put(h,
                "left <b>%s</b> &nbsp;right <b>%s</b> &nbsp;head <b>%s</b> &nbsp;sill "
                "<b>%s</b>",
                pw_length_of(b->as, gap[PW_LEFT], 32).text,
                pw_length_of(b->as, gap[PW_RIGHT], 32).text,
                pw_length_of(b->as, gap[PW_TOP], 32).text,
                pw_length_of(b->as, gap[PW_BOTTOM], 32).text);
  else
    pw_html_put(h, "<b>%s</b> all round, at least", pw_length_of(b->as, b->fit->gap, 32).text);
  if (b->fit->lean > 0.0625 * PW_INCH)
    pw_html_put(h, "; pocket leans %s: set the unit plumb, not along the pocket",
                pw_length_of(b->as, b->fit->lean, 16).text);
  row_end(h);
}

/* What comes off and what must stay. */
static void cuts(const block *b, pw_html *h)
{
  const int off = pw_crew_fins_off(b->o), lip = pw_crew_lip_off(b->o);
  const pw_amount_said fin = pw_length_of(b->as, b->o->fin_width, 16),
                       high = pw_length_of(b->as, b->o->sill_lip, 16);
  row(h, PW_TEXT("Comes off"));
  if (off == 2) pw_html_put(h, "<b>both side fins, %s</b> each", fin.text);
  if (off == 1)
    pw_html_put(h, "<b>one side fin, %s</b> (which: see the note; ask if it does not say)",
                fin.text);
  if (off && lip) pw_html_put(h, "; ");
  if (lip) pw_html_put(h, "<b>sill lip, %s</b>", high.text);
  if (!off && !lip) pw_html_put(h, "nothing");
  row_end(h);
  row(h, PW_TEXT("Must stay"));
  const int fins_stay = b->o->fin_width > 0.0 && off<2, lip_stays = b->o->sill_lip> 0.0 && !lip;
  if (fins_stay)
    pw_html_put(h,
                off == 1 ? PW_TEXT("<b>the other side fin, %s</b>; ")
                         : PW_TEXT("<b>both side fins, %s</b>; "),
                fin.text);
  if (lip_stays) pw_html_put(h, "<b>sill lip, %s</b>; ", high.text);
  pw_html_put(h, "old frame, stucco, flashing");
  row_end(h);
}

/* ---------------------------------------------------------------- setting */

static void places(const block *b, int side, pw_html *h)
{
  for (size_t k = 0; k < b->m->n_shim[side]; k++) {
    char text[40];
    snprintf(text, sizeof text, "%s", pw_length_of(b->as, b->m->shim[side][k], 2).text);
    if (k + 1 < b->m->n_shim[side]) *strrchr(text, ' ') = '\0'; /* the unit once, at the end */
    if (k) pw_html_put(h, ", ");
    pw_html_put(h, "<span class=\"fig\">%s</span>", text);
  }
}

static void shims(const block *b, pw_html *h)
{
  row(h, PW_TEXT("Shims"));
  if (b->m->n_shim[PW_BOTTOM]) {
    pw_html_put(h, "sill, from the left: ");
    places(b, PW_BOTTOM, h);
  }
  if (b->m->n_shim[PW_LEFT] + b->m->n_shim[PW_RIGHT]) {
    const int longer = b->m->n_shim[PW_LEFT] >= b->m->n_shim[PW_RIGHT] ? PW_LEFT : PW_RIGHT;
    pw_html_put(h, b->m->n_shim[PW_BOTTOM] ? PW_TEXT("; jambs, from the sill: ")
                                           : PW_TEXT("jambs, from the sill: "));
    places(b, longer, h);
  }
  if (b->m->shims == 0) pw_html_put(h, "all round by the maker's instruction");
  row_end(h);
  row(h, PW_TEXT("Fasten"));
  pw_html_put(h, "<b>maker's schedule governs</b>; jambs first, none in the sill");
  if (b->m->screws_high > b->m->screws_low)
    pw_html_put(h, "; %d to %d screws", b->m->screws_low, b->m->screws_high);
  else if (b->m->screws_high)
    pw_html_put(h, "; %d screws", b->m->screws_high);
  row_end(h);
  row(h, PW_TEXT("Foam"));
  if (b->m->foam_volume > 0.0)
    pw_html_put(h, "low expansion, <b>%s</b> (%.2f can), %s deep, off the weeps",
                pw_foam_of(b->as, b->m->foam_volume).text, pw_materials_cans(b->m->foam_volume),
                pw_length_of(b->as, b->m->foam_depth, 16).text);
  else
    pw_html_put(h, "none: air stays behind the frame");
  row_end(h);
}

static void paint(const block *b, pw_html *h)
{
  const pw_install *p = b->plan;
  row(h, PW_TEXT("Cure, paint"));
  if (!p->paintable)
    pw_html_put(h, "cures %g to %g hours; takes no paint, match its colour",
                24.0 * MEASURE(S8)->low, 24.0 * MEASURE(S8)->high);
  else if (p->paint_stated)
    pw_html_put(h,
                "dry until cured by its data sheet; paint after <b>%g days</b>, as the job "
                "states",
                p->paint_days_low);
  else if (isfinite(p->paint_days_low))
    pw_html_put(h, "dry until cured; paint after <b>%g to %g days</b> (data sheet)",
                p->paint_days_low, p->paint_days_high);
  else
    pw_html_put(h, "cure and paint when its data sheet says so");
  row_end(h);
}

static void joint(const block *b, pw_html *h)
{
  const char *sealant = b->day->paper.job->house.sealant;
  row(h, PW_TEXT("Outside joint"));
  pw_html_put(h, "<b>%s wide, %s deep</b>, ", pw_length_of(b->as, b->m->seal_width, 16).text,
              pw_length_of(b->as, b->m->seal_depth, 32).text);
  if (b->m->rod_length > 0.0)
    pw_html_put(h, "over <b>%s rod</b>; ", pw_length_of(b->as, b->m->rod, 8).text);
  else
    pw_html_put(h, "over bond-breaker tape; ");
  pw_html_put(h, "%s, Class %g; run %s, <b>%s</b> (%.2f cartridge); tape lines %s apart",
              pw_say(h, sealant[0] ? sealant : "sealant"), b->m->seal_class,
              pw_length_of(b->as, b->m->seal_length, 1).text,
              pw_volume_of(b->as, b->m->seal_volume).text,
              pw_materials_cartridges(b->m->seal_volume),
              pw_length_of(b->as, b->m->seal_width, 16).text);
  row_end(h);
  paint(b, h);
}

static void inside(const block *b, pw_html *h)
{
  row(h, PW_TEXT("Inside trim"));
  for (size_t k = 0; k < b->m->n_trim; k++)
    pw_html_put(h, "%s <b>%s</b> &nbsp;", pw_say(h, pw_side_of_opening(b->m->trim[k].side)),
                pw_length_of(b->as, b->m->trim[k].length, 16).text);
  if (b->m->trim_curved > 0.0)
    pw_html_put(h, "bent <b>%s</b> &nbsp;", pw_length_of(b->as, b->m->trim_curved, 1).text);
  pw_html_put(h, "each with %s to scribe; caulk <b>%s</b>",
              pw_length_of(b->as, RULE(MA8)->typical * PW_INCH, 16).text,
              pw_volume_of(b->as, b->m->caulk_volume).text);
  row_end(h);
  if (b->o->note[0]) {
    row(h, PW_TEXT("Note"));
    pw_html_name(h, b->o->note);
    row_end(h);
  }
}

/* ---------------------------------------------------------------- checks */

static void tick(pw_html *h, const char *what)
{
  pw_html_put(h, "<li class=\"tick\">%s</li>\n", pw_say(h, what));
}

static void checks(const block *b, pw_html *h)
{
  const int opens = pw_operator_opens(b->o->operator_insert);
  pw_html_put(h, "<ol class=\"checks\">\n");
  tick(h, PW_TEXT("label and size read, old one still in"));
  if (pw_crew_safety_glass(b->day, b->i))
    tick(h, PW_TEXT("SAFETY GLASS: mark seen, each pane"));
  tick(h, PW_TEXT("dry fit with the gaps above"));
  tick(h, PW_TEXT("square: reveal even all round"));
  tick(h, PW_TEXT("plumb, level, not bowed"));
  if (opens) tick(h, PW_TEXT("opens, closes, locks"));
  if (b->o->use == PW_USE_BEDROOM) tick(h, PW_TEXT("ESCAPE: opens without key or tool"));
  tick(h, PW_TEXT("weeps of both frames open"));
  tick(h, PW_TEXT("sealed, tooled, tape off"));
  tick(h, PW_TEXT("label photographed, left on"));
  tick(h, PW_TEXT("caps on"));
  if (opens) tick(h, PW_TEXT("screen in"));
  tick(h, PW_TEXT("washed, room clean"));
  pw_html_put(h, "</ol>\n");
}

static void head(const block *b, size_t number, pw_html *h)
{
  pw_html_put(h, "<h2>%zu. ", number);
  pw_html_name(h, b->o->tag);
  pw_html_put(h, " ");
  pw_html_name(h, b->o->room);
  pw_html_put(h, " <span class=\"kind\">%s%s%s, faces %s",
              pw_say(h, pw_operator_name(b->o->operator_insert)), b->o->config[0] ? " " : "",
              b->o->config, pw_say(h, pw_side_word(b->o->facing_deg)));
  if (b->o->option.hinge != PW_HINGE_ASK)
    pw_html_put(h, ", hinge %s", pw_say(h, pw_hinge_name(b->o->option.hinge)));
  pw_html_put(h, "</span></h2>\n");
  pw_html_put(h, "<p class=\"load\"><b>%s</b> (%s to %s), carried by <b>%d</b>; ",
              pw_weight_of(b->as, b->m->mass).text, pw_weight_of(b->as, b->m->mass_low).text,
              pw_weight_of(b->as, b->m->mass_high).text, b->m->people);
  if (b->day->sum->units[b->i] == 1)
    pw_html_put(h, "1 window");
  else
    pw_html_put(h, "%d windows, each as below", b->day->sum->units[b->i]);
  if (!b->day->check[b->i].may_order)
    pw_html_put(h, "; <b>NOT CLEARED FOR ORDER: ask the office before anything is opened</b>");
  pw_html_put(h, "</p>\n");
}

void pw_crew_block(const pw_crew_day *day, size_t i, size_t number, pw_html *h)
{
  const block b = {day,
                   i,
                   &day->paper.job->opening[i],
                   &day->fit[i],
                   &day->install[i],
                   &day->sum->opening[i],
                   {day->paper.si, h->tongue}};
  pw_html_put(h, "<section class=\"opening\">\n");
  head(&b, number, h);
  pw_html_put(h, "<div class=\"beside\"><div class=\"drawn\">\n");
  pw_crew_drawing(b.o, b.fit, b.m, b.as, h);
  pw_html_put(
      h,
      "<p class=\"small\">Seen from outside, to scale. Dashed: comes off. Black: stays. "
      "Wedges: shims. Numbers: gap (%s).</p>\n",
      b.as.si ? "mm" : pw_say(h, "in"));
  pw_html_put(h, "</div><div class=\"what\"><table><tbody>\n");
  sizes(&b, h);
  cuts(&b, h);
  shims(&b, h);
  joint(&b, h);
  inside(&b, h);
  pw_html_put(h, "</tbody></table></div></div>\n");
  checks(&b, h);
  pw_html_put(h, "</section>\n");
}
