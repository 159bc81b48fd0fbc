/* Several dwellings of one job, each a comparison of its own: what they sum to. */
#ifndef STUDY_TOGETHER_H
#define STUDY_TOGETHER_H

#include "study/compare.h"

typedef struct pw_together_set {
  double heating_kwh, cooling_kwh; /* need a year */
  double cost, saving;             /* $ a year */
  double co2_kg, saving_co2_kg;
  double price, incentive; /* $ */
  double payback; /* years, (price - incentive) / saving; INFINITY never; NAN no price */
} pw_together_set;

typedef struct pw_together {
  size_t n_package;
  double n_window; /* that are replaced */
  pw_together_set existing, package[PW_COMPARE_PACKAGES_MAX];
} pw_together;

/* Given     compare[n], n >= 1, of jobs with the same packages
 * Returned  *sum
 * Notes     Each saving is held to its own dwelling's bill. Ranges do not sum and are told by dwelling. */
void pw_together_of(const pw_compare *const compare[], size_t n, pw_together *sum);

#endif
