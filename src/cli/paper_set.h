/* A run of `papers`: what its papers share. The job is read, fitted, compared at most once, when the first paper asks;
 * each paper is one file cli/paper_NAME.c with one function, named in the table of cli/papers.c. */
#ifndef CLI_PAPER_SET_H
#define CLI_PAPER_SET_H

#include "cli/fit_run.h"
#include "cli/paper.h"
#include "job/version.h"
#include "out/offer.h"
#include "out/paper.h"
#include "out/pdf_pile.h"

struct cli_set;

/* Who reads a paper: his folder, his tongue. */
typedef enum cli_reader {
  CLI_OFFICE = 0,
  CLI_CUSTOMER, /* item language of job.csv */
  CLI_MAKER,
  CLI_CREW, /* item crew_language */
  CLI_READERS
} cli_reader;

typedef struct cli_paper_kind {
  const char *name; /* of its files, and for --only */
  cli_reader reader;
  int by_package; /* 1: of one package; wants --package where the job offers several and a window has none of its own */
  int ranged;     /* 1: it tells ranges */
  pw_status (*make)(struct cli_set *set, const struct cli_paper_kind *kind, pw_err *err);
} cli_paper_kind;

typedef struct cli_set {
  const cli_args *args;
  const char *dir, *page; /* where to; letter or a4 */
  pw_date date;
  char version[PW_VERSION_MAX];
  size_t blank;
  int ranges;      /* 1: some paper of this run tells them */
  pw_pdf_pile pdf; /* to be converted at the end, side by side */
  /* filled when asked for */
  cli_fit_run fit;
  pw_fit_report report;
  int fitted, compared;
  cli_job job;
  /* the job without the openings that may not be offered, and those; like job while there are none */
  cli_job offer_job;
  unsigned char *left_out; /* [n_opening], owned; NULL: offer_job is not there */
} cli_set;

/* The job fitted for the package named (the first without). */
pw_status cli_set_fit(cli_set *set, const pw_fit_report **report, pw_err *err);

/* The job compared, with all that the customer's pages tell, rebates by --program, ranges where a paper of this run tells them. */
pw_status cli_set_job(cli_set *set, cli_job **job, pw_err *err);

/* What stands on each paper, of a job fitted or compared. */
pw_paper cli_set_paper(const cli_set *set, const pw_job *job);

/* The tongue of a reader (NULL: English): --language, else what the job says. The job is fitted for it. */
pw_status cli_set_tongue(cli_set *set, cli_reader reader, const pw_tongue **tongue,
                         pw_err *err);

/* NAME.html of what write writes, in the folder and the tongue of its reader; NAME.pdf is made at the end, unless the HTML
 * alone is asked for. */
pw_status cli_set_write(cli_set *set, const cli_paper_kind *kind, cli_writer write,
                        const void *what, pw_err *err);

/* NAME.csv, in English whatever its reader speaks: other programs read it. write writes to the document's stream. */
pw_status cli_set_csv(cli_set *set, const cli_paper_kind *kind, cli_writer write,
                      const void *what, pw_err *err);

/* cli_set_write of an offer whose packages are named: what may be offered of them, and the comparison in which the rest
 * stays as it is (that of cli_set_job where all may be) are put into it. */
pw_status cli_set_offer(cli_set *set, const cli_paper_kind *kind, pw_offer *offer,
                        cli_writer write, pw_err *err);

/* DIR/reader/name with its ending ("order", ".csv"); the folder is made. */
enum { CLI_SET_PATH = 4096 };
pw_status cli_set_path(const cli_set *set, cli_reader reader, const char *name,
                       const char *ending, char path[CLI_SET_PATH], pw_err *err);

/* The papers, one function each. */
pw_status cli_paper_measure(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_order(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_change(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_crew(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_materials(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_offer(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_handover(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_customer(cli_set *set, const cli_paper_kind *kind, pw_err *err);
pw_status cli_paper_worksheet(cli_set *set, const cli_paper_kind *kind, pw_err *err);

#endif
