#include "out/remedy_list.h"

void pw_remedy_list_of(const pw_tongue *tongue, const pw_opening *opening, const pw_fit *fit,
                       pw_remedy_list *list)
{
  pw_remedy r[PW_REMEDIES_MAX];
  size_t n = pw_escape_remedies(opening, fit, r);
  list->n = 0;
  const char *lead =
      PW_TEXT("None of these would pass in this opening; a larger or lower one is wanted:");
  if (n == 0)
    lead =
        PW_TEXT("Nothing is counted on in a window of that shape: the way out must be another "
                "opening of the room.");
  for (int fails = 0; fails < 2; fails++)
    for (size_t i = 0; i < n; i++) {
      if ((r[i].lacks != 0) != fails) continue;
      if (!fails) lead = PW_TEXT("What would pass in this opening, as computed:");
      pw_message says = pw_remedy_says(&r[i]);
      pw_message_text(tongue, &says, list->line[list->n++], PW_MESSAGE_TEXT);
    }
  list->lead = pw_tongue_say(tongue, lead);
}
