#include "job/usage_feed.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "job/input_text.h"
#include "job/usage_feed_impl.h"
#include "panewright/rates.h"

/* Units of ESPI (uom), what one of them is in ours. */
static const struct {
  int uom;
  const char *unit; /* as we keep it */
  double factor;
  const char *word; /* as --unit names it */
} unit_row[] = {{72, "kWh", 1e-3, "Wh"},      {-2, "kWh", 1.0, "kWh"},
                {169, "therm", 1.0, "therm"}, {119, "ccf", 1e-2, "ft3"},
                {-3, "ccf", 1.0, "ccf"},      {42, "m3", 1.0, "m3"},
                {132, "therm", 1e-5, "Btu"},  {-4, "MMBtu", 1.0, "MMBtu"}};
enum { N_UNIT = sizeof unit_row / sizeof unit_row[0] };

static int begins(const char *text, const char *start)
{
  size_t n = strlen(start);
  return n > 0 && strncmp(text, start, n) == 0 && (text[n] == '/' || text[n] == '\0');
}

static int relates(const feed_entry *e, const char *href)
{
  for (int i = 0; href[0] && i < e->n_related; i++)
    if (strcmp(e->related[i], href) == 0) return 1;
  return 0;
}

/* The entry of a kind that fits, else the only one, else the last one before i; NULL when there is none. */
static const feed_entry *tie(feed_desk *d, size_t i, feed_kind kind,
                             int (*fits)(const feed_entry *of, const feed_entry *to))
{
  const feed_entry *before = NULL, *only = NULL;
  size_t n = 0;
  for (size_t k = 0; k < d->f.n_entry; k++) {
    const feed_entry *e = &d->f.entry[k];
    if (e->kind != kind) continue;
    if (fits(&d->f.entry[i], e)) return e;
    only = e;
    n++;
    if (k < i) before = e;
  }
  if (n != 1) d->by_order = 1;
  return n == 1 ? only : before;
}

static int block_in_meter(const feed_entry *block, const feed_entry *meter)
{
  return relates(meter, block->up) || begins(block->self, meter->self);
}

static int meter_of_type(const feed_entry *meter, const feed_entry *type)
{
  return relates(meter, type->self);
}

static int meter_of_point(const feed_entry *meter, const feed_entry *point)
{
  return relates(point, meter->up) || begins(meter->self, point->self);
}

static pw_status find_series(feed_desk *d)
{
  feed *f = &d->f;
  for (size_t i = 0; i < f->n_entry; i++) {
    const feed_entry *e = &f->entry[i];
    d->meter_of[i] = SIZE_MAX;
    if (e->kind != FEED_BLOCK) continue;
    const feed_entry *meter = tie(d, i, FEED_METER, block_in_meter);
    size_t of = meter ? (size_t)(meter - f->entry) : i, k = 0;
    while (k < d->n_series && d->one[k].entry != of && meter)
      k++;
    if (!meter) k = d->n_series ? 0 : d->n_series; /* no MeterReading at all: one feed_series */
    if (k == d->n_series) {
      if (d->n_series == FEED_METERS_MAX)
        return pw_fail_at(d->err, PW_E_DATA, f->name, e->line, 0, "more than %d meter readings",
                          FEED_METERS_MAX);
      d->one[d->n_series++] =
          (feed_series){.type = tie(d, of, FEED_TYPE, meter_of_type),
                        .point = tie(d, of, FEED_USAGE_POINT, meter_of_point),
                        .entry = of};
    }
    d->meter_of[i] = k;
  }
  return PW_OK;
}

/* Which fuel a series measures; -1 none that we know. */
static int fuel_of(const feed_series *s)
{
  int commodity = s->type ? s->type->commodity : -1,
      service = s->point ? s->point->service : -1;
  if (commodity == 1 || (commodity < 0 && service == 0)) return PW_FUEL_ELECTRICITY;
  if (commodity == 7 || (commodity < 0 && service == 1)) return PW_FUEL_GAS;
  if (commodity < 0 && service < 0 && s->type)
    return s->type->uom == 72 ? (int)PW_FUEL_ELECTRICITY
           : s->type->uom < 0 ? -1
                              : (int)PW_FUEL_GAS;
  return -1;
}

