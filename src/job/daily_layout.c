/* Layouts without a header of ours: GHCN-Daily in fixed columns and by year, ISD-Lite, a PVGIS series.
 * Columns from the readme texts of NOAA NCEI and from PVGIS files, from memory. */
#include <math.h>
#include <string.h>

#include "job/daily_rows.h"

/* The next line without its end; 0 at the end of the text. */
static int next_line(climate_text *t, const char **at, size_t *size)
{
  if (t->at >= t->end) return 0;
  const char *end = memchr(t->at, '\n', (size_t)(t->end - t->at));
  *at = t->at;
  *size = (size_t)((end ? end : t->end) - t->at);
  t->at = end ? end + 1 : t->end;
  t->line++;
  while (*size && ((*at)[*size - 1] == '\r' || (*at)[*size - 1] == ' '))
    (*size)--;
  return 1;
}

/* A whole number in so many columns, blanks before it; 0 when it is none. */
static int whole(const char *at, size_t size, int *v)
{
  double x;
  if (size == 0 || !climate_number((climate_cell){at, (int)size}, &x) || isnan(x) ||
      x != floor(x) || fabs(x) > 1e8)
    return 0;
  *v = (int)x;
  return 1;
}

static int all_digits(const char *at, size_t n)
{
  for (size_t i = 0; i < n; i++)
    if (at[i] < '0' || at[i] > '9') return 0;
  return 1;
}

/* Which of a day's temperatures an element is. */
static float *element(daily_day *d, const char *name)
{
  return memcmp(name, "TMAX", 4) == 0   ? &d->high
         : memcmp(name, "TMIN", 4) == 0 ? &d->low
         : memcmp(name, "TAVG", 4) == 0 ? &d->mean
                                        : NULL;
}

static pw_status put_tenths(const climate_text *t, float *to, int tenths, int column,
                            pw_err *err)
{
  if (tenths <= -9990) return PW_OK;
  if (!daily_is_temperature(0.1 * tenths))
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, column,
                      "%d tenths of a degree C, want -900 to 600", tenths);
  if (!isnan(*to))
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, column, "a day stands twice");
  *to = (float)(0.1 * tenths);
  return PW_OK;
}

/* ---- GHCN-Daily .dly: station 11, year 4, month 2, element 4, then 31 of value 5 and three flags */

enum { DLY_HEAD = 21, DLY_DAY = 8, DLY_LEAST = DLY_HEAD + 28 * DLY_DAY - 3 };

static int dly_fits(climate_text t)
{
  const char *at;
  size_t size;
  return next_line(&t, &at, &size) && size >= DLY_LEAST && !memchr(at, ',', size) &&
         all_digits(at + 11, 6) && at[17] >= 'A' && at[17] <= 'Z';
}

static pw_status dly_read(climate_text t, daily_store *s, pw_err *err)
{
  const char *at;
  size_t size;
  while (next_line(&t, &at, &size)) {
    daily_day probe = {0}, *d;
    if (size == 0) continue;
    if (size < DLY_HEAD + 5 || !all_digits(at + 11, 6))
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, 12,
                        "no year and month of GHCN-Daily; want station, yyyymm, element, days");
    if (!element(&probe, at + 17)) continue;
    int year =
        (at[11] - '0') * 1000 + (at[12] - '0') * 100 + (at[13] - '0') * 10 + at[14] - '0';
    int month = (at[15] - '0') * 10 + at[16] - '0';
    for (size_t k = 0; k < 31; k++) {
      size_t from = DLY_HEAD + k * DLY_DAY;
      int v = -9999;
      if (from + 5 > size) break;
      if (!whole(at + from, 5, &v))
        return pw_fail_at(err, PW_E_DATA, t.name, t.line, (int)from + 1,
                          "'%.5s' is no whole number", at + from);
      int flagged = from + 6 < size && at[from + 6] != ' ';
      if (v <= -9990 || flagged) continue;
      pw_status status = daily_at(s, t.name, t.line, year, month, (int)k + 1, &d, err);
      if (status == PW_OK) status = put_tenths(&t, element(d, at + 17), v, (int)from + 1, err);
      if (status != PW_OK) return status;
    }
  }
  return PW_OK;
}

/* ---- GHCN-Daily by year: station,yyyymmdd,element,value,m,quality,s,time; no header */

static int by_year_fits(climate_text t)
{
  climate_cell c[4];
  return climate_cells(&t, c, 4) >= 4 && c[0].size == 11 && c[1].size == 8 &&
         all_digits(c[1].at, 8) && c[2].size == 4;
}

static pw_status by_year_read(climate_text t, daily_store *s, pw_err *err)
{
  climate_cell c[8], station = {NULL, 0};
  int n;
  while ((n = climate_cells(&t, c, 8)) >= 0) {
    daily_day probe = {0}, *d;
    int ymd, v;
    if (n == 1 && c[0].size == 0) continue;
    if (n < 4 || c[2].size != 4 || !whole(c[1].at, (size_t)c[1].size, &ymd))
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, 2,
                        "want station,yyyymmdd,element,value of GHCN-Daily");
    if (!element(&probe, c[2].at)) continue;
    if (!station.at) station = c[0];
    if (c[0].size != station.size || memcmp(c[0].at, station.at, (size_t)station.size) != 0)
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, 1,
                        "a second station; want the days of one");
    if (!whole(c[3].at, (size_t)c[3].size, &v))
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, 4, "the value is no whole number");
    if (n > 5 && c[5].size > 0) continue; /* failed a check of quality */
    pw_status status =
        daily_at(s, t.name, t.line, ymd / 10000, ymd / 100 % 100, ymd % 100, &d, err);
    if (status == PW_OK) status = put_tenths(&t, element(d, c[2].at), v, 4, err);
    if (status != PW_OK) return status;
  }
  return PW_OK;
}

