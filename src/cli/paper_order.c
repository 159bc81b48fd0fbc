/* The order to the maker: the paper, and the list that fit --order writes as the maker gets it. */
#include <stdio.h>
#include <stdlib.h>

#include "cli/paper_set.h"
#include "out/order_paper.h"
#include "out/safe_file.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_order_paper_html(what, h, err);
}

/* Names on standard error the rows for which is(); nothing without any. */
static void tell(const pw_fit_report *r, int (*is)(const pw_fit_report *r, size_t i),
                 const char *what)
{
  size_t n = 0, all = 0;
  for (size_t i = 0; i < r->job->n_opening; i++) {
    if (r->job->opening[i].standing != PW_REPLACED) continue;
    n += is(r, i) != 0;
    all++;
  }
  if (n == 0) return;
  fprintf(stderr, "panewright: %zu of %zu rows %s:", n, all, what);
  for (size_t i = 0; i < r->job->n_opening; i++)
    if (r->job->opening[i].standing == PW_REPLACED && is(r, i))
      fprintf(stderr, " %s", r->job->opening[i].tag);
  fputc('\n', stderr);
}

static int is_held(const pw_fit_report *r, size_t i) { return !r->check[i].may_order; }

static int is_open(const pw_fit_report *r, size_t i)
{
  return r->check[i].may_order && pw_order_question_of(r, i, 0) != NULL;
}

pw_status cli_paper_order(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *report;
  char path[CLI_SET_PATH], *text = NULL;
  size_t size = 0;
  pw_status status = cli_set_fit(set, &report, err);
  if (status != PW_OK) return status;
  const pw_order_maker maker = {set->version, set->date};
  pw_order_paper order = {cli_set_paper(set, report->job), report};
  order.paper.no_place = 1;
  status = cli_set_write(set, kind, write, &order, err);
  if (status == PW_OK) status = cli_set_path(set, kind->reader, kind->name, ".csv", path, err);
  if (status == PW_OK) status = pw_order_text(report, 1, &maker, &text, &size, err);
  if (status == PW_OK) status = pw_safe_put(path, text, size, err);
  free(text);
  if (status != PW_OK) return status;
  tell(report, is_held, "may not be ordered yet, they stand apart on the order");
  tell(report, is_open, "leave a question to the maker open");
  return PW_OK;
}
