/* panewright bills: what a house's own utility bills say about it. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "job/bills_file.h"
#include "job/climate_file.h"
#include "job/daily_file.h"
#include "job/usage_feed.h"
#include "out/bills_out.h"
#include "panewright/rates.h"

typedef struct desk {
  pw_bills bills;
  pw_notes notes;
  pw_daily weather, normal_days;
  pw_normal_set normal;
  int has_normal;
  pw_bills_report report;
} desk;

static pw_status zone_of(const cli_args *args, double *zone, pw_err *err)
{
  *zone = (double)NAN;
  return cli_number(args, "zone", -13.0, 14.0, zone, err);
}

static pw_status read_weather(const cli_args *args, double zone, desk *d, pw_err *err)
{
  const char *path = cli_get(args, "weather"), *kind = "";
  char from[11], to[11];
  if (!path) return PW_OK;
  pw_status status = pw_daily_read(path, zone, &d->weather, NULL, &kind, err);
  if (status != PW_OK) return status;
  if (d->weather.typical)
    return pw_fail(
        err, PW_E_DATA, "weather",
        "%.150s: a typical year has no days of the bills; want the weather of their very "
        "months, by date",
        path);
  pw_bill_day(d->weather.first, from);
  pw_bill_day(d->weather.first + (int)d->weather.n - 1, to);
  snprintf(d->report.weather, sizeof d->report.weather, "%s, %s to %s", kind, from, to);
  d->report.has_weather = 1;
  return PW_OK;
}

/* The normal year: a file, a place, or the years of the weather itself. */
static pw_status read_normal(const cli_args *args, double zone, desk *d, pw_err *err)
{
  const char *given = cli_get(args, "normal"), *kind = "";
  char *said = d->report.normal;
  size_t room = sizeof d->report.normal;
  if (!given && !d->report.has_weather) return PW_OK;
  pw_status status = PW_OK;
  const pw_daily *days = &d->weather;
  if (given) {
    pw_err why = {0};
    pw_place_hit hit = {.zone = ""};
    days = &d->normal_days;
    status = pw_daily_read(given, zone, &d->normal_days, NULL, &kind, &why);
    if (status == PW_E_MISSING && !strpbrk(given, "/.")) {
      pw_weather *w = malloc(sizeof *w);
      if (!w) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year of weather");
      status = pw_climate_get(given, NULL, w, NULL, &hit, &why);
      if (status == PW_OK) status = pw_daily_of_weather(w, &d->normal_days, &why);
      if (status == PW_OK) snprintf(said, room, "%.100s, made from monthly normals", w->source);
      free(w);
    }
    if (status != PW_OK) {
      if (err) *err = why;
      return status;
    }
  }
  pw_err why = {0};
  status = pw_normal_set_of(days, &d->normal, &why);
  if (status != PW_OK) {
    if (given || status != PW_E_DATA) {
      if (err) *err = why;
      return status;
    }
    pw_notes_warn(&d->notes, "weather", 0, "no normal year: %.120s; give one by --normal",
                  why.text);
    return PW_OK;
  }
  d->has_normal = 1;
  if (said[0]) return PW_OK;
  if (!given)
    snprintf(said, room, "none given: the mean of the weather's own years %d to %d",
             d->normal.year_first, d->normal.year_last);
  else if (days->typical)
    snprintf(said, room, "typical year, %s", kind);
  else
    snprintf(said, room, "%s, mean of %d to %d", kind, d->normal.year_first,
             d->normal.year_last);
  return PW_OK;
}

static pw_status work(const cli_args *args, desk *d, pw_err *err)
{
  double zone;
  const char *from = cli_get(args, "moved");
  int moved = PW_BILL_NO_DAY;
  pw_status status = zone_of(args, &zone, err);
  if (status == PW_OK && from) status = cli_day("moved", from, &moved, err);
  if (status == PW_OK) status = read_weather(args, zone, d, err);
  if (status == PW_OK) status = read_normal(args, zone, d, err);
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++) {
    const pw_bills_fuel *b = &d->bills.fuel[f];
    if (b->n)
      status =
          pw_meter_use_of((pw_fuel)f, b->row, b->n, d->report.has_weather ? &d->weather : NULL,
                          d->has_normal ? &d->normal : NULL, moved, &d->report.use[f], err);
    /* What came in from the utility is not what the house used. */
    if (b->n && b->solar) d->report.use[f].refused = PW_BILL_REFUSED_SOLAR;
  }
  return status;
}

