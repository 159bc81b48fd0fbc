/* panewright year: the year by month, facade and opening. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/year_method.h"
#include "job/job_open.h"
#include "out/json.h"
#include "out/year_out.h"
#include "panewright/nearest.h"

/* The package set beside the existing windows: --package, else that with the lowest bill. */
static pw_status package_of(const cli_args *args, const pw_compare *c, size_t *package,
                            pw_err *err)
{
  const char *name = cli_get(args, "package"), *known[PW_COMPARE_PACKAGES_MAX];
  *package = pw_year_best(c);
  if (!name) return PW_OK;
  for (size_t p = 0; p < c->n_package; p++) {
    known[p] = c->package_set[p].name;
    if (strcmp(name, known[p]) != 0) continue;
    *package = p;
    return PW_OK;
  }
  const char *near = pw_nearest(name, known, c->n_package);
  return pw_fail(
      err, PW_E_DATA, "package", "--package %s: the job has no such package; %s %s%s", name,
      near ? "did you mean" : "the first is", near ? near : known[0], near ? "?" : "");
}

static pw_status print(const pw_compare *c, const pw_compare_frame *frame,
                       const pw_weather *weather, const pw_compare_hours *hours, size_t package,
                       const cli_args *args, pw_err *err)
{
  const pw_unit_set *units = pw_units(args->si);
  const char *dir = cli_get(args, "plots");
  pw_status status = PW_OK;
  if (dir) status = pw_year_pictures(c, hours, weather, package, units, dir, err);
  if (status != PW_OK) return status;
  if (args->format == PW_JSON)
    return pw_json_print(pw_year_json(c, frame, hours, weather), stdout, err);
  if (args->format == PW_CSV) return pw_year_csv(c, stdout, err);
  return pw_year_text(c, frame, package, units, stdout, err);
}

/* The comparison, and the hours where something asks for them. */
static pw_status live(const cli_args *args, const pw_open_job *open, pw_year_method method,
                      pw_compare *c, pw_compare_hours *hours, pw_err *err)
{
  pw_year_workspace *workspace = pw_year_workspace_new();
  if (!workspace) return pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  pw_compare_options options = pw_job_options(open, method);
  pw_status status = pw_compare_run(&open->job, open->weather, &options, workspace, c, err);
  int wanted = cli_get(args, "plots") || args->format == PW_JSON;
  if (status == PW_OK && wanted && method != PW_YEAR_QUICK)
    status = pw_compare_hours_run(c, open->weather, method, workspace, hours, err);
  pw_year_workspace_free(workspace);
  return status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_open_job open = {0};
  pw_compare_hours hours = {0};
  pw_year_method method = PW_YEAR_DETAILED;
  size_t package = 0;
  pw_compare *c = calloc(1, sizeof *c);
  pw_status status = c ? PW_OK : pw_fail(&err, PW_E_NOMEM, NULL, "out of memory");
  if (status == PW_OK) status = cli_year_method(args, &method, &err);
  if (status == PW_OK && method == PW_YEAR_QUICK && cli_get(args, "plots"))
    status = pw_fail(&err, PW_E_DOMAIN, "option",
                     "--plots shows hours, which --method monthly has not: want detailed or "
                     "simple");
  if (status == PW_OK) status = pw_job_open(args->word[0], &open, &err);
  if (status == PW_OK) status = live(args, &open, method, c, &hours, &err);
  if (status == PW_OK) status = package_of(args, c, &package, &err);
  if (status == PW_OK) {
    pw_compare_frame frame = {.climate_line = open.climate_line,
                              .method = cli_year_word(method),
                              .notes = &open.notes};
    status = print(c, &frame, open.weather, &hours, package, args, &err);
  }
  pw_compare_hours_free(&hours);
  pw_compare_free(c);
  free(c);
  pw_job_close(&open);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"plots", "DIR", "write the pictures there, as SVG and PNG"},
    {"package", "NAME", "set this one beside the existing windows (that with the lowest bill)"},
    CLI_METHOD,
    {"quick", NULL, "as --method monthly"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_END};
extern const cli_command cli_year;
const cli_command cli_year = {
    "year",
    "JOB",
    "the year by month, facade and opening: need, peaks, comfort, hour by hour",
    "JOB is a job folder (panewright new makes one). JSON holds every package, the coldest "
    "and\n"
    "the hottest day hour by hour, and the saving day by day.",
    option,
    1,
    1,
    run};