static int line_of(const feed_desk *d, const feed_series *s)
{
  return s->type ? s->type->line : d->f.entry[s->entry].line;
}

/* The unit that the user gave, else the feed's. */
static pw_status find_unit(feed_desk *d, feed_series *s, int uom, int power)
{
  s->unit = -1;
  for (int i = 0; i < N_UNIT; i++)
    if (d->o->unit ? strcmp(d->o->unit, unit_row[i].word) == 0 : unit_row[i].uom == uom)
      s->unit = i;
  if (s->unit < 0 && d->o->unit)
    return pw_fail(d->err, PW_E_DOMAIN, "option",
                   "--unit %.20s: want Wh, kWh, therm, ccf, ft3, m3, Btu or MMBtu", d->o->unit);
  if (s->unit < 0 && uom < 0)
    return pw_fail_at(
        d->err, PW_E_DATA, d->f.name, line_of(d, s), 0,
        "the feed does not say the unit of its values; want --unit kWh, therm, ...");
  if (s->unit < 0)
    return pw_fail_at(d->err, PW_E_DATA, d->f.name, line_of(d, s), 0,
                      "uom %d; want 72 (Wh), 169 (therm), 119 (ft3), 42 (m3) or 132 (Btu)",
                      uom);
  if (isnan(pw_bills_unit_kwh(s->fuel, unit_row[s->unit].unit)))
    return pw_fail_at(d->err, PW_E_DATA, d->f.name, line_of(d, s), 0, "%s of %s",
                      unit_row[s->unit].word, pw_fuel_name(s->fuel));
  s->scale = unit_row[s->unit].factor * pow(10.0, power == FEED_NO_POWER ? 0 : power);
  return PW_OK;
}

static pw_status take_type(feed_desk *d, feed_series *s)
{
  int fuel = fuel_of(s);
  const feed_entry *t = s->type;
  if (fuel < 0)
    return pw_fail_at(d->err, PW_E_DATA, d->f.name, line_of(d, s), 0,
                      "commodity %d, service %d: want electricity (1, 0) or gas (7, 1)",
                      t ? t->commodity : -1, s->point ? s->point->service : -1);
  s->fuel = (pw_fuel)fuel;
  s->reverse = t && t->flow == 19;
  if (t && t->behaviour == 12)
    return pw_fail_at(d->err, PW_E_DATA, d->f.name, t->line, 0,
                      "instantaneous readings, which do not sum to a use");
  return find_unit(d, s, t ? t->uom : -1, t ? t->power : FEED_NO_POWER);
}

static int in_time(const void *a, const void *b)
{
  const feed_reading *x = a, *y = b;
  if (x->block != y->block) return x->block < y->block ? -1 : 1; /* its series by now */
  if (x->start != y->start) return x->start < y->start ? -1 : 1;
  if (x->duration != y->duration) return x->duration < y->duration ? -1 : 1;
  return (x->value > y->value) - (x->value < y->value);
}

/* Readings by series and time; doubles go. */
static pw_status sort_readings(feed_desk *d)
{
  feed *f = &d->f;
  size_t kept = 0, doubled = 0;
  for (size_t i = 0; i < f->n_reading; i++) {
    size_t e = (size_t)f->reading[i].block;
    if (e >= f->n_entry || d->meter_of[e] == SIZE_MAX) continue;
    f->reading[kept] = f->reading[i];
    f->reading[kept++].block = (int32_t)d->meter_of[e];
  }
  if (kept > 1) qsort(f->reading, kept, sizeof *f->reading, in_time);
  f->n_reading = 0;
  for (size_t i = 0; i < kept; i++) {
    const feed_reading *r = &f->reading[i];
    const feed_reading *last = f->n_reading ? &f->reading[f->n_reading - 1] : NULL;
    if (last && last->block == r->block && last->start == r->start) {
      if (last->value == r->value && last->duration == r->duration) {
        doubled++;
        continue;
      }
      return pw_fail_at(d->err, PW_E_DATA, f->name, r->line, 0,
                        "two readings begin at %.0f s and differ; want each time once",
                        r->start);
    }
    f->reading[f->n_reading++] = *r;
  }
  if (doubled)
    pw_notes_warn(d->notes, f->name, 0, "%zu readings stand twice and are taken once", doubled);
  for (size_t i = 0; i < f->n_reading; i++) {
    feed_series *s = &d->one[f->reading[i].block];
    if (s->n++ == 0) s->first = i;
    s->total += f->reading[i].value;
  }
  return PW_OK;
}

