#include "cli/paths.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "job/inputs.h"
#include "out/target.h"

static const char *const output[] = {"output", "order", "plot", "rejects", "records"};
enum { N_OUTPUT = sizeof output / sizeof output[0] };

/* What a job folder may hold; a file of that name is read by the next run. */
static const char *const of_job[] = {"job.csv",         "openings.csv",     "packages.csv",
                                     "frame_lines.csv", "catalogue.csv",    "labels.csv",
                                     "prices.csv",      "bills.csv",        "firm.csv",
                                     "promise.csv",     "bills_weather.csv"};

typedef struct outputs {
  pw_target target[N_OUTPUT + 1];
  char name[N_OUTPUT + 1][PW_PATH_SIZE + 16]; /* as given */
  int n;
} outputs;

static int is_output(const char *option)
{
  for (int i = 0; i < N_OUTPUT; i++)
    if (strcmp(option, output[i]) == 0) return 1;
  return strcmp(option, "plots") == 0;
}

static void add(outputs *o, const char *path)
{
  snprintf(o->name[o->n], sizeof o->name[0], "%s", path);
  if (pw_target_find(o->name[o->n], &o->target[o->n], NULL) == PW_OK) o->n++;
}

/* A name that cannot be had is told where it is opened. */
static void find_outputs(const cli_args *args, outputs *o)
{
  char journal[PW_PATH_SIZE + 16];
  for (int i = 0; i < N_OUTPUT; i++) {
    const char *path = cli_get(args, output[i]);
    if (!path || !path[0] || strlen(path) >= PW_PATH_SIZE) continue;
    add(o, path);
    int resumed = strcmp(output[i], "records") == 0 ||
                  (i == 0 && strcmp(args->command->name, "batch") == 0);
    if (!resumed) continue;
    snprintf(journal, sizeof journal, "%s.journal", path);
    if (o->n > 0 && (!o->target[o->n - 1].there || S_ISREG(o->target[o->n - 1].is.st_mode)))
      add(o, journal);
  }
}

/* The names a job folder is read by, there or not; other files in it may well be results. */
static pw_status note_folder(const char *path, const outputs *o, pw_err *err)
{
  char file[2 * PW_PATH_SIZE];
  pw_status status = PW_OK;
  for (size_t k = 0; status == PW_OK && k < sizeof of_job / sizeof of_job[0]; k++) {
    pw_target t;
    if (strlen(path) >= PW_PATH_SIZE - 32) break;
    snprintf(file, sizeof file, "%s/%s", path, of_job[k]);
    /* compare --keep and papers add to what was promised. */
    if (strcmp(of_job[k], "promise.csv") != 0) status = pw_inputs_note_path(file, err);
    if (status != PW_OK || pw_target_find(file, &t, NULL) != PW_OK) continue;
    for (int i = 0; i < o->n; i++)
      if (pw_target_same(&t, &o->target[i]))
        return pw_fail(err, PW_E_CREATE, "path",
                       "%.200s is a file of the job: nothing is written onto an input",
                       o->name[i]);
  }
  return status;
}

/* A file, a job folder, or names parted by commas; other words name no file. */
static pw_status note_word(const char *word, const outputs *o, pw_err *err)
{
  struct stat is;
  pw_status status = PW_OK;
  if (stat(word, &is) == 0)
    return S_ISDIR(is.st_mode) ? note_folder(word, o, err) : pw_inputs_note_path(word, err);
  for (const char *at = word; status == PW_OK && strchr(word, ',') && *at;) {
    char part[PW_PATH_SIZE];
    size_t n = strcspn(at, ",");
    snprintf(part, sizeof part, "%.*s", (int)(n < sizeof part ? n : 0), at);
    status = pw_inputs_note_path(part, err);
    at += n + (at[n] == ',');
  }
  return status;
}

static pw_status note_inputs(const cli_args *args, const outputs *o, pw_err *err)
{
  pw_status status = pw_inputs_note(STDIN_FILENO, err);
  for (int i = 0; status == PW_OK && i < args->n_word; i++)
    status = note_word(args->word[i], o, err);
  for (int i = 0; status == PW_OK && args->command->option[i].name; i++)
    if (args->value[i] && args->value[i][0] && !is_output(args->command->option[i].name))
      status = note_word(args->value[i], o, err);
  return status;
}

/* 1 when standard output is that file: what is printed there would be cut or lost. */
static int is_standard_output(const struct stat *file)
{
  struct stat out;
  return fstat(STDOUT_FILENO, &out) == 0 && S_ISREG(out.st_mode) &&
         out.st_dev == file->st_dev && out.st_ino == file->st_ino;
}

pw_status cli_paths_check(const cli_args *args, pw_err *err)
{
  outputs o;
  struct stat out;
  o.n = 0;
  find_outputs(args, &o);
  pw_status status = note_inputs(args, &o, err);
  if (status != PW_OK) return status;
  if (fstat(STDOUT_FILENO, &out) == 0 && pw_inputs_has(&out))
    return pw_fail(err, PW_E_CREATE, "path",
                   "standard output is a file that is read: nothing is written onto an input");
  for (int i = 0; i < o.n; i++) {
    const pw_target *t = &o.target[i];
    if (t->there && pw_inputs_has(&t->is))
      return pw_fail(err, PW_E_CREATE, "path",
                     "%.200s is read by this run: nothing is written onto an input", o.name[i]);
    if (t->there && is_standard_output(&t->is))
      return pw_fail(err, PW_E_CREATE, "path",
                     "%.200s is where standard output goes, too; give each its own", o.name[i]);
    for (int k = 0; k < i; k++)
      if (pw_target_same(&o.target[k], t) && !(t->there && S_ISCHR(t->is.st_mode)))
        return pw_fail(err, PW_E_CREATE, "path",
                       "%.100s and %.100s are one file; give each its own", o.name[k],
                       o.name[i]);
  }
  return PW_OK;
}
