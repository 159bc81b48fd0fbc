/* The materials of the job: the paper and materials.csv. */
#include "cli/paper_set.h"
#include "out/materials_out.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_materials_html(what, h, err);
}

static pw_status write_csv(const void *what, pw_html *h, pw_err *err)
{
  return pw_materials_csv(what, h->f, err);
}

pw_status cli_paper_materials(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *r;
  pw_materials_job sum = {0};
  pw_status status = cli_set_fit(set, &r, err);
  if (status == PW_OK)
    status = pw_materials_of_job(r->job, r->column, r->fit, r->install, &sum, err);
  pw_materials_paper paper = {cli_set_paper(set, r->job), r->column, r->fit, r->check, &sum};
  if (status == PW_OK) status = cli_set_csv(set, kind, write_csv, &paper, err);
  if (status == PW_OK) status = cli_set_write(set, kind, write, &paper, err);
  pw_materials_free(&sum);
  return status;
}
