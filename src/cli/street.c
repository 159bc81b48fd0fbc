/* panewright street: many jobs, a row a house, and what they save together. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/batch_journal.h"
#include "cli/progress.h"
#include "cli/street_job.h"
#include "job/inputs.h"
#include "job/version.h"
#include "out/private_folder.h"
#include "out/street_out.h"
#include "panewright/version.h"
#include "study/range_run.h"

typedef struct desk {
  const cli_args *args;
  street_plan plan;
  batch_run run;
  batch_input in;
  batch_journal journal;
  batch_mark from;
  int whole;
  size_t n_job;
  cli_progress bar;
  FILE *list;                   /* names of jobs; owned */
  FILE *records[CLI_WORDS_MAX]; /* owned */
  const char *name[CLI_WORDS_MAX];
  size_t n_records;
} desk;

/* ---------------------------------------------------------------- which jobs */

/* The words of the command line, or standard input, as a file of lines. */
static pw_status take_list(desk *d, pw_err *err)
{
  char block[8192];
  size_t n = 0;
  d->list = pw_private_file(err);
  if (!d->list) return err->code;
  for (int i = 0; i < d->args->n_word; i++) {
    if (strchr(d->args->word[i], '\n'))
      return pw_fail(err, PW_E_DATA, "job", "the name of a job holds a line end");
    /* In a list a line that begins so may be a note. */
    fprintf(d->list, "%s%s\n", d->args->word[i][0] == '#' ? "./" : "", d->args->word[i]);
  }
  while (d->args->n_word == 0 && (n = fread(block, 1, sizeof block, stdin)) > 0)
    fwrite(block, 1, n, d->list);
  if (d->args->n_word == 0 && ferror(stdin))
    return pw_fail(err, PW_E_IO, "input", "cannot read the list of jobs: %s", strerror(errno));
  if (fflush(d->list) != 0)
    return pw_fail(err, PW_E_IO, "input", "cannot keep the list of jobs: %s", strerror(errno));
  rewind(d->list);
  char line[STREET_NAME_MAX];
  for (int begins = 1; fgets(line, sizeof line, d->list);) { /* a longer line comes in pieces */
    size_t got = strlen(line);
    if (begins) d->n_job += !street_is_blank(line, got);
    begins = got > 0 && line[got - 1] == '\n';
  }
  if (d->n_job == 0)
    return pw_fail(err, PW_E_MISSING, "input",
                   "no job is named: panewright street DIR..., or a list on standard input, a "
                   "folder a line");
  int fd = fileno(d->list);
  if (lseek(fd, 0, SEEK_SET) != 0)
    return pw_fail(err, PW_E_IO, "input", "cannot read the list of jobs: %s", strerror(errno));
  pw_status status = batch_input_open(&d->in, fd, err);
  d->in.by_line = 1;
  return status;
}

/* ---------------------------------------------------------------- records */

static pw_status open_records(desk *d, pw_err *err)
{
  const char *path = cli_get(d->args, "records"), *package = cli_get(d->args, "package");
  char what[200];
  d->n_records = 1;
  d->name[0] = path ? path : "records";
  if (!path) {
    d->records[0] = pw_private_file(err);
    if (!d->records[0]) return err->code;
    d->run.out = (batch_sink){.fd = fileno(d->records[0]), .name = "the records"};
    return PW_OK;
  }
  snprintf(what, sizeof what,
           "panewright street 1, version %s, draws %zu, seed %llu, years %s, package %.60s",
           PW_VERSION, d->plan.range.n_draw, (unsigned long long)d->plan.range.seed,
           d->plan.range.method == PW_RANGE_FULL ? "full" : "auto", package ? package : "-");
  d->run.out = (batch_sink){.fd = -1, .name = path};
  pw_status status =
      batch_journal_open(&d->journal, path, what, cli_get(d->args, "resume") != NULL,
                         &d->run.out, &d->run.rejects, &d->from, &d->whole, err);
  struct stat is;
  if (status == PW_OK && (fstat(d->run.out.fd, &is) != 0 || !S_ISREG(is.st_mode)))
    status = pw_fail(err, PW_E_CREATE, "records", "%.200s: records want a regular file", path);
  int fd = status == PW_OK ? dup(d->run.out.fd) : -1;
  d->records[0] = fd >= 0 ? fdopen(fd, "r") : NULL;
  if (status == PW_OK && !d->records[0])
    status = pw_fail(err, PW_E_IO, "records", "%.200s: cannot read: %s", path, strerror(errno));
  return status;
}

