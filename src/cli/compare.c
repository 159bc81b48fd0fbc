/* panewright compare: the main job. */
#include <stdlib.h>
#include <string.h>

#include "cli/job_run.h"
#include "cli/job_view.h"
#include "cli/paper.h"
#include "cli/promise_keep.h"
#include "cli/year_method.h"
#include "job/dwelling.h"
#include "out/airing_out.h"
#include "out/compare_sound_out.h"
#include "out/covering_out.h"
#include "out/duct_out.h"
#include "out/dwellings_out.h"
#include "out/json.h"
#include "out/range_out.h"
#include "out/said_json.h"
#include "out/tight_out.h"

/* JSON carries each window's year by itself, too. NULL on failure. */
static pw_status make_json(const cli_job *job, const cli_args *args, const pw_tongue *tongue,
                           json_t **json, pw_err *err)
{
  pw_compare_frame with = job->frame;
  pw_alone_place *place = NULL;
  pw_status status = pw_alone_place_new(job->open.weather, PW_ALONE_HOURLY, &place, err);
  with.alone = place;
  if (status == PW_OK) {
    *json = pw_compare_json(job->compare, &with);
    json_object_set_new(
        *json, "said",
        pw_said_json(*json, job->compare, job->frame.range, pw_units(args->si), tongue));
  }
  pw_alone_place_free(place);
  return status;
}

/* One house, or one dwelling of several, in words. */
static pw_status print_text(const cli_job *job, const cli_args *args, pw_err *err)
{
  const pw_compare *c = job->compare;
  const pw_unit_set *units = pw_units(args->si);
  const char *explain = cli_get(args, "explain");
  if (explain && strcmp(explain, "sound") == 0)
    return pw_compare_sound_explain(c, job->sound, stdout, err);
  if (explain && strcmp(explain, "tightness") == 0)
    return pw_tight_explain(c, job->tight, stdout, err);
  if (explain && strcmp(explain, "ducts") == 0) return pw_duct_explain(c, units, stdout, err);
  if (explain && strcmp(explain, "coverings") == 0) return pw_covering_explain(c, stdout, err);
  if (explain && strcmp(explain, "airing") == 0)
    return pw_airing_explain(c, units, stdout, err);
  if (explain)
    return pw_explain_text(c, job->open.weather, job->range, explain, units, stdout, err);
  return pw_compare_text(c, &job->frame, units, stdout, err);
}

static pw_status pictures(const cli_job *job, const cli_args *args, pw_err *err)
{
  const char *dir = cli_get(args, "plots");
  if (!dir) return PW_OK;
  pw_status status =
      pw_compare_pictures(job->compare, job->range, pw_units(args->si), dir, err);
  return status == PW_OK ? pw_compare_sound_picture(job->compare, job->sound, dir, err)
                         : status;
}

static pw_status print_all(const cli_job job[], const pw_compare *const compare[], size_t n,
                           const cli_args *args, const pw_tongue *tongue, pw_err *err)
{
  json_t *json[PW_DWELLINGS_MAX] = {NULL};
  pw_status status = PW_OK;
  if (args->format == PW_CSV && !cli_get(args, "explain"))
    return pw_compare_csv(compare, n, stdout, err);
  int as_json = args->format == PW_JSON && !cli_get(args, "explain");
  for (size_t d = 0; status == PW_OK && d < n; d++) {
    if (n > 1 && !as_json) pw_dwelling_head(job[d].open.job.dwelling, stdout);
    status = as_json ? make_json(&job[d], args, tongue, &json[d], err)
                     : print_text(&job[d], args, err);
    if (n > 1 && !as_json) putchar('\n');
  }
  if (as_json && status == PW_OK)
    return pw_json_print(n > 1 ? pw_dwellings_json(compare, json, n) : json[0], stdout, err);
  for (size_t d = 0; d < n; d++)
    json_decref(json[d]);
  if (status != PW_OK || as_json || n < 2 || cli_get(args, "explain")) return status;
  return pw_dwellings_text(compare, n, stdout, err);
}

