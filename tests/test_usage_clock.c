/* job/usage_clock: standard and summer time by the rules that a feed carries (ESPI DstRuleType, from memory: seconds 0-11, hour 12-16, day of the
 * week 17-19, day of the month 20-24, operator 25-27, month 28-31); the dates are those of the calendar. */
#include "support.h"

#include <math.h>

#include "base/date.h"
#include "job/usage_feed_impl.h"

static uint32_t rule(unsigned month, unsigned how, unsigned date, unsigned week, unsigned hour,
                     unsigned seconds)
{
  return month << 28 | how << 25 | date << 20 | week << 17 | hour << 12 | seconds;
}

static double at(int date, double hour) { return 86400.0 * pw_date_day(date) + 3600.0 * hour; }

/* A second before the change and at it, in local standard time; what is asked is universal time. */
static void changes(const feed_clock *c, int date, double hour, double before, double after)
{
  double utc = at(date, hour) - c->tz_s;
  pw_assert_near(feed_local(c, utc - 1.0) - (utc - 1.0 + c->tz_s), before, 0.0, "before",
                 "calendar");
  pw_assert_near(feed_local(c, utc) - (utc + c->tz_s), after, 0.0, "from then on", "calendar");
}

enum { SUNDAY = 7 };

/* Second Sunday of March and first of November at two, seven hours west: 14 March and 7 November 2021, 13 and 6 in 2022, 10 and 3 in the leap year
 * 2024. The end is told in summer time, so it comes at one of standard time. */
static void by_the_nth_sunday(void **state)
{
  (void)state;
  const feed_clock c = {.tz_s = -7 * 3600.0,
                        .dst_s = 3600.0,
                        .start_rule = rule(3, 3, 0, SUNDAY, 2, 0),
                        .end_rule = rule(11, 2, 0, SUNDAY, 2, 0)};
  static const int start[] = {20210314, 20220313, 20240310},
                   end[] = {20211107, 20221106, 20241103};
  for (int k = 0; k < 3; k++) {
    changes(&c, start[k], 2.0, 0.0, 3600.0);
    changes(&c, end[k], 1.0, 3600.0, 0.0);
  }
  /* the same by "Sunday on or after the 8th", and the 1st */
  const feed_clock on = {.tz_s = -7 * 3600.0,
                         .dst_s = 3600.0,
                         .start_rule = rule(3, 1, 8, SUNDAY, 2, 0),
                         .end_rule = rule(11, 1, 1, SUNDAY, 2, 0)};
  for (int k = 0; k < 3; k++) {
    changes(&on, start[k], 2.0, 0.0, 3600.0);
    changes(&on, end[k], 1.0, 3600.0, 0.0);
  }
}

/* The last Sunday of a month, of 28, 29, 30 and 31 days, and of December; half past one and ten seconds. */
static void by_the_last_of_a_month(void **state)
{
  (void)state;
  static const struct {
    unsigned start_month, end_month;
    int start, end;
  } row[] = {{3, 10, 20210328, 20211031},
             {2, 9, 20210228, 20210926},
             {2, 6, 20240225, 20240630},
             {4, 12, 20210425, 20211226},
             {1, 11, 20210131, 20211128}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const feed_clock c = {.tz_s = 3600.0,
                          .dst_s = 1800.0,
                          .start_rule = rule(row[i].start_month, 7, 0, SUNDAY, 1, 1810),
                          .end_rule = rule(row[i].end_month, 7, 0, SUNDAY, 3, 0)};
    changes(&c, row[i].start, 1.0 + 1810.0 / 3600.0, 0.0, 1800.0);
    changes(&c, row[i].end, 2.5, 1800.0, 0.0);
  }
}

/* Days of the month, and a summer over the end of the year. */
static void by_a_date_and_in_the_south(void **state)
{
  (void)state;
  const feed_clock c = {.tz_s = 0.0,
                        .dst_s = 3600.0,
                        .start_rule = rule(10, 0, 5, 0, 2, 0),
                        .end_rule = rule(4, 0, 20, 0, 3, 0)};
  changes(&c, 20211005, 2.0, 0.0, 3600.0);
  changes(&c, 20210420, 2.0, 3600.0, 0.0);
  changes(&c, 20220101, 0.0, 3600.0, 3600.0);
  changes(&c, 20210701, 0.0, 0.0, 0.0);
}

/* A rule that says nothing leaves standard time: no month, no hour, a day that the month has not, a fifth Sunday of a month with four. */
static void what_says_nothing_changes_nothing(void **state)
{
  (void)state;
  const uint32_t good = rule(11, 2, 0, SUNDAY, 2, 0);
  const uint32_t bad[] = {0,
                          rule(0, 3, 0, SUNDAY, 2, 0),
                          rule(13, 3, 0, SUNDAY, 2, 0),
                          rule(3, 3, 0, SUNDAY, 24, 0),
                          rule(2, 0, 29, 0, 2, 0),
                          rule(2, 6, 0, SUNDAY, 2, 0)};
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
    for (int swap = 0; swap < 2; swap++) {
      const feed_clock c = {.tz_s = -3600.0,
                            .dst_s = 3600.0,
                            .start_rule = swap ? good : bad[i],
                            .end_rule = swap ? bad[i] : good};
      pw_assert_near(feed_local(&c, at(20210701, 12.0)), at(20210701, 11.0), 0.0, "July",
                     "standard");
    }
  const feed_clock none = {
      .tz_s = 1800.0, .start_rule = rule(3, 3, 0, SUNDAY, 2, 0), .end_rule = good};
  pw_assert_near(feed_local(&none, at(20210701, 12.0)), at(20210701, 12.5), 0.0, "July",
                 "summer of no shift");
  const feed_clock fifth = {.dst_s = 3600.0,
                            .start_rule =
                                rule(3, 6, 0, SUNDAY, 2, 0), /* none in 2021, 31 in 2024 */
                            .end_rule = good};
  pw_assert_near(feed_local(&fifth, at(20210701, 0.0)), at(20210701, 0.0), 0.0, "2021",
                 "no fifth");
  changes(&fifth, 20240331, 2.0, 0.0, 3600.0);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(by_the_nth_sunday),
      cmocka_unit_test(by_the_last_of_a_month),
      cmocka_unit_test(by_a_date_and_in_the_south),
      cmocka_unit_test(what_says_nothing_changes_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
