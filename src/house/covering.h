/* Drapes and blinds inside a window by how people use them: published shares that are closed, and what closed ones do to
 * the sun and the heat that come in. */
#ifndef HOUSE_COVERING_H
#define HOUSE_COVERING_H

#include "panewright/kinds.h"
#include "panewright/year.h"

/* Given     kind; of_all: 1 where the kind is said of the whole house, so that some windows have none (table); glazing
 *           behind it
 * Returned  *covered; for blank and none: pass 1, nothing closed; usual: the mean of the three kinds by their shares
 * Notes     The sun factor goes by the glass: one pane, two or more, and of those under an SHGC of 0.40 at the centre what
 *           the handbook's row for low gain glass leaves of the effect (only blinds are printed there; taken for all),
 *           from 0.70 to there straight (ours: a step would make two like glasses differ).
 * Source    table air/shades, from memory */
void pw_covering_of(pw_covering kind, int of_all, const pw_glazing *glazing,
                    pw_covered *covered);

/* "none", "blinds", "roller", "drapes", "usual"; "" blank. */
const char *pw_covering_name(pw_covering kind);

#endif
