/* Draws of an uncertain house weighted by how well each predicts the bills.
 *
 *   log w_k = -1/2 r_k' S^-1 r_k,   S = diag(sigma_i^2) + sigma_d^2 ((1 - c) I + c 11')
 *
 * r_ki is what bill i has above draw k's prediction, a day. sigma_i is the noise of a bill, sigma_d what a
 * good but wrong model leaves, c the part of it that all bills share.
 */
#ifndef METER_CONDITION_H
#define METER_CONDITION_H

#include <stddef.h>

#include "panewright/status.h"

typedef struct pw_condition_meter {
  size_t n;            /* bills */
  const double *sigma; /* sigma[n], above 0; borrowed */
  double discrepancy;  /* sigma_d, >= 0 */
  double shared;       /* c, 0..1 */
  int free_base; /* 1: use that the model does not know is a constant a day of 0 or more, the one that fits
                           each draw best; it costs one degree of freedom */
} pw_condition_meter;

/* Adds a meter to the logarithms of the weights.
 *
 * Given     meter; residual[n_draw * meter->n]
 * Returned  log_weight[n_draw] added to; chi2[n_draw] (may be NULL) added to
 * Status    PW_OK; PW_E_SHAPE no draw, no bill; PW_E_DOMAIN a sigma, c or residual; on failure nothing is
 *           changed
 * Notes     S is a diagonal and one common term: its inverse is closed (Sherman and Morrison). ln det S is the
 *           same for all draws and left out.
 * Source    reference/meter/METHODS.md section 7; cases reference/meter/condition_cases.csv.
 */
pw_status pw_condition_add(const pw_condition_meter *meter, const double residual[],
                           size_t n_draw, double log_weight[], double chi2[], pw_err *err);

/* Why weights are not to be used. */
typedef enum pw_condition_refusal {
  PW_CONDITION_ACCEPTED = 0,
  PW_CONDITION_FEW,  /* fewer than 50 effective draws, or than 1 % of them */
  PW_CONDITION_TAIL, /* tail index above 0.7: a few draws carry all */
  PW_CONDITION_FAR   /* the best draw is further off than chance: chi2 above its 99.9 % point */
} pw_condition_refusal;

typedef struct pw_condition {
  double effective; /* 1 / sum w^2 of n_draw draws */
  double tail;      /* index k of the largest weights; NAN where they are too few */
  double best_chi2, chi2_limit;
  pw_condition_refusal refused;
} pw_condition;

/* Weights, the largest 1, and whether they may be used.
 *
 * Given     log_weight[n], chi2[n]; freedom of chi2 (bills less one a meter with a free base); least_share of the draws
 *           that has to be effective: 0 where they were drawn near the bills; sort[n] room
 * Returned  weight[n]; *condition
 * Status    PW_OK; PW_E_SHAPE n is 0
 * Source    limits of METHODS section 7; tail index: generalised Pareto fit to the largest weights, Zhang
 *           and Stephens, as smoothed importance sampling uses it (from memory).
 */
pw_status pw_condition_weights(const double log_weight[], const double chi2[], size_t n,
                               double freedom, double least_share, double sort[],
                               double weight[], pw_condition *condition, pw_err *err);

#endif
