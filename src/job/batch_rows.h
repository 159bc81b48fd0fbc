/* Rows of a batch: one window a line. The header binds the columns once; then each line of the input
 * is read by itself, by any of several hands at once. A row is one line: a quoted cell may hold commas
 * but no line break, so that an input may be cut at any line end. */
#ifndef JOB_BATCH_ROWS_H
#define JOB_BATCH_ROWS_H

#include "job/notes.h"
#include "study/batch.h"

enum { PW_BATCH_LINE_MAX = 16384 }; /* bytes in a line */

typedef enum pw_batch_energy {
  PW_BATCH_DETAILED = 0,
  PW_BATCH_MONTHLY, /* for screening, as hourly */
  PW_BATCH_HOURLY,
  PW_BATCH_NO_ENERGY
} pw_batch_energy;

/* What all hands share: columns, frame lines, places made ready so far. Safe from several threads. */
typedef struct pw_batch_reader pw_batch_reader;

/* Given     header  the first line, NUL ended
 * Status    PW_OK; PW_E_DATA a column is missing or mistyped; PW_E_NOMEM
 */
pw_status pw_batch_reader_new(const char *header, pw_batch_energy energy,
                              pw_batch_reader **reader, pw_notes *notes, pw_err *err);
void pw_batch_reader_free(pw_batch_reader *reader);
/* How many house years a hand lives side by side (year.h); before its first hand. */
void pw_batch_reader_set_lanes(pw_batch_reader *reader, int lanes);

/* What one thread reads with: its row and the build-ups it has met. */
typedef struct pw_batch_hand pw_batch_hand;
pw_batch_hand *pw_batch_hand_new(pw_batch_reader *reader); /* NULL: no memory */
void pw_batch_hand_free(pw_batch_hand *hand);
/* Where it lives by the detailed method; NULL by the others. Borrowed. */
pw_alone_desk *pw_batch_desk(const pw_batch_hand *hand);

/* Held, a hand throws nothing away: glazings and places of items read so far stay. At most a hundred rows. */
void pw_batch_hold(pw_batch_hand *hand, int held);

/* One line. The item points into hand until the next call; its glazings and place as long as the hand is held.
 *
 * Given     line[size], without its end; number, its line in the input
 * Returned  *item; *id is the row's own name ("" as far as it could not be read); *away_km from the
 *           place that was named to the built-in one
 * Status    PW_OK; PW_E_DATA with err->line and err->column; PW_E_NOMEM
 */
pw_status pw_batch_read(pw_batch_hand *hand, const char *line, size_t size, long number,
                        pw_batch_item *item, const char **id, double *away_km, pw_err *err);

/* Whether the row read last was no UTF-8 text and was read as windows-1252. */
int pw_batch_was_windows1252(const pw_batch_hand *hand);

/* 1 for a line that holds no row: blank, or a note led by "# ". */
int pw_batch_is_blank(const char *line, size_t size);

#endif
