/* The known word nearest to a mistyped one. */
#ifndef BASE_NEAREST_H
#define BASE_NEAREST_H

#include <stddef.h>

/* Edit distance (insert, delete, replace, swap of neighbours), letters compared without case. */
size_t pw_edit_distance(const char *a, const char *b);

/* The nearest of known[n] within two edits (one for words under four letters), or NULL. */
const char *pw_nearest(const char *word, const char *const known[], size_t n);

#endif
