/* Text that comes from outside: decoded once, cleaned once, here. Files are never rewritten; what is
 * cleaned is the copy in memory. */
#ifndef BASE_TEXT_H
#define BASE_TEXT_H

#include <stddef.h>

/* Bytes of the UTF-8 character at s (ended by '\0') and its code point; 0 when the bytes are none:
 * shortest forms only, no surrogates, up to U+10FFFF. Source: RFC 3629 (from memory). */
size_t pw_text_decode(const char *s, unsigned long *point);

/* 1 for what has no place in a word that is printed: C0 and C1 controls, DEL, the byte-order mark,
 * line and paragraph separators, non-characters, and the marks of Unicode's bidirectional algorithm. */
int pw_text_unwanted(unsigned long point);

/* Cleans in place: tab and line ends become blanks, other unwanted characters go, a byte that is no UTF-8
 * becomes '?'. Never longer than before. */
void pw_text_clean(char *text);

/* A name as names are compared: ASCII letters in lower case and digits, other alphabets' letters as they
 * are, all else one '_', none at the ends. Cut between two characters to size - 1 bytes. */
void pw_text_plain(const char *text, char *plain, size_t size);

/* Cuts text to at most size - 1 bytes between two characters. */
void pw_text_cut(char *text, size_t size);

/* Copies it, cut so. */
void pw_text_keep(const char *text, char *to, size_t size);

#endif
