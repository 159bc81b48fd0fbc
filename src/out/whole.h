/* Whether a finished document came out whole, told by its beginning and its end. */
#ifndef OUT_WHOLE_H
#define OUT_WHOLE_H

#include <stddef.h>

typedef enum pw_whole_kind {
  PW_WHOLE_SVG,
  PW_WHOLE_PNG,
  PW_WHOLE_PDF,
  PW_WHOLE_HTML
} pw_whole_kind;

/* Given     text[size]
 * Returned  1 when it begins and ends as its kind does: SVG 1.1 and HTML by the closing tag of their
 *           root, PNG (ISO/IEC 15948) by its signature and the chunk IEND, PDF (ISO 32000-1, 7.5) by
 *           %PDF- and %%EOF; white space may follow, but after PNG. Clauses from memory.
 */
int pw_whole(pw_whole_kind kind, const char *text, size_t size);

#endif
