/* Host tool that runs when the program is built: its parts. A fault in a table ends the build. */
#ifndef EMBED_H
#define EMBED_H

#include <stddef.h>

enum { CELLS_MAX = 64 };

/* Prints "embed: PATH:LINE: ..." and ends with 1; line 0 is left out. */
_Noreturn void embed_fail(const char *path, size_t line, const char *form, ...);

/* malloc that ends the build instead of failing. */
void *embed_alloc(size_t count, size_t size);

/* A whole file, ended by '\0'; *size without it. */
char *embed_read(const char *path, size_t *size);

/* A CSV file: lines that begin with '#' and empty ones left out, the header is row 0. cell[row * n_col
 * + col] points into text; rows shorter than the header are filled with "". */
typedef struct embed_csv {
  const char *path;
  char *text;
  char **cell;
  size_t *line; /* of each row, from 1 */
  size_t n_row, n_col;
} embed_csv;

embed_csv embed_csv_read(const char *path);

/* What a column holds; the words of schema.csv. */
typedef enum embed_kind {
  EMBED_NUMBER, /* a double; "number?" takes blanks (and its words) as NAN */
  EMBED_WORD, /* text; "word?" may be blank; no cell of several numbers ("72/24/4": split it) */
  EMBED_TEXT, /* the same, but numbers may stand together: dates, ranges of years, lists of zones */
  EMBED_KEY, /* text, each once in the table: its row gets an enumerator */
  EMBED_ENUM, /* one of its words (a | between them if they have blanks inside); held as the index */
  EMBED_TABLE, /* the name of another table below reference/, "table?" may be blank */
  EMBED_ROW, /* a key of the table named in words; held as that row's index, -1 for a blank "row?" */
  EMBED_CHARS, /* text inside the row, of at most so many bytes (its word): no pointer; "chars?" */
  EMBED_FIXED, /* a number held as a short, so many to one (its word): 100 keeps two decimals */
  EMBED_NOTE   /* for a reader of the file: not compiled in */
} embed_kind;

typedef struct embed_column {
  const char *tables, *name; /* a table's name, or one with a '*' at its end; a header */
  embed_kind kind;
  int may_be_blank;
  const char *words[24];
  size_t n_word;
  const char *path; /* of the schema that says so, and where */
  size_t line;
  int used;
} embed_column;

typedef struct embed_schema {
  embed_column *column;
  size_t n_column;
} embed_schema;

/* All columns that the schema.csv files among path[] describe. */
embed_schema embed_schema_read(char *const path[], size_t n_path);

/* The column of that table, or NULL. */
embed_column *embed_schema_find(const embed_schema *schema, const char *table,
                                const char *column);

/* Ends the build when a row of a schema describes nothing. */
void embed_schema_all_used(const embed_schema *schema);

/* "glazing/gas" of "reference/glazing/gas.csv". */
char *embed_table_name(const char *path);

/* Prints s as a C string. */
void embed_put_string(const char *s, size_t n);

/* Writes the tables as C: declarations (header) or definitions (source) of typed rows. */
void embed_tables_header(char *const path[], size_t n_path);
void embed_tables_source(char *const path[], size_t n_path);

#endif