/* What stands in the records must be of the folders as they are now; files elsewhere that a job names, such as a weather
 * year, are not looked at. */
static pw_status still_so(void *context, json_t *record, json_t *draws, pw_err *err)
{
  char now[PW_VERSION_MAX];
  const char *job = pw_street_word(record, "job"), *then = pw_street_word(record, "files");
  (void)context;
  (void)draws;
  if (!then[0]) return PW_OK;
  pw_status status = pw_job_version(job, now, err);
  if (status == PW_OK && strcmp(now, then) != 0)
    status = pw_fail(err, PW_E_DATA, "resume",
                     "%.200s is not as the interrupted run read it: run without --resume", job);
  return status;
}

static pw_status same_jobs(desk *d, pw_err *err)
{
  pw_street *street = NULL;
  pw_status status = pw_street_open(d->records, d->name, 1, 0, &street, err);
  if (status == PW_OK) status = pw_street_each(street, still_so, NULL, err);
  pw_street_free(street);
  return status;
}

static pw_status begin(desk *d, pw_err *err)
{
  pw_lines head = {0};
  if (d->whole) {
    pw_status status = batch_input_same_to_the_end(&d->in, &d->from, err);
    return status == PW_OK ? same_jobs(d, err) : status;
  }
  if (d->from.in_bytes > 0) {
    d->run.done = d->from;
    pw_status status = batch_input_skip(&d->in, &d->from, err);
    if (status == PW_OK)
      status = batch_journal_cut(&d->from, &d->run.out, &d->run.rejects, err);
    return status == PW_OK ? same_jobs(d, err) : status;
  }
  pw_street_head(&head, &(pw_street_run){.version = PW_VERSION,
                                         .n_draw = d->plan.range.n_draw,
                                         .seed = d->plan.range.seed,
                                         .full = d->plan.range.method == PW_RANGE_FULL});
  pw_status status = head.lost ? pw_fail(err, PW_E_NOMEM, NULL, "no memory for the street")
                               : batch_sink_put(&d->run.out, head.text, head.n, err);
  pw_lines_free(&head);
  return status;
}

static pw_status written(void *context, const batch_mark *done, pw_err *err)
{
  desk *d = context;
  cli_progress_step(&d->bar, (size_t)(done->rows - d->from.rows),
                    d->n_job - (size_t)d->from.rows);
  return batch_journal_mark(&d->journal, done, err);
}

/* ---------------------------------------------------------------- the run */

static pw_status compute(desk *d, pw_err *err)
{
  pw_status status = cli_range_options(d->args, &d->plan.range, err);
  if (status == PW_OK && cli_get(d->args, "resume") && !cli_get(d->args, "records"))
    status = pw_fail(err, PW_E_DOMAIN, "option", "--resume goes with --records FILE");
  if (status == PW_OK) status = take_list(d, err);
  if (status != PW_OK) return status;
  size_t n_thread = (size_t)d->plan.range.n_thread;
  d->plan.range.bands_only = 1;
  /* A job a thread; where there are fewer jobs, their years are shared out. */
  d->run.n_thread = (int)(d->n_job < n_thread ? d->n_job : n_thread);
  d->plan.range.n_thread = (int)(n_thread / (size_t)d->run.n_thread);
  d->run.todo = street_jobs;
  d->run.todo.context = &d->plan;
  d->run.in = &d->in;
  d->run.written = written;
  d->run.context = d;
  status = open_records(d, err);
  if (status == PW_OK) status = begin(d, err);
  if (status != PW_OK || d->whole) return status;
  cli_progress_begin(&d->bar, "jobs");
  status = batch_run_all(&d->run, err);
  cli_progress_end(&d->bar);
  if (status == PW_OK)
    status = batch_sink_put(&d->run.out, PW_STREET_END, strlen(PW_STREET_END), err);
  d->run.done.out_bytes = d->run.out.bytes;
  d->run.done.out_crc = d->run.out.crc;
  return status == PW_OK ? batch_journal_end(&d->journal, &d->run.done, err) : status;
}

