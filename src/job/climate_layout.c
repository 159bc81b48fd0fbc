/* The three open layouts: where they keep the site, what they call their columns, how they stamp a
 * row. reference/climate/METHODS.md section 9; the traps in reference/checks/README.md. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "job/climate_rows.h"

#define LENGTH(a) ((int)(sizeof(a) / sizeof(a)[0]))

/* Ranges are what an instrument can honestly read on Earth, with room; small negative radiation is a
 * night offset and counts as 0. */
#define SUN_COLUMNS(ghi, dni, dhi)                                                             \
  {ghi, F_GHI, 1.0, -10.0, 1800.0}, {dni, F_DNI, 1.0, -10.0, 1500.0},                          \
  {                                                                                            \
    dhi, F_DHI, 1.0, -10.0, 1200.0                                                             \
  }

static const climate_column tmy3_column[] = {
    SUN_COLUMNS("GHI (W/m^2)", "DNI (W/m^2)", "DHI (W/m^2)"),
    {"Dry-bulb (C)", F_TEMPERATURE, 1.0, -90.0, 60.0},
    {"Dew-point (C)", F_DEW, 1.0, -100.0, 50.0},
    {"Wspd (m/s)", F_WIND, 1.0, 0.0, 100.0},
    {"RHum (%)", F_HUMIDITY, 1.0, 0.0, 110.0},
    {"Pressure (mbar)", F_PRESSURE, 100.0, 3e4, 1.1e5},
    {"OpqCld (tenths)", F_CLOUD, 0.1, 0.0, 1.0},
    {"TotCld (tenths)", F_CLOUD_TOTAL, 0.1, 0.0, 1.0},
    {"CeilHgt (m)", F_CEILING, 1.0, 0.0, 1e5},
    {"Alb (unitless)", F_ALBEDO, 1.0, 0.0, 1.0},
    {"Date (MM/DD/YYYY)", S_DATE, 0, 0, 0},
    {"Time (HH:MM)", S_TIME, 0, 0, 0}};
static const climate_column nsrdb_column[] = {
    SUN_COLUMNS("GHI", "DNI", "DHI"),
    {"Temperature", F_TEMPERATURE, 1.0, -90.0, 60.0},
    {"Dew Point", F_DEW, 1.0, -100.0, 50.0},
    {"Wind Speed", F_WIND, 1.0, 0.0, 100.0},
    {"Relative Humidity", F_HUMIDITY, 1.0, 0.0, 110.0},
    {"Pressure", F_PRESSURE, 100.0, 3e4, 1.1e5},
    {"Surface Albedo", F_ALBEDO, 1.0, 0.0, 1.0},
    {"Cloud Type", F_CLOUD_TYPE, 1.0, -15.0, 15.0},
    {"Year", S_YEAR, 1.0, 1950.0, 2100.0},
    {"Month", S_MONTH, 1.0, 1.0, 12.0},
    {"Day", S_DAY, 1.0, 1.0, 31.0},
    {"Hour", S_HOUR, 1.0, 0.0, 23.0},
    {"Minute", S_MINUTE, 1.0, 0.0, 59.0}};
static const climate_column pvgis_column[] = {
    SUN_COLUMNS("G(h)", "Gb(n)", "Gd(h)"),   {"T2m", F_TEMPERATURE, 1.0, -90.0, 60.0},
    {"RH", F_HUMIDITY, 1.0, 0.0, 110.0},     {"WS10m", F_WIND, 1.0, 0.0, 100.0},
    {"IR(h)", F_LONGWAVE, 1.0, 20.0, 800.0}, {"SP", F_PRESSURE, 1.0, 3e4, 1.1e5},
    {"time(UTC)", S_DATE, 0, 0, 0}};

