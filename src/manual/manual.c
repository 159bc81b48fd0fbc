/* Pages of the manual and completions, of the same tables that --help prints. Run when the program is built:
 *   make DIR VERSION   writes panewright.1, panewright-NAME.1, panewright.bash, _panewright and panewright.fish there */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"

#define COMMAND(name) extern const cli_command cli_##name;
#include "cli/commands.def"
#undef COMMAND
#define COMMAND(name) &cli_##name,
static const cli_command *const command[] = {
#include "cli/commands.def"
};
enum { N_COMMAND = sizeof command / sizeof command[0] };

static const char *folder, *version;

static FILE *begin(const char *name)
{
  char path[1024];
  snprintf(path, sizeof path, "%s/%s", folder, name);
  FILE *f = fopen(path, "w");
  if (!f) {
    perror(path);
    exit(EXIT_CREATE);
  }
  return f;
}

static void end(FILE *f)
{
  if (ferror(f) | fclose(f)) {
    perror(folder);
    exit(EXIT_IO);
  }
}

/* ---------------------------------------------------------------- pages of the manual */

/* A text in roff: no letter of it is a request. */
static void roff(FILE *f, const char *text)
{
  int first = 1;
  for (; *text; text++) {
    if (first && (*text == '.' || *text == '\'')) fputs("\\&", f);
    if (*text == '\\')
      fputs("\\e", f);
    else if (*text == '-')
      fputs("\\-", f);
    else
      fputc(*text, f);
    first = *text == '\n';
  }
}

static void heading(FILE *f, const char *name, const char *about)
{
  fprintf(f, ".TH %s 1 \"\" \"panewright %s\" \"panewright\"\n.SH NAME\n", name, version);
  roff(f, name);
  fputs(" \\- ", f);
  roff(f, about);
  fputc('\n', f);
}

static void status(FILE *f)
{
  fputs(".SH EXIT STATUS\n"
        "0 done; 1 a check or an order does not hold; 2 the command line; 65 bad data; 66 "
        "missing "
        "input; 70 internal;\n73 cannot create; 74 cannot write.\n",
        f);
}

static void page(const cli_command *c)
{
  char name[64], file[80];
  snprintf(name, sizeof name, "panewright-%s", c->name);
  snprintf(file, sizeof file, "%s.1", name);
  FILE *f = begin(file);
  heading(f, name, c->about);
  fputs(".SH SYNOPSIS\n.B panewright ", f);
  roff(f, c->name);
  fputs("\n.I ", f);
  roff(f, c->words[0] ? c->words : "\\&");
  fputs("\n[options]\n", f);
  if (c->more) {
    fputs(".SH DESCRIPTION\n.nf\n", f);
    roff(f, c->more);
    fputs("\n.fi\n", f);
  }
  fputs(".SH OPTIONS\n", f);
  for (const cli_option *o = c->option; o->name; o++) {
    fputs(".TP\n\\fB\\-\\-", f);
    roff(f, o->name);
    fputs("\\fR", f);
    if (o->value) {
      fputs(" \\fI", f);
      roff(f, o->value);
      fputs("\\fR", f);
    }
    fputc('\n', f);
    roff(f, o->help);
    fputc('\n', f);
  }
  fputs(".TP\n\\fB\\-\\-help\\fR\nthis text\n", f);
  status(f);
  fputs(".SH SEE ALSO\n.BR panewright (1)\n", f);
  end(f);
}

static void first_page(void)
{
  FILE *f = begin("panewright.1");
  heading(f, "panewright", "what an insert window does in the opening it goes into");
  fputs(".SH SYNOPSIS\n.B panewright\n.I command\n[arguments] [options]\n.SH DESCRIPTION\n"
        "Heat, sun, light, sweating, energy and money of an insert window, beside the window "
        "that is "
        "there now.\nNothing computed is a certified rating.\n.SH COMMANDS\n",
        f);
  for (size_t i = 0; i < N_COMMAND; i++) {
    fprintf(f, ".TP\n.BR panewright\\-%s (1)\n", command[i]->name);
    roff(f, command[i]->about);
    fputc('\n', f);
  }
  status(f);
  end(f);
}

/* ---------------------------------------------------------------- completions */

/* The words of a value that is a choice, "text|csv|json"; "" for any other. */
static const char *choices(const cli_option *o, char words[256])
{
  words[0] = '\0';
  if (!o->value || !strchr(o->value, '|')) return words;
  snprintf(words, 256, "%s", o->value);
  for (char *p = words; *p; p++)
    if (*p == '|') *p = ' ';
  return words;
}

