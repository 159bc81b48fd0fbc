/* panewright house: a year in a house that is written down layer by layer, by all three methods. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "job/climate_file.h"
#include "out/house_out.h"

typedef struct desk {
  pw_weather weather;
  pw_climate_report report;
  pw_house_file file;
  pw_year_result year[PW_HOUSE_METHODS];
} desk;

/* "std140/600" is compiled in; anything else is a path. */
static pw_status open_house(const char *name, pw_house_file *file, pw_err *err)
{
  pw_status s = pw_house_file_read(name, file, err);
  if (s != PW_E_MISSING) return s;
  pw_err second = {0};
  return pw_house_file_builtin(name, file, &second) == PW_OK ? PW_OK : s;
}

static pw_status live(desk *d, const cli_args *args, pw_err *err)
{
  double steps = 1.0;
  const char *climate = cli_get(args, "climate");
  pw_status s = cli_number(args, "steps", 1.0, 12.0, &steps, err);
  if (s == PW_OK && steps != floor(steps))
    s = pw_fail(err, PW_E_DOMAIN, "option", "--steps %g: want a whole number", steps);
  if (s == PW_OK) s = open_house(args->word[0], &d->file, err);
  if (s == PW_OK)
    s = cli_ask(
        "climate",
        pw_climate_get(climate ? climate : "Denver", NULL, &d->weather, &d->report, NULL, err),
        err);
  pw_year_workspace *kept = s == PW_OK ? pw_year_workspace_new() : NULL;
  if (s == PW_OK && !kept) s = pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year");
  for (int m = 0; s == PW_OK && m < PW_HOUSE_METHODS; m++) {
    pw_year_options o = {.method = (pw_year_method)m, .steps_per_hour = (int)steps};
    s = pw_year_run(&d->file.house, &d->weather, d->file.window, d->file.n_window, &o, kept,
                    &d->year[m], err);
  }
  pw_year_workspace_free(kept);
  return s;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  desk *d = calloc(1, sizeof *d);
  if (!d) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory for a year");
    return cli_fail(&err);
  }
  pw_status s = live(d, args, &err);
  const pw_house_told told = {&d->file, &d->weather, d->year};
  if (s == PW_OK) s = pw_house_print(&told, args->format, args->si, stdout, &err);
  free(d);
  if (s == PW_E_DOMAIN && err.field && strcmp(err.field, "option") == 0) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  return s == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"climate", "FILE|PLACE", "hourly file, or a built-in place (Denver)"},
    {"steps", "N", "steps an hour of the detailed method, 1 to 12 (1)"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_END};
extern const cli_command cli_house;
const cli_command cli_house = {
    "house",
    "FILE",
    "a year in a house written down layer by layer, by three methods",
    "FILE is a house in CSV (item, of, value, how_known, note); examples/std140 has the cases "
    "of\n"
    "Standard 140, also compiled in as std140/600 and so on. Heating and cooling are the "
    "sensible\n"
    "need of the zone; equipment is not in it.",
    option,
    1,
    1,
    run};
