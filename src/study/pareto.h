/* The points that no other point beats: the exact Pareto set of many points in a few dimensions. */
#ifndef STUDY_PARETO_H
#define STUDY_PARETO_H

#include <stddef.h>

#include "panewright/status.h"

enum { PW_PARETO_MAX = 8 };

/* Finds the points that no other one dominates. A point dominates another when it is nowhere worse and
 * somewhere better; less is better in every dimension. Points alike in all dimensions stay together.
 *
 * Given     v[n * n_dim] row by row, finite; n_dim 1..PW_PARETO_MAX
 * Returned  front[n]: indices of the set in rising order; *n_front
 * Status    PW_OK; PW_E_SHAPE n_dim; PW_E_DOMAIN a value is not finite; PW_E_NOMEM
 * Notes     Exact. Divide and conquer over the first dimension, then over the others one by one:
 *           about n (log n)^(n_dim - 2) steps at worst, a sort and a sweep in two dimensions.
 * Source    Kung, Luccio, Preparata 1975, J. ACM 22, 469; Bentley 1980, CACM 23, 214 (from memory).
 */
pw_status pw_pareto(const double v[], size_t n, size_t n_dim, size_t front[], size_t *n_front,
                    pw_err *err);

#endif
