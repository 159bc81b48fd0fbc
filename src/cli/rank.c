/* panewright rank: which glass, spacer and frame line for this house. */
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/command.h"
#include "cli/job_run.h"
#include "cli/job_view.h"
#include "cli/progress.h"
#include "cli/year_method.h"
#include "job/catalogue_file.h"
#include "job/program_file.h"
#include "job/text_file.h"
#include "out/caution_out.h"
#include "out/opening_facts.h"
#include "out/rank_out.h"
#include "study/range_run.h"

static volatile sig_atomic_t interrupted;

static void on_interrupt(int signal_number)
{
  (void)signal_number;
  interrupted = 1;
}

/* Ctrl-C ends the search, and what is known by then is printed. */
static int step(void *context, size_t done, size_t all)
{
  cli_progress_step(context, done, all);
  return interrupted != 0;
}

typedef struct work {
  cli_job job;
  pw_notes notes;
  pw_program program;
  pw_rank_catalogue catalogue;
  char catalogue_name[160];
  pw_rank_options options;
  pw_rank rank;
} work;

/* The file asked for, else the job's own, else the built-in example, whose prices are invented. */
static pw_status read_catalogue(const cli_args *args, work *w, pw_err *err)
{
  const char *file = cli_get(args, "catalogue");
  char path[4096];
  struct stat there;
  int n = snprintf(path, sizeof path, "%s/catalogue.csv", args->word[0]);
  if (!file && n > 0 && (size_t)n < sizeof path && stat(path, &there) == 0) file = path;
  if (file) {
    snprintf(w->catalogue_name, sizeof w->catalogue_name, "%.150s", file);
    return pw_catalogue_read(file, &w->catalogue, &w->notes, err);
  }
  const char *text = pw_text_file_find("examples/catalogue.csv");
  if (!text) return pw_fail(err, PW_E_MISSING, NULL, "no built-in catalogue");
  snprintf(w->catalogue_name, sizeof w->catalogue_name, "built in, its prices invented");
  return pw_catalogue_parse("catalogue.csv", text, strlen(text), &w->catalogue, &w->notes, err);
}

/* "3" or "2-3". */
static pw_status read_panes(const cli_args *args, pw_rank_limits *l, pw_err *err)
{
  const char *text = cli_get(args, "panes");
  int from = 0, to = 0, used = 0;
  if (!text) return PW_OK;
  int got = sscanf(text, "%1d-%1d%n", &from, &to, &used);
  if (got == 1 && strlen(text) == 1) {
    to = from;
    used = 1;
  }
  if (got < 1 || (size_t)used != strlen(text) || from < 1 || to < from || to > PW_PANES_MAX)
    return pw_fail(err, PW_E_DOMAIN, "panes", "--panes %.20s: want 1 to %d, or a range as 2-3",
                   text, PW_PANES_MAX);
  l->panes_min = (size_t)from;
  l->panes_max = (size_t)to;
  return PW_OK;
}

static pw_status read_program(const cli_args *args, work *w, pw_err *err)
{
  pw_rank_limits *l = &w->options.limits;
  const char *file = cli_get(args, "program");
  if (!file) return PW_OK;
  pw_status status = pw_program_read(file, &w->program, &w->notes, err);
  if (status == PW_OK) status = pw_date_read(w->job.open.job.house.install_date, &l->date, err);
  l->program = &w->program;
  l->zone = cli_get(args, "zone");
  return status;
}

static pw_status read_limits(const cli_args *args, work *w, pw_err *err)
{
  pw_rank_limits *l = &w->options.limits;
  double top = 10.0, coats = 2.0;
  pw_status status = cli_number(args, "top", 1.0, PW_RANK_TOP_MAX, &top, err);
  if (status == PW_OK) status = cli_number(args, "coatings", 0.0, 7.0, &coats, err);
  if (status == PW_OK) status = cli_threads(args, &w->options.n_thread, err);
  if (status == PW_OK)
    status = cli_number(args, "max-weight", 0.1, 1000.0, &l->sash_weight, err);
  if (status == PW_OK) status = cli_number(args, "min-light", 0.0, 1.0, &l->light_least, err);
  if (status == PW_OK) status = cli_number(args, "max-tint", 1e-4, 1.0, &l->tint_most, err);
  if (status == PW_OK) status = cli_number(args, "min-sound", 0.0, 80.0, &l->sound_least, err);
  if (status == PW_OK) status = read_panes(args, l, err);
  if (status == PW_OK) status = cli_year_method(args, &w->options.method, err);
  w->options.n_top = (size_t)top;
  w->options.sound = cli_get(args, "sound") != NULL;
  w->options.no_years = cli_get(args, "no-years") != NULL;
  l->coatings_max = (size_t)coats;
  l->no_coating = l->coatings_max == 0;
  l->gaps_differ = cli_get(args, "mixed-gaps") != NULL;
  return status;
}

