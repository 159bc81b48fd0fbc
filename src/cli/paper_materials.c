/* The materials of the job: the paper and materials.csv. */
#include <stdlib.h>

#include "cli/paper_set.h"
#include "out/materials_out.h"
#include "out/safe_file.h"

static pw_status write(const void *what, pw_html *h, pw_err *err)
{
  return pw_materials_html(what, h, err);
}

static pw_status write_csv(cli_set *set, const cli_paper_kind *kind,
                           const pw_materials_paper *paper, pw_err *err)
{
  char path[CLI_SET_PATH], *text = NULL;
  size_t size = 0;
  pw_status status = cli_set_path(set, kind->reader, kind->name, ".csv", path, err);
  if (status != PW_OK) return status;
  FILE *f = open_memstream(&text, &size);
  if (!f) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the materials");
  status = pw_materials_csv(paper, f, err);
  int lost = ferror(f);
  if ((fclose(f) != 0 || lost) && status == PW_OK)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the materials");
  if (status == PW_OK) status = pw_safe_put(path, text, size, err);
  free(text);
  return status;
}

pw_status cli_paper_materials(cli_set *set, const cli_paper_kind *kind, pw_err *err)
{
  const pw_fit_report *r;
  pw_materials_job sum = {0};
  pw_status status = cli_set_fit(set, &r, err);
  if (status == PW_OK)
    status = pw_materials_of_job(r->job, r->column, r->fit, r->install, &sum, err);
  pw_materials_paper paper = {cli_set_paper(set, r->job), r->column, r->fit, r->check, &sum};
  if (status == PW_OK) status = write_csv(set, kind, &paper, err);
  if (status == PW_OK) status = cli_set_write(set, kind, write, &paper, err);
  pw_materials_free(&sum);
  return status;
}
