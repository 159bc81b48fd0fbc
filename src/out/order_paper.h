/* The order to the maker: a row a unit with all that he asks, what may not be ordered yet apart, sums of what is ordered,
 * places to confirm. No price of the job stands on it (those are the buyer's), no word to the crew, nothing of the buyer
 * but the job's name. */
#ifndef OUT_ORDER_PAPER_H
#define OUT_ORDER_PAPER_H

#include "out/fit_out.h"
#include "out/paper.h"

typedef struct pw_order_paper {
  pw_paper paper; /* its place is left out */
  const pw_fit_report *report;
} pw_order_paper;

/* Writes the whole document. Status PW_OK; PW_E_IO the stream failed; PW_E_DATA two labels fit alike. */
pw_status pw_order_paper_html(const pw_order_paper *order, pw_html *h, pw_err *err);

/* A question that the maker must have answered and the job leaves open for an opening, the k-th; NULL past the last.
 * answer: up to four words, each for a box before it. */
typedef struct pw_order_question {
  const char *ask, *answer[4];
} pw_order_question;
const pw_order_question *pw_order_question_of(const pw_fit_report *report, size_t opening,
                                              size_t k);

#endif
