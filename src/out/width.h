/* Columns that a text takes on a terminal: neither bytes nor characters. Wide letters (CJK) take two,
 * combining marks none. From libunistring (Unicode's East Asian width, UAX 11), whatever the locale. */
#ifndef OUT_WIDTH_H
#define OUT_WIDTH_H

#include <stddef.h>

/* Of the first n bytes of UTF-8 text. */
size_t pw_width(const char *text, size_t n);

#endif
