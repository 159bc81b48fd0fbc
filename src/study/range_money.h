/* What a draw costs: needs, bills, savings of every set. Internal. */
#ifndef STUDY_RANGE_MONEY_H
#define STUDY_RANGE_MONEY_H

#include "study/range_impl.h"

/* Needs and bills of every set at a draw. */
typedef struct range_lived {
  pw_needs needs[RANGE_SETS];
  pw_bill bill[RANGE_SETS];
} range_lived;

/* From a draw's years year[set * RANGE_MONTHS + month] in the comparison's weather.
 *
 * Given     years: how many years' weather is averaged; INFINITY: a normal year
 * Status    PW_OK; as pw_bill_of */
pw_status range_live_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                        double years, range_lived *lived, pw_err *err);

/* What each package saves of the existing bill in that year: saving[package], $ a year; as F_SAVING of
 * range_figures_at. */
pw_status range_savings_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                           double saving[], pw_err *err);

#endif
