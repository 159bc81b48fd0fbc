/* The years of a draw by a response surface that is fitted to a few of them. Internal. */
#ifndef STUDY_RANGE_REDUCED_H
#define STUDY_RANGE_REDUCED_H

#include "study/range_impl.h"
#include "study/range_money.h"
#include "study/sobol.h"
#include "study/surface.h"

typedef struct range_reduced {
  const range_case *rc;
  range_forms *forms; /* the surface tells what they leave */
  surface surface;
  double *daily; /* of range_bills_live */
} range_reduced;

/* Fits the surface to the first n_run draws, whose years are year[draw * n_set * RANGE_MONTHS + month of a set].
 * Status PW_OK; PW_E_NOMEM; as surface_fit. */
pw_status range_reduced_fit(range_reduced *r, const pw_sobol *sobol, const double year[],
                            size_t n_run, pw_err *err);

/* What the surface misses of each package's saving, $ a year, root mean square over its runs. */
void range_reduced_errors(const range_reduced *r, pw_range *range);

/* Years year[set * RANGE_MONTHS + month] at the values of a draw. */
void range_reduced_year(const range_reduced *r, const double v[IN_COUNT], double year[]);

/* Savings at v with one input after the other as `other` has it: saving[k * n_package + package] for input k of the
 * house. A quadratic moved along one axis costs a row of it, not all. Status as range_savings_at. */
pw_status range_reduced_fan(const range_reduced *r, const double v[IN_COUNT],
                            const double other[IN_COUNT], double saving[], pw_err *err);

/* Sensitivities of each package's saving, ranked. */
pw_status range_drivers(const range_reduced *r, const pw_range_options *options,
                        pw_range *range, pw_err *err);

#endif
