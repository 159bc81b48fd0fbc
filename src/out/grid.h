/* A table of text cells, printed as aligned columns for a terminal or as CSV. */
#ifndef OUT_GRID_H
#define OUT_GRID_H

#include <stddef.h>
#include <stdio.h>

#include "panewright/status.h"

typedef enum pw_format { PW_TEXT = 0, PW_CSV, PW_JSON } pw_format;

typedef struct pw_grid pw_grid;

/* Columns by header; a header that begins with '<' is set left (the mark is not printed), others
 * right. Returns NULL when out of memory; the cell calls then do nothing. */
pw_grid *pw_grid_new(size_t n_col, const char *const header[]);
void pw_grid_free(pw_grid *grid);

/* Appends the next cell, row by row. */
#if defined(__GNUC__)
__attribute__((format(printf, 2, 3)))
#endif
void
pw_grid_cell(pw_grid *grid, const char *format, ...);
/* A number with that many decimals; "-" when it is not finite. */
void pw_grid_number(pw_grid *grid, double v, int decimals);
/* Whole dollars; "-" when it is not finite. */
void pw_grid_dollars(pw_grid *grid, double v);
/* A payback: "12 years", "never" when it is infinite, "-" when there is none. */
void pw_grid_payback(pw_grid *grid, double years);
/* A rule across the table (text only). */
void pw_grid_rule(pw_grid *grid);

/* Prints all rows. Text columns are as wide as their widest cell (UTF-8 counted by character).
 * CSV quotes where needed, and a cell that a spreadsheet would run as a formula gets a leading
 * apostrophe. PW_E_IO on failure. */
pw_status pw_grid_print(const pw_grid *grid, FILE *f, pw_format format, pw_err *err);

/* One CSV cell, quoted and neutralised as above, without a separator. */
void pw_csv_cell(FILE *f, const char *text);

/* The same into out, which holds 2 strlen(text) + 4 bytes. Returns the length. */
size_t pw_csv_quote(const char *text, char out[]);

#endif
