#include "job/after_of_job.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/daily_file.h"
#include "job/input_text.h"
#include "job/job_open.h"
#include "job/survey.h"
#include "job/usage_feed.h"
#include "panewright/rates.h"

typedef struct desk {
  const char *dir;
  const pw_after_asked *asked;
  pw_open_job open;
  pw_bills bills;
  pw_daily weather;
  pw_normal_set normal;
  pw_after_house *house;
} desk;

static pw_status work_of(desk *d, pw_err *err)
{
  pw_after_house *h = d->house;
  const pw_house_facts *facts = &d->open.job.house;
  pw_date date = 0;
  h->work = d->asked->work;
  if (h->work.from != PW_BILL_NO_DAY) return PW_OK;
  pw_status status = pw_date_read(facts->install_date, &date, err);
  if (status == PW_OK && date == 0)
    status = pw_fail(err, PW_E_DATA, "work",
                     "%.100s: when was the work? want install_date in job.csv, or --work DAY",
                     d->dir);
  h->work.from = h->work.to = pw_date_day(date);
  return status;
}

/* What was built in: said, or the only one. */
static pw_status package_of(desk *d, pw_err *err)
{
  const pw_job *job = &d->open.job;
  const char *said = d->asked->package ? d->asked->package : job->house.installed;
  size_t p = 0;
  if (!said[0] && job->n_package > 1) return PW_OK;
  pw_status status = said[0] ? pw_job_package_named(job, said, &p, err) : PW_OK;
  if (status == PW_OK && job->n_package)
    snprintf(d->house->package, sizeof d->house->package, "%s", job->package[p].name);
  return status;
}

static pw_status read_weather(desk *d, pw_err *err)
{
  char path[PW_INPUT_PATH];
  const char *from = d->asked->weather;
  pw_status status = pw_input_path(d->dir, "bills_weather.csv", path, err);
  if (status != PW_OK || (!from && access(path, F_OK) != 0)) return status;
  status = pw_daily_read(from ? from : path, (double)NAN, &d->weather, NULL, NULL, err);
  if (status == PW_OK && d->weather.typical)
    status = pw_fail(err, PW_E_DATA, "weather",
                     "%.150s: a typical year has no days of the bills; want the weather of "
                     "their very months, by date",
                     from ? from : path);
  d->house->has_weather = status == PW_OK;
  return status;
}

static pw_status read_normal(desk *d, pw_err *err)
{
  pw_daily days = {0};
  pw_after_house *h = d->house;
  const char *kind = "";
  pw_status status;
  if (d->asked->normal) {
    status = pw_daily_read(d->asked->normal, (double)NAN, &days, NULL, &kind, err);
    snprintf(h->normal, sizeof h->normal, "%.80s, %.80s", d->asked->normal, kind);
  } else {
    status = pw_daily_of_weather(d->open.weather, &days, err);
    snprintf(h->normal, sizeof h->normal, "that of the comparison: %.150s",
             d->open.weather->source);
  }
  if (status == PW_OK) status = pw_normal_set_of(&days, &d->normal, err);
  pw_daily_free(&days);
  return status;
}

static pw_status after_bills(const desk *d, const pw_bills *bills, pw_fuel fuel, int moved,
                             pw_after *after, pw_err *err)
{
  const pw_bills_fuel *b = &bills->fuel[fuel];
  pw_status status = pw_after_of(fuel, b->row, b->n, d->house->has_weather ? &d->weather : NULL,
                                 &d->normal, &d->house->work, moved, after, err);
  if (status == PW_OK && b->solar) {
    after->before.refused = PW_BILL_REFUSED_SOLAR;
    after->refused = PW_AFTER_BEFORE;
  }
  return status;
}

/* One file of neighbours: its share saved by fuel, those that its bills can tell. */
static pw_status add_group(desk *d, const char *path, double change[][PW_GROUP_MAX],
                           double se[][PW_GROUP_MAX], size_t n[], pw_err *err)
{
  static const pw_feed_options plain = {NAN, NULL, 0};
  pw_bills bills = {0};
  pw_status status = pw_bills_open(path, &plain, &bills, &d->house->notes, err);
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++) {
    pw_after a;
    if (!bills.fuel[f].n || !d->house->n_bill[f]) continue;
    status = after_bills(d, &bills, (pw_fuel)f, PW_BILL_NO_DAY, &a, err);
    if (status != PW_OK) break;
    if (a.refused == PW_AFTER_ACCEPTED && n[f] < PW_GROUP_MAX) {
      change[f][n[f]] = a.saving / a.before.normal.total;
      se[f][n[f]++] = a.se / a.before.normal.total;
    } else {
      pw_notes_warn(&d->house->notes, path, 0,
                    "its %s bills cannot tell a change over the work; left out of the group",
                    pw_fuel_name((pw_fuel)f));
    }
    pw_after_free(&a);
  }
  pw_bills_free(&bills);
  return status;
}

