/* Texts in another tongue, compiled in from src/out/po (form: GNU gettext's message catalogue). A text is found by its
 * English wording, which stands where it is written:
 *
 *   pw_html_put(h, "<p>Measure again.</p>")        the format itself
 *   pw_say(h, word)                                a word or sentence that is an argument
 *   PW_TEXT("width, bottom")                       a text in a table, said later by pw_say
 *   pw_tongue_put(tongue, text, size, "%d of %d")  a sentence into a buffer
 *
 * `sh .ci/tongue.sh build` lists what has no words yet; the case tongue_whole fails on it, tests/test_tongue.c on words that lost a
 * place or their markup.
 */
#ifndef OUT_TONGUE_H
#define OUT_TONGUE_H

#include <stddef.h>

typedef struct pw_tongue {
  const char *code;           /* BCP 47: "es" */
  const char *name;           /* as its speakers say it */
  const unsigned char *words; /* the catalogue */
  size_t size;
} pw_tongue;

/* Marks a text for the catalogue; it is what it was. */
#define PW_TEXT(text) text

/* *tongue of "en" (NULL) or "es"; 0 when there is no such. */
int pw_tongue_find(const char *code, const pw_tongue **tongue);

/* "en or es": what may be asked for. */
extern const char *const pw_tongue_list;

/* The text in that tongue; itself when the tongue is NULL or has no words for it. */
#if defined(__GNUC__)
__attribute__((format_arg(2)))
#endif
const char *
pw_tongue_say(const pw_tongue *tongue, const char *text);

/* Of a text that counts: one or many for n, by the rule n != 1 that both tongues share. */
#if defined(__GNUC__)
__attribute__((format_arg(2), format_arg(3)))
#endif
const char *
pw_tongue_count(const pw_tongue *tongue, const char *one, const char *many, long n);

/* snprintf by the format in that tongue; returns what snprintf does. */
#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
int
pw_tongue_put(const pw_tongue *tongue, char *text, size_t size, const char *format, ...);

#endif
