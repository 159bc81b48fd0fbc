/* Pictures through a gnuplot pipe. A template of plots/ (compiled in) is run on data blocks and
 * variables; user text only ever reaches gnuplot as a quoted string with enhanced marks off.
 *
 *   pw_plot *p = pw_plot_new("plots/sweating.gp");
 *   pw_plot_text(p, "title", job);               -> title = '...'
 *   pw_plot_number(p, "n", 3);                   -> n = 3
 *   pw_plot_block(p, "D");                       -> $D << EOD
 *   pw_plot_row(p, "sff", "Kitchen", 1.2, 3.4);  -> "Kitchen" 1.2 3.4
 *   pw_plot_end_block(p);
 *   pw_plot_write(p, "F.svg", 900, 560, &err);   -> F.svg, whole, at the end of the run
 *   pw_plot_free(p);
 * A template must not set a terminal or an output; "set term" and the palette of plots/palette.gp
 * come before it, and the picture is read from gnuplot's standard output, checked at its end and put
 * by out/safe_file.h.
 */
#ifndef OUT_PLOT_H
#define OUT_PLOT_H

#include "panewright/status.h"

typedef struct pw_plot pw_plot;

pw_plot *pw_plot_new(const char *template_path);
void pw_plot_free(pw_plot *plot);
void pw_plot_text(pw_plot *plot, const char *name, const char *text);
void pw_plot_number(pw_plot *plot, const char *name, double v);
void pw_plot_block(pw_plot *plot, const char *name);
/* kinds: one letter a cell, 's' const char *, 'f' double (NAN is written as NaN). */
void pw_plot_row(pw_plot *plot, const char *kinds, ...);
void pw_plot_blank(pw_plot *plot); /* an empty line inside a block */
void pw_plot_end_block(pw_plot *plot);

/* The kind of picture follows the ending: .svg, .png or .pdf; width and height in px at 96 dpi.
 * May be called more than once.
 * Status  PW_OK; PW_E_LACK no gnuplot; PW_E_DATA an unknown ending; PW_E_CREATE; PW_E_IO gnuplot
 *         refused (its first line is in err), took too long or drew no whole picture. */
pw_status pw_plot_write(const pw_plot *plot, const char *path, int width, int height,
                        pw_err *err);

/* Makes a folder for pictures when it is missing, as pw_safe_folder. Status PW_OK; PW_E_CREATE. */
pw_status pw_plot_folder(const char *dir, pw_err *err);

/* Writes dir/name.svg and dir/name.png. Status as pw_plot_write. */
pw_status pw_plot_write_both(const pw_plot *plot, const char *dir, const char *name, int width,
                             int height, pw_err *err);

/* The picture as SVG text in memory, as gnuplot makes it; *svg is to be freed. Status as above. */
pw_status pw_plot_svg(const pw_plot *plot, int width, int height, char **svg, pw_err *err);

#endif
