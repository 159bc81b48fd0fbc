#include "job/bills_of_job.h"

#include <math.h>
#include <stdio.h>
#include <unistd.h>

#include "base/date.h"
#include "job/daily_file.h"
#include "job/usage_feed.h"
#include "panewright/rates.h"

static const char bills_name[] = "bills.csv", weather_name[] = "bills_weather.csv";

static int path_of(const char *dir, const char *name, char path[4096])
{
  int n = snprintf(path, 4096, "%s/%s", dir, name);
  return n > 0 && n < 4096 && access(path, F_OK) == 0;
}

static void no_weather(const pw_bills *b, pw_notes *notes)
{
  int first = 0, last = 0;
  char from[11], to[11];
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    for (size_t i = 0; i < b->fuel[f].n; i++) {
      const pw_bill_row *r = &b->fuel[f].row[i];
      if (r->from != PW_BILL_NO_DAY && (!first || r->from < first)) first = r->from;
      if (!last || r->to > last) last = r->to;
    }
  pw_date_write(pw_date_of_day(first), from);
  pw_date_write(pw_date_of_day(last - 1), to);
  pw_notes_warn(
      notes, bills_name, 0,
      "no %s: the bills are not used; fetch the daily means of the nearest station, %s to %s",
      weather_name, from, to);
}

/* Bills that hold a day of the work or come after it are of other windows. */
static void only_before(pw_bills *b, const char *install_date, pw_notes *notes)
{
  pw_date date = 0;
  size_t out = 0;
  if (pw_date_read(install_date, &date, NULL) != PW_OK || date == 0) return;
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    size_t kept = 0;
    for (size_t i = 0; i < b->fuel[f].n; i++)
      if (b->fuel[f].row[i].to <= pw_date_day(date)) b->fuel[f].row[kept++] = b->fuel[f].row[i];
    out += b->fuel[f].n - kept;
    b->fuel[f].n = kept;
  }
  if (out)
    pw_notes_warn(
        notes, bills_name, 0,
        "%zu bills end after %s, the day of the work: of the new windows, so no draw is "
        "weighed by them (panewright after tells what they say)",
        out, install_date);
}

static pw_status judge(const pw_bills *b, const pw_daily *weather, pw_bills_of_job *bills,
                       pw_err *err)
{
  pw_normal_set normal = {.n = 0};
  pw_status status = PW_OK;
  /* A season not seen is told by the weather's own years, where they are whole. */
  int has = pw_normal_set_of(weather, &normal, NULL) == PW_OK;
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++) {
    if (!b->fuel[f].n) continue;
    status = pw_meter_use_of((pw_fuel)f, b->fuel[f].row, b->fuel[f].n, weather,
                             has ? &normal : NULL, PW_BILL_NO_DAY, &bills->use[f], err);
    if (b->fuel[f].solar) bills->use[f].refused = PW_BILL_REFUSED_SOLAR;
    if (status == PW_OK)
      status =
          pw_range_bills_add(&bills->range, &bills->use[f], b->fuel[f].unit_kwh, weather, err);
  }
  pw_normal_set_free(&normal);
  return status;
}

pw_status pw_bills_of_job_read(const char *dir, const char *install_date,
                               pw_bills_of_job *bills, pw_notes *notes, pw_err *err)
{
  static const pw_feed_options plain = {NAN, NULL, 0};
  char path[4096];
  pw_bills b = {0};
  pw_daily weather = {0};
  *bills = (pw_bills_of_job){.found = 0};
  if (!path_of(dir, bills_name, path)) return PW_OK;
  pw_status status = pw_bills_open(path, &plain, &b, notes, err);
  if (status != PW_OK) return status;
  bills->found = 1;
  only_before(&b, install_date, notes);
  if (path_of(dir, weather_name, path)) {
    status = pw_daily_read(path, (double)NAN, &weather, NULL, NULL, err);
    if (status == PW_OK && weather.typical)
      status =
          pw_fail(err, PW_E_DATA, "weather",
                  "%s: a typical year has no days of the bills; want the weather of their very "
                  "months, by date",
                  weather_name);
    if (status == PW_OK) status = judge(&b, &weather, bills, err);
  } else {
    no_weather(&b, notes);
  }
  pw_bills_free(&b);
  pw_daily_free(&weather);
  if (status != PW_OK) pw_bills_of_job_free(bills);
  return status;
}

void pw_bills_of_job_free(pw_bills_of_job *bills)
{
  for (int f = 0; bills && f < PW_FUEL_COUNT; f++)
    pw_meter_use_free(&bills->use[f]);
  if (bills) pw_range_bills_free(&bills->range);
  if (bills) bills->found = 0;
}
