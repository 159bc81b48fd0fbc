/* An old window that stays: judged as it is, said, and never of the order. */
#include <string.h>

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

static pw_caution_state way_out(const caution_case *c, pw_message *finding)
{
  const pw_clear *clear = &c->fit->clear_existing;
  *finding = PW_SAYS(PW_SAY_STAYS_WAY_OUT, PW_SI(clear->width), PW_SI(clear->height),
                     PW_SI(clear->area));
  return PW_CAUTION_FLAG;
}

pw_caution_state caution_of_staying(const caution_case *c, const char *id,
                                    pw_caution_state state, pw_message *finding)
{
  if (c->opening->standing != PW_STAYS) return PW_CAUTION_CLEAR; /* its own phase judges it */
  if (state == PW_CAUTION_FAIL) return way_out(c, finding);
  if (state != PW_CAUTION_FLAG || (strncmp(id, "SG", 2) != 0 && strncmp(id, "FP", 2) != 0))
    return PW_CAUTION_CLEAR;
  finding->led_by = PW_SAY_STAYS_AS_IT_IS;
  return PW_CAUTION_REMIND;
}
