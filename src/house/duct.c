#include "panewright/duct.h"

#include <math.h>

#include "panewright/units.h"

double pw_duct_delivers(const pw_duct *d)
{
  double air = 1.2 * PW_AIR_HEAT * d->flow; /* W/K, air of 1.2 kg/m3 */
  double bs = exp(-d->ua_supply / air), br = exp(-d->ua_return / air);
  double rise = d->t_supply - d->t_room;
  double supply = (d->t_room - d->t_round_supply) / rise;
  double back = (d->t_room - d->t_round_return) / rise;
  return d->tight_supply *
         (bs - bs * (1.0 - d->tight_return * br) * back - (1.0 - bs) * supply);
}