static pw_status print(const cli_args *args, const work *w, pw_err *err)
{
  const pw_rank_frame frame = {w->job.open.job.house.job, w->job.open.climate,
                               cli_year_word(w->options.method), w->catalogue_name,
                               &w->catalogue};
  const char *dir = cli_get(args, "plots");
  pw_status status =
      dir && w->rank.n_front ? pw_rank_picture(&w->rank, &frame, dir, err) : PW_OK;
  if (status != PW_OK) return status;
  if (args->format == PW_JSON) return pw_rank_json(&w->rank, &frame, stdout, err);
  if (args->format == PW_CSV) return pw_rank_csv(&w->rank, &frame, stdout, err);
  pw_notes_head(&w->job.open.notes, stdout);
  pw_facts_text(&w->job.open.job, stdout);
  return pw_rank_text(&w->rank, &frame, pw_units(args->si), stdout, err);
}

static pw_status go(const cli_args *args, work *w, pw_err *err)
{
  cli_progress bar;
  struct sigaction action = {.sa_handler = on_interrupt}, before;
  pw_status status = read_limits(args, w, err);
  if (status == PW_OK) status = read_catalogue(args, w, err);
  if (status == PW_OK) status = cli_job_run(args, w->options.method, &w->job, err);
  if (status == PW_OK) status = read_program(args, w, err);
  if (status != PW_OK) return status;
  cli_progress_begin(&bar, "build-ups");
  w->options.progress = step;
  w->options.context = &bar;
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, &before);
  status = pw_rank_run(w->job.compare, w->job.open.weather, &w->catalogue, &w->options,
                       &w->rank, err);
  cli_progress_end(&bar);
  sigaction(SIGINT, &before, NULL);
  cli_ask("zone", status, err);
  return status == PW_OK ? print(args, w, err) : status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  work *w = calloc(1, sizeof *w);
  if (!w) return EXIT_INTERNAL;
  pw_status status = go(args, w, &err);
  int none = status == PW_OK && w->rank.n_top == 0;
  pw_rank_free(&w->rank);
  pw_program_free(&w->program);
  pw_notes_free(&w->notes);
  cli_job_free(&w->job);
  free(w);
  if (status != PW_OK) return cli_fail(&err);
  int ending = cli_finish();
  return ending == EXIT_DONE && none ? EXIT_FAILED_CHECK : ending;
}

static const cli_option option[] = {
    CLI_DWELLING,
    {"catalogue", "FILE", "what can be had and its price (JOB/catalogue.csv, else built in)"},
    {"top", "N", "how many of the best to live with for a full year and print (10)"},
    {"panes", "N or N-M", "panes of a unit (1-3; up to 4)"},
    {"coatings", "N", "most coatings of a unit (2)"},
    {"mixed-gaps", NULL, "the gaps of a unit may differ"},
    {"max-weight", "KG", "glass of the heaviest moving lite"},
    {"min-light", "SHARE", "least visible transmittance of the glass"},
    {"max-tint", "D", "most distance of its colour from white, u'v' (0.01 is just seen)"},
    {"sound", NULL,
     "best by quiet first (Rw + Ctr of the glass, steps of 3 dB), then by life cost"},
    {"min-sound", "DB", "least Rw + Ctr of the glass, by the set that is safe for a promise"},
    {"program", "FILE",
     "keep to a program's criteria, on computed values as a label rounds them"},
    {"zone", "ZONE", "climate zone of the program, when it has several"},
    {"no-years", NULL, "rank by the surface alone"},
    {"threads", "N", "threads (all cores); the figures are the same for any number"},
    {"plots", "DIR", "write the picture of the Pareto set there, as SVG and PNG"},
    CLI_METHOD,
    {"quick", NULL, "as --method monthly"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_rank;
const cli_command cli_rank = {
    "rank",
    "JOB",
    "which glass, spacer and frame line of a catalogue is best for this house",
    "Every build-up of the catalogue goes into every opening of the job and is ranked by life "
    "cost:\n"
    "price and the bills of the horizon. Ctrl-C prints what is known so far. Exit status 1: "
    "nothing\n"
    "in the catalogue keeps to the limits. Nothing printed is a certified rating.",
    option,
    1,
    1,
    run};
