/* The crew's day of the set. */
#include "cli/paper_set.h"
#include "out/crew_day.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_crew_day_html(what, h, err);
}

pw_status cli_paper_crew(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *r;
  pw_materials_job sum = {0};
  pw_status status = cli_set_fit(set, &r, err);
  if (status == PW_OK)
    status = pw_materials_of_job(r->job, r->column, r->fit, r->install, &sum, err);
  if (status == PW_OK) {
    pw_crew_day day = {
        cli_set_paper(set, r->job), r->column, r->fit, r->install, r->check, r->cautions, &sum};
    status = cli_set_write(set, kind, write, &day, err);
  }
  pw_materials_free(&sum);
  return status;
}
