/* panewright words: the columns and items that the files of a job may have, and what they mean. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/nearest.h"
#include "cli/command.h"
#include "cli/paper.h"
#include "out/field_list_out.h"

static pw_status no_file(const char *name, const job_field_list list[], pw_err *err)
{
  const char *known[JOB_FILES];
  for (size_t i = 0; i < JOB_FILES; i++)
    known[i] = list[i].file;
  const char *near = pw_nearest(name, known, JOB_FILES);
  return pw_fail(err, PW_E_MISSING, NULL, "no file of a job is named %.60s%s%s%s", name,
                 near ? "; did you mean " : " (panewright words lists all)", near ? near : "",
                 near ? "?" : "");
}

static pw_status print(const cli_args *args, job_field_list list[], pw_err *err)
{
  const pw_tongue *tongue;
  job_field_lists(list);
  pw_status status = cli_paper_tongue(args, &tongue, err);
  if (status != PW_OK) return status;
  if (!args->n_word)
    return pw_field_list_print(list, JOB_FILES, stdout, args->format, tongue, err);
  for (size_t i = 0; i < JOB_FILES; i++)
    if (strcmp(list[i].file, args->word[0]) == 0)
      return pw_field_list_print(&list[i], 1, stdout, args->format, tongue, err);
  return no_file(args->word[0], list, err);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  job_field_list *list = calloc(JOB_FILES, sizeof *list);
  pw_status status = list ? print(args, list, &err)
                          : pw_fail(&err, PW_E_NOMEM, NULL, "no memory for the words");
  free(list);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"language", "en|es", "of what each means (en)"}, CLI_FORMAT, CLI_END};
extern const cli_command cli_words;
const cli_command cli_words = {
    "words",
    "[FILE]",
    "lists what the files of a job may say: columns, items, their words and units",
    "FILE is job.csv, openings.csv, packages.csv, labels.csv, prices.csv, firm.csv or "
    "bills.csv; all\nwithout it. low and high in JSON are SI, as kept.",
    option,
    0,
    1,
    run};
