/* promise.csv in a job folder: what was said on a day of what new windows will save. The program writes it (`compare
 * --range --keep`, `papers`), `after` holds it against the bills.
 *
 *   date, version, figure, p10, p50, p90
 *
 * version: the state of the job's files (job/version.h). figure: "saving_cost_year of better", with dwellings "... in
 * NAME"; what it counts stands in its name ($ a year, kWh a year, years). A blank p90 is a payback that never comes.
 */
#ifndef JOB_PROMISE_FILE_H
#define JOB_PROMISE_FILE_H

#include <stddef.h>

#include "base/date.h"
#include "job/version.h"
#include "panewright/status.h"
#include "panewright/survey.h"

enum { PW_PROMISE_FIGURE = 160 };

typedef struct pw_promise_row {
  pw_date date;
  char version[PW_VERSION_MAX], figure[PW_PROMISE_FIGURE];
  double p10, p50, p90; /* INFINITY where blank */
} pw_promise_row;

typedef struct pw_promise {
  size_t n;
  pw_promise_row *row; /* owned */
  char *text;          /* the file as it is, size bytes; owned; NULL none */
  size_t size;
} pw_promise;

/* Reads DIR/promise.csv; none is no failure (n 0, text NULL).
 *
 * Status    PW_OK; PW_E_DATA with the place: a column missing, no date, no number, p10 <= p50 <= p90 not held; as
 *           pw_csv_parse. On failure *promise owns nothing.
 */
pw_status pw_promise_read(const char *dir, pw_promise *promise, pw_err *err);
void pw_promise_free(pw_promise *promise); /* NULL and a zeroed struct are fine */

/* The name of a figure; dwelling "" the one house. */
void pw_promise_figure(const char *what, const char *package, const char *dwelling,
                       char figure[PW_PROMISE_FIGURE]);

/* What a meter of a fuel is promised to count less, kWh a year. */
void pw_promise_fuel_figure(pw_fuel fuel, char what[32]);

/* The last row of that figure said on or before a day (by_day 0: any), or NULL. */
const pw_promise_row *pw_promise_find(const pw_promise *promise, const char *figure,
                                      pw_date by_day);

#endif
