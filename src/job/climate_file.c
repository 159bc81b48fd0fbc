#include "job/climate_file.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "job/climate_rows.h"
#include "job/input_text.h"

static pw_status wrong_count(const climate_text *t, const climate_header *h, int n, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, t->name, t->line, 0,
                    "%d columns, want %d as in the header%s", n, h->n_named,
                    t->at >= t->end ? "; the file is cut short here" : "");
}

/* Reads the stamp and turns it into the slot's day and minute; *day -1 for 29 February. */
static pw_status stamp(const climate_text *t, const climate_layout *layout,
                       const climate_header *h, const climate_cell cell[], climate_rows *rows,
                       int when[4], int *day, pw_err *err)
{
  pw_status status = layout->stamp(t, h, cell, when, err);
  if (status != PW_OK) return status;
  int y = when[0], m = when[1], d = when[2];
  if (m < 1 || m > 12 || d < 1 || d > pw_month_days[m - 1] + (m == 2) || y < 1950 || y > 2100 ||
      when[3] < 0 || when[3] >= 1440)
    return pw_fail_at(err, PW_E_DATA, t->name, t->line, 1,
                      "no such hour: year %d month %d day %d minute %d", y, m, d, when[3]);
  if (rows->year[m - 1] == 0) rows->year[m - 1] = y;
  if (rows->year[m - 1] != y)
    return pw_fail_at(
        err, PW_E_DATA, t->name, t->line, 1,
        "year %d in month %d, which began with %d: one year is wanted, or a typical "
        "year",
        y, m, rows->year[m - 1]);
  *day = m == 2 && d == 29 ? -1 : pw_month_start[m - 1] + d - 1;
  return PW_OK;
}

/* How many rows an hour the file has, from its first two; makes room. */
static pw_status start_rows(climate_text t, const climate_layout *layout,
                            const climate_header *h, climate_rows *rows, pw_err *err)
{
  climate_cell cell[CLIMATE_CELLS_MAX];
  int minute[2] = {0, 60};
  for (int k = 0; k < 2; k++) {
    int when[4], n = climate_cells(&t, cell, CLIMATE_CELLS_MAX);
    if (n < 0 || (n == 1 && cell[0].size == 0))
      return pw_fail_at(err, PW_E_DATA, t.name, t.line, 0,
                        "the file ends after %d rows, want 8760", k);
    if (n < h->n_named || n > h->n_all) return wrong_count(&t, h, n, err);
    pw_status status = layout->stamp(&t, h, cell, when, err);
    if (status != PW_OK) return status;
    minute[k] = when[3];
  }
  int step = minute[1] - minute[0];
  if (step <= 0 || step > 60) step = 60; /* a gap or a mess: the rows themselves will tell */
  if (60 % step != 0 || 60 / step > CLIMATE_PER_HOUR_MAX)
    return pw_fail_at(err, PW_E_DATA, t.name, t.line, 1,
                      "rows %d minutes apart, want 60, 30, 20, 15, 10 or 5", step);
  rows->per_hour = 60 / step;
  rows->first_minute = minute[0] % step;
  if (rows->per_hour == 1 && layout == &climate_layouts[PW_CLIMATE_NSRDB])
    rows->radiation_h = rows->first_minute / 60.0;
  rows->slots = (size_t)PW_HOURS * (size_t)rows->per_hour;
  rows->value = malloc(rows->slots * F_COUNT * sizeof *rows->value);
  rows->seen = calloc(rows->slots, 1);
  if (!rows->value || !rows->seen)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year of weather");
  for (size_t i = 0; i < rows->slots * F_COUNT; i++)
    rows->value[i] = NAN;
  return PW_OK;
}