/* Registers become differences: the use from one read to the next. */
static void take_differences(feed_desk *d, feed_series *s)
{
  feed_reading *r = d->f.reading + s->first;
  if (!s->type || (s->type->behaviour != 1 && s->type->behaviour != 3) || s->n < 1) return;
  for (size_t i = 0; i + 1 < s->n; i++) {
    double length = r[i + 1].start - r[i].start;
    r[i].value = r[i + 1].value - r[i].value;
    r[i].duration = (int32_t)fmin(length, 4e7);
    r[i].quality = r[i + 1].quality;
  }
  s->n--;
}

static pw_status no_overlap(feed_desk *d, const feed_series *s)
{
  const feed_reading *r = d->f.reading + s->first;
  for (size_t i = 0; i + 1 < s->n; i++)
    if (r[i].start + r[i].duration > r[i + 1].start + 1.0)
      return pw_fail_at(d->err, PW_E_DATA, d->f.name, r[i + 1].line, 0,
                        "a reading begins %.0f s before the one before it ends",
                        r[i].start + r[i].duration - r[i + 1].start);
  return PW_OK;
}

/* Values that are kWh under the code of Wh give a house less than a lamp uses. */
static void doubt_unit(feed_desk *d, const feed_series *s)
{
  const feed_reading *r = d->f.reading + s->first;
  double days =
      s->n ? (r[s->n - 1].start + r[s->n - 1].duration - r[0].start) / FEED_DAY_S : 0.0;
  if (d->o->unit || unit_row[s->unit].uom != 72 || !(days > 0.0)) return;
  if (s->total > 0.0 && s->total * s->scale / days < 0.5)
    pw_notes_warn(
        d->notes, d->f.name, line_of(d, s),
        "%.3g kWh a day: the values may be kWh under the code of Wh; --unit kWh takes them so",
        s->total * s->scale / days);
}

static void keep_unit(feed_desk *d, const feed_series *s)
{
  pw_bills_fuel *b = &d->bills.fuel[s->fuel];
  snprintf(b->unit, sizeof b->unit, "%s", unit_row[s->unit].unit);
  b->unit_kwh = pw_bills_unit_kwh(s->fuel, b->unit);
}

static pw_status take_series(feed_desk *d, feed_series *s)
{
  take_differences(d, s);
  pw_status status = no_overlap(d, s);
  if (status != PW_OK) return status;
  feed_find_clock(d, s);
  doubt_unit(d, s);
  keep_unit(d, s);
  return feed_add_readings(d, s);
}

/* Forward flow of each fuel, one meter; what flows back tells of solar cells. */
static pw_status choose_series(feed_desk *d)
{
  int taken[PW_FUEL_COUNT] = {0};
  pw_status status = PW_OK;
  if (d->o->meter > 0 && (size_t)d->o->meter > d->n_series)
    return pw_fail(d->err, PW_E_DOMAIN, "option", "--meter %d: the feed has %zu meter readings",
                   d->o->meter, d->n_series);
  for (size_t k = 0; status == PW_OK && k < d->n_series; k++) {
    feed_series *s = &d->one[k];
    if (s->n == 0 || (d->o->meter && (size_t)d->o->meter != k + 1)) continue;
    status = take_type(d, s);
    if (status != PW_OK) return status;
    if (s->reverse && !d->o->meter) {
      if (s->total != 0.0) d->bills.fuel[s->fuel].solar = 1;
      pw_notes_warn(d->notes, d->f.name, line_of(d, s),
                    "reading %zu flows back to the utility and is not added", k + 1);
      continue;
    }
    if (taken[s->fuel]++)
      return pw_fail_at(
          d->err, PW_E_DATA, d->f.name, line_of(d, s), 0,
          "a second meter reading of %s, which is never added to the first; name one by "
          "--meter 1 to %zu",
          pw_fuel_name(s->fuel), d->n_series);
    status = take_series(d, s);
  }
  return status;
}

