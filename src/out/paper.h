/* What every paper of a job has: its firm, its job, the day, the state of the job's files, each on every page. */
#ifndef OUT_PAPER_H
#define OUT_PAPER_H

#include "base/date.h"
#include "out/html.h"
#include "panewright/survey.h"

typedef struct pw_paper {
  const pw_job *job;
  int si;
  const char *version; /* of the job's files (job/version.h) */
  pw_date date;
  int no_place; /* 1: the head does not say where the house is (its reader is the maker) */
} pw_paper;

/* Begins the document: style sheets of plots/ (paper.css first), <main>, a header with the firm, the title (in English,
 * PW_TEXT) and the line of job, place, day and state of files; in Spanish also whether a person has read the words. foot: words under
 * each page, NULL pw_html_foot; the line of job, day and files stands there too. */
void pw_paper_begin(const pw_paper *paper, const char *title, const char *const style[],
                    const char *foot, pw_html *h);

/* Ends it. Status PW_OK; PW_E_IO the stream failed. */
pw_status pw_paper_end(pw_html *h, pw_err *err);

#endif
