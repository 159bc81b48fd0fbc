/* The comparison as rows: one an opening and set. */
#include <math.h>

#include "out/compare_out.h"
#include "out/grid.h"
#include "out/opening_columns.h"
#include "out/result.h"
#include "study/code_check.h"

/* Blank for the existing window. A label is found: the reader has refused rows that fit alike. */
static void code_cell(const pw_compare *c, int s, size_t i, pw_grid *g)
{
  pw_code_opening code = {0};
  int known = s >= 0 && pw_code_check_opening(c, (size_t)s, i, &code, NULL) == PW_OK;
  pw_grid_cell(g, "%s", known ? pw_code_state_name(code.state) : "");
}

/* Blank without such a part: no meeting rail. */
static void number(pw_grid *g, double v)
{
  if (isfinite(v))
    pw_grid_cell(g, "%.6g", v);
  else
    pw_grid_cell(g, "%s", "");
}

static void rows(const pw_compare *c, const pw_opening_columns *more, pw_grid *g)
{
  for (size_t i = 0; i < c->n_opening; i++)
    for (int s = -1; s < (int)c->n_package; s++) {
      const pw_opening *o = &c->job->opening[i];
      const pw_compare_set set = pw_compare_set_of(c, s);
      const pw_compare_window *w = pw_compare_window_of(&c->rated, s, i);
      const pw_year_window *y = &set.lived->year.window[i];
      pw_grid_cell(g, "%s", o->tag);
      pw_grid_cell(g, "%s", o->room);
      pw_grid_cell(g, "%g", o->facing_deg);
      pw_grid_cell(g, "%s", set.rated->name);
      for (int k = 0; k < PW_WINDOW_COUNT; k++)
        if (pw_window_result_of((pw_window_result)k)->csv)
          number(g, pw_window_value((pw_window_result)k, w, y));
      pw_grid_cell(g, "%d", o->quantity);
      pw_opening_columns_cells(more, c->job, i, &c->fitted.fit[s < 0 ? 0 : s][i], g);
      code_cell(c, s, i, g);
    }
}

pw_status pw_compare_csv(const pw_compare *const compare[], size_t n, FILE *f, pw_err *err)
{
  const char *header[4 + PW_WINDOW_COUNT + 1 + PW_OPENING_COLUMNS + 1] = {
      "tag", "room", "facing_deg", "window"};
  size_t n_col = 4;
  pw_opening_columns more = {0};
  for (int k = 0; k < PW_WINDOW_COUNT; k++)
    if (pw_window_result_of((pw_window_result)k)->csv)
      header[n_col++] = pw_window_result_of((pw_window_result)k)->csv;
  header[n_col++] = "quantity";
  for (size_t d = 0; d < n; d++)
    pw_opening_columns_add(&more, compare[d]->job);
  n_col += pw_opening_columns_headers(&more, compare[0]->job, header + n_col);
  header[n_col++] = "code";
  pw_grid *g = pw_grid_new(n_col, header);
  for (size_t d = 0; d < n; d++)
    rows(compare[d], &more, g);
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}
