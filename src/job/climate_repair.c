/* From rows in slots to hours in local time: short gaps filled, parts of hours averaged. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "climate/sun.h"
#include "job/climate_rows.h"
#include "panewright/units.h"
#include "window/moisture.h"

static const int gap_max_h = 6; /* METHODS.md section 9: interpolate up to 6 h, refuse beyond */

static float *field(const climate_rows *r, int f) { return r->value + (size_t)f * r->slots; }

static const char *const field_name[F_NEEDED] = {"global irradiance",     "beam irradiance",
                                                 "diffuse irradiance",    "temperature",
                                                 "dew point or humidity", "wind speed"};

/* Dew point from temperature and humidity where the file gives none. */
static pw_status dew_from_humidity(climate_rows *r, pw_err *err)
{
  float *dew = field(r, F_DEW), *t = field(r, F_TEMPERATURE), *rh = field(r, F_HUMIDITY);
  for (size_t i = 0; i < r->slots; i++) {
    if (!isnan(dew[i]) || isnan(t[i]) || isnan(rh[i])) continue;
    double share = fmin(fmax((double)rh[i], 1.0), 100.0) / 100.0, k;
    pw_status status = pw_dew_point(pw_k((double)t[i]), share, &k, err);
    if (status != PW_OK) return status;
    dew[i] = (float)pw_c(k);
  }
  return PW_OK;
}

static void date_of(size_t slot, int per_hour, char *text, size_t size)
{
  int hour = (int)(slot / (size_t)per_hour), day = hour / 24, month = pw_month_of_day(day);
  snprintf(text, size, "%d/%d hour %d", month + 1, day - pw_month_start[month] + 1,
           hour % 24 + 1);
}

/* Fills the gaps of a needed field, linearly, round the end of the year; marks touched slots. */
static pw_status fill(climate_rows *r, int f, const char *name, unsigned char *touched,
                      pw_climate_report *report, pw_err *err)
{
  float *v = field(r, f);
  size_t n = r->slots, first = 0, present = 0;
  for (size_t i = 0; i < n; i++)
    present += isnan(v[i]) ? 0u : 1u;
  if (present == n) return PW_OK;
  if (present == 0)
    return pw_fail_at(err, PW_E_DATA, name, 0, 0, "no %s in any hour", field_name[f]);
  while (isnan(v[first]))
    first++;
  size_t from = first; /* last slot that holds a value */
  for (size_t k = 1; k <= n; k++) {
    size_t i = (first + k) % n;
    if (isnan(v[i])) continue;
    size_t gap = (i + n - from) % n;
    if (gap == 0) gap = n;
    size_t hours = (gap - 1 + (size_t)r->per_hour - 1) / (size_t)r->per_hour;
    if (hours > (size_t)gap_max_h) {
      char when[40];
      date_of((from + 1) % n, r->per_hour, when, sizeof when);
      return pw_fail_at(
          err, PW_E_DATA, name, 0, 0,
          "%s lacks for %zu h from %s (month/day); %zu of %zu rows have it, gaps up "
          "to %d h are filled",
          field_name[f], hours, when, present, n, gap_max_h);
    }
    if (gap > 1 && hours > report->longest_gap) report->longest_gap = hours;
    for (size_t j = 1; j < gap; j++) {
      size_t at = (from + j) % n;
      float share = (float)j / (float)gap;
      v[at] = v[from] + share * (v[i] - v[from]);
      touched[at] = 1;
    }
    from = i;
  }
  return PW_OK;
}

/* Cloud from the satellite's cloud type, as the header of an NSRDB file names them: 0, 1 clear; 2 to
 * 6, 8, 9 cloud; 7 cirrus. */
static void cloud_from_type(climate_rows *r)
{
  const float *type = field(r, F_CLOUD_TYPE);
  float *cloud = field(r, F_CLOUD), *total = field(r, F_CLOUD_TOTAL);
  for (size_t i = 0; i < r->slots; i++) {
    int k = isnan(type[i]) ? -1 : (int)type[i];
    if (k < 0 || k > 9) continue;
    total[i] = k >= 2 ? 1.0f : 0.0f;
    cloud[i] = k >= 2 && k != 7 ? 1.0f : 0.0f;
  }
}

