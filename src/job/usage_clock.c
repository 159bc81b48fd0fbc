/* The meter's local time: standard time and the rules of its summer time, packed in 32 bits (ESPI,
 * DstRuleType; from memory): seconds 0-11, hour 12-16, day of the week 17-19 (1 Monday), day of the
 * month 20-24, operator 25-27 (0 that day, 1 the day of the week on or after it, 2 to 6 its first to fifth,
 * 7 its last), month 28-31. */
#include <math.h>

#include "base/date.h"
#include "job/usage_feed_impl.h"

enum { DAY_S = 86400 };

/* 1 Monday .. 7 Sunday; 1970-01-01 was a Thursday. */
static int day_of_week(int day) { return ((day + 3) % 7 + 7) % 7 + 1; }

static int month_length(int year, int month)
{
  int next = month == 12 ? (year + 1) * 10000 + 101 : year * 10000 + (month + 1) * 100 + 1;
  return pw_date_day(next) - pw_date_day(year * 10000 + month * 100 + 1);
}

/* Local wall seconds since 1970 at which a rule acts in a year; NAN when it says nothing. */
static double rule_at(uint32_t rule, int year)
{
  int seconds = (int)(rule & 0xFFFu), hour = (int)(rule >> 12 & 0x1Fu);
  int week = (int)(rule >> 17 & 7u), date = (int)(rule >> 20 & 0x1Fu);
  int how = (int)(rule >> 25 & 7u), month = (int)(rule >> 28 & 0xFu);
  if (month < 1 || month > 12 || hour > 23) return (double)NAN;
  int first = pw_date_day(year * 10000 + month * 100 + 1), length = month_length(year, month),
      day;
  if (how == 0 || week == 0) {
    day = date >= 1 && date <= length ? date : 0;
  } else if (how == 1) {
    int from = date >= 1 && date <= length ? date : 1;
    day = from + (week - day_of_week(first + from - 1) + 7) % 7;
  } else if (how == 7) {
    day = length - (day_of_week(first + length - 1) - week + 7) % 7;
  } else {
    day = 1 + (week - day_of_week(first) + 7) % 7 + 7 * (how - 2);
  }
  if (day < 1 || day > length) return (double)NAN;
  return (double)(first + day - 1) * DAY_S + 3600.0 * hour + seconds;
}

double feed_local(const feed_clock *c, double utc)
{
  double standard = utc + c->tz_s;
  if (c->dst_s == 0.0 || !c->start_rule || !c->end_rule) return standard;
  int year = pw_date_of_day((int)floor(standard / DAY_S)) / 10000;
  /* The start is told in standard time, the end in summer time. */
  double start = rule_at(c->start_rule, year), end = rule_at(c->end_rule, year) - c->dst_s;
  if (isnan(start) || isnan(end)) return standard;
  int summer =
      start < end ? standard >= start && standard < end : standard >= start || standard < end;
  return summer ? standard + c->dst_s : standard;
}
