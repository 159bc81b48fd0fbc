#include "out/crew_day.h"

#include "gen/reference.h"
#include "out/materials_rows.h"
#include "panewright/lites.h"
#include "panewright/units.h"

#define RULE(id) (&pw_ref_trade_materials[pw_ref_trade_materials__##id])
#define MEASURE(id) (&pw_ref_trade_measure[pw_ref_trade_measure__##id])
#define SAFETY(id) (&pw_ref_trade_safety[pw_ref_trade_safety__##id])

static pw_reading reading(const pw_crew_day *d, const pw_html *h)
{
  return (pw_reading){d->paper.si, h->tongue};
}

static void tick(pw_html *h, const char *what)
{
  pw_html_put(h, "<li class=\"tick\">%s</li>\n", pw_say(h, what));
}

/* ---------------------------------------------------------------- what stops the work */

/* The tags of the openings for which a question is answered with yes. */
typedef int (*asks)(const pw_crew_day *day, size_t i);

static size_t count(const pw_crew_day *d, asks ask)
{
  size_t n = 0;
  for (size_t i = 0; i < d->sum->n_opening; i++)
    n += d->sum->units[i] && ask(d, i);
  return n;
}

static void tags(const pw_crew_day *d, asks ask, pw_html *h)
{
  for (size_t i = 0; i < d->sum->n_opening; i++)
    if (d->sum->units[i] && ask(d, i)) {
      pw_html_put(h, " ");
      pw_html_name(h, d->paper.job->opening[i].tag);
    }
}

static int not_cleared(const pw_crew_day *d, size_t i) { return !d->check[i].may_order; }

static int high_outside(const pw_crew_day *d, size_t i)
{
  return d->paper.job->opening[i].drop_outside > SAFETY(FP1)->limit * PW_INCH;
}

static int safety_glass(const pw_crew_day *d, size_t i) { return pw_crew_safety_glass(d, i); }

/* Before 1978, or nobody knows: 40 CFR 745. */
static int lead(const pw_house_facts *k)
{
  return k->year_built == 0 || k->year_built < (int)SAFETY(LP1)->limit;
}

static void lead_set_up(const pw_crew_day *d, pw_html *h)
{
  const pw_house_facts *k = &d->paper.job->house;
  const char *number =
      k->lead_certificate[0] ? k->lead_certificate : d->paper.job->firm.lead_certificate;
  if (!lead(k)) return;
  pw_html_put(h, "<li class=\"tick\"><b>LEAD-SAFE SET-UP.</b> ");
  if (k->year_built)
    pw_html_put(h, "House of %d: paint may hold lead. ", k->year_built);
  else
    pw_html_put(h, "Year of the house not known: work as if the paint held lead. ");
  if (number[0])
    pw_html_put(h, "Certified firm <bdi>%s</bdi>. ", number);
  else
    pw_html_put(h, "<b>No certificate of the firm in the job: do not start.</b> ");
  pw_html_put(
      h,
      "Certified renovator on site, pamphlet given, signs out, plastic on floor and ground, "
      "room sealed; mist, do not dry-sand or burn; HEPA vacuum, bag waste, wash up, cleaning "
      "verified and recorded. The lead rule (40 CFR 745) and the state's own govern.</li>\n");
}

static void stops(const pw_crew_day *d, pw_html *h)
{
  if (count(d, not_cleared)) {
    pw_html_put(h, "<p class=\"alarm\"><b>Not cleared for order:");
    tags(d, not_cleared, h);
    pw_html_put(h, ".</b> Open none of these before the office says so.</p>\n");
  }
  if (count(d, safety_glass)) {
    pw_html_put(h, "<p><b>Safety glass:");
    tags(d, safety_glass, h);
    pw_html_put(h, ".</b> See the permanent mark in each pane before setting; no mark, do not "
                   "set it, call the office.</p>\n");
  }
}

/* ---------------------------------------------------------------- the day in order */

static void falls(const pw_crew_day *d, pw_html *h)
{
  pw_html_put(h, "<li class=\"tick\">");
  if (count(d, high_outside)) {
    pw_html_put(h, "<b>Falls:</b> sill more than %g ft above the ground outside:",
                SAFETY(FP1)->limit / 12.0);
    tags(d, high_outside, h);
    pw_html_put(h, ". ");
  }
  pw_html_put(
      h, "Ladder on firm ground, tied or held; scaffold or fall protection by the firm's "
         "plan and the local rule; look for overhead lines. Cut-resistant gloves, sleeves, "
         "eye protection; nobody below an open window.</li>\n");
}

