#include "climate/height.h"

#include <math.h>

#include "base/own_math.h"
#include "panewright/units.h"

double pw_weather_to_height(pw_weather *w, double elevation)
{
  double up = elevation - w->site.elevation;
  if (!isfinite(up) || fabs(up) < PW_HEIGHT_LEAST) return 0.0;
  double change = -PW_LAPSE * up;
  double thinner = pw_standard_pressure(elevation) / pw_standard_pressure(w->site.elevation);
  for (int h = 0; h < PW_HOURS; h++) {
    pw_hour *x = &w->hour[h];
    double before = x->t_air, after = before + change;
    x->t_air = (float)after;
    x->t_dew = (float)fmin(x->t_dew + change, after);
    x->pressure = (float)(x->pressure * thinner);
    if (x->ir_down >= 0.0f)
      x->ir_down = (float)(x->ir_down *
                           pw_power(pw_k(after) / pw_k(before), 4.0)); /* Stefan, Boltzmann */
  }
  w->site.elevation = elevation;
  return change;
}
