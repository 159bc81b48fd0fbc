/* Writes HTML so that no text of a job can become markup.
 *
 *   pw_html_put(f, "<td>%s</td><td class=\"n\">%.2f</td>\n", opening->room, u);
 *
 * The format alone is markup; every %s is escaped, and cleaned of what has no place in a document:
 * control characters, marks that turn the direction of the text around it, bytes that are no UTF-8.
 */
#ifndef OUT_HTML_H
#define OUT_HTML_H

#include <stdio.h>

#include "out/tongue.h"

/* A document that is being written, and the tongue it speaks. */
typedef struct pw_html {
  FILE *f;
  const pw_tongue *tongue; /* NULL: English, as the formats stand */
} pw_html;

/* The format is taken in the document's tongue (out/tongue.h), so a sentence is one format with its markup in it; words
 * that are arguments go through pw_say. Known: %s, %d, %u, %zu, %c, and %f %g %e with width and precision; %%. Others are not for
 * documents and print nothing. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pw_html_put(pw_html *h, const char *format, ...);

/* A text that begins with this is a figure of pw_figure_say: kind, key and print, with PW_HTML_PART between. */
#define PW_HTML_MARK '\x01'
#define PW_HTML_PART "\x1f"
enum { PW_HTML_FIGURE = 160 };

/* A word or a sentence in the document's tongue, for a %s. */
const char *pw_say(const pw_html *h, const char *text);

/* Text alone, escaped. Text from a job belongs inside <bdi>, or in a cell of its own. */
void pw_html_text(pw_html *h, const char *text);

/* A name out of the job in a <bdi> of its own, marked as "long" when it has to be broken inside a
 * word. */
void pw_html_name(pw_html *h, const char *text);

/* Begins the box of a table that may be wider than the page: it scrolls by itself, so it takes the focus
 * of the keyboard and has a name (WCAG 2.1, 2.1.1; from memory). Ends with </div>. */
void pw_html_wide(pw_html *h, const char *name);

/* The character at s (not at its end): its length in bytes, and whether it may stand in a document. 1
 * and 0 for a byte that is no UTF-8. */
size_t pw_html_step(const char *s, int *keep);

/* Begins and ends a document: title, style sheets of plots/ (compiled in, in that order, ends with
 * NULL), the words at the foot of each printed page (ours alone, PW_TEXT, without quotes). Nothing is loaded from anywhere. */
void pw_html_begin(pw_html *h, const char *title, const char *const style[], const char *foot);

/* Under every paper that holds computed figures. */
extern const char *const pw_html_foot;
void pw_html_end(pw_html *h);

#endif