/* --join: the words are records. */
static pw_status join(desk *d, pw_err *err)
{
  if (d->args->n_word == 0)
    return pw_fail(err, PW_E_DOMAIN, "option", "--join wants the records of the parts");
  for (int i = 0; i < d->args->n_word; i++) {
    const char *path = d->args->word[i];
    d->name[i] = path;
    d->records[i] = fopen(path, "r");
    if (!d->records[i])
      return pw_fail(err, PW_E_MISSING, "records", "%.200s: %s", path, strerror(errno));
    d->n_records++;
  }
  return PW_OK;
}

static pw_status say_reject(void *context, json_t *record, json_t *draws, pw_err *err)
{
  (void)context;
  (void)err;
  if (!draws)
    fprintf(stderr, "panewright: %s: %s\n", pw_street_word(record, "job"),
            pw_street_word(record, "rejected"));
  return PW_OK;
}

static pw_status print(desk *d, size_t *rejected, pw_err *err)
{
  pw_street *street = NULL;
  pw_street_total total = {0};
  const cli_args *args = d->args;
  const char *plot = cli_get(args, "plot");
  pw_status status = pw_street_open(d->records, d->name, d->n_records, 1, &street, err);
  if (status == PW_OK) status = pw_street_total_of(street, &total, err);
  if (status == PW_OK && plot)
    status = pw_street_picture(street, &total, cli_get(args, "package"), plot, err);
  if (status == PW_OK)
    status = args->format == PW_JSON ? pw_street_json(street, &total, stdout, err)
             : args->format == PW_CSV
                 ? pw_street_csv(street, &total, stdout, err)
                 : pw_street_text(street, &total, pw_units(args->si), stdout, err);
  if (status == PW_OK && args->format == PW_CSV)
    status = pw_street_each(street, say_reject, NULL, err);
  if (status == PW_OK) *rejected = pw_street_rejects(street);
  pw_street_total_free(&total);
  pw_street_free(street);
  return status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  size_t rejected = 0;
  desk *d = calloc(1, sizeof *d);
  if (!d) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory for the street");
    return cli_fail(&err);
  }
  d->args = d->plan.args = args;
  d->run.out.fd = d->run.rejects.fd = d->journal.fd = -1;
  pw_status status = cli_get(args, "join") ? join(d, &err) : compute(d, &err);
  if (status == PW_OK) status = print(d, &rejected, &err);
  int ending = status == PW_OK ? cli_finish() : cli_fail(&err);
  if (ending == EXIT_DONE && rejected) {
    fprintf(stderr, "panewright: %zu %s not in the street\n", rejected,
            rejected == 1 ? "job is" : "jobs are");
    ending = EXIT_DATA;
  }
  batch_journal_close(&d->journal);
  if (cli_get(args, "records") && d->run.out.fd >= 0) close(d->run.out.fd);
  for (size_t i = 0; i < d->n_records; i++)
    if (d->records[i]) fclose(d->records[i]);
  if (d->list) fclose(d->list);
  batch_input_close(&d->in);
  free(d);
  return ending;
}

static const cli_option option[] = {
    {"package", "NAME",
     "only that package; a job without it is told as rejected (all packages)"},
    CLI_DRAWS,
    CLI_SEED,
    {"full", NULL,
     "a house year for every draw, instead of a surface fitted to 96 or 144 of them"},
    {"threads", "N", "jobs at a time (all cores); the figures are the same for any number"},
    {"records", "FILE", "keep what each job gave, a line a house, as the run goes on"},
    {"resume", NULL, "go on with the records of a run that was killed, from the same list"},
    {"join", NULL, "the words are records of parts of a street: print the whole"},
    {"plot", "FILE", "picture of what each house saves and all together, .svg, .png or .pdf"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_street;
const cli_command cli_street = {
    "street",
    "[DIR...]",
    "many jobs: a row a house, and what the whole street saves with its range",
    "Each DIR is a job folder; without one, a list on standard input, a folder a line. Figures "
    "of a\n"
    "row are those of compare --range. Together: what no house decides (model, weather, "
    "prices, "
    "the\n"
    "product) is drawn once for all, what is a fact of a house for each by itself. Rows come "
    "in\n"
    "the order of their names; a job listed twice counts once. A job that cannot be taken is "
    "told\n"
    "with its reason, the rest goes on, and the exit status is 65.\n"
    "Nothing printed is a certified rating.",
    option,
    0,
    CLI_WORDS_MAX,
    run};
