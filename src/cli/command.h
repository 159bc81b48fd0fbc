/* What every command shares: its entry in the table of main.c, its options, its exit status. */
#ifndef CLI_COMMAND_H
#define CLI_COMMAND_H

#include "out/grid.h"
#include "panewright/status.h"

enum {
  EXIT_DONE = 0,
  EXIT_FAILED_CHECK = 1,
  EXIT_USAGE = 2,
  EXIT_DATA = 65,
  EXIT_NO_INPUT = 66,
  EXIT_INTERNAL = 70,
  EXIT_CREATE = 73,
  EXIT_IO = 74
};

/* One option: --name, or --name VALUE when value is set. */
typedef struct cli_option {
  const char *name;  /* without the dashes */
  const char *value; /* placeholder of its value; NULL for a flag */
  const char *help;
} cli_option;

enum { CLI_OPTIONS_MAX = 40, CLI_WORDS_MAX = 1024 };

struct cli_args;

typedef struct cli_command {
  const char *name;
  const char *words;        /* positional arguments, for the usage line */
  const char *about;        /* one line */
  const char *more;         /* further help text, or NULL */
  const cli_option *option; /* ends with a NULL name */
  int word_min, word_max;
  int (*run)(const struct cli_args *args); /* returns an exit status */
} cli_command;

typedef struct cli_args {
  const cli_command *command;
  const char
      *value[CLI_OPTIONS_MAX]; /* by index of option[]; "" for a flag that is set, or NULL */
  const char *word[CLI_WORDS_MAX];
  int n_word;
  pw_format format; /* --format, when the command has it */
  int si;           /* 1 after --units si */
} cli_args;

/* The value of an option, "" for a flag that is set, NULL when not given. */
const char *cli_get(const cli_args *args, const char *name);

/* A number option: PW_OK and *v set (or left when not given); PW_E_DOMAIN outside low..high. */
pw_status cli_number(const cli_args *args, const char *name, double low, double high, double *v,
                     pw_err *err);

/* A day that stands in an option, as people write days (job/date_text.h): its number (panewright/date.h). */
pw_status cli_day(const char *option, const char *text, int *day, pw_err *err);

/* --threads, 1 to PW_THREADS_MAX: as many as there are cores when it is not given. */
pw_status cli_threads(const cli_args *args, int *n, pw_err *err);
#define CLI_LANES                                                                              \
  {                                                                                            \
    "lanes", "N",                                                                              \
        "house years side by side: 1, 2, 4, 8 (all the processor has); the figures are the "   \
        "same for any number"                                                                  \
  }
/* --lanes: house years side by side, 0 as many as the processor has */
pw_status cli_lanes(const cli_args *args, int *lanes, pw_err *err);

/* When status is a failure whose field is that option, adds "(--zone)" to its words, unless they
 * begin with an option. Returns status. */
pw_status cli_ask(const char *option, pw_status status, pw_err *err);

/* Parses argv (after the command's name) and runs; --help prints and gives 0. */
int cli_run(const cli_command *command, int argc, char **argv);

/* Prints "panewright: text" on stderr and gives the exit status that belongs to the code; the field
 * "option" tells that the command line is at fault. */
int cli_fail(const pw_err *err);

/* Flushes stdout, then gives the files of the run their names (out/safe_file.h); a full disk or closed
 * pipe gives EXIT_IO with one line and no file. */
int cli_finish(void);

/* Rows for option tables. */
#define CLI_FORMAT                                                                             \
  {                                                                                            \
    "format", "text|csv|json", "how to print (text)"                                           \
  }
#define CLI_UNITS                                                                              \
  {                                                                                            \
    "units", "ip|si", "units of printed text (ip); JSON and CSV carry SI"                      \
  }
#define CLI_HELPERS                                                                            \
  {"helper-seconds", "S",                                                                      \
   "time that a helper program (gnuplot, weasyprint) may take; waits for a busy machine do "   \
   "not count (30)"},                                                                          \
  {                                                                                            \
    "verbose", NULL, "say how the helper program is fenced in"                                 \
  }
#define CLI_END                                                                                \
  {                                                                                            \
    0, 0, 0                                                                                    \
  }

#endif
