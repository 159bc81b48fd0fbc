/* An old window that stays: judged as it is, said, and never of the order. */
#include <stdio.h>
#include <string.h>

#include "panewright/tape.h"
#include "panewright/units.h"
#include "window/caution_impl.h"

void caution_as_it_is(const pw_opening *opening, const pw_fit *fit, pw_opening *stays,
                      pw_fit *as_it_is)
{
  *stays = *opening;
  stays->operator_insert = opening->operator_existing;
  *as_it_is = *fit;
  as_it_is->insert = fit->existing;
  as_it_is->clear_insert = fit->clear_existing;
}

static pw_caution_state way_out(const caution_case *c, char finding[], size_t size)
{
  const pw_clear *clear = &c->fit->clear_existing;
  char w[24], h[24];
  pw_tape_text(clear->width, 8, w, sizeof w);
  pw_tape_text(clear->height, 8, h, sizeof h);
  snprintf(finding, size,
           "the old window stays, so it is not of this order; as a way out it opens about %s x "
           "%s in = %.1f ft2, which today's limit for a new one does not allow",
           w, h, clear->area / PW_FOOT2);
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_of_staying(const caution_case *c, const char *id,
                                    pw_caution_state state, char finding[], size_t size)
{
  char text[320];
  if (c->opening->standing != PW_STAYS) return PW_CAUTION_CLEAR; /* its own phase judges it */
  if (state == PW_CAUTION_FAIL) return way_out(c, finding, size);
  if (state != PW_CAUTION_FLAG || (strncmp(id, "SG", 2) != 0 && strncmp(id, "FP", 2) != 0))
    return PW_CAUTION_CLEAR;
  snprintf(text, sizeof text, "%s", finding);
  snprintf(finding, size, "the old window stays, not of this order; as it is: %.240s", text);
  return PW_CAUTION_REMIND;
}
