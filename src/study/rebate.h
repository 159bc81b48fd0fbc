/* What a program pays for each package of a comparison, and the worth of the package with it. */
#ifndef STUDY_REBATE_H
#define STUDY_REBATE_H

#include "money/program.h"
#include "study/compare.h"

/* Which openings of a package a program counts: replaced, in a room that is heated or cooled, and each by
 * its own label. */
typedef struct pw_rebate_count {
  pw_program_result
      result; /* of those counted; when none is, of the first that fails, else lacks */
  unsigned char counted[PW_WINDOWS_MAX]; /* by opening */
  int n, of;                             /* windows counted, and all, by quantity */
  int conditioned;                       /* 1: the program looks at conditioned rooms alone */
} pw_rebate_count;

/* Given     compare, package; program and zone as in program.h; date placed in service, 0 unknown
 * Returned  *count. Where labels meet several groups of criteria, the group that most windows meet is
 *           counted and the text says so; with one label for all it is that label's result. Where no
 *           window can be claimed it fails.
 * Status    as pw_program_judge; PW_E_DATA two rows of labels.csv fit alike
 */
pw_status pw_rebate_count_of(const pw_compare *compare, size_t package,
                             const pw_program *program, const char *zone, pw_date date,
                             pw_rebate_count *count, pw_err *err);

/* $ installed of the windows counted (price.h; what is of the whole job counts whole). Status as price.h */
pw_status pw_rebate_cost(const pw_compare *compare, size_t package,
                         const pw_rebate_count *count, double *cost, pw_err *err);

typedef struct pw_rebate {
  pw_program_result result;
  pw_amount amount;
} pw_rebate;

/* Judges the label values of a package and works out the amount for the job's openings.
 *
 * Given     compare, package; program and zone as in program.h; the job's install date
 * Returned  *rebate; rows in it are borrowed from program
 * Status    PW_OK, also when the label fails; PW_E_DOMAIN the program ended before the install date or
 *           begins after it (said in the message), unknown zone, a date that is none
 * Notes     The cost is the installed price; the job does not part it into product and labour, so a
 *           share of the product cost pays nothing and its line says so.
 */
pw_status pw_rebate_of(const pw_compare *compare, size_t package, const pw_program *program,
                       const char *zone, pw_rebate *rebate, pw_err *err);

/* Takes the rebate off the price of a set: its payback, worth and cash anew. */
pw_status pw_rebate_apply(pw_billed_set *set, const pw_rebate *rebate, pw_err *err);

#endif
