/* The comparison as rows: one an opening and set. */
#include <math.h>
#include <string.h>

#include "out/compare_out.h"
#include "out/grid.h"
#include "out/opening_columns.h"
#include "study/code_check.h"

/* Blank for the existing window. A label is found: the reader has refused rows that fit alike. */
static void code_cell(const pw_compare *c, int s, size_t i, pw_grid *g)
{
  pw_code_opening code = {0};
  int known = s >= 0 && pw_code_check_opening(c, (size_t)s, i, &code, NULL) == PW_OK;
  pw_grid_cell(g, "%s", known ? pw_code_state_name(code.state) : "");
}

static void rows(const pw_compare *c, const pw_opening_columns *more, pw_grid *g)
{
  for (size_t i = 0; i < c->n_opening; i++)
    for (int s = -1; s < (int)c->n_package; s++) {
      const pw_opening *o = &c->job->opening[i];
      const pw_compare_set *set = s < 0 ? &c->existing_set : &c->package_set[s];
      const pw_compare_window *w =
          s < 0 ? &c->existing[i] : pw_compare_window_of(c, (size_t)s, i);
      const pw_year_window *y = &set->year.window[i];
      const pw_rating *r = &w->rating;
      pw_grid_cell(g, "%s", o->tag);
      pw_grid_cell(g, "%s", o->room);
      pw_grid_cell(g, "%g", o->facing_deg);
      pw_grid_cell(g, "%s", set->name);
      const double v[] = {r->area,
                          r->u,
                          r->shgc,
                          r->vt,
                          r->glass_area,
                          w->glass_kept,
                          w->light_kept,
                          r->areas.center,
                          r->areas.edge,
                          r->areas.frame,
                          r->areas.divider,
                          r->areas.retained,
                          r->u * r->area,
                          w->sweat.center.rh,
                          w->sweat.edge.rh,
                          w->sweat.frame.rh,
                          w->sweat.coldest.rh,
                          w->sweat.meeting.rh,
                          y->solar_kwh,
                          y->heat_lost_kwh};
      for (size_t k = 0; k < sizeof v / sizeof v[0]; k++)
        if (isfinite(v[k]))
          pw_grid_cell(g, "%.6g", v[k]);
        else
          pw_grid_cell(g, "%s", ""); /* no meeting rail */
      pw_grid_cell(g, "%d", o->quantity);
      pw_opening_columns_cells(more, c->job, i, pw_compare_fit(c, s < 0 ? 0 : (size_t)s, i), g);
      code_cell(c, s, i, g);
    }
}

pw_status pw_compare_csv(const pw_compare *const compare[], size_t n, FILE *f, pw_err *err)
{
  static const char *const usual[] = {"tag",
                                      "room",
                                      "facing_deg",
                                      "window",
                                      "opening_area_m2",
                                      "u_w_m2k",
                                      "shgc",
                                      "vt",
                                      "glass_area_m2",
                                      "glass_kept",
                                      "light_kept",
                                      "center_m2",
                                      "edge_m2",
                                      "frame_m2",
                                      "divider_m2",
                                      "retained_m2",
                                      "ua_w_k",
                                      "sweat_center_rh",
                                      "sweat_edge_rh",
                                      "sweat_frame_rh",
                                      "sweat_coldest_rh",
                                      "sweat_meeting_rh",
                                      "solar_kwh",
                                      "heat_lost_kwh",
                                      "quantity"};
  enum { USUAL = sizeof usual / sizeof usual[0] };
  const char *header[USUAL + PW_OPENING_COLUMNS + 1];
  pw_opening_columns more = {0};
  memcpy(header, usual, sizeof usual);
  for (size_t d = 0; d < n; d++)
    pw_opening_columns_add(&more, compare[d]->job);
  size_t n_col = USUAL + pw_opening_columns_headers(&more, compare[0]->job, header + USUAL);
  header[n_col++] = "code";
  pw_grid *g = pw_grid_new(n_col, header);
  for (size_t d = 0; d < n; d++)
    rows(compare[d], &more, g);
  pw_status status = pw_grid_print(g, f, PW_CSV, err);
  pw_grid_free(g);
  return status;
}
