/* How cold the coldest indoor point of own sections gets beside the middle of their glass, fitted again
 * by least squares: reference/frame/coldest.csv. */
#include <gsl/gsl_fit.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "check/section_table.h"
#include "check/sections.h"
#include "check/table_rows.h"
#include "frame/catalogue.h"
#include "frame/conduct.h"
#include "panewright/units.h"

static const double gap_drawn = 0.013; /* m */
enum { POINTS_MAX = 64, GLASSES = 3 };

/* Sections of a row: glass of their own (single), or every glass below. */
typedef struct family {
  const char *frame, *part;
  const char *section[8];
  int single;
} family;

static const family families[] = {
    {"vinyl",
     "frame",
     {"generic/insert_jamb_fins_cut_foam", "generic/insert_jamb_fins_cut_air",
      "generic/insert_jamb_fins_kept_foam", "generic/insert_jamb_fins_kept_air",
      "generic/insert_sill_lip_cut", "generic/insert_sill_lip_kept", "generic/vinyl_alone"},
     0},
    {"vinyl", "meeting", {"own/meeting_insert"}, 0},
    {"aluminium",
     "frame",
     {"generic/old_jamb_sash_single", "generic/old_jamb_fixed_single",
      "generic/old_sill_sash_single", "generic/old_head_sash_single"},
     1},
    {"aluminium", "meeting", {"own/meeting_old"}, 1},
};

/* The box round all that is drawn of the glass edge becomes one row `spacer`. */
static pw_status box_edge(pw_section *s, pw_err *err)
{
  double x0 = INFINITY, y0 = INFINITY, x1 = -INFINITY, y1 = -INFINITY;
  if (pw_section_stands(s, PW_STANDS_SPACER)) return PW_OK;
  for (size_t i = 0; i < s->n_part; i++) {
    const pw_section_part *p = &s->part[i];
    if (s->material[p->material].kind != PW_MATERIAL_GLASS_EDGE) continue;
    x0 = fmin(x0, p->x0);
    y0 = fmin(y0, p->y0);
    x1 = fmax(x1, p->x1);
    y1 = fmax(y1, p->y1);
  }
  return pw_section_add(s, x0, y0, x1, y1, "spacer", (double)NAN, (double)NAN, 0, err);
}

/* The centre's and the coldest point's 1 - f under the rating's winter condition. */
static pw_status point(const char *name, const pw_glazing *g, pw_spacer spacer, double *center,
                       double *cold, pw_err *err)
{
  pw_unit_result unit;
  pw_section s;
  pw_section_result r;
  pw_frame_face face = PW_FACE_OTHER;
  size_t n = g->unit.n_pane;
  pw_status status = pw_unit_solve(&g->unit, &pw_env_winter, NULL, &unit, err);
  if (status == PW_OK) status = pw_section_of_table(name, &s, err);
  if (status != PW_OK) return status;
  for (size_t i = 0; n > 1 && i < s.n_material; i++)
    if (s.material[i].kind == PW_MATERIAL_GLASS_GAP)
      s.material[i].conductivity = unit.gap[0].conductance * gap_drawn;
  if (n > 1) status = box_edge(&s, err);
  if (status == PW_OK) status = pw_section_set_spacer(&s, spacer, err);
  if (status == PW_OK) status = pw_section_face(&s, &face, err);
  pw_films films = pw_films_rating(face, pw_env_winter.t_out, pw_env_winter.t_in);
  const pw_section_options o = {.t_out = pw_env_winter.t_out,
                                .t_in = pw_env_winter.t_in,
                                .films = &films,
                                .tolerance = 0.01};
  if (status == PW_OK) status = pw_section_solve(&s, &o, &r, err);
  pw_section_free(&s);
  if (status != PW_OK) return status;
  *center =
      (pw_env_winter.t_in - unit.t[2 * n - 1]) / (pw_env_winter.t_in - pw_env_winter.t_out);
  *cold = 1.0 - r.f_rsi;
  pw_section_result_free(&r);
  return PW_OK;
}

/* Every point of a row of the table. */
static pw_status points(const family *f, const char *spacer, double x[], double y[], size_t *n,
                        pw_err *err)
{
  static const struct {
    int low_e;
    double gap;
  } glass[GLASSES] = {{0, 0.0127}, {1, 0.0127}, {0, 0.006}};
  static const char *const word[PW_SPACER_COUNT] = {"metal", "stainless", "insulating"};
  pw_status status = PW_OK;
  *n = 0;
  for (int sp = 0; sp < PW_SPACER_COUNT && status == PW_OK; sp++) {
    if (strcmp(spacer, "any") != 0 && strcmp(spacer, word[sp]) != 0) continue;
    if (f->single && sp > 0) break;
    for (int k = 0; k < (f->single ? 1 : GLASSES) && status == PW_OK; k++) {
      pw_glazing g;
      status = sections_glass(f->single ? 1 : 2, glass[k].low_e, glass[k].gap, &g, err);
      for (size_t i = 0; status == PW_OK && f->section[i] && *n < POINTS_MAX; i++, ++*n)
        status = point(f->section[i], &g, (pw_spacer)sp, &x[*n], &y[*n], err);
    }
  }
  return status;
}

static pw_status fit_row(const pw_check_sink *sink, const pw_table *t, size_t i,
                         const family *f, pw_err *err)
{
  double x[POINTS_MAX], y[POINTS_MAX], below = 0.0, above = 0.0;
  double base = 0.0, slope = 0.0, c00, c01, c11, sum;
  size_t n = 0;
  pw_status status = points(f, row_text(t, i, "spacer"), x, y, &n, err);
  if (status != PW_OK) return status;
  if (f->single) {
    for (size_t k = 0; k < n; k++)
      base += y[k] / (double)n;
  } else {
    gsl_fit_linear(x, 1, y, 1, n, &base, &slope, &c00, &c01, &c11, &sum);
  }
  for (size_t k = 0; k < n; k++) {
    double off = y[k] - base - slope * x[k];
    below = fmax(below, -off);
    above = fmax(above, off);
  }
  char id[80];
  snprintf(id, sizeof id, "coldest point, %s %s, spacer %s", f->frame, f->part,
           row_text(t, i, "spacer"));
  const struct {
    const char *column;
    double ours, tolerance;
  } row[] = {{"base", base, 0.003},
             {"slope", slope, 0.01},
             {"below", below, 0.003},
             {"above", above, 0.003}};
  for (size_t k = 0; k < sizeof row / sizeof row[0]; k++)
    pw_check_give(sink, id, row[k].column, "-", row[k].ours, row_number(t, i, row[k].column),
                  row[k].tolerance, row_text(t, i, "source"), row_text(t, i, "how_known"));
  return PW_OK;
}

pw_status sections_cold(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = NULL;
  pw_status status = row_table("frame/coldest", &t, err);
  for (size_t i = 0; status == PW_OK && i < t->n_row; i++)
    for (size_t f = 0; status == PW_OK && f < sizeof families / sizeof families[0]; f++)
      if (strcmp(families[f].frame, row_text(t, i, "frame")) == 0 &&
          strcmp(families[f].part, row_text(t, i, "part")) == 0)
        status = fit_row(sink, t, i, &families[f], err);
  return status;
}
