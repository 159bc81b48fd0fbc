/* Dispatches to one file a command; knows nothing else. */
#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "base/text.h"
#include "cli/command.h"
#include "cli/start.h"
#include "out/json.h"
#include "panewright/version.h"

/* One line a command, in the order of the help, in commands.def. */
#define COMMAND(name) extern const cli_command cli_##name;
#include "cli/commands.def"
#undef COMMAND
#define COMMAND(name) &cli_##name,
static const cli_command *const command[] = {
#include "cli/commands.def"
};
enum { N_COMMAND = sizeof command / sizeof command[0] };

static int help(FILE *f)
{
  fputs("panewright COMMAND [arguments] [options]\n\n"
        "What an insert window does in the opening it goes into, beside the window that is "
        "there\n"
        "now: heat, sun, light, sweating, energy and money.\n\nCommands\n",
        f);
  for (size_t i = 0; i < N_COMMAND; i++)
    fprintf(f, "  %-10s %s\n", command[i]->name, command[i]->about);
  fputs(
      "\npanewright COMMAND --help tells more. Nothing computed here is a certified rating.\n",
      f);
  return f == stdout ? cli_finish() : EXIT_USAGE;
}

int main(int argc, char **argv)
{
  if (!cli_start()) {
    fputs("panewright: no memory to begin\n", stderr);
    return EXIT_INTERNAL;
  }
  gsl_set_error_handler_off(); /* a status, looked at where it is asked for */
  pw_json_watch();
  if (argc < 2) return help(stderr);
  const char *name = argv[1];
  if (strcmp(name, "--help") == 0 || strcmp(name, "-h") == 0 || strcmp(name, "help") == 0)
    return help(stdout);
  if (strcmp(name, "--version") == 0) {
    puts("panewright " PW_VERSION);
    return cli_finish();
  }
  const char *known[N_COMMAND];
  for (size_t i = 0; i < N_COMMAND; i++) {
    known[i] = command[i]->name;
    if (strcmp(name, known[i]) == 0) return cli_run(command[i], argc - 2, argv + 2);
  }
  pw_text_clean(argv[1]);
  const char *near = pw_nearest(name, known, N_COMMAND);
  if (near)
    fprintf(stderr, "panewright: no command '%s'; did you mean %s?\n", name, near);
  else
    fprintf(stderr, "panewright: no command '%s' (see panewright --help)\n", name);
  return EXIT_USAGE;
}
