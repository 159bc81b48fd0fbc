/* The customer's pages of the set: those of `sheet`. */
#include "cli/paper_set.h"

pw_status cli_paper_customer(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  cli_job *job;
  pw_status status = cli_set_job(set, &job, err);
  if (status != PW_OK) return status;
  const cli_customer pages = {job, cli_set_paper(set, &job->open.job)};
  return cli_set_write(set, kind, cli_customer_write, &pages, err);
}
