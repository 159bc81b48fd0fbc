/* The variance of a sum that hangs on a regression's parameters. */
#ifndef METER_CHANGE_VARIANCE_H
#define METER_CHANGE_VARIANCE_H

#include <math.h>

#include "meter/change_point.h"

/* g' cov g; g: the derivative of the sum by each parameter */
static inline double change_variance(const pw_change_fit *fit,
                                     const double g[PW_CHANGE_PARAMETERS])
{
  double sum = 0.0;
  for (int a = 0; a < PW_CHANGE_PARAMETERS; a++)
    for (int b = 0; b < PW_CHANGE_PARAMETERS; b++)
      sum += g[a] * fit->covariance[a * PW_CHANGE_PARAMETERS + b] * g[b];
  return fmax(sum, 0.0);
}

#endif