static pw_status make(const cli_args *args, const char *dwelling, int tell,
                      pw_year_method method, cli_job *job, pw_err *err)
{
  pw_status status = cli_job_run_dwelling(args, dwelling, tell, method, job, err);
  if (status == PW_OK) status = cli_job_parts(args, job, err);
  if (status == PW_OK && cli_get(args, "range")) status = cli_job_range(args, job, err);
  job->frame.all = cli_get(args, "all") != NULL;
  return status;
}

/* --keep: what the range said of all windows goes to promise.csv. */
static pw_status check_keep(const cli_args *args, pw_date *date, pw_err *err)
{
  if (!cli_get(args, "keep"))
    return cli_get(args, "date")
               ? pw_fail(err, PW_E_DOMAIN, "option", "--date is the day of --keep")
               : PW_OK;
  if (!cli_get(args, "range"))
    return pw_fail(err, PW_E_DOMAIN, "option", "--keep: a promise is a range; want --range");
  if (cli_get(args, "phase"))
    return pw_fail(err, PW_E_DOMAIN, "option",
                   "--keep: a promise is of all windows; leave --phase out");
  return cli_paper_date(args, date, err);
}

static pw_status keep(const cli_args *args, const cli_job job[], size_t n, pw_date date,
                      pw_err *err)
{
  pw_promised promised[PW_DWELLINGS_MAX];
  if (!cli_get(args, "keep")) return PW_OK;
  for (size_t d = 0; d < n; d++)
    promised[d] = (pw_promised){job[d].compare, job[d].range};
  return cli_promise_keep(args->word[0], promised, n, date, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_year_method method = PW_YEAR_DETAILED;
  pw_dwellings list = {0};
  pw_date date = 0;
  const pw_tongue *tongue = NULL;
  const pw_compare *compare[PW_DWELLINGS_MAX];
  cli_job *job = calloc(PW_DWELLINGS_MAX, sizeof *job);
  pw_status status =
      job ? PW_OK : pw_fail(&err, PW_E_NOMEM, NULL, "no memory for the comparison");
  if (status == PW_OK) status = cli_year_method(args, &method, &err);
  if (status == PW_OK) status = check_keep(args, &date, &err);
  if (status == PW_OK) status = cli_paper_tongue(args, &tongue, &err);
  if (status == PW_OK && !cli_get(args, "dwelling"))
    status = pw_dwellings_list(args->word[0], &list, &err);
  size_t n = list.n > 1 ? list.n : 1;
  if (status == PW_OK && n > 1 && cli_get(args, "plots"))
    status = pw_fail(&err, PW_E_DATA, "dwelling",
                     "--plots draws one dwelling, this job holds %zu: say --dwelling NAME", n);
  for (size_t d = 0; status == PW_OK && d < n; d++) {
    const char *dwelling = n > 1 ? list.name[d] : cli_get(args, "dwelling");
    status = make(args, dwelling, d == 0, method, &job[d], &err);
    compare[d] = job[d].compare;
  }
  if (status == PW_OK) status = pictures(&job[0], args, &err);
  if (status == PW_OK) status = keep(args, job, n, date, &err);
  if (status == PW_OK) status = print_all(job, compare, n, args, tongue, &err);
  for (size_t d = 0; job && d < n; d++)
    cli_job_free(&job[d]);
  free(job);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"plots", "DIR", "write the pictures there, as SVG and PNG"},
    CLI_METHOD,
    {"range", NULL, "how sure: low, typical and high of the figures, and what drives them"},
    CLI_DRAWS,
    CLI_SEED,
    CLI_THREADS,
    CLI_LANES,
    {"full", NULL,
     "a house year for every draw, instead of a surface fitted to 96 or 144 of them"},
    {"beat", "DOLLARS", "with --range: the chance that a saving is above that, a year"},
    {"keep", NULL, "with --range: note in promise.csv of the job what was said, for `after`"},
    {"date", "DAY", "the day of --keep (today, UTC)"},
    CLI_DWELLING,
    CLI_PHASE,
    CLI_EARLIER,
    CLI_PROGRAM,
    CLI_ZONE,
    {"explain", "FIGURE",
     "print the chain of a figure: u, shgc, heating, cooling, bill, saving, payback, worth, "
     "heating_fuel, cooling_power, sound, tightness, airing, coverings, ducts"},
    {"all", NULL, "print the cautions that hold for every such job, too"},
    {"language", "en|es", "of the sentences in the JSON's key said (en)"},
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
