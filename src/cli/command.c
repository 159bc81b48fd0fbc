#include "cli/command.h"
#include "cli/held.h"

#include "base/text.h"

#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/date.h"
#include "base/nearest.h"
#include "cli/paths.h"
#include "job/date_text.h"
#include "out/safe_file.h"
#include "out/subprocess.h"
#include "out/wrap.h"
#include "panewright/year.h"
#include "study/range_run.h"

static size_t option_count(const cli_command *command)
{
  size_t n = 0;
  while (command->option[n].name)
    n++;
  return n;
}

static int usage_error(const cli_command *command, const char *what, const char *word)
{
  fprintf(stderr, "panewright %s: %s%s%s (see panewright %s --help)\n", command->name, what,
          word[0] ? " " : "", word, command->name);
  return EXIT_USAGE;
}

static void print_help(const cli_command *command)
{
  enum { WIDTH = 100 };
  printf("panewright %s%s%s [options]\n\n%s\n", command->name, command->words[0] ? " " : "",
         command->words, command->about);
  if (command->more) printf("\n%s\n", command->more);
  puts("\nOptions");
  for (size_t i = 0; i < option_count(command); i++) {
    const cli_option *o = &command->option[i];
    char left[64], lead[72];
    snprintf(left, sizeof left, "--%s%s%s", o->name, o->value ? " " : "",
             o->value ? o->value : "");
    snprintf(lead, sizeof lead, "  %-28s ", left);
    pw_wrap(stdout, lead, o->help, WIDTH);
  }
  printf("  %-28s %s\n", "--help", "this text");
}

const char *cli_get(const cli_args *args, const char *name)
{
  for (size_t i = 0; args->command->option[i].name; i++)
    if (strcmp(args->command->option[i].name, name) == 0) return args->value[i];
  return NULL;
}

pw_status cli_number(const cli_args *args, const char *name, double low, double high, double *v,
                     pw_err *err)
{
  const char *text = cli_get(args, name);
  if (!text) return PW_OK;
  char *end = NULL;
  double got = strtod(text, &end);
  if (end == text || *end || !(got >= low && got <= high))
    return pw_fail(err, PW_E_DOMAIN, "option", "--%s %s: want a number from %g to %g", name,
                   text, low, high);
  *v = got;
  return PW_OK;
}

pw_status cli_day(const char *option, const char *text, int *day, pw_err *err)
{
  char iso[11];
  pw_date date = 0;
  pw_err why = {0};
  if (job_date_read(text, iso, &why) != PW_OK || pw_date_read(iso, &date, &why) != PW_OK)
    return pw_fail(err, PW_E_DOMAIN, "option", "--%s: %.200s", option, why.text);
  *day = pw_date_day(date);
  return PW_OK;
}

pw_status cli_threads(const cli_args *args, int *n, pw_err *err)
{
  long cores = sysconf(_SC_NPROCESSORS_ONLN);
  double most = PW_THREADS_MAX, threads = cores > 1 ? fmin((double)cores, most) : 1.0;
  pw_status status = cli_number(args, "threads", 1.0, most, &threads, err);
  if (status == PW_OK && floor(threads) != threads)
    status = pw_fail(err, PW_E_DOMAIN, "option", "--threads %s: want a whole number",
                     cli_get(args, "threads"));
  *n = (int)threads;
  return status;
}

pw_status cli_lanes(const cli_args *args, int *lanes, pw_err *err)
{
  double n = 0.0;
  const int most = pw_year_lanes();
  pw_status status =
      cli_get(args, "lanes") ? cli_number(args, "lanes", 1.0, most, &n, err) : PW_OK;
  if (status == PW_OK && n != 0.0 && n != 1.0 && n != 2.0 && n != 4.0 && n != 8.0)
    status = pw_fail(err, PW_E_DOMAIN, "option", "--lanes %s: want 1, 2, 4 or 8, here up to %d",
                     cli_get(args, "lanes"), most);
  *lanes = (int)n;
  return status;
}

pw_status cli_ask(const char *option, pw_status status, pw_err *err)
{
  size_t n = strlen(err->text);
  if (status != PW_OK && err->field && strcmp(err->field, option) == 0 &&
      strncmp(err->text, "--", 2) != 0)
    snprintf(err->text + n, sizeof err->text - n, " (--%s)", option);
  return status;
}

static int find_option(const cli_command *command, const char *name, size_t length)
{
  for (int i = 0; command->option[i].name; i++)
    if (strlen(command->option[i].name) == length &&
        strncmp(command->option[i].name, name, length) == 0)
      return i;
  return -1;
}

static int unknown_option(const cli_command *command, const char *word)
{
  const char *known[CLI_OPTIONS_MAX];
  size_t n = option_count(command);
  for (size_t i = 0; i < n; i++)
    known[i] = command->option[i].name;
  const char *near = pw_nearest(word + 2, known, n);
  if (near)
    fprintf(stderr, "panewright %s: no option %s; did you mean --%s?\n", command->name, word,
            near);
  else
    return usage_error(command, "no option", word);
  return EXIT_USAGE;
}

static void say(const char *line) { fprintf(stderr, "panewright: %s\n", line); }

