/* panewright papers: the papers of a job, a folder for each who gets them. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/job_view.h"
#include "cli/paper_set.h"
#include "cli/promise_keep.h"
#include "out/safe_file.h"

/* In the order in which a job needs them. */
static const cli_paper_kind paper[] = {
    {"measure", CLI_OFFICE, 0, 0, cli_paper_measure},
    {"order", CLI_MAKER, 1, 0, cli_paper_order},
    {"change", CLI_MAKER, 1, 0, cli_paper_change},
    {"crew", CLI_CREW, 1, 0, cli_paper_crew},
    {"materials", CLI_CREW, 1, 0, cli_paper_materials},
    {"customer", CLI_CUSTOMER, 0, 1, cli_paper_customer},
    {"offer", CLI_CUSTOMER, 0, 1, cli_paper_offer},
    {"handover", CLI_CUSTOMER, 1, 1, cli_paper_handover},
    {"worksheet", CLI_OFFICE, 0, 0, cli_paper_worksheet},
};
enum { PAPERS = sizeof paper / sizeof paper[0] };

static int wanted(const cli_args *args, const cli_paper_kind *kind)
{
  const char *only = cli_get(args, "only");
  return !only || strcmp(only, kind->name) == 0;
}

static pw_status unknown_paper(const char *only, pw_err *err)
{
  char list[200];
  size_t n = 0;
  for (size_t i = 0; i < PAPERS; i++)
    n += (size_t)snprintf(list + n, sizeof list - n, "%s%s",
                          i == 0            ? ""
                          : i + 1 == PAPERS ? " or "
                                            : ", ",
                          paper[i].name);
  return pw_fail(err, PW_E_DATA, "only", "--only %.40s: want %s", only, list);
}

/* A paper of one package: which one must be said, unless there is but one or every window has its own. */
static pw_status need_package(cli_set *s, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *report;
  pw_status status = cli_set_fit(s, &report, err);
  if (status != PW_OK || cli_get(s->args, "package") || report->job->n_package == 1)
    return status;
  for (size_t i = 0; i < report->job->n_opening; i++) {
    const pw_opening *o = &report->job->opening[i];
    if (o->standing == PW_REPLACED && !o->own_package)
      return pw_fail(err, PW_E_DATA, "package",
                     "the paper %s is of one package: want --package NAME (opening %s has none "
                     "of its own), or --only another paper",
                     kind->name, o->tag);
  }
  return PW_OK;
}

/* Refuses before any work is done. */
static pw_status check(cli_set *s, pw_err *err)
{
  const char *only = cli_get(s->args, "only");
  const pw_tongue *tongue;
  double blank = 0.0;
  int known = 0, ranged = 0;
  s->dir = cli_get(s->args, "output");
  if (!s->dir) return pw_fail(err, PW_E_DATA, "output", "where to? want -o DIR");
  pw_status status = cli_paper(s->args, &s->page, err);
  if (status != PW_OK) return status;
  for (size_t i = 0; i < PAPERS; i++)
    if (wanted(s->args, &paper[i])) {
      known = 1;
      ranged |= paper[i].ranged;
    }
  s->ranges = ranged && !cli_get(s->args, "no-range");
  if (!known) return unknown_paper(only, err);
  if (only && strcmp(only, "change") == 0 && !cli_get(s->args, "before"))
    return pw_fail(err, PW_E_DATA, "before",
                   "--only change: want --before FILE, the order.csv that was sent earlier");
  status = cli_paper_tongue(s->args, &tongue, err);
  if (status == PW_OK) status = cli_number(s->args, "blank", 1.0, 60.0, &blank, err);
  s->blank = (size_t)blank;
  return status == PW_OK ? cli_paper_date(s->args, &s->date, err) : status;
}

/* No converter: the HTML stays, the lack is said at the end. */
static pw_status convert(cli_set *s, int n_thread, pw_err *lack, pw_err *err)
{
  pw_status status = pw_pdf_pile_put(&s->pdf, n_thread, err);
  if (status != PW_E_LACK) return status;
  *lack = *err;
  return PW_OK;
}

