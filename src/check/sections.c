/* Drawn sections in a job: the tables computed from own sections are solved again, row by row; no order
 * of packages matters; a mirrored drawing gives the mirrored answer; a glass with another number of
 * gaps than the drawing is refused. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check/check.h"
#include "check/section_table.h"
#include "check/sections.h"
#include "check/table_rows.h"
#include "frame/catalogue.h"
#include "frame/conduct.h"
#include "panewright/units.h"
#include "study/frames.h"

static const double table_rounding =
    6e-4; /* of the value: four digits printed, bracket 0.1 % */

/* A drawing of the table, stretched at `at` until it measures `to` where it was drawn `drawn` (m). */
static pw_status drawing(const char *name, int axis, double at, double drawn, double to,
                         pw_section *s, pw_err *err)
{
  pw_status status = pw_section_of_table(name, s, err);
  if (status != PW_OK || fabs(to - drawn) < 1e-9) return status;
  status = pw_section_stretch(s, axis, at, to - drawn, err);
  if (status != PW_OK) pw_section_free(s);
  return status;
}

static pw_status solved(pw_section *s, const pw_section_options *o, pw_section_result *r,
                        pw_err *err)
{
  pw_status status = pw_section_solve(s, o, r, err);
  pw_section_free(s);
  return status;
}

/* The three figures of a row: value, low and high of the bracket. */
static void give(const pw_check_sink *sink, const pw_table *t, size_t i, const char *key,
                 const char *value, const char *unit, const double ours[3])
{
  static const char *const bound[] = {"low", "high"};
  char id[80];
  const char *known = row_text(t, i, "how_known"), *source = row_text(t, i, "source");
  snprintf(id, sizeof id, "%s %g mm", row_text(t, i, key), row_number(t, i, "width_mm"));
  double tolerance = table_rounding * fabs(ours[0]) + 0.5e-4;
  pw_check_give(sink, id, value, unit, ours[0], row_number(t, i, value), tolerance, source,
                known);
  for (int k = 0; k < 2; k++)
    pw_check_give(sink, id, k ? "its high bound" : "its low bound", unit, ours[1 + k],
                  row_number(t, i, bound[k]), tolerance, source, known);
}

/* Faces held at two temperatures: k = L2D width / height. */
static pw_status spacer_boxes(const pw_check_sink *sink, pw_err *err)
{
  static const double drawn = 0.013, height = 0.011, middle = 0.0065;
  static const pw_films none = {0.0, 0.0, 0.0};
  const pw_section_options o = {.films = &none, .tolerance = 1e-3};
  const pw_table *t = NULL;
  pw_status status = row_table("frame/spacer_box", &t, err);
  for (size_t i = 0; status == PW_OK && i < t->n_row; i++) {
    double w = 1e-3 * row_number(t, i, "width_mm"), per = w / height;
    pw_section s;
    pw_section_result r;
    status = drawing(row_text(t, i, "drawing"), 0, middle, drawn, w, &s, err);
    if (status == PW_OK) status = solved(&s, &o, &r, err);
    if (status != PW_OK) break;
    give(sink, t, i, "spacer", "conductivity_w_mk", "W/mK",
         (const double[]){per * r.l2d, per * r.low, per * r.high});
    pw_section_result_free(&r);
  }
  return status;
}

static pw_status retained_faces(const pw_check_sink *sink, pw_err *err)
{
  static const double drawn = 0.050, middle = 0.025;
  const pw_table *t = NULL;
  pw_status status = row_table("frame/retained_face", &t, err);
  for (size_t i = 0; status == PW_OK && i < t->n_row; i++) {
    pw_section s;
    pw_section_result r;
    status = drawing(row_text(t, i, "drawing"), 1, middle, drawn,
                     1e-3 * row_number(t, i, "width_mm"), &s, err);
    if (status != PW_OK) break;
    pw_frame_face face = PW_FACE_OTHER;
    status = pw_section_face(&s, &face, err);
    pw_films films = pw_films_rating(face, pw_env_winter.t_out, pw_env_winter.t_in);
    const pw_section_options o = {.t_out = pw_env_winter.t_out,
                                  .t_in = pw_env_winter.t_in,
                                  .films = &films,
                                  .tolerance = 1e-3};
    if (status == PW_OK)
      status = solved(&s, &o, &r, err);
    else
      pw_section_free(&s);
    if (status != PW_OK) break;
    give(sink, t, i, "cover", "conductance", "W/mK", (const double[]){r.l2d, r.low, r.high});
    pw_section_result_free(&r);
  }
  return status;
}

