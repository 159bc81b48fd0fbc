/* A new window as it is seen from outside: its outline and lites in proportion, what moves and how, its glazing bars. Black
 * on white. X moves, O is fixed; an arrow is the way a lite slides; dashed lines meet at the hinge side, which bears two
 * black blocks. */
#ifndef OUT_UNIT_DRAWING_H
#define OUT_UNIT_DRAWING_H

#include "out/html.h"
#include "panewright/fit.h"

/* One <svg> element; alt is what it says to those who do not see it. */
void pw_unit_drawing(const pw_opening *opening, const pw_fit *fit, const char *alt, pw_html *h);

#endif
