/* What would pass where an escape opening fails: other windows in the same opening, each with its clear
 * opening. The program points out; the building official decides. */
#ifndef WINDOW_ESCAPE_H
#define WINDOW_ESCAPE_H

#include <stddef.h>

#include "panewright/fit.h"
#include "panewright/message.h"
#include "panewright/survey.h"

enum { PW_REMEDIES_MAX = 6 };

/* What a clear opening still lacks, as bits. */
enum { PW_LACKS_AREA = 1, PW_LACKS_WIDTH = 2, PW_LACKS_HEIGHT = 4, PW_LACKS_BOTTOM = 8 };

typedef struct pw_remedy {
  pw_message_number what;           /* PW_SAY_REMEDY_CASEMENT */
  double order_width, order_height; /* m */
  pw_clear clear;
  unsigned lacks; /* 0: would pass as computed */
} pw_remedy;

/* Given     opening and its fit
 * Returned  remedy[n]: fins and lip cut; a casement of the same size; both; a slider with the wider vent;
 *           another split. Left out: what the opening has already, or what cannot be cut.
 * Notes     1) A sash of share v of the width slides past the rest, so that it clears min(v, 1 - v): a
 *              slider's vent wider than half clears less.
 *           2) An unknown sill height leaves the bottom unjudged (clear.bottom below 0).
 * Source    allowances and limits of reference/trade/safety.csv EG1..EG5, SAFETY.md; note 1: geometry.
 */
size_t pw_escape_remedies(const pw_opening *opening, const pw_fit *fit,
                          pw_remedy remedy[PW_REMEDIES_MAX]);

/* One line: what, size, clear opening, and "would pass" or what it lacks. Why it matters, for a person, is
 * PW_SAY_ESCAPE_WORDS, said before any figure. */
pw_message pw_remedy_says(const pw_remedy *remedy);

#endif
