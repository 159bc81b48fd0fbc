/* Typed cells: one table row per column (or item) says where its value goes, which range it has and
 * what a blank means. The readers of job/ are such tables. */
#ifndef JOB_FIELD_H
#define JOB_FIELD_H

#include <stddef.h>

#include "job/csv.h"
#include "job/notes.h"
#include "job/number.h"
#include "panewright/status.h"

typedef enum job_kind {
  JOB_TEXT = 0, /* char[size] */
  JOB_LENGTH,   /* double, m; read by measure.h */
  JOB_NUMBER,   /* double, by unit[] */
  JOB_GIVEN,    /* pw_given, by unit[] */
  JOB_INTEGER,  /* int */
  JOB_FLAG,     /* int: yes 1, no 0; "unknown" -1 when low is -1 */
  JOB_WORD,     /* int: meaning of a word of word[] */
  JOB_CHOICE,   /* char[size]: the first word of that meaning */
  JOB_BEARING,  /* double, degrees from north: compass letters or degrees */
  JOB_DATE      /* char[size]: yyyy-mm-dd */
} job_kind;

typedef struct job_word {
  const char *word; /* compared without case; blanks and '-' count as '_' */
  int meaning;
} job_word;

typedef struct job_field {
  const char *name;
  job_kind kind;
  size_t offset, size; /* place in the record; size of a text */
  double low, high;    /* as kept (SI) */
  const char *blank; /* read in place of a blank cell; NULL: the cell must be filled; "": leaves
                          the record as it is */
  const char *why;   /* said of the default: where it comes from; NULL: no note is made */
  const job_word *word;
  size_t n_word;
  const pw_unit_word *unit;
  size_t n_unit;
} job_field;

/* Where a cell stands, for messages. */
typedef struct job_place {
  const char *file; /* name */
  int line, column;
  const char *where; /* tag of the row, "" none */
} job_place;

/* Reads one cell into record. A blank takes the field's default, which is noted.
 * Status  PW_OK; PW_E_DATA with file, line, column, what was found and what is accepted. */
pw_status job_field_read(const job_field *field, const char *text, const job_place *place,
                         void *record, pw_notes *notes, pw_err *err);

enum { JOB_WORDS_MAX = 128 }; /* of one list; further ones are not known */

/* The meaning of a word, or low - 1 ... -99 when it is none; near gets the nearest known word or
 * NULL. */
int job_word_find(const job_word word[], size_t n, const char *text, const char **near);

/* A row of a CSV file by its table of fields, in the table's order; index[] from pw_csv_bind. */
pw_status job_row_read(const job_field field[], size_t n, const pw_csv *csv, size_t row,
                       const int index[], const char *where, void *record, pw_notes *notes,
                       pw_err *err);

/* A row as its reader sees it, to refuse one of its cells: "file:line:column: name: 'found'; want
 * wanted". */
typedef struct job_row_at {
  const pw_csv *csv;
  size_t row;
  const int *index;
  const job_field *field;
} job_row_at;
pw_status job_row_refuse(const job_row_at *at, size_t column, const char *found,
                         const char *wanted, pw_err *err);

/* Binds the header to a table of fields; index[n]. */
pw_status job_fields_bind(const job_field field[], size_t n, const pw_csv *csv, int index[],
                          pw_notes *notes, pw_err *err);

/* Rows of a table of fields: a text, or a word of a list, kept in a member of the record's type. */
#define JOB_TEXT_AT(type, column, member, default_, said)                                      \
  {                                                                                            \
    .name = column, .kind = JOB_TEXT, .offset = offsetof(type, member),                        \
    .size = sizeof((type *)0)->member, .blank = default_, .why = said                          \
  }
#define JOB_WORD_AT(type, column, member, words, count, default_, said)                        \
  {                                                                                            \
    .name = column, .kind = JOB_WORD, .offset = offsetof(type, member), .word = words,         \
    .n_word = count, .blank = default_, .why = said                                            \
  }

/* The array length of a static table. */
#define JOB_COUNT(table) (sizeof(table) / sizeof(table)[0])

#endif
