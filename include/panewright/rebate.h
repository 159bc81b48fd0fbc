/* What a program pays for each package of a comparison, and the worth of the package with it. */
#ifndef PANEWRIGHT_REBATE_H
#define PANEWRIGHT_REBATE_H

#include "panewright/compare.h"
#include "panewright/program.h"

typedef struct pw_rebate {
  pw_program_result result;
  pw_amount amount;
} pw_rebate;

/* Which openings a program counts for a package: replaced, in a room that is heated or cooled, and,
 * where an opening has a package or glass of its own, with a label that meets the program by itself.
 * only[n_opening] gets 1 or 0. PW_OK or as pw_program_judge. */
pw_status pw_rebate_openings(const pw_compare *compare, size_t package,
                             const pw_program *program, const char *zone, unsigned char only[],
                             pw_err *err);

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

/* Takes the rebate off the price of a package: its payback, worth and cash anew. */
pw_status pw_rebate_apply(pw_compare *compare, size_t package, const pw_rebate *rebate,
                          pw_err *err);

#endif