/* kWh that the bills of a fuel sum to. */
static double size_of(const desk *d, int fuel)
{
  double sum = 0.0;
  for (size_t i = 0; i < d->report.use[fuel].n_period; i++)
    sum += d->report.use[fuel].period[i].bill.use * d->bills.fuel[fuel].unit_kwh;
  return sum;
}

static pw_status draw(const cli_args *args, const desk *d, pw_err *err)
{
  const char *word = cli_get(args, "fuel");
  int fuel = -1;
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    if (word ? strcmp(word, pw_fuel_name((pw_fuel)f)) == 0
             : d->bills.fuel[f].n && (fuel < 0 || size_of(d, f) > size_of(d, fuel)))
      fuel = f;
  }
  if (fuel < 0)
    return pw_fail(err, PW_E_DOMAIN, "option",
                   "--fuel %.30s: want electricity, gas, oil or propane", word ? word : "");
  return pw_bills_picture(&d->report, pw_units(args->si), (pw_fuel)fuel, cli_get(args, "plot"),
                          err);
}

static pw_status print(const cli_args *args, const desk *d, pw_err *err)
{
  if (args->format == PW_JSON) return pw_bills_json(&d->report, stdout, err);
  if (args->format == PW_CSV) return pw_bills_csv(&d->report, stdout, err);
  return pw_bills_text(&d->report, pw_units(args->si), stdout, err);
}

/* The list is for other programs, so what was taken for granted goes to standard error. */
static void say_notes(const pw_notes *notes)
{
  for (size_t i = 0; i < notes->n; i++) {
    char line[400];
    pw_notes_line(&notes->note[i], line, sizeof line);
    fprintf(stderr, "panewright bills: %s\n", line);
  }
}

static void close_desk(desk *d)
{
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    pw_meter_use_free(&d->report.use[f]);
  pw_bills_free(&d->bills);
  pw_notes_free(&d->notes);
  pw_daily_free(&d->weather);
  pw_daily_free(&d->normal_days);
  pw_normal_set_free(&d->normal);
  free(d);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  desk *d = calloc(1, sizeof *d);
  if (!d) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory");
    return cli_fail(&err);
  }
  d->report.bills = &d->bills;
  d->report.notes = &d->notes;
  pw_feed_options feed = {(double)NAN, cli_get(args, "unit"), 0};
  double meter = 0.0;
  pw_status status = zone_of(args, &feed.zone_h, &err);
  if (status == PW_OK) status = cli_number(args, "meter", 1.0, 64.0, &meter, &err);
  feed.meter = (int)meter;
  if (status == PW_OK) status = pw_bills_open(args->word[0], &feed, &d->bills, &d->notes, &err);
  if (status == PW_OK && cli_get(args, "list")) {
    say_notes(&d->notes);
    status = pw_bills_list(&d->bills, stdout, &err);
  } else if (status == PW_OK) {
    status = work(args, d, &err);
    if (status == PW_OK && cli_get(args, "plot")) status = draw(args, d, &err);
    if (status == PW_OK) status = print(args, d, &err);
  }
  close_desk(d);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"weather", "FILE,...", "daily means of the bills' very days"},
    {"normal", "FILE|PLACE", "normal year that use is told for (the weather's own years)"},
    {"moved", "DATE", "day from which the house is as it is; earlier bills are left out"},
    {"zone", "H", "local standard time less UTC, of hours in UTC and of feeds that do not say"},
    {"unit", "UNIT", "unit of a usage feed that says none or a wrong one"},
    {"meter", "N", "which of a feed's meter readings, from 1"},
    {"plot", "FILE", "picture of the bills and the model by month, .svg, .png or .pdf"},
    {"fuel", "FUEL", "of which fuel the picture is (the one that uses most)"},
    {"list", NULL, "print the bills as rows of bills.csv and do no more"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_bills;
const cli_command cli_bills = {
    "bills",
    "BILLS",
    "use of a normal year from a house's own utility bills",
    "BILLS.csv: fuel,from,to,amount,unit,cost,read with a bill a row; `from` counts, `to` does "
    "not;\n"
    "read is actual, estimated, missing or corrected. Deliveries of oil and propane need no "
    "`from`.\n"
    "A utility's usage feed (NAESB ESPI, XML) is read as it is; --list prints it as rows of "
    "bills.csv.\n"
    "Weather: date,t_mean_c; GHCN-Daily; ISD-Lite; an NSRDB or PVGIS year. Normal year: "
    "day,t_mean_c,\n"
    "one of these, or a built-in place.\n"
    "For each fuel: base, heating, cooling terms with their balance points, use of the normal "
    "year with\n"
    "its standard error, what is odd in the bills, or why they cannot be used.",
    option,
    1,
    1,
    run};