/* Finds the layout's columns in a header line; what lacks is refused by name. */
static pw_status find_columns(const climate_text *t, const climate_cell cell[], int n,
                              climate_header *h, pw_err *err)
{
  for (int k = 0; k < S_END; k++)
    h->place[k] = h->which[k] = -1;
  if (n > CLIMATE_CELLS_MAX)
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, 0, "%d columns, want at most %d", n,
                      CLIMATE_CELLS_MAX);
  h->n_all = n;
  h->n_named = 0;
  for (int i = 0; i < n; i++) {
    if (cell[i].size > 0) h->n_named = i + 1;
    for (int k = 0; k < h->n_column; k++)
      if (climate_is(cell[i], h->column[k].name) && h->place[h->column[k].kind] < 0) {
        h->place[h->column[k].kind] = i;
        h->which[h->column[k].kind] = k;
      }
  }
  for (int k = 0; k < h->n_column; k++) {
    int kind = h->column[k].kind;
    int dew_from_humidity = kind == F_DEW && h->place[F_HUMIDITY] >= 0;
    int spare =
        kind >= F_NEEDED && kind < F_COUNT && !(kind == F_HUMIDITY && h->place[F_DEW] < 0);
    if (h->place[kind] < 0 && !spare && !dew_from_humidity)
      return pw_fail_at(err, PW_E_DATA, t->name, t->line, 0, "no column '%s' in the header",
                        h->column[k].name);
  }
  return PW_OK;
}

/* A site value; column from 1. */
static pw_status site_value(const climate_text *t, climate_cell cell, int column,
                            const char *what, double low, double high, double *v, pw_err *err)
{
  char text[32];
  if (!climate_number(cell, v) || !(*v >= low && *v <= high)) {
    climate_copy(cell, text, sizeof text);
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, column, "%s '%s', want %g to %g", what,
                      text, low, high);
  }
  return PW_OK;
}

static pw_status place_values(const climate_text *t, const climate_cell cell[4],
                              const int column[4], pw_site *site, pw_err *err)
{
  static const struct {
    const char *what;
    double low, high;
  } want[4] = {{"latitude", -90.0, 90.0},
               {"longitude", -180.0, 180.0},
               {"time zone", -13.0, 14.0},
               {"elevation", -500.0, 6000.0}};
  double *to[4] = {&site->latitude_deg, &site->longitude_deg, &site->tz_h, &site->elevation};
  for (int k = 0; k < 4; k++) {
    if (column[k] < 0) continue;
    pw_status status = site_value(t, cell[k], column[k] + 1, want[k].what, want[k].low,
                                  want[k].high, to[k], err);
    if (status != PW_OK) return status;
  }
  return PW_OK;
}

/* ---- TMY3: site line, header line, hours 1:00 .. 24:00, the stamp ends the hour */

static int tmy3_fits(climate_text t)
{
  climate_cell cell[4];
  climate_cells(&t, cell, 4);
  return climate_cells(&t, cell, 4) >= 4 && climate_is(cell[0], tmy3_column[12].name);
}

static pw_status tmy3_open(climate_text *t, climate_header *h, climate_rows *rows,
                           pw_weather *w, pw_err *err)
{
  climate_cell cell[CLIMATE_CELLS_MAX] = {0};
  int n = climate_cells(t, cell, CLIMATE_CELLS_MAX);
  if (n < 7)
    return pw_fail_at(err, PW_E_DATA, t->name, 1, 0,
                      "%d values for the site, want station, name, state, zone, latitude, "
                      "longitude, elevation",
                      n);
  char name[48], state[8], station[16];
  climate_copy(cell[1], name, sizeof name);
  climate_copy(cell[2], state, sizeof state);
  climate_copy(cell[0], station, sizeof station);
  snprintf(w->site.name, sizeof w->site.name, "%s %s", name, state);
  snprintf(w->source, sizeof w->source, "TMY3 station %s", station);
  const climate_cell value[4] = {cell[4], cell[5], cell[3], cell[6]};
  const int column[4] = {4, 5, 3, 6};
  pw_status status = place_values(t, value, column, &w->site, err);
  if (status != PW_OK) return status;
  h->column = tmy3_column;
  h->n_column = LENGTH(tmy3_column);
  rows->radiation_h = 0.5;
  w->state_late_h = 0.5; /* METHODS.md section 9: readings at the stamp that ends the hour */
  n = climate_cells(t, cell, CLIMATE_CELLS_MAX);
  return find_columns(t, cell, n, h, err);
}

/* Up to four whole numbers apart by one of the marks; returns how many. */
static int whole_numbers(climate_cell cell, const char *marks, int v[4])
{
  int n = 0, open = 0;
  for (int i = 0; i < cell.size; i++) {
    char c = cell.at[i];
    if (c >= '0' && c <= '9') {
      if (!open) {
        if (n == 4) return -1;
        v[n++] = 0;
        open = 1;
      }
      if (v[n - 1] > 99999999) return -1;
      v[n - 1] = v[n - 1] * 10 + (c - '0');
    } else if (open && strchr(marks, c)) {
      open = 0;
    } else {
      return -1;
    }
  }
  return n;
}

