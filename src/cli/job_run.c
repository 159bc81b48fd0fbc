#include "cli/job_run.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/job_view.h"
#include "cli/progress.h"
#include "cli/year_method.h"
#include "job/bills_of_job.h"
#include "job/program_file.h"
#include "study/range_run.h"

void cli_tell_unknown(const pw_notes *notes)
{
  char line[512];
  for (size_t i = 0; i < notes->n; i++) {
    if (notes->note[i].kind != PW_NOTE_UNKNOWN) continue;
    pw_notes_line(&notes->note[i], line, sizeof line);
    fprintf(stderr, "panewright: %s\n", line);
  }
}

static pw_compare_options options_of(const cli_job *j)
{
  pw_compare_options options = pw_job_options(&j->open, j->method);
  options.lanes = j->lanes;
  return options;
}

static pw_status start(const cli_args *args, const char *dwelling, int tell,
                       const unsigned char left_out[], pw_year_method method, cli_job *j,
                       pw_err *err)
{
  memset(j, 0, sizeof *j);
  j->method = method;
  j->compare = calloc(1, sizeof *j->compare);
  pw_status status = j->compare ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  if (status == PW_OK) status = cli_lanes(args, &j->lanes, err);
  if (status == PW_OK) status = pw_job_open_dwelling(args->word[0], dwelling, &j->open, err);
  if (status == PW_OK && tell) cli_tell_unknown(&j->open.notes);
  if (status == PW_OK) status = cli_job_view(args, cli_get(args, "package"), &j->open.job, err);
  for (size_t i = 0; status == PW_OK && left_out && i < j->open.job.n_opening; i++)
    if (left_out[i]) j->open.job.opening[i].standing = PW_STAYS;
  if (status == PW_OK) {
    const pw_compare_options options = options_of(j);
    status = pw_compare_run(&j->open.job, j->open.weather, &options, NULL, j->compare, err);
  }
  j->frame = (pw_compare_frame){
      .climate = j->open.climate, .method = cli_year_word(method), .notes = &j->open.notes};
  if (status != PW_OK) cli_job_free(j);
  return status;
}

pw_status cli_job_run_dwelling(const cli_args *args, const char *dwelling, int tell,
                               pw_year_method method, cli_job *j, pw_err *err)
{
  return start(args, dwelling, tell, NULL, method, j, err);
}

pw_status cli_job_run_without(const cli_args *args, const unsigned char left_out[],
                              pw_year_method method, cli_job *j, pw_err *err)
{
  return start(args, cli_get(args, "dwelling"), 0, left_out, method, j, err);
}

pw_status cli_job_run(const cli_args *args, pw_year_method method, cli_job *j, pw_err *err)
{
  return cli_job_run_dwelling(args, cli_get(args, "dwelling"), 1, method, j, err);
}

static pw_status sound(cli_job *j, pw_err *err)
{
  j->sound = calloc(1, sizeof *j->sound);
  if (!j->sound) return pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  pw_status status = pw_compare_sound_of(j->compare, j->sound, err);
  if (status == PW_OK) j->frame.sound = j->sound;
  return status;
}

static pw_status phases(cli_job *j, pw_err *err)
{
  const pw_compare_options options = options_of(j);
  j->phases = calloc(1, sizeof *j->phases);
  if (!j->phases) return pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  pw_status status =
      pw_compare_phases_of(j->compare, j->open.weather, &options, NULL, j->phases, err);
  if (status == PW_OK) j->frame.phases = j->phases;
  return status;
}

static pw_status airing(cli_job *j, pw_err *err)
{
  const pw_compare_options options = options_of(j);
  j->airing = calloc(1, sizeof *j->airing);
  if (!j->airing) return pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  pw_status status =
      pw_compare_airing_of(j->compare, j->open.weather, &options, NULL, j->airing, err);
  if (status == PW_OK) j->frame.airing = j->airing;
  return status;
}

static pw_status tight(cli_job *j, pw_err *err)
{
  const pw_compare_options options = options_of(j);
  j->tight = calloc(1, sizeof *j->tight);
  if (!j->tight) return pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  pw_status status =
      pw_compare_tight_of(j->compare, j->open.weather, &options, NULL, j->tight, err);
  if (status == PW_OK) j->frame.tight = j->tight;
  return status;
}

pw_status cli_job_parts(const cli_args *args, cli_job *j, pw_err *err)
{
  pw_status status = sound(j, err);
  if (status == PW_OK) status = phases(j, err);
  if (status == PW_OK) status = airing(j, err);
  if (status == PW_OK) status = tight(j, err);
  return status == PW_OK ? cli_job_rebates(args, j, err) : status;
}

