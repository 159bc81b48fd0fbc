/* panewright compare: the main job. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "job/job_open.h"
#include "out/compare_out.h"
#include "out/json.h"

static const char *const method_word[] = {"hour by hour: heat balance of every surface",
                                          "hour by hour: one mass node (ISO 13790)",
                                          "month by month: utilisation factors (ISO 13790)"};

static pw_status method_of(const cli_args *args, pw_year_method *method, pw_err *err)
{
  const char *word = cli_get(args, "method");
  *method = PW_YEAR_DETAILED;
  if (cli_get(args, "quick")) *method = PW_YEAR_QUICK;
  if (!word) return PW_OK;
  if (strcmp(word, "simple") == 0)
    *method = PW_YEAR_SIMPLE;
  else if (strcmp(word, "monthly") == 0)
    *method = PW_YEAR_QUICK;
  else if (strcmp(word, "detailed") != 0)
    return pw_fail(err, PW_E_DATA, "method", "--method %s: want detailed, simple or monthly",
                   word);
  return PW_OK;
}

static pw_status print(const pw_compare *c, const pw_compare_frame *frame, const cli_args *args,
                       pw_err *err)
{
  const pw_unit_set *units = pw_units(args->si);
  const char *dir = cli_get(args, "plots");
  pw_status status = PW_OK;
  if (dir) status = pw_compare_pictures(c, units, dir, err);
  if (status != PW_OK) return status;
  if (args->format == PW_JSON) return pw_json_print(pw_compare_json(c, frame), stdout, err);
  if (args->format == PW_CSV) return pw_compare_csv(c, stdout, err);
  return pw_compare_text(c, frame, units, stdout, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_open_job open = {0};
  pw_year_method method = PW_YEAR_DETAILED;
  pw_compare *c = calloc(1, sizeof *c);
  pw_status status = c ? PW_OK : pw_fail(&err, PW_E_NOMEM, NULL, "out of memory");
  if (status == PW_OK) status = method_of(args, &method, &err);
  if (status == PW_OK) status = pw_job_open(args->word[0], &open, &err);
  if (status == PW_OK) {
    pw_compare_options options = pw_job_options(&open, method);
    status = pw_compare_run(&open.job, open.weather, &options, NULL, c, &err);
  }
  if (status == PW_OK) {
    pw_compare_frame frame = {open.climate_line, method_word[method], &open.notes,
                              cli_get(args, "all") != NULL};
    status = print(c, &frame, args, &err);
  }
  pw_compare_free(c);
  free(c);
  pw_job_close(&open);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"plots", "DIR", "write the pictures there, as SVG and PNG"},
    {"method", "WORD", "detailed (hour by hour), simple or monthly"},
    {"all", NULL, "print the cautions that hold for every such job, too"},
    {"quick", NULL, "as --method monthly"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_END};
extern const cli_command cli_compare;
const cli_command cli_compare = {
    "compare",
    "JOB",
    "the existing windows beside each package: heat, sun, light, year, bill",
    "JOB is a job folder (panewright new makes one). Both windows are rated over the same "
    "opening,\n"
    "the retained frame included. Nothing printed is a certified rating.",
    option,
    1,
    1,
    run};
