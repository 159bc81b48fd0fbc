#include "house/cut.h"

#include <math.h>

/* Does the plant have more to do at this set point than at the one before? side 1: heating, -1: cooling. */
static int follows(double was, double now, double side)
{
  if (isnan(now)) return 0;
  return isnan(was) || side * (now - was) > 0.0;
}

void house_cut(const pw_house *h, unsigned char cut[24])
{
  int fan = 0;
  for (int clock = 0; clock < 24; clock++) {
    const int before = (clock + 23) % 24;
    fan |= h->vent_changes[clock] != h->vent_changes[before];
    cut[clock] = h->heat_ramp_k[clock] != 0.0 ||
                 follows(h->heat_set_c[before], h->heat_set_c[clock], 1.0) ||
                 follows(h->cool_set_c[before], h->cool_set_c[clock], -1.0);
  }
  for (int clock = 0; fan && clock < 24; clock++)
    cut[clock] = 1;
}
