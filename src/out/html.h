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

/* Known: %s, %d, %u, %zu, %c, and %f %g %e with width and precision; %%. Others are not for
 * documents and print nothing. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pw_html_put(FILE *f, const char *format, ...);

/* Text alone, escaped. Text from a job belongs inside <bdi>, or in a cell of its own. */
void pw_html_text(FILE *f, const char *text);

/* A name out of the job in a <bdi> of its own, marked as "long" when it has to be broken inside a
 * word. */
void pw_html_name(FILE *f, const char *text);

/* Begins the box of a table that may be wider than the page: it scrolls by itself, so it takes the focus
 * of the keyboard and has a name (WCAG 2.1, 2.1.1; from memory). Ends with </div>. */
void pw_html_wide(FILE *f, const char *name);

/* The character at s (not at its end): its length in bytes, and whether it may stand in a document. 1
 * and 0 for a byte that is no UTF-8. */
size_t pw_html_step(const char *s, int *keep);

/* Begins and ends a document: title, style sheets of plots/ (compiled in, in that order, ends with
 * NULL). Nothing is loaded from anywhere. */
void pw_html_begin(FILE *f, const char *title, const char *const style[]);
void pw_html_end(FILE *f);

#endif
