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

/* usage_clock.c: local seconds since 1970 of an instant. */
double feed_local(const feed_clock *clock, double utc);

#endif