/* An hour's temperature, UTC, into the local day it belongs to. */
static pw_status put_hour(const climate_text *t, daily_store *s, const int when[4], double v,
                          double zone_h, int column, pw_err *err)
{
  daily_day *d;
  if (!daily_is_temperature(v))
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, column, "%g C, want -90 to 60", v);
  pw_status status = daily_at(s, t->name, t->line, when[0], when[1], when[2], &d, err);
  if (status != PW_OK) return status;
  int shift = (int)floor(((double)when[3] / 60.0 + zone_h) / 24.0);
  if (d + shift < s->day || d + shift >= s->day + DAILY_DAYS) return PW_OK;
  d += shift;
  d->sum += (float)v;
  d->per_day = 24;
  if (++d->n > 24)
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, 1, "more than 24 hours in a day");
  return PW_OK;
}

/* ---- ISD-Lite: year month day hour, then tenths of C and more, blanks between; UTC */

static int isd_row(const char *at, size_t size, int v[5])
{
  size_t i = 0;
  for (int k = 0; k < 5; k++) {
    size_t from;
    while (i < size && at[i] == ' ')
      i++;
    for (from = i; i < size && at[i] != ' ';)
      i++;
    if (!whole(at + from, i - from, &v[k])) return 0;
  }
  return 1;
}

static int isd_fits(climate_text t)
{
  const char *at;
  size_t size;
  int v[5];
  return next_line(&t, &at, &size) && size > 13 && !memchr(at, ',', size) &&
         isd_row(at, size, v) && v[0] >= 1900 && v[0] < 2110 && v[1] >= 1 && v[1] <= 12;
}

static pw_status isd_read(climate_text t, daily_store *s, pw_err *err)
{
  const char *at;
  size_t size;
  if (isnan(s->zone_h))
    return pw_fail_at(
        err, PW_E_DATA, t.name, 1, 0,
        "hours of ISD-Lite are in UTC; want --zone H, the place's standard time less "
        "UTC, such as -7");
  while (next_line(&t, &at, &size)) {
    int v[5];
    if (size == 0) continue;
    if (!isd_row(at, size, v) || v[3] < 0 || v[3] > 23)
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, 1,
                        "want year month day hour temperature of ISD-Lite");
    if (v[4] <= -9990) continue;
    const int when[4] = {v[0], v[1], v[2], 60 * v[3]};
    pw_status status = put_hour(&t, s, when, 0.1 * v[4], s->zone_h, 14, err);
    if (status != PW_OK) return status;
  }
  return PW_OK;
}

/* ---- PVGIS, a series of years: "name: value" lines, a header that begins with time, UTC */

static const char pvgis_place[] = "Longitude (decimal degrees):";

static int pvgis_header(climate_text *t, double *longitude, int *column)
{
  climate_cell c[CLIMATE_CELLS_MAX];
  int n;
  *column = -1;
  while (t->line < 40 && (n = climate_cells(t, c, CLIMATE_CELLS_MAX)) >= 0) {
    int k = (int)sizeof pvgis_place - 1;
    while (c[0].size > k && (c[0].at[k] == '\t' || c[0].at[k] == ' '))
      k++;
    if (c[0].size > k && memcmp(c[0].at, pvgis_place, sizeof pvgis_place - 1) == 0)
      climate_number((climate_cell){c[0].at + k, c[0].size - k}, longitude);
    if (!climate_is(c[0], "time")) continue;
    for (int i = 1; i < n && i < CLIMATE_CELLS_MAX; i++)
      if (climate_is(c[i], "T2m")) *column = i;
    return *column > 0;
  }
  return 0;
}

static int pvgis_series_fits(climate_text t)
{
  double longitude = (double)NAN;
  int column;
  return pvgis_header(&t, &longitude, &column);
}

static pw_status pvgis_series_read(climate_text t, daily_store *s, pw_err *err)
{
  climate_cell c[CLIMATE_CELLS_MAX];
  double longitude = (double)NAN, v;
  int column;
  pvgis_header(&t, &longitude, &column);
  if (!(fabs(longitude) <= 180.0))
    return pw_fail_at(err, PW_E_DATA, t.name, 1, 0, "no line '%s'", pvgis_place);
  double zone = isnan(s->zone_h) ? round(longitude / 15.0) : s->zone_h;
  while (climate_cells(&t, c, CLIMATE_CELLS_MAX) > column) {
    int ymd, hm;
    if (c[0].size != 13 || c[0].at[8] != ':' || !whole(c[0].at, 8, &ymd) ||
        !whole(c[0].at + 9, 4, &hm))
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, 1, "want yyyymmdd:hhmm");
    if (!climate_number(c[column], &v))
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, column + 1, "T2m is no number");
    if (isnan(v)) continue;
    const int when[4] = {ymd / 10000, ymd / 100 % 100, ymd % 100, hm / 100 * 60};
    pw_status status = put_hour(&t, s, when, v, zone, column + 1, err);
    if (status != PW_OK) return status;
  }
  return PW_OK;
}

const daily_layout daily_layouts[4] = {
    {"GHCN-Daily", dly_fits, dly_read},
    {"GHCN-Daily by year", by_year_fits, by_year_read},
    {"ISD-Lite", isd_fits, isd_read},
    {"PVGIS series", pvgis_series_fits, pvgis_series_read},
};