static pw_status bad_stamp(const climate_text *t, climate_cell cell, int column,
                           const char *want, pw_err *err)
{
  char text[32];
  climate_copy(cell, text, sizeof text);
  return pw_fail_at(err, PW_E_DATA, t->name, t->line, column + 1, "stamp '%s', want %s", text,
                    want);
}

static pw_status tmy3_stamp(const climate_text *t, const climate_header *h,
                            const climate_cell cell[], int when[4], pw_err *err)
{
  int d[4], c[4], at = h->place[S_DATE], clock = h->place[S_TIME];
  if (whole_numbers(cell[at], "/", d) != 3)
    return bad_stamp(t, cell[at], at, "month/day/year", err);
  if (whole_numbers(cell[clock], ":", c) < 2 || c[1] != 0 || c[0] < 1 || c[0] > 24)
    return bad_stamp(t, cell[clock], clock, "1:00 to 24:00", err);
  when[0] = d[2];
  when[1] = d[0];
  when[2] = d[1];
  when[3] = (c[0] - 1) * 60;
  return PW_OK;
}

/* ---- NSRDB: names, values, header; the stamp is the instant */

static int named_cell(const climate_cell cell[], int n, const char *name)
{
  for (int i = 0; i < n; i++)
    if (climate_is(cell[i], name)) return i;
  return -1;
}

static int nsrdb_fits(climate_text t)
{
  climate_cell cell[CLIMATE_CELLS_MAX];
  int n = climate_cells(&t, cell, CLIMATE_CELLS_MAX);
  if (n > CLIMATE_CELLS_MAX) n = CLIMATE_CELLS_MAX;
  return named_cell(cell, n, "Latitude") >= 0 && named_cell(cell, n, "Time Zone") >= 0;
}

static pw_status nsrdb_open(climate_text *t, climate_header *h, climate_rows *rows,
                            pw_weather *w, pw_err *err)
{
  static const char *const key[4] = {"Latitude", "Longitude", "Time Zone", "Elevation"};
  climate_cell name[CLIMATE_CELLS_MAX] = {0}, cell[CLIMATE_CELLS_MAX] = {0}, value[4] = {0};
  int n = climate_cells(t, name, CLIMATE_CELLS_MAX), column[4];
  int m = climate_cells(t, cell, CLIMATE_CELLS_MAX);
  if (n > CLIMATE_CELLS_MAX) n = CLIMATE_CELLS_MAX;
  if (m < n)
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, 0,
                      "%d site values for %d names in line 1", m < 0 ? 0 : m, n);
  for (int k = 0; k < 4; k++) {
    column[k] = named_cell(name, n, key[k]);
    if (column[k] < 0)
      return pw_fail_at(err, PW_E_DATA, t->name, 1, 0, "no '%s' among the site's names",
                        key[k]);
    value[k] = cell[column[k]];
  }
  pw_status status = place_values(t, value, column, &w->site, err);
  if (status != PW_OK) return status;
  int local = named_cell(name, n, "Local Time Zone"), id = named_cell(name, n, "Location ID");
  int unit = named_cell(name, n, "Pressure Units");
  char text[24] = "";
  if (unit >= 0 && !climate_is(cell[unit], "mbar") && cell[unit].size > 0) {
    climate_copy(cell[unit], text, sizeof text);
    return pw_fail_at(err, PW_E_DATA, t->name, 2, unit + 1, "pressure in '%s', want mbar",
                      text);
  }
  double zone = w->site.tz_h;
  if (local >= 0) {
    status = site_value(t, cell[local], local + 1, "local time zone", -13.0, 14.0, &zone, err);
    if (status != PW_OK) return status;
  }
  rows->shift_h = (int)lround(zone - w->site.tz_h);
  w->site.tz_h += rows->shift_h;
  if (id >= 0) climate_copy(cell[id], text, sizeof text);
  snprintf(w->source, sizeof w->source, "NSRDB %s", text);
  snprintf(w->site.name, sizeof w->site.name, "NSRDB location %s", text);
  h->column = nsrdb_column;
  h->n_column = LENGTH(nsrdb_column);
  n = climate_cells(t, cell, CLIMATE_CELLS_MAX);
  return find_columns(t, cell, n, h, err);
}

