/* A row of a table compiled in, told with its source: the end of an --explain. */
#ifndef OUT_REF_ROW_H
#define OUT_REF_ROW_H

#include <stdio.h>

/* "key: value (low to high) unit; source (how known)". */
void pw_ref_row_say(FILE *f, const char *key, double value, double low, double high,
                    const char *unit, const char *source, const char *how_known);

#endif