static pw_status read_group(desk *d, pw_err *err)
{
  double change[PW_FUEL_COUNT][PW_GROUP_MAX], se[PW_FUEL_COUNT][PW_GROUP_MAX];
  size_t n[PW_FUEL_COUNT] = {0};
  pw_status status = PW_OK;
  for (const char *at = d->asked->group; status == PW_OK && at && *at;) {
    char path[PW_INPUT_PATH];
    size_t length = strcspn(at, ",");
    snprintf(path, sizeof path, "%.*s", (int)length, at);
    status = add_group(d, path, change, se, n, err);
    at += length + (at[length] == ',');
  }
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++)
    pw_drift_of(change[f], se[f], n[f], &d->house->drift[f]);
  return status;
}

static pw_status read_promise(desk *d, pw_err *err)
{
  pw_after_house *h = d->house;
  pw_promise promise;
  pw_status status = pw_promise_read(d->dir, &promise, err);
  if (status != PW_OK) return status;
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    char what[32], figure[PW_PROMISE_FIGURE];
    pw_promise_fuel_figure((pw_fuel)f, what);
    pw_promise_figure(what, h->package, d->open.job.dwelling, figure);
    const pw_promise_row *row = pw_promise_find(&promise, figure, pw_date_of_day(h->work.from));
    if (h->package[0] && row) {
      h->promised[f] = 1;
      h->promise[f] = *row;
    } else if (h->package[0] && h->n_bill[f]) {
      h->late_promise |= pw_promise_find(&promise, figure, 0) != NULL;
    }
  }
  pw_promise_free(&promise);
  return PW_OK;
}

static pw_status read_bills(desk *d, pw_err *err)
{
  static const pw_feed_options plain = {NAN, NULL, 0};
  char path[PW_INPUT_PATH];
  pw_after_house *h = d->house;
  pw_status status = pw_input_path(d->dir, "bills.csv", path, err);
  if (status == PW_OK) status = pw_bills_open(path, &plain, &d->bills, &h->notes, err);
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++) {
    const pw_bills_fuel *b = &d->bills.fuel[f];
    if (!b->n) continue;
    h->n_bill[f] = b->n;
    snprintf(h->unit[f], sizeof h->unit[f], "%s", b->unit);
    h->unit_kwh[f] = b->unit_kwh;
    status = after_bills(d, &d->bills, (pw_fuel)f, d->asked->moved, &h->after[f], err);
  }
  return status;
}

pw_status pw_after_of_job(const char *dir, const pw_after_asked *asked, pw_after_house *house,
                          pw_err *err)
{
  desk d = {.dir = dir, .asked = asked, .house = house};
  *house = (pw_after_house){.has_weather = 0};
  snprintf(house->dir, sizeof house->dir, "%.190s", dir);
  pw_status status = pw_job_open_dwelling(dir, asked->dwelling, &d.open, err);
  if (status != PW_OK) return status;
  snprintf(house->job, sizeof house->job, "%s", d.open.job.house.job);
  status = work_of(&d, err);
  if (status == PW_OK) status = package_of(&d, err);
  if (status == PW_OK) status = read_weather(&d, err);
  if (status == PW_OK) status = read_normal(&d, err);
  if (status == PW_OK) status = read_bills(&d, err);
  if (status == PW_OK) status = read_group(&d, err);
  if (status == PW_OK) status = read_promise(&d, err);
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++)
    house->net[f] = pw_after_net_of(&house->after[f], &house->drift[f]);
  pw_bills_free(&d.bills);
  pw_daily_free(&d.weather);
  pw_normal_set_free(&d.normal);
  pw_job_close(&d.open);
  if (status != PW_OK) pw_after_house_free(house);
  return status;
}

void pw_after_house_free(pw_after_house *house)
{
  for (int f = 0; house && f < PW_FUEL_COUNT; f++)
    pw_after_free(&house->after[f]);
  if (house) pw_notes_free(&house->notes);
}
