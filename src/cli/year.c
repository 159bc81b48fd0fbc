/* panewright year: the year by month, facade and opening. */
#include <stdio.h>

#include "cli/command.h"
#include "cli/job_run.h"
#include "cli/job_view.h"
#include "cli/package_choice.h"
#include "cli/year_method.h"
#include "out/json.h"
#include "out/year_out.h"

static pw_status print(const cli_job *job, const pw_compare_hours *hours, size_t package,
                       const cli_args *args, pw_err *err)
{
  const pw_unit_set *units = pw_units(args->si);
  const pw_compare *c = job->compare;
  const char *dir = cli_get(args, "plots");
  pw_status status = PW_OK;
  if (dir) status = pw_year_pictures(c, hours, job->open.weather, package, units, dir, err);
  if (status != PW_OK) return status;
  if (args->format == PW_JSON)
    return pw_json_print(pw_year_json(c, &job->frame, hours, job->open.weather), stdout, err);
  if (args->format == PW_CSV) return pw_year_csv(c, stdout, err);
  return pw_year_text(c, &job->frame, package, units, stdout, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  cli_job job = {0};
  pw_compare_hours hours = {0};
  pw_year_method method = PW_YEAR_DETAILED;
  size_t package = 0;
  int plots = cli_get(args, "plots") != NULL;
  pw_status status = cli_year_method(args, &method, &err);
  int hourly = method != PW_YEAR_QUICK;
  if (status == PW_OK && plots && !hourly)
    status = pw_fail(&err, PW_E_DOMAIN, "option",
                     "--plots shows hours, which --method monthly has not: want detailed or "
                     "simple");
  if (status == PW_OK) status = cli_job_run(args, method, &job, &err);
  if (status == PW_OK)
    status = cli_package(args, &job.open.job, pw_year_best(job.compare), &package, &err);
  if (status == PW_OK && hourly && (plots || args->format == PW_JSON))
    status = pw_compare_hours_run(job.compare, job.open.weather, method, NULL, &hours, &err);
  if (status == PW_OK) status = print(&job, &hours, package, args, &err);
  pw_compare_hours_free(&hours);
  cli_job_free(&job);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"plots", "DIR", "write the pictures there, as SVG and PNG"},
    {"package", "NAME", "set this one beside the existing windows (that with the lowest bill)"},
    CLI_DWELLING,
    CLI_PHASE,
    CLI_EARLIER,
    CLI_METHOD,
    {"quick", NULL, "as --method monthly"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
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
