/* panewright after: what the windows saved, by the bills, beside what was promised. */
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/job_view.h"
#include "out/after_out.h"

/* --work DAY or DAY,DAY. */
static pw_status work_of(const cli_args *args, pw_work *work, pw_err *err)
{
  const char *text = cli_get(args, "work"), *comma = text ? strchr(text, ',') : NULL;
  char first[40];
  work->from = work->to = PW_BILL_NO_DAY;
  if (!text) return PW_OK;
  snprintf(first, sizeof first, "%.*s", (int)(comma ? comma - text : 39), text);
  pw_status status = cli_day("work", first, &work->from, err);
  work->to = work->from;
  if (status == PW_OK && comma) status = cli_day("work", comma + 1, &work->to, err);
  if (status == PW_OK && work->to < work->from)
    status = pw_fail(err, PW_E_DOMAIN, "option", "--work %.40s: ends before it begins", text);
  return status;
}

static pw_status ask(const cli_args *args, pw_after_asked *asked, pw_err *err)
{
  static const char *const of_one[] = {"work", "moved", "weather", "group"};
  *asked = (pw_after_asked){.dwelling = cli_get(args, "dwelling"),
                            .package = cli_get(args, "package"),
                            .weather = cli_get(args, "weather"),
                            .normal = cli_get(args, "normal"),
                            .group = cli_get(args, "group"),
                            .moved = PW_BILL_NO_DAY};
  for (size_t i = 0; args->n_word > 1 && i < sizeof of_one / sizeof of_one[0]; i++)
    if (cli_get(args, of_one[i]))
      return pw_fail(err, PW_E_DOMAIN, "option", "--%s is of one job", of_one[i]);
  pw_status status = work_of(args, &asked->work, err);
  const char *moved = cli_get(args, "moved");
  return status == PW_OK && moved ? cli_day("moved", moved, &asked->moved, err) : status;
}

static pw_status print(const cli_args *args, const pw_after_house house[], size_t n,
                       pw_err *err)
{
  if (cli_get(args, "explain")) return pw_after_explain(house, n, stdout, err);
  if (args->format == PW_JSON) return pw_after_json(house, n, stdout, err);
  if (args->format == PW_CSV) return pw_after_csv(house, n, stdout, err);
  return pw_after_text(house, n, stdout, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_after_asked asked;
  size_t n = (size_t)args->n_word, done = 0;
  pw_after_house *house = calloc(n, sizeof *house);
  pw_status status =
      house ? ask(args, &asked, &err) : pw_fail(&err, PW_E_NOMEM, NULL, "no memory");
  for (; status == PW_OK && done < n; done++)
    status = pw_after_of_job(args->word[done], &asked, &house[done], &err);
  if (status == PW_OK && cli_get(args, "plot"))
    status = pw_after_picture(house, n, cli_get(args, "plot"), &err);
  if (status == PW_OK) status = print(args, house, n, &err);
  for (size_t i = 0; house && i < done; i++)
    pw_after_house_free(&house[i]);
  free(house);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"work", "DAY[,DAY]", "first and last day of the work (install_date of job.csv)"},
    {"package", "NAME",
     "the package that was built in (item installed of job.csv, or the only one)"},
    {"weather", "FILE,...",
     "daily means of the bills' very days (bills_weather.csv of the job)"},
    {"normal", "FILE", "daily means of the normal year (the job's climate)"},
    {"group", "FILE,...",
     "bills of neighbours without the work: how their use went in the same time"},
    {"moved", "DATE", "day from which the house is as it is; earlier bills are left out"},
    {"plot", "FILE", "picture, .svg, .png or .pdf: before and after, promised and measured"},
    {"explain", NULL, "how each figure was made, with its numbers"},
    CLI_DWELLING,
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_after;
const cli_command cli_after = {
    "after",
    "JOB...",
    "what the windows saved by the bills, beside what was promised",
    "JOB holds bills.csv with bills from before and after the work, bills_weather.csv with the "
    "daily\n"
    "means of their days, and promise.csv as `compare --range --keep` and `papers` wrote it. "
    "The saving\n"
    "is of a normal year, with its error; bills that cannot tell it are refused with the "
    "reason. Over\n"
    "several jobs: the firm's own record, promised beside measured, those left out counted.",
    option,
    1,
    CLI_WORDS_MAX,
    run};