/* The mean of an hour's rows. */
static float mean(const climate_rows *r, int f, size_t hour)
{
  const float *v = field(r, f);
  size_t n = (size_t)r->per_hour;
  double sum = 0.0;
  int count = 0;
  for (size_t i = hour * n; i < (hour + 1) * n; i++) {
    if (isnan(v[i])) continue;
    sum += (double)v[i];
    count++;
  }
  return count ? (float)(sum / count) : NAN;
}

static float or_unknown(float v) { return isnan(v) ? -1.0f : v; }

static void set_hour(const climate_rows *r, size_t from, float standard, pw_hour *h)
{
  h->ghi = fmaxf(mean(r, F_GHI, from), 0.0f);
  h->dni = fmaxf(mean(r, F_DNI, from), 0.0f);
  h->dhi = fmaxf(mean(r, F_DHI, from), 0.0f);
  h->t_air = mean(r, F_TEMPERATURE, from);
  h->t_dew = fminf(mean(r, F_DEW, from), h->t_air);
  h->wind = mean(r, F_WIND, from);
  float p = mean(r, F_PRESSURE, from), ceiling = mean(r, F_CEILING, from);
  float albedo = mean(r, F_ALBEDO, from);
  h->pressure = isnan(p) ? standard : p;
  h->cloud = or_unknown(mean(r, F_CLOUD, from));
  h->cloud_total = or_unknown(mean(r, F_CLOUD_TOTAL, from));
  h->ceiling = ceiling < 15000.0f ? ceiling : -1.0f; /* 77777: none; towards it: interpolated */
  h->ir_down = or_unknown(mean(r, F_LONGWAVE, from));
  h->albedo = albedo > 0.0f ? albedo : -1.0f; /* TMY3 writes 0 where it has none */
}

/* Hours whose parts do not add up: beyond 5 % + 20 W/m2 with the sun above 15 degrees. */
static pw_status count_inconsistent(const pw_weather *w, size_t *count, pw_err *err)
{
  pw_sun_year *sun = malloc(sizeof *sun);
  if (!sun) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the sun of a year");
  pw_status status = pw_sun_of_year(w, sun, err);
  for (size_t i = 0; status == PW_OK && i < sun->n; i++) {
    const pw_hour *h = &w->hour[sun->hour[i]];
    if (!(sun->up[i] > 0.2588f)) continue;
    float sum = h->dhi + h->dni * sun->up[i];
    if (fabsf(sum - h->ghi) > 0.05f * h->ghi + 20.0f) ++*count;
  }
  free(sun);
  return status;
}

pw_status climate_finish(climate_rows *r, const char *name, pw_weather *w,
                         pw_climate_report *report, pw_err *err)
{
  unsigned char *touched = calloc(r->slots, 1);
  if (!touched) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year of weather");
  cloud_from_type(r);
  pw_status status = dew_from_humidity(r, err);
  for (int f = 0; f < F_NEEDED && status == PW_OK; f++)
    status = fill(r, f, name, touched, report, err);
  double standard = pw_standard_pressure(w->site.elevation);
  if (status == PW_OK) {
    size_t n = (size_t)r->per_hour;
    for (size_t i = 0; i < r->slots; i++)
      report->absent += r->seen[i] ? 0u : 1u;
    for (size_t i = 0; i < PW_HOURS; i++) {
      size_t from = (size_t)(((int)i - r->shift_h + PW_HOURS) % PW_HOURS);
      set_hour(r, from, (float)standard, &w->hour[i]);
      int mended = 0;
      for (size_t k = 0; k < n; k++)
        mended |= touched[from * n + k];
      report->repaired += (size_t)mended;
    }
    w->repaired = report->repaired;
    double step = 1.0 / r->per_hour, centre = r->first_minute / 60.0 + 0.5 - 0.5 * step;
    for (int m = 0; m < 12; m++) {
      w->year[m] = r->year[m];
      w->sun_shift_h[m] = (n > 1 ? centre : r->radiation_h) - 0.5;
    }
    status = count_inconsistent(w, &report->inconsistent, err);
  }
  free(touched);
  return status;
}
