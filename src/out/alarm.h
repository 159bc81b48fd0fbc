/* Safety limits that are not met, as loud as paper can be. */
#ifndef OUT_ALARM_H
#define OUT_ALARM_H

#include "out/html.h"

#include "study/compare.h"

/* A box for each opening whose escape opening fails, with old and new clear opening and the exception
 * that may hold; one for other failed limits. Nothing when nothing fails. The style is in
 * plots/paper.css. */
void pw_alarm_html(const pw_compare *compare, pw_html *h);

/* Whether a caution stands in such a box, so that a table beside it need not say it again. */
int pw_alarm_holds(const pw_compare *compare, const pw_caution *caution);

#endif
