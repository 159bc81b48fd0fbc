/* What a set of draws says: quantiles, chances, and which input drives the result. */
#ifndef STUDY_SENSITIVITY_H
#define STUDY_SENSITIVITY_H

#include <stddef.h>

#include "panewright/status.h"

/* 10, 50 and 90 % of a figure, and how its draws went. */
typedef struct pw_band {
  double p10, p50, p90;
  double mean, sd;
  size_t n, n_infinite; /* draws in all; of them not finite (a payback that never comes) */
} pw_band;

/* Quantiles of value[0], value[stride], ... by linear interpolation between order statistics;
 * +INFINITY sorts last, so a p90 may be INFINITY. weight[] (NULL: equal) must be >= 0.
 *
 * Given     work[n] for sorting (2 n doubles when weights are given)
 * Status    PW_OK; PW_E_SHAPE n 0; PW_E_DOMAIN a NAN, a negative weight or weights that sum to 0
 * Source    type 7 of Hyndman and Fan 1996 (as GSL) for equal weights; with weights the sorted
 *           value k stands at (W_k - w_k) / (W - w_last) of the running sum, which is the same when
 *           the weights are equal.
 */
pw_status pw_band_of(const double value[], size_t stride, size_t n, const double weight[],
                     double work[], pw_band *band, pw_err *err);

/* n_out evenly spread quantiles of the same values, from the lowest to the highest: as many as there are of equal
 * weight are the values themselves in their order. work, Status, Source as above; PW_E_SHAPE n_out below 2. */
pw_status pw_quantiles_of(const double value[], size_t stride, size_t n, const double weight[],
                          double work[], double out[], size_t n_out, pw_err *err);

/* Share of draws with value above limit, by weight (NULL: equal); NAN where the weights sum to 0. */
double pw_chance_above(const double value[], size_t stride, size_t n, const double weight[],
                       double limit);

typedef struct pw_sensitivity {
  double first_order, total; /* shares of the variance; about 0..1 */
} pw_sensitivity;

/* Indices of one input from the three runs of the pick-freeze design.
 *
 * Given     a[n], b[n]  results on the two independent samples (stride apart)
 *           ab[n]       results on a with this input's column from b
 * Returned  *s; both 0 when the variance is 0
 * Status    PW_OK; PW_E_SHAPE n below 2; PW_E_DOMAIN a value not finite
 * Source    first order: Saltelli et al., Comput. Phys. Commun. 181 (2010) 259, table 2 (b); total:
 *           Jansen, Comput. Phys. Commun. 117 (1999) 35, there (f). From memory.
 */
pw_status pw_sensitivity_of(const double a[], const double b[], const double ab[],
                            size_t stride, size_t n, pw_sensitivity *s, pw_err *err);

#endif
