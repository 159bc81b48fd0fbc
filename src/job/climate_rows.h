/* Between the layouts and the year: rows as read, in slots of the file's own step and zone. */
#ifndef JOB_CLIMATE_ROWS_H
#define JOB_CLIMATE_ROWS_H

#include "job/climate_file.h"

enum climate_field {
  F_GHI,
  F_DNI,
  F_DHI,
  F_TEMPERATURE,
  F_DEW,
  F_WIND,
  F_NEEDED, /* those above are needed in every hour */
  F_HUMIDITY = F_NEEDED,
  F_PRESSURE,
  F_CLOUD,
  F_CLOUD_TOTAL,
  F_CEILING,
  F_LONGWAVE,
  F_ALBEDO,
  F_CLOUD_TYPE,
  F_COUNT
};

/* Cells that carry a row's time, after the fields. */
enum climate_stamp {
  S_DATE = F_COUNT,
  S_TIME,
  S_YEAR,
  S_MONTH,
  S_DAY,
  S_HOUR,
  S_MINUTE,
  S_END
};

enum { CLIMATE_CELLS_MAX = 256, CLIMATE_PER_HOUR_MAX = 12 };

/* A cursor over the text; nothing is copied. */
typedef struct climate_text {
  const char *name; /* for messages */
  const char *at, *end;
  int line; /* of the line read last, from 1 */
} climate_text;

typedef struct climate_cell {
  const char *at;
  int size;
} climate_cell;

/* A column that a layout knows. Values are scaled to SI, then held against low..high. */
typedef struct climate_column {
  const char *name;
  int kind; /* climate_field or climate_stamp */
  double scale, low, high;
} climate_column;

/* Where a file has them. */
typedef struct climate_header {
  const climate_column *column; /* of the layout, n_column of them */
  int n_column;
  int place[S_END];   /* cell of a field or stamp; -1 not there */
  int which[S_END];   /* index in column[] */
  int n_named, n_all; /* fewest and most cells that a row may have */
} climate_header;

typedef struct climate_rows {
  int per_hour;        /* rows an hour, 1..CLIMATE_PER_HOUR_MAX */
  double first_minute; /* of an hour's first row */
  float *value;        /* value[field * slots + slot], NAN missing; owned */
  unsigned char *seen; /* by slot; owned */
  size_t slots;        /* PW_HOURS * per_hour */
  int year[12];        /* of each month; 0 not met yet */
  int shift_h;         /* file's zone to local standard time */
  double radiation_h;  /* n = 1: the radiation of hour i belongs to i + this */
} climate_rows;

/* climate_text.c */

/* The next line's cells, quotes taken off. Returns their count (cells beyond max are counted, not
 * kept), -1 at the end of the text. */
int climate_cells(climate_text *t, climate_cell cell[], int max);
/* A plain decimal number, blanks around allowed; *v NAN for an empty cell. 0 when it is none. */
int climate_number(climate_cell cell, double *v);
int climate_is(climate_cell cell, const char *word);
void climate_copy(climate_cell cell, char *to, size_t size);

/* climate_layout.c: the layout's own header lines, up to the first data row. */
typedef struct climate_layout {
  const char *name;
  int (*fits)(climate_text start); /* by content */
  pw_status (*open)(climate_text *t, climate_header *header, climate_rows *rows, pw_weather *w,
                    pw_err *err);
  /* Year, month 1..12, day, minute of the day that the row begins (or is the instant of). */
  pw_status (*stamp)(const climate_text *t, const climate_header *header,
                     const climate_cell cell[], int when[4], pw_err *err);
  int ends_at_blank; /* a blank line ends the data */
} climate_layout;

extern const climate_layout climate_layouts[3]; /* in the order of pw_climate_layout */

/* climate_repair.c: fills gaps, averages to hours, turns to local time. */
pw_status climate_finish(climate_rows *rows, const char *name, pw_weather *w,
                         pw_climate_report *report, pw_err *err);

#endif
