/* Quantiles that GSL finds by iteration; NAN where it does not settle. */
#ifndef METER_QUANTILE_H
#define METER_QUANTILE_H

#include <gsl/gsl_cdf.h>

#include "base/gsl_quiet.h"

static inline double meter_student(double probability, double freedom)
{
  gsl_error_handler_t *held = pw_gsl_hold();
  double t = gsl_cdf_tdist_Pinv(probability, freedom);
  pw_gsl_release(held);
  return t;
}

static inline double meter_chi2(double probability, double freedom)
{
  gsl_error_handler_t *held = pw_gsl_hold();
  double x = gsl_cdf_chisq_Pinv(probability, freedom);
  pw_gsl_release(held);
  return x;
}

#endif
