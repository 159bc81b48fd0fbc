#include "check/section_table.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"

pw_status pw_section_of_table(const char *name, pw_section *section, pw_err *err)
{
  char path[96];
  snprintf(path, sizeof path, "section/%s", name);
  pw_section_init(section);
  const pw_table *t = pw_table_find(path);
  if (!t) return pw_fail(err, PW_E_MISSING, NULL, "no table %s", path);
  int x0 = pw_table_column(t, "x0"), y0 = pw_table_column(t, "y0");
  int x1 = pw_table_column(t, "x1"), y1 = pw_table_column(t, "y1");
  int material = pw_table_column(t, "material"), k = pw_table_column(t, "conductivity_w_mk");
  pw_status status = PW_OK;
  for (size_t r = 0; r < t->n_row && status == PW_OK; r++) {
    if (strcmp(pw_table_text(t, r, material), "sightline") == 0) {
      section->sight_line = 1e-3 * pw_table_number(t, r, y0);
      continue;
    }
    status = pw_section_add(section, 1e-3 * pw_table_number(t, r, x0),
                            1e-3 * pw_table_number(t, r, y0), 1e-3 * pw_table_number(t, r, x1),
                            1e-3 * pw_table_number(t, r, y1), pw_table_text(t, r, material),
                            pw_table_number(t, r, k), (double)NAN, (int)r + 1, err);
  }
  if (status != PW_OK) pw_section_free(section);
  return status;
}

pw_status pw_section_stretch(pw_section *section, int axis, double at, double by, pw_err *err)
{
  for (size_t i = 0; i < section->n_part; i++) {
    pw_section_part *p = &section->part[i];
    double *low = axis ? &p->y0 : &p->x0, *high = axis ? &p->y1 : &p->x1;
    if (*low > at) *low += by;
    if (*high > at) *high += by;
    if (!(*high > *low))
      return pw_fail(err, PW_E_DOMAIN, "by", "row %d vanishes when %g m are taken", p->line,
                     -by);
  }
  if (section->sight_line > at) section->sight_line += by;
  return PW_OK;
}
