/* A glass build-up as one who makes glass reads it, part by part from outdoors, coatings by surface. */
#ifndef OUT_GLASS_SAID_H
#define OUT_GLASS_SAID_H

#include <stddef.h>

#include "out/tongue.h"
#include "panewright/glazing.h"

/* Part k in that tongue (NULL: English): even a pane, "3 mm clear; surface 3: two-silver low-e", odd the gap behind it, "gap
 * 12.7 mm (1/2 in), argon 90 %". Returns 0 past the last part. A kind or coating without a word of ours stands as the job
 * calls it. */
int pw_glass_part(const pw_tongue *tongue, const pw_buildup *glass, size_t k, char text[],
                  size_t size);

/* All parts, parted by " | ". */
void pw_glass_said(const pw_tongue *tongue, const pw_buildup *glass, char text[], size_t size);

#endif
