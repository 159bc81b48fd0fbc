/* Text of the code page windows-1252, in which older spreadsheets save CSV. */
#ifndef BASE_WINDOWS1252_H
#define BASE_WINDOWS1252_H

#include <stddef.h>

/* Given     text[size]
 * Returned  the same text in UTF-8, at most 3 * size bytes and a zero behind them (owned by the
 *           caller), *new_size without that zero; NULL: no memory, or *bad is the offset of a byte that
 *           the code page does not have (else size)
 * Source    the code page of the name as registered for MIME; its 27 characters from memory. */
char *pw_windows1252_to_utf8(const char *text, size_t size, size_t *new_size, size_t *bad);

#endif