/* Frame heat of the insert in the old jamb less that of the vinyl alone. */
static pw_status rings(const pw_check_sink *sink, pw_err *err)
{
  static const double cut = 0.0075, kept = 0.0218, at_cut = 0.004, at_kept = 0.010;
  const pw_section_options o = {.tolerance = 1e-3};
  const pw_table *t = NULL;
  pw_section s;
  pw_section_result alone, r;
  pw_status status = row_table("frame/retained_ring", &t, err);
  if (status == PW_OK) status = pw_section_of_table("generic/vinyl_alone", &s, err);
  if (status == PW_OK) status = solved(&s, &o, &alone, err);
  if (status != PW_OK) return status;
  double base = alone.u_frame * alone.b_frame;
  for (size_t i = 0; status == PW_OK && i < t->n_row; i++) {
    const char *file = row_text(t, i, "drawing");
    int fins = strstr(file, "kept") != NULL;
    status = drawing(file, 1, fins ? at_kept : at_cut, fins ? kept : cut,
                     1e-3 * row_number(t, i, "width_mm"), &s, err);
    if (status == PW_OK) status = solved(&s, &o, &r, err);
    if (status != PW_OK) break;
    double v = r.u_frame * r.b_frame - base;
    double less = r.l2d - r.low + alone.high - alone.l2d;
    double more = r.high - r.l2d + alone.l2d - alone.low;
    give(sink, t, i, "filling", "conductance", "W/mK", (const double[]){v, v - less, v + more});
    pw_section_result_free(&r);
  }
  pw_section_result_free(&alone);
  return status;
}

/* A stile between two lights of double glass, as a drawing of a job: gap, spacer, sight line. */
static pw_status stile(int mirrored, double sight, pw_section *s, pw_err *err)
{
  static const struct {
    double x0, y0, x1, y1;
    const char *material;
  } part[] = {{-40, -120, 5, 170, "outdoor"}, {37, -120, 90, 170, "indoor"},
              {5, 0, 37, 40, "pvc"},          {8, 3, 20, 37, "cavity"},
              {22, 3, 34, 37, "cavity"},      {11, -120, 14, 4, "glass"},
              {27, -120, 30, 4, "glass"},     {14, -120, 27, 4, "gap"},
              {14, -7, 27, 4, "spacer"},      {11, 30, 14, 170, "glass"},
              {27, 30, 30, 170, "glass"},     {14, 30, 27, 170, "gap"},
              {14, 30, 27, 41, "spacer"},     {5, -120, 11, 0, "outdoor"},
              {30, -120, 37, 0, "indoor"},    {5, 40, 11, 170, "outdoor"},
              {30, 40, 37, 170, "indoor"}};
  pw_status status = PW_OK;
  pw_section_init(s);
  for (size_t i = 0; i < sizeof part / sizeof part[0] && status == PW_OK; i++) {
    double y0 = mirrored ? -part[i].y1 : part[i].y0, y1 = mirrored ? -part[i].y0 : part[i].y1;
    status = pw_section_add(s, 1e-3 * part[i].x0, 1e-3 * y0, 1e-3 * part[i].x1, 1e-3 * y1,
                            part[i].material, (double)NAN, (double)NAN, (int)i + 1, err);
  }
  s->sight_line = 1e-3 * (mirrored ? -sight : sight);
  if (status == PW_OK) status = pw_section_set_spacer(s, PW_SPACER_STAINLESS, err);
  if (status != PW_OK)
    pw_section_free(s);
  else
    pw_section_set_gap(s, 1, 2.0);
  return status;
}

