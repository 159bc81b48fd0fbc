/* panewright compare: the main job. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/progress.h"
#include "cli/year_method.h"
#include "job/job_open.h"
#include "job/program_file.h"
#include "out/compare_out.h"
#include "out/json.h"
#include "out/range_out.h"
#include "panewright/range_run.h"

static pw_status print(const pw_compare *c, const pw_weather *weather,
                       const pw_compare_frame *frame, const cli_args *args, pw_err *err)
{
  const pw_unit_set *units = pw_units(args->si);
  const char *dir = cli_get(args, "plots");
  pw_status status = PW_OK;
  if (dir) status = pw_compare_pictures(c, frame->range, units, dir, err);
  if (status != PW_OK) return status;
  const char *explain = cli_get(args, "explain");
  if (explain) return pw_explain_text(c, weather, frame->range, explain, stdout, err);
  if (args->format == PW_JSON) return pw_json_print(pw_compare_json(c, frame), stdout, err);
  if (args->format == PW_CSV) return pw_compare_csv(c, stdout, err);
  return pw_compare_text(c, frame, units, stdout, err);
}

/* Draws, seed, threads and what the saving should beat, as the options say. */
static pw_status range_options(const cli_args *args, pw_range_options *o, pw_err *err)
{
  double draws = PW_RANGE_DRAWS, seed = 1.0, threads = 1.0, beat = 0.0;
  long cores = sysconf(_SC_NPROCESSORS_ONLN);
  if (cores > 1) threads = (double)(cores < PW_THREADS_MAX ? cores : PW_THREADS_MAX);
  pw_status status = cli_number(args, "draws", 64.0, 65536.0, &draws, err);
  if (status == PW_OK) status = cli_number(args, "seed", 0.0, 9007199254740992.0, &seed, err);
  if (status == PW_OK) status = cli_number(args, "threads", 1.0, PW_THREADS_MAX, &threads, err);
  if (status == PW_OK) status = cli_number(args, "beat", 0.0, 1e7, &beat, err);
  const double whole[] = {draws, seed, threads};
  static const char *const name[] = {"draws", "seed", "threads"};
  for (size_t i = 0; status == PW_OK && i < 3; i++)
    if (floor(whole[i]) != whole[i])
      status = pw_fail(err, PW_E_DOMAIN, "option", "--%s %s: want a whole number", name[i],
                       cli_get(args, name[i]));
  if (status != PW_OK) return status;
  *o = (pw_range_options){.n_draw = (size_t)draws,
                          .seed = (uint64_t)seed,
                          .n_thread = (int)threads,
                          .method = cli_get(args, "full") ? PW_RANGE_FULL : PW_RANGE_AUTO,
                          .beat = beat};
  return PW_OK;
}

/* --range: how sure the figures are. Without it no range is made and *range stays as it is. */
static pw_status find_range(const cli_args *args, const pw_compare *c,
                            const pw_weather *weather, pw_year_method method, pw_range *range,
                            pw_err *err)
{
  pw_range_options options;
  cli_progress bar;
  pw_status status = range_options(args, &options, err);
  if (status != PW_OK) return status;
  cli_progress_begin(&bar, "years");
  options.progress = cli_progress_step;
  options.progress_context = &bar;
  status = pw_range_of(c, weather, method, &options, range, err);
  cli_progress_end(&bar);
  return status;
}

/* --program: rebates of each package by its label, taken off the prices. */
static pw_status find_rebates(const cli_args *args, pw_compare *c, pw_program *program,
                              pw_notes *notes, pw_rebate rebate[], pw_err *err)
{
  const char *file = cli_get(args, "program"), *zone = cli_get(args, "zone");
  pw_status status = pw_program_read(file, program, notes, err);
  for (size_t p = 0; status == PW_OK && p < c->n_package; p++) {
    status = pw_rebate_of(c, p, program, zone ? zone : "", &rebate[p], err);
    if (status == PW_OK) status = pw_rebate_apply(c, p, &rebate[p], err);
  }
  return status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_open_job open = {0};
  pw_year_method method = PW_YEAR_DETAILED;
  pw_compare *c = calloc(1, sizeof *c);
  pw_range *range = calloc(1, sizeof *range);
  pw_rebate *rebate = calloc(PW_COMPARE_PACKAGES_MAX, sizeof *rebate);
  pw_program program = {0};
  pw_status status =
      c && range && rebate ? PW_OK : pw_fail(&err, PW_E_NOMEM, NULL, "out of memory");
  if (status == PW_OK) status = cli_year_method(args, &method, &err);
  if (status == PW_OK) status = pw_job_open(args->word[0], &open, &err);
  if (status == PW_OK) {
    pw_compare_options options = pw_job_options(&open, method);
    status = pw_compare_run(&open.job, open.weather, &options, NULL, c, &err);
  }
  if (status == PW_OK && cli_get(args, "program"))
    status = find_rebates(args, c, &program, &open.notes, rebate, &err);
  if (status == PW_OK && cli_get(args, "range"))
    status = find_range(args, c, open.weather, method, range, &err);
  if (status == PW_OK) {
    pw_compare_frame frame = {open.climate_line,
                              cli_year_word(method),
                              &open.notes,
                              range->n_draw ? range : NULL,
                              cli_get(args, "program") ? rebate : NULL,
                              cli_get(args, "all") != NULL};
    status = print(c, open.weather, &frame, args, &err);
  }
  pw_compare_free(c);
  free(c);
  free(range);
  free(rebate);
  pw_program_free(&program);
  pw_job_close(&open);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"plots", "DIR", "write the pictures there, as SVG and PNG"},
    CLI_METHOD,
    {"range", NULL, "how sure: low, typical and high of the figures, and what drives them"},
    {"draws", "N", "draws of the range (2048)"},
    {"seed", "S", "seed of the draws (1); printed with them"},
    {"threads", "N",
     "threads of the range (all cores); the figures are the same for any number"},
    {"full", NULL, "a house year for every draw, instead of a surface fitted to 96 of them"},
    {"beat", "DOLLARS", "with --range: the chance that a saving is above that, a year"},
    {"program", "FILE",
     "take the rebate of a program file off the prices, by the label values"},
    {"zone", "ZONE", "climate zone of the program, when it has several"},
    {"explain", "FIGURE",
     "print the chain of a figure: u, shgc, heating, cooling, bill, saving, payback, worth"},
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