/* A text between single quotes of a shell; special: letters that a backslash goes before. */
static void quoted(FILE *f, const char *text, const char *special, const char *quote)
{
  for (; *text; text++) {
    if (*text == '\'')
      fputs(quote, f);
    else if (strchr(special, *text))
      fprintf(f, "\\%c", *text);
    else
      fputc(*text == '\n' ? ' ' : *text, f);
  }
}

static void bash(void)
{
  FILE *f = begin("panewright.bash");
  char words[256];
  fputs("# Completion of panewright for bash.\n_panewright() {\n"
        "  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} "
        "cmd=${COMP_WORDS[1]} words=\n"
        "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n    words='",
        f);
  for (size_t i = 0; i < N_COMMAND; i++)
    fprintf(f, "%s ", command[i]->name);
  fputs("--help --version'\n  else\n    case \"$cmd $prev\" in\n", f);
  for (size_t i = 0; i < N_COMMAND; i++)
    for (const cli_option *o = command[i]->option; o->name; o++)
      if (choices(o, words)[0])
        fprintf(f, "    '%s --%s') words='%s' ;;\n", command[i]->name, o->name, words);
  fputs("    *)\n      case \"$cmd $cur\" in\n", f);
  for (size_t i = 0; i < N_COMMAND; i++) {
    fprintf(f, "      '%s -'*) words='", command[i]->name);
    for (const cli_option *o = command[i]->option; o->name; o++)
      fprintf(f, "--%s ", o->name);
    fputs("--help' ;;\n", f);
  }
  fputs("      esac ;;\n    esac\n  fi\n"
        "  if [ -n \"$words\" ]; then\n"
        "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$cur\")\n"
        "  else\n"
        "    mapfile -t COMPREPLY < <(compgen -f -- \"$cur\")\n"
        "  fi\n}\n"
        "complete -o filenames -F _panewright panewright\n",
        f);
  end(f);
}

static void zsh(void)
{
  FILE *f = begin("_panewright");
  char words[256];
  fputs("#compdef panewright\n# Completion of panewright for zsh.\n_panewright() {\n"
        "  local -a names\n  names=(\n",
        f);
  for (size_t i = 0; i < N_COMMAND; i++) {
    fprintf(f, "    '%s:", command[i]->name);
    quoted(f, command[i]->about, ":\\", "'\\''");
    fputs("'\n", f);
  }
  fputs("  )\n  if (( CURRENT == 2 )); then\n    _describe command names\n    return\n  fi\n"
        "  shift words\n  (( CURRENT-- ))\n  case $words[1] in\n",
        f);
  for (size_t i = 0; i < N_COMMAND; i++) {
    fprintf(f, "  %s)\n    _arguments \\\n", command[i]->name);
    for (const cli_option *o = command[i]->option; o->name; o++) {
      fprintf(f, "      '--%s[", o->name);
      quoted(f, o->help, "[]:\\", "'\\''");
      fputc(']', f);
      if (choices(o, words)[0])
        fprintf(f, ":value:(%s)", words);
      else if (o->value)
        fputs(":value:_files", f);
      fputs("' \\\n", f);
    }
    fputs("      '--help[this text]' '*:file:_files' ;;\n", f);
  }
  fputs("  esac\n}\n_panewright \"$@\"\n", f);
  end(f);
}

static void fish(void)
{
  FILE *f = begin("panewright.fish");
  char words[256];
  fputs("# Completion of panewright for fish.\n", f);
  for (size_t i = 0; i < N_COMMAND; i++) {
    fprintf(f, "complete -c panewright -n __fish_use_subcommand -f -a %s -d '",
            command[i]->name);
    quoted(f, command[i]->about, "\\", "\\'");
    fputs("'\n", f);
  }
  for (size_t i = 0; i < N_COMMAND; i++)
    for (const cli_option *o = command[i]->option; o->name; o++) {
      fprintf(f, "complete -c panewright -n '__fish_seen_subcommand_from %s' -l %s",
              command[i]->name, o->name);
      if (choices(o, words)[0])
        fprintf(f, " -x -a '%s'", words);
      else if (o->value)
        fputs(" -r", f);
      fputs(" -d '", f);
      quoted(f, o->help, "\\", "\\'");
      fputs("'\n", f);
    }
  end(f);
}

int main(int argc, char **argv)
{
  if (argc != 3) {
    fputs("make DIR VERSION\n", stderr);
    return EXIT_USAGE;
  }
  folder = argv[1];
  version = argv[2];
  first_page();
  for (size_t i = 0; i < N_COMMAND; i++)
    page(command[i]);
  bash();
  zsh();
  fish();
  return EXIT_DONE;
}
