/* Rows of a compiled-in table with the usual columns (id, value, unit, tolerance, source, how_known,
 * checked), handed to a sink with what we compute for them. */
#ifndef CHECK_TABLE_ROWS_H
#define CHECK_TABLE_ROWS_H

#include "base/table.h"
#include "check/check.h"

/* Text and number of a cell by column name; "" and NAN when there is none. */
const char *row_text(const pw_table *t, size_t i, const char *column);
double row_number(const pw_table *t, size_t i, const char *column);

/* Whether the table itself marks the row as agreeing. */
int row_agrees(const pw_table *t, size_t i);

/* Whether a cell begins with those letters. */
int row_begins(const pw_table *t, size_t i, const char *column, const char *start);

/* PW_OK and *t, or PW_E_DATA when the table is not compiled in. */
pw_status row_table(const char *name, const pw_table **t, pw_err *err);

/* Hands row i to the sink: id, value, unit, tolerance, source and how_known from the table. */
void row_give(const pw_check_sink *sink, const pw_table *t, size_t i, const char *quantity,
              double ours);

/* As row_give, with another tolerance (the group says why). */
void row_give_within(const pw_check_sink *sink, const pw_table *t, size_t i,
                     const char *quantity, double ours, double tolerance);

/* A count that must reach a least number, as a row of its own. */
void row_tally(const pw_check_sink *sink, const char *id, const char *quantity, double count,
               double least, double most, const char *source);

#endif
