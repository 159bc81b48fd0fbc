/* What the windows of a column cost, installed, over all openings or over some of them. */
#ifndef STUDY_COMPARE_PRICE_H
#define STUDY_COMPARE_PRICE_H

#include "study/compare.h"

/* Which openings a sum is over: those that are replaced and meet the rest. */
typedef struct pw_price_scope {
  int phase;                 /* only that phase; 0 any */
  int conditioned;           /* 1: only rooms inside the energy of the house, as programs ask */
  const unsigned char *only; /* [n_opening], 1: counts; NULL: all */
} pw_price_scope;

/* Given     job, its windows as rated; package (the column); scope (NULL: all replaced)
 * Returned  *price   by the package that each opening gets (opening_package.h): openings and area of one
 *                    package are summed in the order of the job, then the packages in theirs, so that
 *                    the prices of phases add up to the whole but for the last digits
 *           (price.h says what else is in it; what is of the whole job is in every scope)
 * Status    PW_OK; PW_E_DOMAIN a price below 0 or not finite; PW_E_DATA, PW_E_SHAPE as price.h
 */
pw_status pw_compare_price(const pw_job *job, const pw_compare_rated *rated, size_t package,
                           const pw_price_scope *scope, pw_price *price, pw_err *err);

/* Whether an opening is inside a scope. */
int pw_price_covers(const pw_job *job, size_t opening, const pw_price_scope *scope);

#endif
