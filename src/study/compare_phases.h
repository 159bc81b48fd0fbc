/* A job done in phases: what each costs and saves, and all together.
 *
 * After phase k the windows of phases up to k are the package's and the others the old ones; a phase
 * saves what the house costs after the one before less what it costs after it. So prices and savings
 * of the phases add up to those of the whole job.
 */
#ifndef STUDY_COMPARE_PHASES_H
#define STUDY_COMPARE_PHASES_H

#include "study/compare.h"

typedef struct pw_phase_step {
  double price;                    /* $ installed: what this phase adds to those before */
  double heating_kwh, cooling_kwh; /* need of the house after it, a year */
  double cost_year;                /* $ of its heating and cooling after it */
  pw_saving saving;                /* of this phase, held to the bill as the whole is */
  double payback;                  /* years, price / saving; INFINITY never; NAN no price */
} pw_phase_step;

typedef struct pw_compare_phases {
  size_t n_phase;            /* those that have windows; 1 means that there is one only */
  int number[PW_PHASES_MAX]; /* as the job counts them */
  int n_window[PW_PHASES_MAX];
  double area[PW_PHASES_MAX]; /* m2 of opening */
  int paid_once; /* 1: a phase priced by itself costs more than it adds, as of a permit paid once */
  pw_phase_step step[PW_COMPARE_PACKAGES_MAX][PW_PHASES_MAX];
} pw_compare_phases;

/* Given     compare with its weather, options and a workspace of the year (NULL: one for this call)
 * Returned  *phases; with one phase only no year is lived
 * Status    PW_OK; as the year and the bill
 */
pw_status pw_compare_phases_of(const pw_compare *compare, const pw_weather *weather,
                               const pw_compare_options *options, pw_year_workspace *workspace,
                               pw_compare_phases *phases, pw_err *err);

#endif
