/* A saving on a paper that is signed or kept: only what the claims allow, with its range, against both baselines. */
#ifndef OUT_SAVING_SAID_H
#define OUT_SAVING_SAID_H

#include "out/sheet.h"

/* Whether a band of money lies above zero, as printed too: what a claim wants. */
int pw_band_above_zero(const pw_band *band, const pw_unit_set *units);

/* Whether a saving of any of the packages may be said at all. */
int pw_saving_any(const pw_sheet *sheet, const size_t package[], size_t n_package);

/* Two rows of a table, a cell a package: against the windows there now, against new ones that just meet the code; as the
 * customer's pages print them. */
void pw_saving_rows(const pw_sheet *sheet, const size_t package[], size_t n_package,
                    pw_html *h);

/* What is said under them; of a payback beyond the windows' life, too. */
void pw_saving_note(const pw_sheet *sheet, const size_t package[], size_t n_package,
                    pw_html *h);

#endif