static void give_pair(const pw_check_sink *sink, const char *id, const pw_section_result *a,
                      const pw_section_result *b)
{
  static const char source[] = "the same drawing, as given", known[] = "symmetry";
  const struct {
    const char *quantity, *unit;
    double ours, want, tolerance;
  } row[] = {{"heat, L2D", "W/mK", b->l2d, a->l2d, 2e-3 * a->l2d},
             {"frame U", "W/m2K", b->u_frame, a->u_frame, 4e-3 * a->u_frame},
             {"edge U", "W/m2K", b->u_edge, a->u_edge, 4e-3 * a->u_edge},
             {"f_Rsi", "-", b->f_rsi, a->f_rsi, 0.003},
             {"frame width", "mm", 1e3 * b->b_frame, 1e3 * a->b_frame, 1e-6}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_check_give(sink, id, row[i].quantity, row[i].unit, row[i].ours, row[i].want,
                  row[i].tolerance, source, known);
}

/* Two lights: sight line at either end or found, as drawn and mirrored, all the same; amid the stile it
 * is refused. One light: mirrored along y. */
static pw_status mirrored(const pw_check_sink *sink, pw_err *err)
{
  static const struct {
    const char *id;
    int mirrored;
    double sight;
  } way[] = {{"two lights", 0, 40},
             {"two lights, sight line at the other end", 0, 0},
             {"two lights, sight line found", 0, NAN},
             {"two lights, mirrored", 1, 40},
             {"two lights, mirrored, sight line at the other end", 1, 0},
             {"two lights, mirrored, sight line found", 1, NAN}};
  const pw_section_options o = {.tolerance = 1e-3};
  pw_section s;
  pw_section_result first = {0}, r;
  pw_status status = PW_OK;
  for (size_t i = 0; i < sizeof way / sizeof way[0] && status == PW_OK; i++) {
    status = stile(way[i].mirrored, way[i].sight, &s, err);
    if (status == PW_OK) status = solved(&s, &o, i ? &r : &first, err);
    if (status != PW_OK || i == 0) continue;
    give_pair(sink, way[i].id, &first, &r);
    pw_section_result_free(&r);
  }
  pw_section_result_free(&first);
  pw_err why = {0};
  if (status == PW_OK) status = stile(0, 20.0, &s, err);
  if (status != PW_OK) return status;
  int refused = pw_section_check(&s, &why) == PW_E_DATA;
  pw_section_free(&s);
  pw_check_give(sink, "two lights, sight line amid the stile", "refused", "-", refused, 1.0,
                0.0, "neither light's frame ends there", "by reason");
  if (status == PW_OK) status = pw_section_of_table("generic/insert_jamb_clear", &s, err);
  if (status == PW_OK) status = solved(&s, &o, &first, err);
  if (status == PW_OK) status = pw_section_of_table("generic/insert_jamb_clear", &s, err);
  if (status != PW_OK) return status;
  for (size_t i = 0; i < s.n_part; i++) {
    double y0 = s.part[i].y0;
    s.part[i].y0 = -s.part[i].y1;
    s.part[i].y1 = -y0;
  }
  status = solved(&s, &o, &r, err);
  if (status == PW_OK) {
    give_pair(sink, "one light, mirrored", &first, &r);
    pw_section_result_free(&r);
  }
  pw_section_result_free(&first);
  return status;
}

pw_status sections_glass(size_t n, int low_e, double gap, pw_glazing *g, pw_err *err)
{
  *g = (pw_glazing){.unit = {.n_pane = n}};
  for (size_t i = 0; i < n; i++) {
    g->unit.pane[i].thickness = 0.003;
    if (i + 1 < n) g->unit.gap[i].thickness = gap;
    if (i + 1 < n && low_e) g->unit.gap[i].mix.share[PW_ARGON] = 1.0;
  }
  if (low_e && n > 1) g->unit.pane[0].emit[1] = 0.04;
  pw_unit_result r;
  pw_status status = pw_unit_solve(&g->unit, &pw_env_winter, NULL, &r, err);
  if (status == PW_OK) g->u_winter = r.u;
  return status;
}

typedef struct choice {
  size_t n_pane;
  int low_e;
  pw_spacer spacer;
} choice;

static const choice offered[] = {{2, 0, PW_SPACER_METAL},
                                 {2, 1, PW_SPACER_STAINLESS},
                                 {2, 1, PW_SPACER_INSULATING},
                                 {2, 0, PW_SPACER_INSULATING}};
enum { OFFERED = sizeof offered / sizeof offered[0] };

static pw_status edge_of(pw_frame_book *book, const pw_frame_line *line, const choice *c,
                         double out[2], pw_err *err)
{
  pw_package package = {.name = "offered", .spacer = c->spacer, .filling = "foam"};
  pw_glazing *g = malloc(sizeof *g);
  pw_frame_values v = {0};
  if (!g) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a glass");
  pw_status status = sections_glass(c->n_pane, c->low_e, 0.0127, g, err);
  if (status == PW_OK) status = pw_frames_insert(book, line, &package, NULL, g, &v, err);
  free(g);
  out[0] = v.side[PW_SIDE_MEETING].u_edge;
  out[1] = v.side[PW_SIDE_MEETING].u_frame;
  return status;
}

/* Every rotation of the packages, forwards and backwards, gives each the figures it has alone. */
static pw_status order_of_packages(const pw_check_sink *sink, pw_frame_book *book,
                                   const pw_frame_line *line, pw_err *err)
{
  double alone[OFFERED][2], got[2];
  pw_status status = PW_OK;
  for (size_t i = 0; i < OFFERED && status == PW_OK; i++) {
    status = edge_of(book, line, &offered[i], alone[i], err);
    pw_frame_book_free(book);
  }
  for (size_t start = 0; start < 2 * OFFERED && status == PW_OK; start++) {
    for (size_t k = 0; k < OFFERED && status == PW_OK; k++) {
      size_t i = start < OFFERED ? (start + k) % OFFERED : (2 * OFFERED + start - k) % OFFERED;
      status = edge_of(book, line, &offered[i], got, err);
      if (status != PW_OK) break;
      char id[60];
      snprintf(id, sizeof id, "package %zu, %zu. of order %zu", i + 1, k + 1, start + 1);
      pw_check_give(sink, id, "edge U", "W/m2K", got[0], alone[i][0], 0.0, "the package alone",
                    "by reason");
      pw_check_give(sink, id, "frame U", "W/m2K", got[1], alone[i][1], 0.0, "the package alone",
                    "by reason");
    }
    pw_frame_book_free(book);
  }
  return status;
}

/* A single pane and a triple in a double drawing: refused by name and counts, or left out and said. */
static pw_status gaps(const pw_check_sink *sink, pw_frame_book *book, const pw_frame_line *line,
                      pw_err *err)
{
  static const char source[] = "a drawing stands for its own glass";
  for (size_t n = 1; n <= 3; n += 2) {
    const choice c = {n, 0, PW_SPACER_METAL};
    char id[40], count[40];
    double got[2] = {0};
    pw_err why = {0};
    snprintf(id, sizeof id, "%zu pane%s in a drawing of 2", n, n > 1 ? "s" : "");
    book->mismatch = PW_MISMATCH_REFUSE;
    int refused = edge_of(book, line, &c, got, &why) == PW_E_DATA;
    snprintf(count, sizeof count, "has %zu", n - 1);
    int named = strstr(why.text, "stile") && strstr(why.text, "offered") &&
                strstr(why.text, "1 gap") && strstr(why.text, count);
    pw_check_give(sink, id, "refused", "-", refused, 1.0, 0.0, source, "by reason");
    pw_check_give(sink, id, "names section, package and both counts", "-", named, 1.0, 0.0,
                  source, "by reason");
    book->mismatch = PW_MISMATCH_CATALOGUE;
    pw_status status = edge_of(book, line, &c, got, err);
    if (status != PW_OK) return status;
    pw_check_give(sink, id, "catalogue: values left to it", "-", got[0] + got[1], 0.0, 0.0,
                  source, "by reason");
    pw_check_give(sink, id, "catalogue: remarks", "-", (double)book->n_remark, 1.0, 0.0, source,
                  "by reason");
    book->n_remark = 0;
  }
  return PW_OK;
}

static pw_status in_a_job(const pw_check_sink *sink, pw_err *err)
{
  pw_named_section *named = calloc(1, sizeof *named);
  pw_frame_book *book = calloc(1, sizeof *book);
  pw_frame_line *line = calloc(1, sizeof *line);
  pw_status status = named && book && line ? stile(0, 40.0, &named->section, err)
                                           : pw_fail(err, PW_E_NOMEM, NULL, "no memory");
  if (status == PW_OK) {
    snprintf(named->name, sizeof named->name, "stile");
    snprintf(line->section_meeting, sizeof line->section_meeting, "stile");
    book->section = named;
    book->n_section = 1;
    status = order_of_packages(sink, book, line, err);
    if (status == PW_OK) status = gaps(sink, book, line, err);
    pw_frame_book_free(book);
    pw_section_free(&named->section);
  }
  free(named);
  free(book);
  free(line);
  return status;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  pw_status status = spacer_boxes(sink, err);
  if (status == PW_OK) status = retained_faces(sink, err);
  if (status == PW_OK) status = rings(sink, err);
  if (status == PW_OK) status = sections_cold(sink, err);
  if (status == PW_OK) status = mirrored(sink, err);
  if (status == PW_OK) status = in_a_job(sink, err);
  return status;
}

extern const pw_check_group pw_check_sections;
const pw_check_group pw_check_sections = {
    "sections", "drawn sections in a job: tables, order, mirrored, mismatched", run};
