#include "job/daily_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "job/climate_file.h"
#include "job/daily_rows.h"
#include "job/input_text.h"

int daily_is_temperature(double t) { return t >= -90.0 && t <= 60.0; }

pw_status daily_at(daily_store *s, const char *name, int line, int year, int month, int day,
                   daily_day **at, pw_err *err)
{
  char text[40];
  pw_date date = 0;
  if (year >= 1900 && year < 2109 && month >= 1 && month <= 12 && day >= 1 && day <= 31) {
    snprintf(text, sizeof text, "%04d-%02d-%02d", year, month, day);
    pw_date_read(text, &date, NULL);
  }
  if (!date)
    return pw_fail_at(err, PW_E_DATA, name, line, 0, "no such day: year %d month %d day %d",
                      year, month, day);
  *at = &s->day[pw_date_day(date) - DAILY_FIRST];
  s->dated = 1;
  return PW_OK;
}

/* Whether an hourly year is one of the calendar: all months of one. */
static int actual_year(const pw_weather *w)
{
  for (int m = 1; m < 12; m++)
    if (w->year[m] != w->year[0]) return 0;
  return w->year[0] > 0 && !w->synthetic;
}

static void take_hours(const pw_weather *w, daily_store *s)
{
  int actual = actual_year(w), jump = 0;
  int first = actual ? pw_date_day(w->year[0] * 10000 + 101) - DAILY_FIRST : 0;
  if (actual) s->dated = 1;
  if (!actual) s->typical = 1;
  for (int d = 0; d < 365; d++) {
    double sum = 0.0;
    /* 29 February is not there: the days after it stand one later. */
    if (actual && d == 59) jump = pw_date_of_day(first + 59 + DAILY_FIRST) % 10000 == 229;
    for (int h = 0; h < 24; h++)
      sum += (double)w->hour[24 * d + h].t_air;
    s->day[first + d + jump].mean = (float)(sum / 24.0);
  }
}

static pw_status open_store(daily_store *s, double zone_h, pw_err *err)
{
  *s = (daily_store){.zone_h = zone_h, .kind = "days"};
  s->day = malloc(DAILY_DAYS * sizeof *s->day);
  if (!s->day) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for days of weather");
  for (size_t i = 0; i < DAILY_DAYS; i++)
    s->day[i] = (daily_day){NAN, NAN, NAN, 0.0f, 0, 0};
  return PW_OK;
}

static pw_status take_text(const char *name, const char *text, size_t size, daily_store *s,
                           pw_site *site, pw_err *err)
{
  climate_text t = {name, text, text + size, 0};
  if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) t.at += 3;
  for (size_t k = 0; k < sizeof climate_layouts / sizeof climate_layouts[0]; k++) {
    if (!climate_layouts[k].fits(t)) continue;
    /* A PVGIS series begins as its typical year does. */
    if (k == PW_CLIMATE_PVGIS && daily_layouts[3].fits(t)) continue;
    pw_weather *w = malloc(sizeof *w);
    if (!w) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year of weather");
    pw_status status = pw_climate_parse(text, size, name, w, NULL, err);
    if (status == PW_OK) take_hours(w, s);
    if (status == PW_OK && site) *site = w->site;
    if (status == PW_OK) s->kind = climate_layouts[k].name;
    free(w);
    return status;
  }
  for (size_t k = 0; k < sizeof daily_layouts / sizeof daily_layouts[0]; k++)
    if (daily_layouts[k].fits(t)) {
      s->kind = daily_layouts[k].kind;
      return daily_layouts[k].read(t, s, err);
    }
  return daily_table_read(name, text, size, s, err);
}

static float mean_of(const daily_day *d)
{
  if (d->n && 2 * d->n >= d->per_day) return d->sum / (float)d->n;
  if (!isnan(d->high) && !isnan(d->low)) return 0.5f * (d->high + d->low);
  return d->mean;
}

static pw_status close_store(const daily_store *s, const char *name, pw_daily *daily,
                             pw_err *err)
{
  size_t first = DAILY_DAYS, last = 0;
  if (s->typical && s->dated)
    return pw_fail(err, PW_E_DATA, "weather",
                   "%s: a typical year and dated days; want one or the other", name);
  for (size_t i = 0; i < DAILY_DAYS; i++)
    if (!isnan(mean_of(&s->day[i]))) {
      if (first == DAILY_DAYS) first = i;
      last = i;
    }
  if (first == DAILY_DAYS)
    return pw_fail(err, PW_E_DATA, "weather", "%s: no day has a temperature", name);
  if (s->typical) {
    first = 0;
    last = 364;
  }
  pw_daily d = {.typical = s->typical, .n = last - first + 1};
  d.first = s->typical ? 0 : (int)first + DAILY_FIRST;
  d.t = malloc(d.n * sizeof *d.t);
  if (!d.t) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for days of weather");
  /* Files give two decimals at most: a float holds them, a double is to hold them as read. */
  for (size_t i = 0; i < d.n; i++)
    d.t[i] = round(1e4 * (double)mean_of(&s->day[first + i])) * 1e-4;
  *daily = d;
  return PW_OK;
}

pw_status pw_daily_parse(const char *name, const char *text, size_t size, double zone_h,
                         pw_daily *daily, pw_err *err)
{
  daily_store s;
  *daily = (pw_daily){.n = 0};
  pw_status status = open_store(&s, zone_h, err);
  if (status == PW_OK) status = take_text(name, text, size, &s, NULL, err);
  if (status == PW_OK) status = close_store(&s, name, daily, err);
  free(s.day);
  return status;
}

static pw_status take_file(const char *path, daily_store *s, pw_site *site, pw_err *err)
{
  char *text = NULL;
  size_t size = 0;
  pw_status status = pw_input_read(path, PW_INPUT_WEATHER, &text, &size, err);
  if (status == PW_OK) status = take_text(path, text, size, s, site, err);
  free(text);
  return status;
}

pw_status pw_daily_read(const char *paths, double zone_h, pw_daily *daily, pw_site *site,
                        const char **kind, pw_err *err)
{
  daily_store s;
  char path[4096];
  *daily = (pw_daily){.n = 0};
  if (site) *site = (pw_site){.name = ""};
  pw_status status = open_store(&s, zone_h, err);
  for (const char *at = paths; status == PW_OK && *at;) {
    size_t n = strcspn(at, ",");
    if (n >= sizeof path) {
      status = pw_fail(err, PW_E_MISSING, NULL, "a path of more than %zu bytes", sizeof path);
      break;
    }
    memcpy(path, at, n);
    path[n] = '\0';
    if (n) status = take_file(path, &s, site, err);
    at += n + (at[n] == ',');
  }
  if (status == PW_OK) status = close_store(&s, paths, daily, err);
  if (status == PW_OK && kind) *kind = s.kind;
  free(s.day);
  return status;
}

pw_status pw_daily_of_weather(const pw_weather *weather, pw_daily *daily, pw_err *err)
{
  daily_store s;
  *daily = (pw_daily){.n = 0};
  pw_status status = open_store(&s, (double)NAN, err);
  if (status == PW_OK) take_hours(weather, &s);
  if (status == PW_OK) status = close_store(&s, weather->source, daily, err);
  free(s.day);
  return status;
}