/* The values of one row. */
static pw_status take(const climate_text *t, const climate_header *h, const climate_cell cell[],
                      climate_rows *rows, size_t slot, pw_err *err)
{
  for (int f = 0; f < F_COUNT; f++) {
    int at = h->place[f];
    if (at < 0) continue;
    const climate_column *c = &h->column[h->which[f]];
    char text[24];
    double v;
    if (!climate_number(cell[at], &v)) {
      climate_copy(cell[at], text, sizeof text);
      return pw_fail_at(err, PW_E_DATA, t->name, t->line, at + 1, "%s '%s' is no number",
                        c->name, text);
    }
    if (isnan(v) || v <= -900.0) continue; /* -999, -9900, -9999: missing */
    v *= c->scale;
    if (!(v >= c->low && v <= c->high)) {
      climate_copy(cell[at], text, sizeof text);
      return pw_fail_at(err, PW_E_DATA, t->name, t->line, at + 1, "%s %s, want %g to %g",
                        c->name, text, c->low / c->scale, c->high / c->scale);
    }
    rows->value[(size_t)f * rows->slots + slot] = (float)v;
  }
  return PW_OK;
}

static pw_status read_rows(climate_text *t, const climate_layout *layout,
                           const climate_header *h, climate_rows *rows,
                           pw_climate_report *report, pw_err *err)
{
  climate_cell cell[CLIMATE_CELLS_MAX];
  pw_status status = start_rows(*t, layout, h, rows, err);
  int n, step = status == PW_OK ? 60 / rows->per_hour : 60;
  while (status == PW_OK && (n = climate_cells(t, cell, CLIMATE_CELLS_MAX)) >= 0) {
    if (n == 1 && cell[0].size == 0) {
      if (layout->ends_at_blank) break;
      continue;
    }
    if (n < h->n_named || n > h->n_all) return wrong_count(t, h, n, err);
    int when[4], day = 0;
    status = stamp(t, layout, h, cell, rows, when, &day, err);
    if (status != PW_OK) return status;
    report->rows++;
    if (day < 0) {
      report->leap_rows++;
      continue;
    }
    if (when[3] % step != (int)rows->first_minute)
      return pw_fail_at(err, PW_E_DATA, t->name, t->line, 1,
                        "minute %d, want rows every %d minutes from minute %g", when[3] % 60,
                        step, rows->first_minute);
    size_t slot = (size_t)day * 24 * (size_t)rows->per_hour + (size_t)(when[3] / step);
    if (rows->seen[slot])
      return pw_fail_at(err, PW_E_DATA, t->name, t->line, 1,
                        "month %d day %d hour %d stands twice", when[1], when[2],
                        when[3] / 60 + 1);
    rows->seen[slot] = 1;
    status = take(t, h, cell, rows, slot, err);
  }
  report->per_hour = rows->per_hour;
  return status;
}

pw_status pw_climate_parse(const char *text, size_t size, const char *name, pw_weather *weather,
                           pw_climate_report *report, pw_err *err)
{
  climate_text t = {name, text, text + size, 0};
  if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) t.at += 3;
  if (t.at == t.end) return pw_fail_at(err, PW_E_DATA, name, 0, 0, "the file is empty");
  int k = 0;
  while (k < 3 && !climate_layouts[k].fits(t))
    k++;
  if (k == 3)
    return pw_fail_at(err, PW_E_DATA, name, 1, 0,
                      "no layout known here; want TMY3 csv, NSRDB (PSM) csv or PVGIS TMY csv");
  pw_weather *w = calloc(1, sizeof *w);
  if (!w) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year of weather");
  climate_header header = {0};
  climate_rows rows = {0};
  pw_climate_report r = {.layout = (pw_climate_layout)k};
  pw_status status = climate_layouts[k].open(&t, &header, &rows, w, err);
  if (status == PW_OK) status = read_rows(&t, &climate_layouts[k], &header, &rows, &r, err);
  if (status == PW_OK) status = climate_finish(&rows, name, w, &r, err);
  if (status == PW_OK) {
    pw_text_clean(w->site.name);
    *weather = *w;
    if (report) *report = r;
  }
  free(rows.value);
  free(rows.seen);
  free(w);
  return status;
}

pw_status pw_climate_read(const char *path, pw_weather *weather, pw_climate_report *report,
                          pw_err *err)
{
  char *text = NULL;
  size_t size = 0;
  pw_status status = pw_input_read(path, PW_INPUT_WEATHER, &text, &size, err);
  if (status != PW_OK) return status;
  status = pw_climate_parse(text, size, path, weather, report, err);
  free(text);
  return status;
}

const char *pw_climate_layout_name(pw_climate_layout layout)
{
  return (unsigned)layout < 3 ? climate_layouts[layout].name : "unknown";
}
