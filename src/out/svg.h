/* gnuplot's SVG made fit to stand inside an HTML document that is also turned into a PDF. */
#ifndef OUT_SVG_H
#define OUT_SVG_H

#include "out/html.h"

/* In the <svg> of a drawing of our own: the letters of the papers, which a converter does not pass on into it. */
#define PW_SVG_LETTERS "style=\"font-family:Helvetica,Arial,sans-serif\""

/* Writes the picture as one <svg> element.
 *
 * Given     svg   as pw_plot_svg gives it
 *           id    leads every id in it, so that several pictures can stand in one document
 *           alt   what the picture shows, for those who do not see it
 * Notes     Prolog, title and fixed size are taken off; it scales to the width it is given. The word
 *           currentColor, which converters to PDF do not all know, is replaced by the colour meant.
 */
void pw_svg_inline(pw_html *h, const char *svg, const char *id, const char *alt);

#endif
