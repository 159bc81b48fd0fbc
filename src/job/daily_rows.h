/* Days being gathered from a file of any layout. */
#ifndef JOB_DAILY_ROWS_H
#define JOB_DAILY_ROWS_H

#include "job/climate_rows.h"
#include "meter/normal_use.h"

enum { DAILY_FIRST = -25567, DAILY_DAYS = 76700 }; /* 1900 to 2109 */

/* What is known of a day, C; NAN not known. */
typedef struct daily_day {
  float mean, high, low;
  float sum; /* of hours */
  int n, per_day;
} daily_day;

typedef struct daily_store {
  daily_day *day;     /* DAILY_DAYS, from DAILY_FIRST; owned */
  int typical, dated; /* what was read so far */
  double zone_h;
  const char *kind;
} daily_store;

/* Temperatures that a place on Earth has, C. */
int daily_is_temperature(double t);

/* The day's place, or PW_E_DATA. */
pw_status daily_at(daily_store *s, const char *name, int line, int year, int month, int day,
                   daily_day **at, pw_err *err);

/* daily_layout.c: layouts told apart by what they hold. Returns 1 when the text is of that layout. */
typedef struct daily_layout {
  const char *kind;
  int (*fits)(climate_text start);
  pw_status (*read)(climate_text t, daily_store *s, pw_err *err);
} daily_layout;
extern const daily_layout daily_layouts[4];

/* daily_table.c: a CSV with a header. */
pw_status daily_table_read(const char *name, const char *text, size_t size, daily_store *s,
                           pw_err *err);

#endif
