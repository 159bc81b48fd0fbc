/* What is taken for granted where the job is silent, in a customer's words: each column's default is a sentence. */
#include <stdio.h>
#include <string.h>

#include "out/message_text.h"
#include "out/section_said.h"
#include "out/sheet_impl.h"

/* By the item of job.csv or the column; %s is the value taken. Those that a paper says elsewhere (set points, prices, horizon) or
 * that change no figure here (screens, how a drawing is matched) have no row. */
static const struct {
  const char *item, *say;
} granted[] = {
    {"setback", PW_TEXT("the heating goes back at night by the mean of all homes (1.6 F)")},
    {"internal_gain", PW_TEXT("people and appliances give as much heat as in an average home")},
    {"ceiling_height", PW_TEXT("ceilings as high as is usual (8 ft)")},
    {"mass", PW_TEXT("a framed house with light walls")},
    {"storeys", PW_TEXT("one story")},
    {"coastal", PW_TEXT("not known: whether the sea is near")},
    {"wildfire", PW_TEXT("not known: whether wildfire may come near")},
    {"leak_history", PW_TEXT("not known: whether water leaked in before")},
    {"open_combustion", PW_TEXT("not known: whether an appliance burns with air of the rooms")},
    {"wind_pressure", PW_TEXT("not known: the wind pressure that the windows must carry")},
    {"plant_elevation", PW_TEXT("not known: how high the maker of the glass lies")},
    {"duct_efficiency", PW_TEXT("ducts lose nothing, which is the smaller saving")},
    {"sealant", PW_TEXT("polyurethane sealant, as is common on stucco")},
    {"existing_frame", PW_TEXT("old frames of aluminium without a thermal break")},
    {"existing_glass", PW_TEXT("old glass of one clear pane")},
    {"fin_width", PW_TEXT("no fins inside the old frame")},
    {"fins_cut", PW_TEXT("fins are left")},
    {"sill_lip", PW_TEXT("no lip at the sill")},
    {"sill_lip_cut", PW_TEXT("the sill's lip is left")},
    {"frame_face", PW_TEXT("old frame seen as wide as is usual")},
    {"sash_face", PW_TEXT("old sash seen as wide as is usual")},
    {"meeting_face", PW_TEXT("old meeting rail seen as wide as is usual")},
    {"grade_floor", PW_TEXT("escape windows by the rule of upper floors")},
    {"overhang_depth", PW_TEXT("no overhang")},
    {"overhang_gap", PW_TEXT("the overhang begins at the top of the window")},
    {"retained_cover", PW_TEXT("old metal that stays is bare inside")},
    {"retained_face", PW_TEXT("no old metal stays beyond the pocket")},
    {"reveal_depth", PW_TEXT("glass in the plane of the wall")},
    {"shade", PW_TEXT("no trees or walls before the window")},
    {"use", PW_TEXT("the use of a room by its name")},
    {"window_life", PW_TEXT("the new windows live as long as is usual")},
    {"absorptance", PW_TEXT("frames of a light colour")},
    /* of the house (house/facts) */
    {"plan", PW_TEXT("the house is a square")},
    {"wall", PW_TEXT("walls as was usual when the house was built")},
    {"roof", PW_TEXT("roof as was usual when the house was built")},
    {"floor", PW_TEXT("floor as is usual under such houses")},
    {"air_changes", PW_TEXT("air leaks in as in an average house of its age")},
    {"opened windows", PW_TEXT("windows are opened when that cools, a fifth of what opens")},
    {"drapes and blinds",
     PW_TEXT("drapes and blinds are used as in most homes, before and after")},
    {"contents", PW_TEXT("furniture and inner walls as is usual")},
};

static const char *sentence(const char *item)
{
  for (size_t i = 0; i < sizeof granted / sizeof granted[0]; i++)
    if (strcmp(item, granted[i].item) == 0) return granted[i].say;
  return NULL;
}

static void noted(const pw_sheet *sheet, const pw_note *note, pw_html *h)
{
  const char *say = sentence(note->what);
  if (!say) return;
  fputs("<li>", h->f);
  pw_html_text(h, pw_say(h, say));
  if (note->where[0] && (size_t)note->count < sheet->compare->n_opening)
    pw_html_put(h, " (<bdi>%s</bdi>)", note->where);
  fputs("</li>\n", h->f);
}

void sheet_granted(const pw_sheet *sheet, pw_html *h)
{
  const pw_compare *c = sheet->compare;
  const pw_notes *notes = sheet->frame->notes;
  char said[PW_TEXT_MAX];
  int warned = 0;
  pw_html_put(h, "<h3>Taken for granted where the job is silent</h3>\n");
  fputs("<ul class=\"granted\">\n", h->f);
  for (size_t i = 0; i < c->lived.house_notes.n_assumed; i++) {
    const char *say = sentence(pw_message_word(NULL, c->lived.house_notes.assumed[i].item));
    if (say) pw_html_put(h, "<li>%s</li>\n", pw_say(h, say));
  }
  pw_html_put(h, "<li>sweating is judged at the coldest point inside</li>\n");
  if (pw_section_said(c, 1, said))
    pw_html_put(h, "<li>drawn frames that are wider or narrower than the window's: the heat of "
                   "the whole opening is kept</li>\n");
  for (size_t i = 0; notes && i < notes->n; i++) {
    if (notes->note[i].kind == PW_NOTE_DEFAULT) noted(sheet, &notes->note[i], h);
    if (notes->note[i].kind == PW_NOTE_WARNING) warned++;
  }
  fputs("</ul>\n", h->f);
  if (warned)
    pw_html_put(
        h,
        pw_tongue_count(h->tongue,
                        "<p>The contractor's printout holds %d remark on the data given: "
                        "ask to see it.</p>\n",
                        "<p>The contractor's printout holds %d remarks on the data given: "
                        "ask to see them.</p>\n",
                        warned),
        warned);
}
