/* One CSV file in memory: cells as text with the line they came from (libcsv underneath).
 *
 * Taken: UTF-8 with or without a byte-order mark, else windows-1252; a first line "sep=,"; LF, CRLF or CR, quoted cells with commas, doubled
 * quotes and line breaks in them, blank lines and note lines that begin with '#' (left out), rows
 * shorter than the header (padded with blanks). Blanks around a cell are dropped.
 */
#ifndef JOB_CSV_H
#define JOB_CSV_H

#include <stddef.h>

#include "job/notes.h"
#include "panewright/status.h"

enum {
  PW_CSV_CELL_MAX = 4096,  /* bytes in a cell */
  PW_CSV_LINE_MAX = 65536, /* bytes in a line */

  PW_CSV_COLUMNS_MAX = 128,
  PW_CSV_ROWS_MAX = 10000
};

typedef struct pw_csv {
  char name[32]; /* last part of the path, for messages */
  size_t n_row;  /* without the header */
  size_t n_col;  /* of the header */
  char **cell;   /* owned; header first: cell[(row + 1) * n_col + col] */
  int *line;     /* owned; line[row + 1] in the file, line[0] of the header */
  size_t n_cell; /* held in cell */
  size_t n_line; /* held in line */
  int is_order;  /* set by a reader: an unknown column that would change an order is refused */
  int is_windows1252; /* the file was no UTF-8 and was read as that code page */
} pw_csv;

/* Reads a file whole.
 *
 * Status    PW_OK; PW_E_MISSING not there, not readable, or empty (nothing but blanks and notes);
 *           PW_E_DATA not such a file (says where and why); PW_E_IO; PW_E_NOMEM. On failure *csv is
 *           zeroed.
 */
pw_status pw_csv_read(const char *path, pw_csv *csv, pw_err *err);

/* The same from memory; name is what messages call it. */
pw_status pw_csv_parse(const char *name, const char *text, size_t size, pw_csv *csv,
                       pw_err *err);

/* The text by that name where there is one, else the file of that path: what a reader that takes both calls. */
pw_status pw_csv_open(const char *name, const char *text, size_t size, pw_csv *csv,
                      pw_err *err);

/* Whether the text is of a code page with a byte a letter: some bytes are no UTF-8, and no letter of
 * several bytes is. */
int pw_csv_is_bytewise(const char *text, size_t size);

/* The same with room for so many rows, for tables of our own. */
pw_status pw_csv_parse_rows(const char *name, const char *text, size_t size, size_t rows,
                            pw_csv *csv, pw_err *err);
void pw_csv_free(pw_csv *csv); /* NULL and a zeroed struct are fine */

/* Why libcsv stopped: PW_E_NOMEM, or PW_E_DATA. */
struct csv_parser;
pw_status pw_csv_fault(struct csv_parser *parser);

/* A cell; "" when col is below 0. row counts from 0 below the header. */
const char *pw_csv_at(const pw_csv *csv, size_t row, int col);

/* The column of that name (letters of either case; blanks and '-' count as '_'), or -1. */
int pw_csv_column_of(const pw_csv *csv, const char *name);

/* A column that a reader knows. */
typedef struct pw_csv_column {
  const char *name;
  int required;
} pw_csv_column;

/* Finds each known column in the header (letters of either case; blanks and '-' count as '_').
 *
 * Returned  index[n]  column of known[i], or -1 when it is not there
 * Status    PW_OK; PW_E_DATA a required column is missing, a column stands twice, or an unknown
 *           column is within a slip of a known one that is not there (that one is offered) or is
 *           refused by job/unknown.h. Other unknown columns are left out and noted.
 */
pw_status pw_csv_bind(const pw_csv *csv, const pw_csv_column known[], size_t n, int index[],
                      pw_notes *notes, pw_err *err);

#endif
