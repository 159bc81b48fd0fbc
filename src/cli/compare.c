/* panewright compare: the main job. */
#include <string.h>

#include "cli/job_run.h"
#include "cli/job_view.h"
#include "cli/year_method.h"
#include "out/compare_sound_out.h"
#include "out/json.h"
#include "out/range_out.h"

/* JSON carries each window's year by itself, too. */
static pw_status print_json(const pw_compare *c, const pw_weather *weather,
                            const pw_compare_frame *frame, pw_err *err)
{
  pw_compare_frame with = *frame;
  pw_alone_place *place = NULL;
  pw_status status = pw_alone_place_new(weather, PW_ALONE_HOURLY, &place, err);
  with.alone = place;
  if (status == PW_OK) status = pw_json_print(pw_compare_json(c, &with), stdout, err);
  pw_alone_place_free(place);
  return status;
}

static pw_status print(const pw_compare *c, const pw_weather *weather,
                       const pw_compare_frame *frame, const cli_args *args, pw_err *err)
{
  const pw_unit_set *units = pw_units(args->si);
  const char *dir = cli_get(args, "plots");
  pw_status status = PW_OK;
  if (dir) status = pw_compare_pictures(c, frame->range, units, dir, err);
  if (dir && status == PW_OK) status = pw_compare_sound_picture(c, frame->sound, dir, err);
  if (status != PW_OK) return status;
  const char *explain = cli_get(args, "explain");
  if (explain && strcmp(explain, "sound") == 0)
    return pw_compare_sound_explain(c, frame->sound, stdout, err);
  if (explain) return pw_explain_text(c, weather, frame->range, explain, units, stdout, err);
  if (args->format == PW_JSON) return print_json(c, weather, frame, err);
  if (args->format == PW_CSV) return pw_compare_csv(c, stdout, err);
  return pw_compare_text(c, frame, units, stdout, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  cli_job job = {0};
  pw_year_method method = PW_YEAR_DETAILED;
  pw_status status = cli_year_method(args, &method, &err);
  if (status == PW_OK) status = cli_job_run(args, method, &job, &err);
  if (status == PW_OK) status = cli_job_sound(&job, &err);
  if (status == PW_OK) status = cli_job_phases(&job, &err);
  if (status == PW_OK) status = cli_job_rebates(args, &job, &err);
  if (status == PW_OK && cli_get(args, "range")) status = cli_job_range(args, &job, &err);
  if (status == PW_OK) {
    job.frame.all = cli_get(args, "all") != NULL;
    status = print(job.compare, job.open.weather, &job.frame, args, &err);
  }
  cli_job_free(&job);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"plots", "DIR", "write the pictures there, as SVG and PNG"},
    CLI_METHOD,
    {"range", NULL, "how sure: low, typical and high of the figures, and what drives them"},
    CLI_DRAWS,
    CLI_SEED,
    CLI_THREADS,
    {"full", NULL, "a house year for every draw, instead of a surface fitted to 96 of them"},
    {"beat", "DOLLARS", "with --range: the chance that a saving is above that, a year"},
    CLI_PHASE,
    CLI_EARLIER,
    CLI_PROGRAM,
    CLI_ZONE,
    {"explain", "FIGURE",
     "print the chain of a figure: u, shgc, heating, cooling, bill, saving, payback, worth, "
     "sound"},
    {"all", NULL, "print the cautions that hold for every such job, too"},
    {"quick", NULL, "as --method monthly"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
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
