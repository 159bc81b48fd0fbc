/* Drapes and blinds inside a window by how people use them: published shares that are closed, and what closed ones do to
 * the sun and the heat that come in. */
#ifndef PANEWRIGHT_COVERING_H
#define PANEWRIGHT_COVERING_H

#include "panewright/glazing.h"

typedef enum pw_covering {
  PW_COVERING_BLANK = 0, /* not said: not counted */
  PW_COVERING_NONE,
  PW_COVERING_BLINDS, /* venetian, light slats */
  PW_COVERING_ROLLER, /* shade, white, opaque */
  PW_COVERING_DRAPES, /* light, closed weave */
  PW_COVERING_COUNT
} pw_covering;

enum { PW_COVERING_SUMMER = 0, PW_COVERING_WINTER, PW_COVERING_SEASONS };
enum { PW_COVERING_DAY = 0, PW_COVERING_NIGHT, PW_COVERING_TIMES };

/* What a window's covering does in the mean of all that are used as the survey has it. */
typedef struct pw_covered {
  double pass[PW_COVERING_SEASONS]; /* share of the sun that still comes in, of 1 */
  double closed[PW_COVERING_TIMES]; /* share of the window behind a closed one */
  double resistance;                /* m2 K/W that a closed one adds indoors */
} pw_covered;

/* Given     kind; of_all: 1 where the kind is said of the whole house, so that some windows have none (table); glazing
 *           behind it
 * Returned  *covered; for blank and none: pass 1, nothing closed
 * Notes     The sun factor goes by the glass: one pane, two or more, and of those under an SHGC of 0.40 at the centre what
 *           the handbook's row for low gain glass leaves of the effect (only blinds are printed there; taken for all).
 * Source    table air/shades, from memory */
void pw_covering_of(pw_covering kind, int of_all, const pw_glazing *glazing,
                    pw_covered *covered);

/* "none", "blinds", "roller", "drapes"; "" blank. */
const char *pw_covering_name(pw_covering kind);

#endif
