#include "out/remedy_list.h"

void pw_remedy_list_of(const pw_opening *opening, const pw_fit *fit, pw_remedy_list *list)
{
  pw_remedy r[PW_REMEDIES_MAX];
  size_t n = pw_escape_remedies(opening, fit, r);
  list->n = 0;
  list->lead = "None of these would pass in this opening; a larger or lower one is wanted:";
  if (n == 0)
    list->lead = "Nothing is counted on in a window of that shape: the way out must be another "
                 "opening of the room.";
  for (int fails = 0; fails < 2; fails++)
    for (size_t i = 0; i < n; i++) {
      if ((r[i].lacks != 0) != fails) continue;
      if (!fails) list->lead = "What would pass in this opening, as computed:";
      pw_remedy_text(&r[i], list->line[list->n++], PW_REMEDY_LINE);
    }
}
