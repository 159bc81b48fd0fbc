/* Bills that the others do not bear, and a house that changed. */
#ifndef METER_ODD_BILLS_H
#define METER_ODD_BILLS_H

#include "meter/change_point.h"

typedef struct odd_one {
  size_t i;    /* the bill */
  double t;    /* (y_i - predicted) / s_(i); 0 when there is none */
  double said; /* predicted, a day */
  double mean; /* of the others */
} odd_one;

/* The bill that the others bear least: left out, the others fitted by a choice of their own, its
 * distance over their s. leave_out[n] 1 for bills that are out already; as before on return. */
pw_status odd_bill(const pw_change_data *data, unsigned char leave_out[], int may_cool,
                   odd_one *odd, pw_err *err);

/* The break that splits the bills best, both sides fitted apart by the model of the whole.
 * Returned  *k the first bill of the later side; *f ((SSE - SSE1 - SSE2)/p) / ((SSE1 + SSE2)/(n - 2 p)),
 *           0 when there are too few; *shift root of the squares it takes away a bill, over the mean */
pw_status odd_break(const pw_change_data *data, const unsigned char leave_out[],
                    pw_change_model model, size_t *k, double *f, double *shift, pw_err *err);

#endif
