/* What stands in a usage feed, before it is made bills. */
#ifndef JOB_USAGE_FEED_IMPL_H
#define JOB_USAGE_FEED_IMPL_H

#include <stdint.h>

#include "job/usage_feed.h"

enum { FEED_LINKS = 12, FEED_HREF = 200, FEED_METERS_MAX = 64 };

typedef enum feed_kind {
  FEED_NOTHING = 0,
  FEED_USAGE_POINT,
  FEED_METER,
  FEED_TYPE,
  FEED_BLOCK,
  FEED_CLOCK,
  FEED_SUMMARY
} feed_kind;

/* An entry of the feed with its links. */
typedef struct feed_entry {
  feed_kind kind;
  int line;
  char self[FEED_HREF], up[FEED_HREF];
  char related[FEED_LINKS][FEED_HREF];
  int n_related;
  int service; /* ServiceCategory/kind of a usage point, -1 not said */
  /* of a reading type or a summary; -1 and FEED_NO_POWER not said */
  int uom, power, commodity, flow, behaviour, currency;
  /* of a summary */
  double start, duration, value;
} feed_entry;
enum { FEED_NO_POWER = 1000 };

typedef struct feed_reading {
  double start;       /* s since 1970 UTC */
  double value, cost; /* cost NAN not said */
  int32_t duration;   /* s */
  int32_t block;      /* index of its entry */
  int32_t line;
  int16_t quality; /* -1 not said */
} feed_reading;

/* The clock of the meter. */
typedef struct feed_clock {
  int said; /* LocalTimeParameters stood in the feed */
  double tz_s, dst_s;
  uint32_t start_rule, end_rule; /* packed; 0 none */
} feed_clock;

typedef struct feed {
  const char *name;
  feed_entry *entry; /* owned */
  size_t n_entry, entry_room;
  feed_reading *reading; /* owned */
  size_t n_reading, reading_room;
  feed_clock clock;
} feed;

/* usage_feed_xml.c */
pw_status feed_read(const char *name, const char *text, size_t size, feed *f, pw_err *err);
void feed_free(feed *f);

/* One meter reading: a series of readings that belong together. */
typedef struct feed_series {
  const feed_entry *type, *point;
  size_t entry; /* of its MeterReading, or of the first block tied to it */
  pw_fuel fuel;
  int unit;     /* row */
  double scale; /* of a value as it stands */
  int reverse;
  size_t n, first; /* in the sorted readings */
  double total;
} feed_series;

typedef struct feed_desk {
  feed f;
  const pw_feed_options *o;
  pw_notes *notes;
  pw_err *err;
  size_t *meter_of; /* series of each entry; SIZE_MAX none */
  feed_series one[FEED_METERS_MAX];
  size_t n_series;
  int by_order; /* something was tied by order */
  pw_bills bills;
} feed_desk;

enum { FEED_DAY_S = 86400 };

/* usage_months.c: the clock of a series where the feed does not say; its readings as bills. */
void feed_find_clock(feed_desk *d, const feed_series *s);
pw_status feed_add_period(feed_desk *d, const feed_series *s, const feed_reading *r);
pw_status feed_add_readings(feed_desk *d, const feed_series *s);

/* usage_clock.c: local seconds since 1970 of an instant. */
double feed_local(const feed_clock *clock, double utc);

#endif