static pw_status nsrdb_stamp(const climate_text *t, const climate_header *h,
                             const climate_cell cell[], int when[4], pw_err *err)
{
  int v[5];
  for (int k = 0; k < 5; k++) {
    const climate_column *c = &h->column[h->which[S_YEAR + k]];
    int at = h->place[S_YEAR + k];
    double x;
    if (!climate_number(cell[at], &x) || !(x >= c->low && x <= c->high) || x != floor(x)) {
      char text[24];
      climate_copy(cell[at], text, sizeof text);
      return pw_fail_at(err, PW_E_DATA, t->name, t->line, at + 1, "%s '%s', want %g to %g",
                        c->name, text, c->low, c->high);
    }
    v[k] = (int)x;
  }
  for (int k = 0; k < 3; k++)
    when[k] = v[k];
  when[3] = v[3] * 60 + v[4];
  return PW_OK;
}

/* ---- PVGIS: "name: value" lines, month table, header; UTC, legend after a blank line */

static int pvgis_fits(climate_text t)
{
  static const char key[] = "Latitude (decimal degrees):";
  return (size_t)(t.end - t.at) >= sizeof key && memcmp(t.at, key, sizeof key - 1) == 0;
}

static pw_status pvgis_open(climate_text *t, climate_header *h, climate_rows *rows,
                            pw_weather *w, pw_err *err)
{
  static const struct {
    const char *key, *what;
    double low, high;
  } want[4] = {{"Latitude (decimal degrees):", "latitude", -90.0, 90.0},
               {"Longitude (decimal degrees):", "longitude", -180.0, 180.0},
               {"Elevation (m):", "elevation", -500.0, 6000.0},
               {"Irradiance Time Offset (h):", "irradiance time offset", -1.0, 1.0}};
  double *to[4] = {&w->site.latitude_deg, &w->site.longitude_deg, &w->site.elevation,
                   &rows->radiation_h};
  int found[4] = {0, 0, 0, 1}; /* files without an offset mean none */
  climate_cell cell[CLIMATE_CELLS_MAX];
  int n;
  while ((n = climate_cells(t, cell, CLIMATE_CELLS_MAX)) >= 0) {
    if (climate_is(cell[0], "time(UTC)")) break;
    for (int k = 0; k < 4; k++) {
      int size = (int)strlen(want[k].key);
      if (cell[0].size <= size || memcmp(cell[0].at, want[k].key, (size_t)size) != 0) continue;
      climate_cell value = {cell[0].at + size, cell[0].size - size};
      pw_status status =
          site_value(t, value, size + 1, want[k].what, want[k].low, want[k].high, to[k], err);
      if (status != PW_OK) return status;
      found[k] = 1;
    }
  }
  if (n < 0)
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, 0,
                      "the file ends before a line 'time(UTC),...'");
  for (int k = 0; k < 4; k++)
    if (!found[k])
      return pw_fail_at(err, PW_E_DATA, t->name, 1, 0, "no line '%s' before the data",
                        want[k].key);
  rows->shift_h = (int)lround(w->site.longitude_deg / 15.0);
  w->site.tz_h = rows->shift_h;
  snprintf(w->site.name, sizeof w->site.name, "%.3f, %.3f", w->site.latitude_deg,
           w->site.longitude_deg);
  snprintf(w->source, sizeof w->source, "PVGIS TMY (c) European Union");
  h->column = pvgis_column;
  h->n_column = LENGTH(pvgis_column);
  return find_columns(t, cell, n, h, err);
}

static pw_status pvgis_stamp(const climate_text *t, const climate_header *h,
                             const climate_cell cell[], int when[4], pw_err *err)
{
  int v[4], at = h->place[S_DATE];
  if (whole_numbers(cell[at], ":", v) != 2 || v[1] % 100 > 59)
    return bad_stamp(t, cell[at], at, "yyyymmdd:hhmm", err);
  when[0] = v[0] / 10000;
  when[1] = v[0] / 100 % 100;
  when[2] = v[0] % 100;
  when[3] = v[1] / 100 * 60;
  return PW_OK;
}

const climate_layout climate_layouts[3] = {{"TMY3", tmy3_fits, tmy3_open, tmy3_stamp, 0},
                                           {"NSRDB", nsrdb_fits, nsrdb_open, nsrdb_stamp, 0},
                                           {"PVGIS", pvgis_fits, pvgis_open, pvgis_stamp, 1}};
