/* A paper made by a command: its page, its text, the job that the customer's pages want. */
#ifndef CLI_PAPER_H
#define CLI_PAPER_H

#include "cli/job_run.h"
#include "out/paper.h"

/* --paper: "letter" (also when not given) or "a4". Status PW_E_DATA another. */
pw_status cli_paper(const cli_args *args, const char **page, pw_err *err);

/* --date: the day that stands on a paper; today (UTC) when not given. Status PW_E_DOMAIN another. */
pw_status cli_paper_date(const cli_args *args, pw_date *date, pw_err *err);

/* --language: *tongue NULL for English, also when not given. Status PW_E_DATA another. */
pw_status cli_paper_tongue(const cli_args *args, const pw_tongue **tongue, pw_err *err);

/* Rows for option tables. */
#define CLI_PAPER_DATE                                                                         \
  {                                                                                            \
    "date", "DAY", "the day that stands on the paper (today, UTC)"                             \
  }
#define CLI_PAPER_LANGUAGE                                                                     \
  {                                                                                            \
    "language", "en|es", "of the document (en)"                                                \
  }
#define CLI_PAPER                                                                              \
  {                                                                                            \
    "paper", "letter|a4", "page of the PDF (letter)"                                           \
  }

/* Writes a paper of what into a document. */
typedef pw_status (*cli_writer)(const void *what, pw_html *h, pw_err *err);

/* Its text in memory, whole, in that tongue (NULL: English), to be freed; on failure *text is NULL. */
pw_status cli_paper_text(cli_writer write, const void *what, const pw_tongue *tongue,
                         char **text, size_t *size, pw_err *err);

/* tell: unknown columns and items on standard error. The job with all that the customer's pages tell: sound, phases, rebates and, where ranges are wanted, those. What was
 * opened is the caller's to free in any case. */
pw_status cli_customer_job(const cli_args *args, int tell, int ranges, cli_job *job,
                           pw_err *err);

/* The pages themselves; what is of cli_customer. */
typedef struct cli_customer {
  const cli_job *job;
  pw_paper paper;
} cli_customer;
pw_status cli_customer_write(const void *what, pw_html *h, pw_err *err);

#endif
