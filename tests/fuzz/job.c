/* A whole job folder, through the commands themselves: the first byte says which, then come files, each led by a
 * line "== NAME". They are written into a folder in memory; outputs go into another beside it. */
#define _GNU_SOURCE /* memmem */
#include <dirent.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cli/command.h"
#include "cli/held.h"
#include "fuzz.h"

#define COMMAND(name) extern const cli_command cli_##name;
#include "cli/commands.def"
#undef COMMAND

enum { WORDS = 8, NAME = 32 };

/* JOB and OUT stand for the two folders. */
static const struct {
  const cli_command *command;
  const char *word[WORDS];
} run[] = {
    {&cli_fit, {"JOB", "--all"}},
    {&cli_fit, {"JOB", "--format", "json", "--language", "es"}},
    {&cli_fit, {"JOB", "--format", "csv", "--order", "OUT/order.csv"}},
    {&cli_compare, {"JOB", "--quick", "--all"}},
    {&cli_compare, {"JOB", "--quick", "--format", "json", "--language", "es"}},
    {&cli_compare, {"JOB", "--quick", "--format", "csv"}},
    {&cli_compare, {"JOB", "--quick", "--explain", "saving"}},
    {&cli_rebate,
     {"JOB", "--program", "examples/programs/juniper_flat_power_2026.csv", "-o", "OUT/c.html"}},
    {&cli_papers,
     {"JOB", "-o", "OUT/papers", "--html-only", "--no-range", "--date", "2026-06-01"}},
    {&cli_sheet, {"JOB", "--no-range", "-o", "OUT/sheet.html"}},
    {&cli_bills, {"JOB/bills.csv", "--format", "json"}},
    {&cli_after, {"JOB", "--explain"}},
    {&cli_compare, {"JOB", "--quick", "--range", "--draws", "16", "--threads", "1"}},
};
enum { N_RUN = sizeof run / sizeof run[0] };

static void empty(const char *dir)
{
  DIR *d = opendir(dir);
  if (!d) return;
  for (struct dirent *e; (e = readdir(d));) {
    char path[512];
    struct stat is;
    if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0) continue;
    snprintf(path, sizeof path, "%.200s/%.255s", dir, e->d_name);
    if (lstat(path, &is) != 0) continue;
    if (S_ISDIR(is.st_mode)) {
      empty(path);
      rmdir(path);
    } else {
      unlink(path);
    }
  }
  closedir(d);
}

/* Only plain names of small letters, so that no file leaves the folder. */
static int is_name(const char *name, size_t n)
{
  return n > 0 && n < NAME && name[0] != '.' &&
         strspn(name, "abcdefghijklmnopqrstuvwxyz0123456789_.") >= n;
}

static void put_file(const char *dir, const char *name, size_t n, const char *text, size_t size)
{
  char path[128];
  if (!is_name(name, n)) return;
  snprintf(path, sizeof path, "%.64s/%.*s", dir, (int)n, name);
  int fd = open(path, O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (fd < 0 || write(fd, text, size) != (ssize_t)size || close(fd) != 0) abort();
}

static void put_files(const char *dir, const char *text, size_t size)
{
  const char *end = text + size, *head = memmem(text, size, "== ", 3);
  while (head) {
    const char *name = head + 3, *line = memchr(name, '\n', (size_t)(end - name));
    if (!line) return;
    const char *next = memmem(line, (size_t)(end - line), "\n== ", 4);
    const char *stop = next ? next + 1 : end;
    put_file(dir, name, (size_t)(line - name), line + 1, (size_t)(stop - line - 1));
    head = next ? next + 1 : NULL;
  }
}

static void swap(char word[160], const char *from, const char *sign, const char *dir)
{
  size_t n = strlen(sign);
  if (strncmp(from, sign, n) == 0)
    snprintf(word, 160, "%s%s", dir, from + n);
  else
    snprintf(word, 160, "%s", from);
}

/* As main.c runs it: what it prints is held, and comes out nowhere; a status of README's list is its end. */
static void command(size_t k, const char *job, const char *out)
{
  char word[WORDS][160];
  char *argv[WORDS];
  int argc = 0;
  for (; argc < WORDS && run[k].word[argc]; argc++) {
    char once[160];
    swap(once, run[k].word[argc], "JOB", job);
    swap(word[argc], once, "OUT", out);
    argv[argc] = word[argc];
  }
  FILE *before = stdout;
  if (!cli_hold()) abort();
  int ending = cli_run(run[k].command, argc, argv);
  if (stdout != before) cli_let_go();
  if (ending != EXIT_DONE && ending != EXIT_FAILED_CHECK && ending != EXIT_DATA &&
      ending != EXIT_NO_INPUT && ending != EXIT_CREATE && ending != EXIT_USAGE)
    abort();
}

void fuzz_job(const char *text, size_t size)
{
  char job[80], out[80];
  if (size < 1) return;
  snprintf(job, sizeof job, "%s/job", fuzz_folder());
  snprintf(out, sizeof out, "%s/out", fuzz_folder());
  mkdir(job, 0700);
  mkdir(out, 0700);
  put_files(job, text + 1, size - 1);
  command((unsigned char)text[0] % N_RUN, job, out);
  empty(job);
  empty(out);
}
