/* What a tighter house asks for: air for what burns, and the way out for moisture. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "gen/reference.h"
#include "study/compare_tight_impl.h"

#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
static void
add(pw_compare_tight *t, const pw_ref_trade_safety_row *r, pw_caution_state state,
    const char *format, ...)
{
  va_list args;
  pw_caution *c = &t->caution[t->n_caution++];
  *c = (pw_caution){.id = r->id,
                    .topic = r->topic,
                    .source = r->source,
                    .how_known = r->how_known,
                    .defer_to = r->defer_to,
                    .rank = 2, /* health */
                    .opening = PW_CAUTION_WHOLE_JOB,
                    .state = state};
  va_start(args, format);
  vsnprintf(c->finding, sizeof c->finding, format, args);
  va_end(args);
}

void tight_cautions(const pw_compare *c, pw_compare_tight *t)
{
  const pw_ref_trade_safety_row *burns = &pw_ref_trade_safety[pw_ref_trade_safety__CO1];
  const pw_ref_trade_safety_row *damp = &pw_ref_trade_safety[pw_ref_trade_safety__MO1];
  int open = c->job->house.open_combustion;
  double least = t->air_changes;
  for (size_t p = 0; p < c->n_package; p++)
    least = fmin(least, t->package[p].air_low);
  if (!(least < t->air_changes)) return; /* nothing gets tighter */
  if (open != 0)
    add(t, burns, open > 0 ? PW_CAUTION_FLAG : PW_CAUTION_ASK,
        open > 0 ? "an appliance draws room air, and the house's air may fall from %.2f to %.2f "
                   "changes an hour: have its draught and carbon monoxide checked after the work"
                 : "the house's air may fall from %.2f to %.2f changes an hour: does a furnace, "
                   "water heater or fireplace draw room air? then its draught has to be checked",
        t->air_changes, least);
  int low = least < damp->limit;
  add(t, damp, low ? PW_CAUTION_FLAG : PW_CAUTION_REMIND,
      low ? "outdoor air may fall from %.2f to %.2f changes an hour, under %.2f: let fans in bath "
            "and kitchen blow outdoors, and look for damp corners in the first winter"
          : "outdoor air may fall from %.2f to %.2f changes an hour, not under %.2f: air bath "
            "and kitchen as before",
      t->air_changes, least, damp->limit);
}
