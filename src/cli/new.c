/* panewright new: a commented job folder to start from; nothing is overwritten. */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "cli/command.h"
#include "job/text_file.h"
#include "out/safe_file.h"

enum { PATH_SIZE = 4096 };

static const char *const file_name[] = {"job.csv", "openings.csv", "packages.csv"};
enum { FILES = sizeof file_name / sizeof file_name[0] };

static pw_status path_of(const char *dir, const char *name, char path[PATH_SIZE], pw_err *err)
{
  int n = snprintf(path, PATH_SIZE, "%s/%s", dir, name);
  if (n < 0 || n >= PATH_SIZE)
    return pw_fail(err, PW_E_CREATE, NULL, "%.80s...: the name is too long", dir);
  return PW_OK;
}

/* All names must be free before the first file is written. */
static pw_status check_free(const char *dir, pw_err *err)
{
  char path[PATH_SIZE];
  struct stat there;
  if (stat(dir, &there) == 0 && !S_ISDIR(there.st_mode))
    return pw_fail(err, PW_E_CREATE, NULL, "%s is there and is no folder", dir);
  for (size_t i = 0; i < FILES; i++) {
    pw_status status = path_of(dir, file_name[i], path, err);
    if (status != PW_OK) return status;
    if (lstat(path, &there) == 0)
      return pw_fail(err, PW_E_CREATE, NULL, "%s is there already; nothing was written", path);
  }
  return PW_OK;
}

static pw_status write_one(const char *dir, const char *set, const char *name, pw_err *err)
{
  char path[PATH_SIZE], source[128];
  snprintf(source, sizeof source, "examples/%s/%s", set, name);
  const char *text = pw_text_file_find(source);
  if (!text) return pw_fail(err, PW_E_MISSING, NULL, "no built-in text %s", source);
  pw_status status = path_of(dir, name, path, err);
  return status == PW_OK ? pw_safe_put_new(path, text, strlen(text), err) : status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  const char *dir = args->word[0], *set = cli_get(args, "example") ? "harrow_bend" : "starter";
  pw_status status = check_free(dir, &err);
  if (status == PW_OK) status = pw_safe_folder(dir, &err);
  for (size_t i = 0; i < FILES && status == PW_OK; i++)
    status = write_one(dir, set, file_name[i], &err);
  if (status != PW_OK) return cli_fail(&err);
  printf("wrote %s/job.csv, openings.csv and packages.csv: fill them in, then\n"
         "  panewright fit %s\n  panewright compare %s\n",
         dir, dir, dir);
  return cli_finish();
}

static const cli_option option[] = {
    {"example", NULL,
     "the whole fictional example house in place of two openings to start from"},
    CLI_END};
extern const cli_command cli_new;
const cli_command cli_new = {"new",
                             "DIR",
                             "writes a commented job folder to start from",
                             "DIR is made when it is not there. A file that is there is never "
                             "overwritten.",
                             option,
                             1,
                             1,
                             run};