static void in_order(const pw_crew_day *d, pw_html *h)
{
  pw_html_put(h, "<h2>The day, in order</h2>\n<ol class=\"day\">\n");
  tick(h,
       PW_TEXT("Units against this paper before anything is opened: tag, size, glass, handing, "
               "no damage. Wrong or broken: that window stays shut, call the office."));
  tick(h, PW_TEXT("Warned: the people of the house (rooms, noise, when each window is out), "
                  "neighbours beside the work, the alarm company where a contact is wired. "
                  "Children and pets out of the room; furniture, blinds and drapes away; floor "
                  "and bed covered."));
  lead_set_up(d, h);
  falls(d, h);
  tick(h,
       PW_TEXT("Stucco, plaster or old putty of unknown content: do not cut, grind or sand it; "
               "stop and ask."));
  tick(h,
       PW_TEXT(
           "Before a fin or lip is cut: see what holds the old frame and where it drains; dull "
           "the cut edge."));
  tick(h,
       PW_TEXT("One window at a time: out, cut, dry fit, set, fasten, sealed and shut before "
               "the next is opened. None stays open for the night or for rain."));
  tick(h,
       PW_TEXT("Found rot, a leak, a loose old frame or a sagging head: stop, photograph, call "
               "the office."));
  tick(h,
       PW_TEXT("At the end: weeps, locks, screens, caps; glass and frames washed; waste away; "
               "walk round with the owner; tell him when the sealant may be painted."));
  pw_html_put(h, "</ol>\n");
}

/* ---------------------------------------------------------------- rooms, load, tools */

static void rooms(const pw_crew_day *d, pw_html *h)
{
  const pw_reading as = reading(d, h);
  size_t number = 0;
  pw_html_put(h, "<div class=\"wider\"><h2>Rooms</h2>\n<table class=\"rooms\"><thead><tr><th "
                 "scope=\"col\">window</th><th scope=\"col\">room</th><th "
                 "scope=\"col\">count</th><th scope=\"col\">unit</th><th "
                 "scope=\"col\">weight</th><th scope=\"col\">carried by</th><th "
                 "scope=\"col\">done</th></tr></thead><tbody>\n");
  for (size_t i = 0; i < d->sum->n_opening; i++) {
    const pw_opening *o = &d->paper.job->opening[i];
    const pw_materials *m = &d->sum->opening[i];
    if (!d->sum->units[i]) continue;
    pw_html_put(h, "<tr><th scope=\"row\">%zu. ", ++number);
    pw_html_name(h, o->tag);
    pw_html_put(h, "</th><td>");
    pw_html_name(h, o->room);
    pw_html_put(h,
                "</td><td>%d</td><td>%s x %s</td><td>%s</td><td>%d</td><td class=\"tick\">"
                "</td></tr>\n",
                d->sum->units[i], pw_length_of(as, d->fit[i].order_width, 8).text,
                pw_length_of(as, d->fit[i].order_height, 8).text,
                pw_weight_of(as, m->mass).text, m->people);
  }
  pw_html_put(h, "</tbody></table>\n");
  const pw_materials *m = &d->sum->opening[d->sum->heaviest];
  pw_html_put(h, "<p><b>Heaviest: ");
  pw_html_name(h, d->paper.job->opening[d->sum->heaviest].tag);
  pw_html_put(h,
              ", %s (%s to %s), %d people.</b> <span class=\"small\">Glass %s by area and "
              "thickness (2500 kg/m3, EN 572), frame by its length; at most %s a person (NIOSH "
              "lifting equation, from memory), two from a side of %s on. Not from a ladder "
              "alone; suction cups; weigh when in doubt.</span></p></div>\n",
              pw_weight_of(as, m->mass).text, pw_weight_of(as, m->mass_low).text,
              pw_weight_of(as, m->mass_high).text, m->people,
              pw_weight_of(as, m->glass_mass).text,
              pw_weight_of(as, RULE(MA21)->typical * PW_POUND).text,
              pw_length_of(as, RULE(MA22)->typical * PW_INCH, 8).text);
}

