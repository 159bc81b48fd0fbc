/* Plain text broken at blanks. */
#ifndef OUT_WRAP_H
#define OUT_WRAP_H

#include <stdio.h>

/* Prints lead and text, broken so that no line passes width columns; further lines begin with as
 * many blanks as lead has columns. Ends with a newline. */
void pw_wrap(FILE *f, const char *lead, const char *text, int width);

#endif
