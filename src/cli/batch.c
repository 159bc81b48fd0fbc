/* panewright batch: a row a window in, a row a window out. */
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "cli/batch_journal.h"
#include "cli/batch_run.h"
#include "cli/command.h"
#include "job/batch_example.h"
#include "panewright/version.h"

static const char *const energy_word[] = {"detailed", "monthly", "hourly", "none"};

typedef struct work {
  batch_run run;
  batch_input in;
  batch_journal journal;
  pw_notes notes;
  batch_mark from;
  pw_batch_reader *reader;
  int no_header, resume, whole, lanes;
  pw_batch_energy energy;
  double next_progress; /* s; 0: none wanted */
} work;

static pw_status example(const cli_args *args, pw_err *err)
{
  char text[PW_BATCH_EXAMPLE_MAX] = "";
  double n = 0.0;
  pw_status status = cli_number(args, "example", 0.0, 1e12, &n, err);
  if (status != PW_OK) return status;
  size_t size = pw_batch_example_header(text);
  fwrite(text, 1, size, stdout);
  for (unsigned long i = 0; i < (unsigned long)n && !ferror(stdout); i++) {
    size = pw_batch_example(i, text);
    fwrite(text, 1, size, stdout);
  }
  return PW_OK;
}

static pw_status read_options(const cli_args *args, work *w, pw_err *err)
{
  const char *energy = cli_get(args, "energy");
  size_t k = 0;
  while (energy && k < 4 && strcmp(energy, energy_word[k]) != 0)
    k++;
  if (k == 4)
    return pw_fail(err, PW_E_DOMAIN, "energy",
                   "--energy %.40s: want detailed, monthly, hourly or none", energy);
  w->energy = (pw_batch_energy)k;
  w->no_header = cli_get(args, "no-header") != NULL;
  w->resume = cli_get(args, "resume") != NULL;
  w->run.out = (batch_sink){.fd = STDOUT_FILENO, .name = "standard output"};
  w->run.rejects = (batch_sink){.fd = -1, .name = cli_get(args, "rejects")};
  w->journal.fd = -1;
  pw_status status = cli_threads(args, &w->run.n_thread, err);
  if (status == PW_OK) status = cli_lanes(args, &w->lanes, err);
  if (status == PW_OK && w->resume && !cli_get(args, "output"))
    return pw_fail(err, PW_E_DOMAIN, "resume", "--resume goes with --output FILE");
  return status;
}

/* Opens what is written; on a resume, at the place where the last run was cut off. */
static pw_status open_output(const cli_args *args, work *w, pw_err *err)
{
  const char *path = cli_get(args, "output");
  char what[128];
  snprintf(what, sizeof what,
           "panewright batch 2, version %s, energy %s, header %s, rejects %s", PW_VERSION,
           energy_word[w->energy], w->no_header ? "no" : "yes",
           w->run.rejects.name ? "yes" : "no");
  if (path) {
    w->run.out = (batch_sink){.fd = -1, .name = path};
    return batch_journal_open(&w->journal, path, what, w->resume, &w->run.out, &w->run.rejects,
                              &w->from, &w->whole, err);
  }
  if (!w->run.rejects.name) return PW_OK;
  pw_status status = batch_sink_open(&w->run.rejects, err);
  struct stat is;
  if (status == PW_OK && fstat(w->run.rejects.fd, &is) == 0 && S_ISREG(is.st_mode) &&
      ftruncate(w->run.rejects.fd, 0) != 0)
    status = pw_fail(err, PW_E_IO, "rejects", "%s: cannot write: %s", w->run.rejects.name,
                     strerror(errno));
  return status;
}

