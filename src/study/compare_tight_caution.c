/* What a tighter house asks for: air for what burns, and the way out for moisture. */
#include <math.h>

#include "gen/reference.h"
#include "study/compare_tight_impl.h"

static void add(pw_compare_tight *t, const pw_ref_trade_safety_row *r, pw_message_number says,
                pw_caution_state state)
{
  t->caution[t->n_caution++] =
      (pw_caution){.id = r->id,
                   .topic = r->topic,
                   .source = r->source,
                   .how_known = r->how_known,
                   .defer_to = r->defer_to,
                   .rank = 2, /* health */
                   .opening = PW_CAUTION_WHOLE_JOB,
                   .state = state,
                   .finding = PW_SAYS(says, PW_SI(t->air_changes), PW_SI(t->air_least),
                                      PW_SI(t->air_limit))};
}

void tight_cautions(const pw_compare *c, pw_compare_tight *t)
{
  const pw_ref_trade_safety_row *burns = &pw_ref_trade_safety[pw_ref_trade_safety__CO1];
  const pw_ref_trade_safety_row *damp = &pw_ref_trade_safety[pw_ref_trade_safety__MO1];
  int open = c->job->house.open_combustion;
  t->air_least = t->air_changes;
  t->air_limit = damp->limit;
  for (size_t p = 0; p < c->n_package; p++)
    t->air_least = fmin(t->air_least, t->package[p].air_low);
  if (!(t->air_least < t->air_changes)) return; /* nothing gets tighter */
  if (open > 0) add(t, burns, PW_SAY_TIGHT_DRAWS_AIR, PW_CAUTION_FLAG);
  if (open < 0) add(t, burns, PW_SAY_TIGHT_MAY_DRAW_AIR, PW_CAUTION_ASK);
  if (t->air_least < t->air_limit)
    add(t, damp, PW_SAY_TIGHT_DAMP, PW_CAUTION_FLAG);
  else
    add(t, damp, PW_SAY_TIGHT_AIRED, PW_CAUTION_REMIND);
}