/* What the customer reads is noted in the job folder: of the offer, where windows are left out of it. */
static pw_status keep_promise(const cli_set *s, pw_err *err)
{
  const char *only = cli_get(s->args, "only");
  const cli_job *job = s->left_out ? &s->offer_job : &s->job;
  if (only && strcmp(only, "customer") != 0 && strcmp(only, "offer") != 0) return PW_OK;
  if (!job->range) return PW_OK;
  const pw_promised promised = {job->compare, job->range};
  return cli_promise_keep(s->args->word[0], &promised, 1, s->date, err);
}

static pw_status make(cli_set *s, pw_err *lack, pw_err *err)
{
  const pw_fit_report *report;
  int n_thread;
  pw_status status = cli_threads(s->args, &n_thread, err);
  if (status == PW_OK) status = cli_set_fit(s, &report, err);
  for (size_t i = 0; status == PW_OK && i < PAPERS; i++)
    if (paper[i].by_package && wanted(s->args, &paper[i]))
      status = need_package(s, &paper[i], err);
  if (status == PW_OK) status = pw_safe_folder(s->dir, err);
  for (size_t i = 0; status == PW_OK && i < PAPERS; i++)
    if (wanted(s->args, &paper[i])) status = paper[i].make(s, &paper[i], err);
  if (status == PW_OK) status = keep_promise(s, err);
  return status == PW_OK ? convert(s, n_thread, lack, err) : status;
}

static int run(const cli_args *args)
{
  pw_err err = {0}, lack = {0};
  cli_set s = {.args = args};
  if (check(&s, &err) != PW_OK) {
    cli_fail(&err);
    return EXIT_USAGE;
  }
  pw_status status = make(&s, &lack, &err);
  int ending = status == PW_OK ? cli_finish() : cli_fail(&err);
  cli_fit_run_free(&s.fit);
  cli_job_free(&s.job);
  cli_job_free(&s.offer_job);
  free(s.left_out);
  pw_pdf_pile_free(&s.pdf);
  return ending == EXIT_DONE && lack.code != PW_OK ? cli_fail(&lack) : ending;
}

static const cli_option option[] = {
    {"output", "DIR", "where to (-o DIR): folders office, customer, maker, crew"},
    {"only", "NAME",
     "one paper by its name: measure, order, change, crew, materials, customer, offer, "
     "handover, "
     "worksheet"},
    {"package", "NAME", "the package that order, crew's day, materials and hand-over are of"},
    {"offer", "NAME,NAME",
     "up to three packages to choose from on the offer (else --package, or all)"},
    {"before", "F.csv",
     "the order.csv that was sent earlier: the paper change shows old and new side by side"},
    {"language", "en|es", "of every paper (else language and crew_language of job.csv)"},
    {"blank", "N", "the measuring form with N openings that are not filled in"},
    CLI_PAPER,
    {"date", "DAY", "the day that stands on the papers (today, UTC)"},
    CLI_DWELLING,
    CLI_PROGRAM,
    CLI_ZONE,
    CLI_DRAWS,
    CLI_SEED,
    CLI_THREADS,
    CLI_LANES,
    {"html-only", NULL, "no PDF beside the HTML"},
    {"no-range", NULL, "customer's pages without ranges; they then say so"},
    CLI_UNITS,
    CLI_HELPERS,
    CLI_END};
extern const cli_command cli_papers;
const cli_command cli_papers = {"papers",
                                "JOB",
                                "the papers of a job, a folder for each who gets them",
                                "measure (a form to write the readings on), order (to the "
                                "maker, with order.csv; rows that\n"
                                "may not be ordered yet stand apart and are named on standard "
                                "error), change (an order sent\n"
                                "earlier beside it), crew (the day, a block an opening), "
                                "materials (amounts, cutting plan,\n"
                                "CSV), customer (the pages of `sheet`), offer (to be signed), "
                                "handover (how to live with the\n"
                                "windows), worksheet (of a program, with --program). Each as "
                                "HTML and PDF; each carries the\n"
                                "state of the job's files (eight digits) and the day. What "
                                "customer and offer say with\n"
                                "their ranges is noted in promise.csv of the job folder, for "
                                "`after`.",
                                option,
                                1,
                                1,
                                run};
