/* What the buyer has to know before he signs, in plain words: the cautions that were found on this job. */
#include <string.h>

#include "out/offer_impl.h"

/* A caution and what a buyer is told of it. life: said in English, too. */
typedef struct told {
  const char *ids; /* rows of trade/safety.csv, parted by blanks */
  int life;
  const char *say;
} told;

static const told tell[] = {
    {"FP1 FP2", 1,
     PW_TEXT(
         "A child could fall from this window: it opens low, high above the ground. A device "
         "that stops the sash and still lets it open for escape is wanted; do not rely on "
         "the screen.")},
    {"CO1", 1,
     PW_TEXT(
         "An appliance may draw its air from the rooms. New windows can let less air in: have "
         "its venting and carbon monoxide checked by a qualified person after the work.")},
    {"AS1", 1,
     PW_TEXT(
         "Stucco, putty or caulk of this age may hold asbestos. None of it is cut, ground or "
         "sanded before it has been tested.")},
    {"WA2", 0,
     PW_TEXT(
         "Windows have leaked here. A new window inside the old frame does not mend flashing: "
         "the cause is looked for first.")},
    {"ST1", 0,
     PW_TEXT(
         "Cracks, a racked frame or a sagging head can come from the wall. Someone licensed "
         "looks at it before the work.")},
    {"WL2", 0, PW_TEXT("Flying debris: this region may ask for impact glass or shutters.")},
    {"FI1", 0, PW_TEXT("Wildfire area: tempered glass or more may be asked for.")},
    {"AL1 AL2", 0,
     PW_TEXT(
         "The house stands much higher or lower than the maker's plant. The glass is ordered "
         "for this height, or it bows.")},
    {"TS1", 0,
     PW_TEXT("Glass here may get hot unevenly: blinds close behind it, film or shade on it can "
             "crack it. Ask before adding any.")},
    {"TS2", 0,
     PW_TEXT("Sun thrown back by this glass can soften vinyl siding or turf near by.")},
    {"VN1", 0,
     PW_TEXT("Less glass: a room may fall short of the daylight that the code asks for.")},
};

static int is_of(const told *t, const char *id)
{
  size_t n = strlen(id);
  for (const char *s = t->ids; (s = strstr(s, id)) != NULL; s += n)
    if ((s == t->ids || s[-1] == ' ') && (s[n] == ' ' || s[n] == '\0')) return 1;
  return 0;
}

/* Its windows as "K1, B2: "; returns whether it was found at all. */
static int found(const pw_offer *of, const told *t, pw_html *h)
{
  const pw_cautions *list = &of->compare->fitted.cautions;
  int any = 0, tags = 0, last = -1;
  for (size_t i = 0; i < list->n; i++) {
    const pw_caution *c = &list->caution[i];
    if (c->state < PW_CAUTION_ASK || !is_of(t, c->id)) continue;
    if (c->opening >= 0 && !offer_has(of, (size_t)c->opening)) continue;
    if (!any++) pw_html_put(h, "<li>");
    if (c->opening < 0 || c->opening == last) continue;
    last = c->opening;
    pw_html_put(h, "%s<bdi>%s</bdi>", tags++ ? ", " : "", of->compare->job->opening[last].tag);
  }
  if (tags) pw_html_put(h, ": ");
  return any > 0;
}

static void by_word(const pw_offer *of, pw_html *h)
{
  for (size_t i = 0; i < of->compare->n_opening; i++) {
    const pw_opening *o = &of->compare->job->opening[i];
    if (of->line[i].state != PW_OFFERED_BY_WORD) continue;
    pw_html_put(h, "<li><bdi>%s</bdi> <bdi>%s</bdi>: ", o->tag, o->room);
    offer_both(h,
               PW_TEXT("as computed this window is too small a way out in a fire, by the usual "
                       "code. It is offered on the building official's word alone:"));
    pw_html_put(h, " <b><bdi>%s</bdi></b></li>\n", o->official_word);
  }
}

static void lead(const pw_offer *of, pw_html *h)
{
  int year = of->compare->job->house.year_built;
  if (year >= 1978) return;
  pw_html_put(h, "<li>");
  if (year > 0)
    offer_both(h,
               PW_TEXT("The house is from before 1978: its paint may hold lead. The work is "
                       "done lead-safe by a certified firm; keep children and pregnant women "
                       "away from it until it has been cleaned."));
  else
    offer_both(
        h, PW_TEXT("The house may be from before 1978: its paint may hold lead. The work is "
                   "done lead-safe by a certified firm; keep children and pregnant women "
                   "away from it until it has been cleaned."));
  if (of->compare->job->house.lead_certificate[0])
    pw_html_put(h, " Certificate of the firm: <bdi>%s</bdi>.",
                of->compare->job->house.lead_certificate);
  pw_html_put(h, "</li>\n");
}

void offer_cautions(const pw_offer *of, pw_html *h)
{
  pw_html_put(h, "<h2>6. What you have to know first</h2>\n<ul>\n");
  by_word(of, h);
  lead(of, h);
  for (size_t k = 0; k < sizeof tell / sizeof tell[0]; k++)
    if (found(of, &tell[k], h)) {
      if (tell[k].life)
        offer_both(h, tell[k].say);
      else
        pw_html_put(h, "%s", pw_say(h, tell[k].say));
      pw_html_put(h, "</li>\n");
    }
  pw_html_put(h, "<li>The new windows let in less light and the view is a little smaller: the "
                 "customer's pages show how much.</li>\n");
  pw_html_put(h, "<li>");
  offer_both(h,
             PW_TEXT("Local adopted code, the building official and licensed people decide."));
  pw_html_put(h, "</li>\n</ul>\n");
}