/* --helper-seconds, --verbose: for commands that start helper programs. */
static int helpers(const cli_args *args)
{
  pw_err err = {0};
  pw_subprocess_settings settings = {.seconds = 30.0};
  if (cli_number(args, "helper-seconds", 0.1, 3600.0, &settings.seconds, &err) != PW_OK)
    return cli_fail(&err);
  if (cli_get(args, "verbose")) settings.say = say;
  pw_subprocess_set(&settings);
  return EXIT_DONE;
}

static int common(cli_args *args)
{
  const char *format = cli_get(args, "format"), *units = cli_get(args, "units");
  if (format) {
    int o = find_option(args->command, "format", strlen("format"));
    if (strcmp(format, "json") == 0 && !strstr(args->command->option[o].value, "json"))
      return usage_error(args->command, "--format wants text or csv, not", format);
    if (strcmp(format, "text") == 0)
      args->format = PW_TEXT;
    else if (strcmp(format, "csv") == 0)
      args->format = PW_CSV;
    else if (strcmp(format, "json") == 0)
      args->format = PW_JSON;
    else
      return usage_error(args->command, "--format wants text, csv or json, not", format);
  }
  if (units) {
    if (strcmp(units, "si") == 0)
      args->si = 1;
    else if (strcmp(units, "ip") != 0)
      return usage_error(args->command, "--units wants ip or si, not", units);
  }
  return helpers(args);
}

/* Runs it when no output is an input; what it staged and did not settle goes. */
static int run(const cli_args *args)
{
  pw_err err = {0};
  if (cli_paths_check(args, &err) != PW_OK) return cli_fail(&err);
  int ending = args->command->run(args);
  pw_safe_drop();
  return ending;
}

int cli_run(const cli_command *command, int argc, char **argv)
{
  cli_args args = {.command = command};
  int only_words = 0;
  for (int i = 0; i < argc; i++) {
    const char *a = argv[i];
    if (!only_words && strcmp(a, "--") == 0) {
      only_words = 1;
      continue;
    }
    if (!only_words && (strcmp(a, "--help") == 0 || strcmp(a, "-h") == 0)) {
      print_help(command);
      return cli_finish();
    }
    if (!only_words && strcmp(a, "-o") == 0) a = "--output";
    if (only_words || strncmp(a, "--", 2) != 0) {
      if (args.n_word == command->word_max || args.n_word == CLI_WORDS_MAX)
        return usage_error(command, "too many arguments at", a);
      args.word[args.n_word++] = a;
      continue;
    }
    const char *equal = strchr(a, '=');
    size_t length = equal ? (size_t)(equal - a) - 2 : strlen(a) - 2;
    int o = find_option(command, a + 2, length);
    if (o < 0) return unknown_option(command, a);
    if (!command->option[o].value) {
      if (equal) return usage_error(command, "this option takes no value:", a);
      args.value[o] = "";
    } else if (equal) {
      args.value[o] = equal + 1;
    } else if (i + 1 < argc) {
      args.value[o] = argv[++i];
    } else {
      return usage_error(command, "a value is missing after", a);
    }
  }
  if (args.n_word < command->word_min) return usage_error(command, "missing", command->words);
  int bad = common(&args);
  return bad ? bad : run(&args);
}

int cli_fail(const pw_err *err)
{
  static const int status[] = {
      [PW_OK] = EXIT_INTERNAL, /* a failure that nobody told must not look like success */
      [PW_E_DOMAIN] = EXIT_DATA,    [PW_E_SHAPE] = EXIT_DATA, [PW_E_CONVERGE] = EXIT_DATA,
      [PW_E_NOMEM] = EXIT_INTERNAL, [PW_E_DATA] = EXIT_DATA,  [PW_E_MISSING] = EXIT_NO_INPUT,
      [PW_E_CREATE] = EXIT_CREATE,  [PW_E_IO] = EXIT_IO,      [PW_E_LACK] = EXIT_CREATE,
  };
  int usage = err->field && strcmp(err->field, "option") == 0;
  pw_safe_drop();
  char text[sizeof err->text]; /* it may quote a name or an argument */
  memcpy(text, err->text, sizeof text);
  pw_text_clean(text);
  fprintf(stderr, "panewright: %s\n",
          text[0]              ? text
          : err->code == PW_OK ? "failed, and nothing says why: a fault of the program"
                               : pw_status_text(err->code));
  if (usage) return EXIT_USAGE;
  return (size_t)err->code < sizeof status / sizeof status[0] ? status[err->code]
                                                              : EXIT_INTERNAL;
}

int cli_finish(void)
{
  pw_err err = {0};
  switch (cli_let_go()) {
  case CLI_HELD_OUT:
    return pw_safe_settle(&err) == PW_OK ? EXIT_DONE : cli_fail(&err);
  case CLI_HELD_NO_MEMORY:
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory for the output");
    return cli_fail(&err);
  case CLI_HELD_NOT_WRITTEN:
    break;
  }
  pw_safe_drop();
  fprintf(stderr, "panewright: cannot write to standard output: %s\n",
          errno ? strerror(errno) : "write error");
  return EXIT_IO;
}
