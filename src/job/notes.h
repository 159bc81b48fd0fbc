/* What a reader took for granted or left out: every default used, every warning. Commands print
 * the list, so that nothing assumed stays hidden. */
#ifndef JOB_NOTES_H
#define JOB_NOTES_H

#include <stddef.h>

typedef enum pw_note_kind {
  PW_NOTE_DEFAULT = 0, /* a blank optional cell took a stated value */
  PW_NOTE_WARNING,     /* a row left out, a value that looks odd */
  PW_NOTE_UNKNOWN /* a column or item that no reader knows: said first, and on standard error */
} pw_note_kind;

typedef struct pw_note {
  pw_note_kind kind;
  char file[32];   /* name inside the job folder */
  int line;        /* first line it holds for; 0 the whole file */
  int count;       /* rows it holds for */
  char what[64];   /* column or item; "" for a warning */
  char value[200]; /* the default taken; for a warning the whole text */
  char where[160]; /* tags of the rows, "A1, A2 ..."; "" when the file has no rows of a tag */
} pw_note;

typedef struct pw_notes {
  pw_note *note; /* owned; pw_notes_free */
  size_t n, room;
  int lost; /* 1: out of memory, some are missing */
} pw_notes;

/* A default taken for a blank cell; rows with the same column and value are gathered in one. */
void pw_notes_default(pw_notes *notes, const char *file, int line, const char *what,
                      const char *where, const char *value);
#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
void
pw_notes_warn(pw_notes *notes, const char *file, int line, const char *format, ...);

#if defined(__GNUC__)
__attribute__((format(printf, 4, 5)))
#endif
void
pw_notes_unknown(pw_notes *notes, const char *file, int line, const char *format, ...);

/* One printable line of note i, such as
 * "openings.csv: fin_width blank, taken as 0 (no fins) in 3 rows: A1, A2, A3". */
void pw_notes_line(const pw_note *note, char text[], size_t size);

void pw_notes_free(pw_notes *notes); /* NULL and a zeroed struct are fine */

#endif