/* Summaries of billing periods stand in where there is no reading. */
static pw_status take_summaries(feed_desk *d)
{
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < d->f.n_entry; i++) {
    const feed_entry *e = &d->f.entry[i];
    if (e->kind != FEED_SUMMARY || isnan(e->start) || isnan(e->duration) || isnan(e->value))
      continue;
    feed_series s = {
        .type = e, .point = tie(d, i, FEED_USAGE_POINT, meter_of_point), .entry = i, .n = 1};
    int fuel = fuel_of(&s);
    if (fuel < 0) continue;
    s.fuel = (pw_fuel)fuel;
    status = find_unit(d, &s, e->uom, e->power);
    if (status != PW_OK) return status;
    feed_reading r = {e->start, e->value, (double)NAN, (int32_t)e->duration, 0, e->line, -1};
    feed_reading *kept = d->f.reading;
    d->f.reading = &r;
    feed_find_clock(d, &s);
    d->f.reading = kept;
    keep_unit(d, &s);
    status = feed_add_period(d, &s, &r);
  }
  return status;
}

static int have_bills(const feed_desk *d)
{
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    if (d->bills.fuel[f].n) return 1;
  return 0;
}

static pw_status work(feed_desk *d)
{
  d->meter_of = malloc((d->f.n_entry + 1) * sizeof *d->meter_of);
  if (!d->meter_of) return pw_fail(d->err, PW_E_NOMEM, NULL, "no memory for a usage feed");
  pw_status status = find_series(d);
  if (status == PW_OK) status = sort_readings(d);
  if (status == PW_OK) status = choose_series(d);
  if (status == PW_OK && !have_bills(d)) status = take_summaries(d);
  if (status == PW_OK && !have_bills(d))
    status = pw_fail_at(d->err, PW_E_DATA, d->f.name, 0, 0,
                        "no reading of electricity or gas in the feed");
  if (status == PW_OK && d->by_order)
    pw_notes_warn(d->notes, d->f.name, 0,
                  "links of the feed lead nowhere; its entries were tied by their order");
  return status;
}

int pw_feed_fits(const char *text, size_t size)
{
  size_t i = size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
  while (i < size && strchr(" \t\r\n", text[i]) && text[i])
    i++;
  if (i < size && text[i] == '<') return 1;
  return size > 3 && (memcmp(text, "\xFF\xFE<", 3) == 0 || memcmp(text, "\xFE\xFF\0<", 4) == 0);
}

pw_status pw_feed_parse(const char *name, const char *text, size_t size,
                        const pw_feed_options *options, pw_bills *bills, pw_notes *notes,
                        pw_err *err)
{
  pw_err own = {0};
  feed_desk *d = calloc(1, sizeof *d);
  *bills = (pw_bills){0};
  if (!d) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a usage feed");
  d->o = options;
  d->notes = notes;
  d->err = &own;
  pw_status status = feed_read(name, text, size, &d->f, &own);
  if (status == PW_OK) status = work(d);
  feed_free(&d->f);
  free(d->meter_of);
  if (status == PW_OK)
    *bills = d->bills;
  else
    pw_bills_free(&d->bills);
  if (status != PW_OK && err) *err = own;
  free(d);
  return status;
}

pw_status pw_bills_open(const char *path, const pw_feed_options *options, pw_bills *bills,
                        pw_notes *notes, pw_err *err)
{
  char *text = NULL;
  size_t size = 0;
  *bills = (pw_bills){0};
  pw_status status = pw_input_read(path, PW_INPUT_FEED, &text, &size, err);
  if (status != PW_OK) return status;
  const char *name = strrchr(path, '/');
  name = name ? name + 1 : path;
  if (pw_feed_fits(text, size))
    status = pw_feed_parse(name, text, size, options, bills, notes, err);
  else
    status = pw_bills_parse(name, text, size, bills, notes, err);
  free(text);
  return status;
}