static double seconds(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static pw_status written(void *context, const batch_mark *done, pw_err *err)
{
  work *w = context;
  if (w->next_progress > 0.0 && seconds() > w->next_progress) {
    w->next_progress = seconds() + 0.5;
    fprintf(stderr, "\r%llu windows, %llu rejected ", (unsigned long long)done->rows,
            (unsigned long long)done->rejected);
  }
  return batch_journal_mark(&w->journal, done, err);
}

/* The headers of a fresh start, and the place of a resume. */
static pw_status begin(work *w, pw_err *err)
{
  pw_lines text = {0};
  pw_status status = PW_OK;
  if (w->from.in_bytes > 0) {
    w->run.done = w->from;
    status = batch_input_skip(&w->in, &w->from, err);
    return status == PW_OK ? batch_journal_cut(&w->from, &w->run.out, &w->run.rejects, err)
                           : status;
  }
  if (!w->no_header) {
    pw_batch_print_header(&text);
    status = batch_sink_put(&w->run.out, text.text, text.n, err);
    text.n = 0;
  }
  if (status == PW_OK && w->run.rejects.fd >= 0) {
    pw_reject_print_header(&text);
    status = batch_sink_put(&w->run.rejects, text.text, text.n, err);
  }
  pw_lines_free(&text);
  return status;
}

static pw_status go(const cli_args *args, work *w, pw_err *err)
{
  char header[PW_BATCH_LINE_MAX];
  pw_status status = read_options(args, w, err);
  if (status == PW_OK) status = batch_input_open(&w->in, STDIN_FILENO, err);
  if (status == PW_OK) status = batch_input_header(&w->in, header, sizeof header, err);
  if (status == PW_OK)
    status = pw_batch_reader_new(header, w->energy, &w->reader, &w->notes, err);
  if (status == PW_OK) status = open_output(args, w, err);
  if (status == PW_OK && w->whole) return batch_input_same_to_the_end(&w->in, &w->from, err);
  if (status != PW_OK) return status;
  for (size_t i = 0; i < w->notes.n; i++) {
    char line[512];
    pw_notes_line(&w->notes.note[i], line, sizeof line);
    fprintf(stderr, "panewright: %s\n", line);
  }
  pw_batch_reader_set_lanes(w->reader, w->lanes);
  w->run.in = &w->in;
  w->run.todo = batch_windows;
  w->run.todo.context = w->reader;
  w->run.written = written;
  w->run.context = w;
  if (isatty(STDERR_FILENO)) w->next_progress = seconds() + 1.0;
  status = begin(w, err);
  if (status == PW_OK) status = batch_run_all(&w->run, err);
  if (w->next_progress > 0.0) fprintf(stderr, "\r%40s\r", "");
  if (status == PW_OK) status = batch_journal_end(&w->journal, &w->run.done, err);
  if (status == PW_OK && cli_get(args, "output") && close(w->run.out.fd) != 0)
    status = pw_fail(err, PW_E_IO, "output", "cannot close the output: %s", strerror(errno));
  return status;
}

/* Rejected rows end the run well only where the caller asked for them to be kept. */
static int finish(const work *w)
{
  const batch_mark *d = &w->run.done;
  if (w->whole)
    fprintf(stderr,
            "panewright: the output is whole and answers this input; nothing to resume\n");
  if (w->run.windows1252)
    fprintf(stderr, "panewright: %llu %s no UTF-8 text and read as windows-1252\n",
            (unsigned long long)w->run.windows1252,
            w->run.windows1252 == 1 ? "row is" : "rows are");
  if (d->rejected == 0) return EXIT_DONE;
  fprintf(stderr, "panewright: %llu of %llu rows rejected%s%s\n",
          (unsigned long long)d->rejected, (unsigned long long)d->rows,
          w->run.first_reason[0] ? "; first: " : "", w->run.first_reason);
  return w->run.rejects.fd >= 0 ? EXIT_DONE : EXIT_DATA;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  if (cli_get(args, "example"))
    return example(args, &err) == PW_OK ? cli_finish() : cli_fail(&err);
  work *w = calloc(1, sizeof *w);
  if (!w) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory for the batch");
    return cli_fail(&err);
  }
  w->run.rejects.fd = w->journal.fd = -1;
  pw_status status = go(args, w, &err);
  int ending = status == PW_OK ? finish(w) : cli_fail(&err);
  batch_journal_close(&w->journal);
  if (w->run.rejects.fd >= 0) close(w->run.rejects.fd);
  batch_input_close(&w->in);
  pw_batch_reader_free(w->reader);
  pw_notes_free(&w->notes);
  free(w);
  return ending;
}

static const cli_option option[] = {
    {"energy", "WORD",
     "detailed (default): the window's year in the reference house; monthly or hourly: a quick "
     "room, for "
     "screening only; none"},
    {"threads", "N", "workers, 1 to 64 (all cores); the results are the same for any number"},
    CLI_LANES,
    {"output", "FILE", "write there instead of standard output; -o FILE for short"},
    {"resume", NULL, "go on with the FILE of a run that was killed, from the same input"},
    {"rejects", "FILE", "rows that cannot be taken, with line, column and reason"},
    {"no-header", NULL, "leave the header of the results out, for shards"},
    {"example", "N", "write N valid rows to start from or to measure with"},
    CLI_END};
extern const cli_command cli_batch;
const cli_command cli_batch = {
    "batch",
    "< windows.csv > results.csv",
    "many windows: a row a window in, a row a window out, in the input's order",
    "A row is one line: sizes of the pocket, the existing window, the package, facing and "
    "place\n"
    "(panewright batch --example 10 shows the columns). Each is fitted and rated as compare "
    "does\n"
    "it, and lived with for a year in a reference house: heating_kwh is what that house "
    "needs more\n"
    "with the window than with a closed wall. Memory does not grow with the input. Any cut of "
    "the\n"
    "input at line ends, each part led by the header, gives that cut of the results.\n"
    "Nothing printed is a certified rating.",
    option,
    0,
    0,
    run};