void cli_job_free(cli_job *j)
{
  pw_compare_free(j->compare);
  free(j->compare);
  pw_compare_sound_free(j->sound);
  free(j->sound);
  free(j->range);
  free(j->phases);
  free(j->tight);
  free(j->airing);
  free(j->rebate);
  pw_program_free(&j->program);
  pw_job_close(&j->open);
  memset(j, 0, sizeof *j);
}

pw_status cli_job_rebates(const cli_args *args, cli_job *j, pw_err *err)
{
  const char *file = cli_get(args, "program"), *zone = cli_get(args, "zone");
  if (!file) return PW_OK;
  j->rebate = calloc(PW_COMPARE_PACKAGES_MAX, sizeof *j->rebate);
  if (!j->rebate) return pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  pw_status status = pw_program_read(file, &j->program, &j->open.notes, err);
  for (size_t p = 0; status == PW_OK && p < j->compare->n_package; p++) {
    status = pw_rebate_of(j->compare, p, &j->program, zone ? zone : "", &j->rebate[p], err);
    status = cli_ask("zone", status, err);
    if (status == PW_OK)
      status = pw_rebate_apply(&j->compare->billed.package_set[p], &j->rebate[p], err);
  }
  j->frame.rebate = j->rebate;
  return status;
}

pw_status cli_range_options(const cli_args *args, pw_range_options *o, pw_err *err)
{
  double draws = PW_RANGE_DRAWS, seed = 1.0, beat = 0.0;
  int threads = 1, lanes = 0;
  pw_status status = cli_number(args, "draws", 64.0, 65536.0, &draws, err);
  if (status == PW_OK) status = cli_number(args, "seed", 0.0, 9007199254740992.0, &seed, err);
  if (status == PW_OK) status = cli_threads(args, &threads, err);
  if (status == PW_OK) status = cli_lanes(args, &lanes, err);
  if (status == PW_OK) status = cli_number(args, "beat", 0.0, 1e7, &beat, err);
  const double whole[] = {draws, seed};
  static const char *const name[] = {"draws", "seed"};
  for (size_t i = 0; status == PW_OK && i < 2; i++)
    if (floor(whole[i]) != whole[i])
      status = pw_fail(err, PW_E_DOMAIN, "option", "--%s %s: want a whole number", name[i],
                       cli_get(args, name[i]));
  if (status != PW_OK) return status;
  *o = (pw_range_options){.n_draw = (size_t)draws,
                          .seed = (uint64_t)seed,
                          .n_thread = threads,
                          .lanes = lanes,
                          .method = cli_get(args, "full") ? PW_RANGE_FULL : PW_RANGE_AUTO,
                          .beat = beat};
  return PW_OK;
}

pw_status cli_job_range_by(const cli_args *args, pw_range_options *options, cli_job *j,
                           pw_err *err)
{
  j->range = calloc(1, sizeof *j->range);
  if (!j->range) return pw_fail(err, PW_E_NOMEM, NULL, "out of memory");
  pw_bills_of_job bills;
  pw_status status = pw_bills_of_job_read(args->word[0], j->open.job.house.install_date, &bills,
                                          &j->open.notes, err);
  if (status != PW_OK) return status;
  if (bills.found && pw_compare_is_later(j->compare->job))
    pw_notes_warn(&j->open.notes, "bills.csv", 0,
                  "the bills are of the house before any phase, so no draw is weighed by them");
  else if (bills.found && j->open.job.dwelling[0])
    pw_notes_warn(
        &j->open.notes, "bills.csv", 0,
        "the job holds several dwellings and the bills do not say whose they are: not used");
  else if (bills.found)
    options->bills = &bills.range;
  status = pw_range_of(j->compare, j->open.weather, j->method, options, j->range, err);
  pw_bills_of_job_free(&bills);
  options->bills = NULL;
  if (status == PW_OK) j->frame.range = j->range;
  return status;
}

/* On standard error alone: it is the machine's, no figure of the job. */
static void say_lanes(const cli_args *args, const pw_range *r)
{
  if (cli_get(args, "verbose") && r->n_lane)
    fprintf(stderr, "panewright: %zu house years in %zu lanes, %.1f %% of them idle\n",
            r->n_year, r->n_lane, 100.0 * (double)(r->n_lane - r->n_year) / (double)r->n_lane);
}

pw_status cli_job_range(const cli_args *args, cli_job *j, pw_err *err)
{
  pw_range_options options;
  cli_progress bar;
  pw_status status = cli_range_options(args, &options, err);
  if (status != PW_OK) return status;
  cli_progress_begin(&bar, "years");
  options.progress = cli_progress_step;
  options.progress_context = &bar;
  status = cli_job_range_by(args, &options, j, err);
  cli_progress_end(&bar);
  if (status == PW_OK) say_lanes(args, j->range);
  return status;
}
