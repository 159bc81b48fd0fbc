#include "glass/by_angle.h"

#include <math.h>

#include "base/own_math.h"
#include "panewright/units.h"

int pw_cosine_below(int i, double *part)
{
  return pw_angle_below(pw_acos(fmin(i / (double)PW_COSINES, 1.0)) * 18.0 / PW_PI, part);
}

/* cos(0) / 2, cos(10) .. cos(80), and their sum. */
const double pw_band_weight[10] = {0.5,
                                   0.984807753012208,
                                   0.9396926207859084,
                                   0.8660254037844387,
                                   0.766044443118978,
                                   0.6427876096865394,
                                   0.5,
                                   0.3420201433256688,
                                   0.17364817766693041,
                                   0.0};
const double pw_band_weights = 5.7150261513806715;

double pw_band_mean(const double share[PW_ANGLES])
{
  double sum = 0.0;
  for (int k = 0; k < 10; k++)
    sum += pw_band_weight[k] * share[k];
  return sum / pw_band_weights;
}