static void load(const pw_crew_day *d, pw_html *h)
{
  pw_material_row row[PW_MATERIAL_ROWS];
  size_t n =
      pw_materials_rows(d->sum, d->paper.job->house.sealant, d->paper.si, h->tongue, row);
  pw_html_put(h, "<h2>Load</h2>\n<ul class=\"list\">\n<li class=\"tick\">");
  if (d->sum->n_unit == 1)
    pw_html_put(h, "<b>1</b> window unit</li>\n");
  else
    pw_html_put(h, "<b>%zu</b> window units</li>\n", d->sum->n_unit);
  for (size_t i = 0; i < n; i++) {
    if (!row[i].load) continue;
    char much[96];
    if (row[i].buy[0])
      snprintf(much, sizeof much, "%s", row[i].buy);
    else /* made to measure, not bought by the piece */
      snprintf(much, sizeof much, "%.*f %s", row[i].decimals, row[i].quantity,
               pw_say(h, row[i].unit));
    pw_html_put(h, "<li class=\"tick\">%s: <b>%s</b>%s%s</li>\n", pw_say(h, row[i].item), much,
                row[i].size[0] ? ", " : "", row[i].size);
  }
  pw_html_put(h, "</ul>\n");
}

static void tools(const pw_crew_day *d, pw_html *h)
{
  pw_html_put(h, "<h2>Tools</h2>\n<ul class=\"list\">\n");
  tick(h, PW_TEXT("tape, 4 ft level, square, string"));
  tick(h, PW_TEXT("suction cups, ladders, planks"));
  tick(h, PW_TEXT("oscillating tool, metal blades, file, tin snips"));
  tick(h, PW_TEXT("pry bars, putty knives, utility knife"));
  tick(h, PW_TEXT("drill, bits, drivers"));
  tick(h, PW_TEXT("caulk gun, tooling spoons, foam gun, rod roller"));
  tick(h, PW_TEXT("miter saw, glue and pins for the trim"));
  tick(h, PW_TEXT("drop cloths, vacuum, bags, rags, cleaner"));
  tick(h, PW_TEXT("gloves, sleeves, eye and ear protection, first aid"));
  tick(h, PW_TEXT("plywood or plastic to shut an opening"));
  if (lead(&d->paper.job->house))
    tick(h,
         PW_TEXT("lead: plastic, tape, signs, HEPA vacuum, mister, respirators, test cloths"));
  pw_html_put(h, "</ul>\n");
}

/* When, who, what. */
static void top(const pw_crew_day *d, pw_html *h)
{
  const pw_house_facts *k = &d->paper.job->house;
  pw_html_put(h, "<p>Package <b>");
  pw_html_name(h, d->paper.job->package[d->column].name);
  pw_html_put(h, "</b>; day ");
  if (k->install_date[0])
    pw_html_put(h, "<b>%s</b>", k->install_date);
  else
    pw_html_put(h, "<span class=\"line\">&nbsp;</span>");
  pw_html_put(h,
              "; lead <span class=\"line\">&nbsp;</span>; weather <span "
              "class=\"line\">&nbsp;</span> (seal dry, %g to %g F). Left and right are as seen "
              "from outside.</p>\n",
              MEASURE(S10)->low, MEASURE(S10)->high);
}

pw_status pw_crew_day_html(const pw_crew_day *d, pw_html *h, pw_err *err)
{
  static const char *const style[] = {"plots/paper.css", "plots/crew.css", NULL};
  static const char foot[] = PW_TEXT(
      "Maker's instructions, local code and the firm's safety plan go before this paper");
  pw_paper_begin(&d->paper, PW_TEXT("Crew's day"), style, foot, h);
  top(d, h);
  if (d->sum->n_unit == 0) {
    pw_html_put(h, "<p>No window of this job is replaced.</p>\n");
    return pw_paper_end(h, err);
  }
  stops(d, h);
  in_order(d, h);
  pw_html_put(h, "<div class=\"twice\">\n");
  rooms(d, h);
  pw_html_put(h, "<div>\n");
  load(d, h);
  tools(d, h);
  pw_html_put(h, "</div></div>\n");
  for (size_t i = 0, number = 0; i < d->sum->n_opening; i++)
    if (d->sum->units[i]) pw_crew_block(d, i, ++number, h);
  return pw_paper_end(h, err);
}
