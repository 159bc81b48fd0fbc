/* panewright papers: the papers of a job, a folder for each who gets them. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "cli/job_view.h"
#include "cli/paper.h"
#include "job/survey.h"
#include "job/version.h"
#include "out/document.h"
#include "out/measure_form.h"
#include "out/safe_file.h"

enum { PATH_SIZE = 4096 };

/* What one run writes. */
typedef struct set {
  const cli_args *args;
  const char *dir, *paper;
  pw_date date;
  size_t blank;
  pw_err lack; /* no converter: the HTML stays, this is said at the end */
} set;

static const char *const paper_name[] = {"measure", "customer"};
enum { MEASURE, CUSTOMER, PAPERS };

static int wanted(const set *s, int paper)
{
  const char *only = cli_get(s->args, "only");
  return !only || strcmp(only, paper_name[paper]) == 0;
}

static pw_status path_of(const set *s, const char *folder, const char *name, const char *ending,
                         char path[PATH_SIZE], pw_err *err)
{
  int n = snprintf(path, PATH_SIZE, "%s/%s%s%s%s", s->dir, folder, name[0] ? "/" : "", name,
                   ending);
  if (n < 0 || n >= PATH_SIZE)
    return pw_fail(err, PW_E_CREATE, NULL, "%.80s...: the name is too long", s->dir);
  return PW_OK;
}

/* NAME.html and NAME.pdf of the same text. */
static pw_status put(set *s, const char *folder, const char *name, const char *text,
                     size_t size, pw_err *err)
{
  static const char *const ending[] = {".html", ".pdf"};
  char path[PATH_SIZE];
  pw_status status = path_of(s, folder, "", "", path, err);
  if (status == PW_OK) status = pw_safe_folder(path, err);
  for (size_t i = 0; status == PW_OK && i < sizeof ending / sizeof ending[0]; i++) {
    status = path_of(s, folder, name, ending[i], path, err);
    if (status == PW_OK) status = pw_document_write(path, text, size, s->paper, err);
    if (status == PW_E_LACK) {
      s->lack = *err;
      status = PW_OK;
    }
  }
  return status;
}

static pw_status make(set *s, const char *folder, int paper, cli_writer write, const void *what,
                      pw_err *err)
{
  char *text;
  size_t size;
  pw_status status = cli_paper_text(write, what, NULL, &text, &size, err);
  if (status == PW_OK) status = put(s, folder, paper_name[paper], text, size, err);
  free(text);
  return status;
}

static pw_status write_measure(const void *what, pw_html *h, pw_err *err)
{
  return pw_measure_form_html(what, h, err);
}

static pw_status today(const cli_args *args, pw_date *date, pw_err *err)
{
  const char *text = cli_get(args, "date");
  if (!text) {
    *date = pw_date_of_day((int)(time(NULL) / 86400));
    return PW_OK;
  }
  pw_status status = pw_date_read(text, date, err);
  if (status != PW_OK || *date == 0)
    return pw_fail(err, PW_E_DOMAIN, "date", "--date %.40s: want a day as 2026-11-29", text);
  return PW_OK;
}

static pw_status measure(set *s, pw_err *err)
{
  pw_job job = {0};
  pw_notes notes = {0};
  char version[PW_VERSION_MAX];
  pw_measure_form form = {
      .job = &job, .si = s->args->si, .version = version, .date = s->date, .blank = s->blank};
  pw_status status =
      pw_job_read_dwelling(s->args->word[0], cli_get(s->args, "dwelling"), &job, &notes, err);
  if (status == PW_OK) status = pw_job_version(s->args->word[0], version, err);
  if (status == PW_OK) status = make(s, "office", MEASURE, write_measure, &form, err);
  if (status == PW_OK) cli_tell_unknown(&notes);
  pw_notes_free(&notes);
  pw_job_free(&job);
  return status;
}

static pw_status customer(set *s, pw_err *err)
{
  cli_job job = {0};
  const cli_customer pages = {&job, s->args->si};
  pw_status status = cli_customer_job(s->args, &job, err);
  if (status == PW_OK) status = make(s, "customer", CUSTOMER, cli_customer_write, &pages, err);
  cli_job_free(&job);
  return status;
}

/* Refuses before any work is done. */
static pw_status check(set *s, pw_err *err)
{
  const char *only = cli_get(s->args, "only");
  s->dir = cli_get(s->args, "output");
  if (!s->dir) return pw_fail(err, PW_E_DATA, "output", "where to? want -o DIR");
  pw_status status = cli_paper(s->args, &s->paper, err);
  if (status != PW_OK) return status;
  int known = !only;
  for (int i = 0; !known && i < PAPERS; i++)
    known = strcmp(only, paper_name[i]) == 0;
  if (!known)
    return pw_fail(err, PW_E_DATA, "only", "--only %.40s: want measure or customer", only);
  double blank = 0.0;
  status = cli_number(s->args, "blank", 1.0, 60.0, &blank, err);
  s->blank = (size_t)blank;
  return status == PW_OK ? today(s->args, &s->date, err) : status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  set s = {.args = args};
  if (check(&s, &err) != PW_OK) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  pw_status status = pw_safe_folder(s.dir, &err);
  if (status == PW_OK && wanted(&s, MEASURE)) status = measure(&s, &err);
  if (status == PW_OK && wanted(&s, CUSTOMER)) status = customer(&s, &err);
  if (status != PW_OK) return cli_fail(&err);
  int ending = cli_finish();
  return ending == EXIT_DONE && s.lack.code != PW_OK ? cli_fail(&s.lack) : ending;
}

static const cli_option option[] = {
    {"output", "DIR", "where to (-o DIR): folders office and customer"},
    {"only", "NAME",
     "one paper: measure (a form to write the readings on) or customer (the pages of `sheet`)"},
    {"blank", "N", "the measuring form with N openings that are not filled in"},
    CLI_PAPER,
    {"date", "DAY", "the day that stands on the papers (today, UTC)"},
    CLI_DWELLING,
    CLI_PROGRAM,
    CLI_ZONE,
    CLI_DRAWS,
    CLI_SEED,
    CLI_THREADS,
    {"no-range", NULL, "customer's pages without ranges; they then say so"},
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_papers;
const cli_command cli_papers = {"papers",
                                "JOB",
                                "the papers of a job: measuring form, customer's pages",
                                "Each as HTML and PDF, in a folder for the one who gets it; "
                                "the form carries the state of the\n"
                                "job's files (eight digits) and the day.",
                                option,
                                1,
                                1,
                                run};
