/* What to ask next: the facts of a house, neither measured nor on a label, that would narrow the range of a package's
 * saving most. */
#ifndef STUDY_ASK_NEXT_H
#define STUDY_ASK_NEXT_H

#include "study/range.h"

enum { PW_ASK_NEXT = 3 };

typedef struct pw_ask {
  size_t input;         /* of the range */
  const char *question; /* what to find out, in plain words; static */
  const char *where;    /* the item or column it goes into; static */
  double narrows;       /* share of the range's width that falls away once it is known, 0..1 */
} pw_ask;

/* The facts of one package's saving, most first, a night set-back that nobody told before all. Returns how many, PW_ASK_NEXT at most.
 *
 * Notes   1) Only what can be asked, read off or measured and is not, and takes a hundredth of the width or
 *            more.
 *         2) A fact known leaves on average 1 - S of the variance, S its first-order index (Sobol 1993; Saltelli
 *            2010), so that the range is about sqrt(1 - S) as wide; the fact itself moves the middle, too.
 *         3) Shares are of the draws before any bill has weighed them.
 */
size_t pw_ask_next(const pw_range *range, size_t package, pw_ask ask[PW_ASK_NEXT]);

#endif
