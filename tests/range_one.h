/* One draw of a range alone, as its plan runs many. */
#ifndef TESTS_RANGE_ONE_H
#define TESTS_RANGE_ONE_H

#include "study/range_impl.h"

/* Heating and cooling by month of every set: y[set * 24 + month], cooling from 12 on. */
static inline pw_status range_year(const range_case *rc, void *room, const double u[],
                                   double y[], pw_err *err)
{
  return range_years_plan(rc, 1, 1).many(rc, room, 1, u, &y, err);
}

#endif
