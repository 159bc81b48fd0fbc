/* Which windows first: what each saves of the year's bill, and what it adds to the price. */
#ifndef STUDY_FIRST_WINDOW_H
#define STUDY_FIRST_WINDOW_H

#include "study/compare.h"

typedef struct pw_first_window {
  size_t opening;
  double saving; /* $ a year, of all windows of that row */
  double price;  /* $; 0 when the job gives none */
} pw_first_window;

/* Given     compare; package
 * Returned  first[n_opening]  the openings that are replaced in rooms that are heated or cooled, in the order of the job;
 *           *n                how many
 * Status    PW_OK; as pw_compare_price
 * Notes     1) saving: what the house saves on heating, shared by the heat that each opening loses less while it heats, and on
 *              cooling, by the heat that comes in less while it cools (year.h), held to the bill given as every saving is: the parts
 *              add up to the saving of the package where the whole and its parts have one sign.
 *           2) price: the price of the job less its price without this row, so that what is paid once (a permit) is in none.
 * Source    own bookkeeping; no standard shares a saving among windows
 */
pw_status pw_first_windows(const pw_compare *compare, size_t package, pw_first_window first[],
                           size_t *n, pw_err *err);

/* Sorts them by saving per dollar, best first; without prices by saving; equals stay in order. */
void pw_first_windows_sort(pw_first_window first[], size_t n);

/* The package whose windows together save most per dollar (its own first[]), 0 without prices. Status as above. */
pw_status pw_first_package(const pw_compare *compare, size_t *package, pw_err *err);

#endif
