#include "out/shape_out.h"

#include <string.h>

#include "base/tape.h"
#include "out/caution_out.h"
#include "out/json.h"
#include "out/wrap.h"

enum { TAPE = 24, WIDE = 100 };

/* A measure by its name; of which shapes it is one. */
typedef struct measure {
  const char *said, *key;
  double value;
  int has;
} measure;

enum { RISE = 2, PEAK = 5, MEASURES = 7 };

/* The radius of the arc, as ordered; 0 where there is none. */
static double radius_of(const pw_shape_size *z)
{
  pw_bounds b;
  if (pw_shape_make(z, &b, NULL) != PW_OK) return 0.0;
  for (size_t i = 0; i < b.n; i++)
    if (b.edge[i].arc) return b.edge[i].r;
  return 0.0;
}

static void measures_of(const pw_shape_size *z, measure m[MEASURES])
{
  int arch =
      z->kind == PW_SHAPE_HALF_ROUND || z->kind == PW_SHAPE_ARCH || z->kind == PW_SHAPE_GOTHIC;
  int quarter = z->kind == PW_SHAPE_QUARTER_ROUND;
  int trapezoid = z->kind == PW_SHAPE_TRAPEZOID, octagon = z->kind == PW_SHAPE_OCTAGON;
  double leg = arch ? z->height - z->rise : z->leg_left, radius = radius_of(z);
  int left = trapezoid || octagon || (arch && leg > 1e-6) || (quarter && z->leg_left > 0.0);
  int right = trapezoid || (arch && leg > 1e-6) || (quarter && z->leg_right > 0.0);
  if (octagon) {
    pw_bounds b;
    pw_outline o;
    if (pw_shape_make(z, &b, NULL) == PW_OK && pw_shape_outline(&b, &o, NULL) == PW_OK)
      leg = pw_shape_measure(&b, &o).leg_left;
  }
  const measure all[MEASURES] = {
      {PW_TEXT("wide"), "width_m", z->width, 1},
      {PW_TEXT("high"), "height_m", z->height, 1},
      {PW_TEXT("rise"), "rise_m", z->rise, arch},
      {octagon ? PW_TEXT("upright side") : PW_TEXT("left leg"), "leg_left_m", leg, left},
      {PW_TEXT("right leg"), "leg_right_m", arch ? leg : z->leg_right, right},
      {PW_TEXT("peak from the left"), "peak_at_m",
       z->peak_at < 0.0 ? 0.5 * z->width : z->peak_at, z->kind == PW_SHAPE_TRIANGLE || quarter},
      {PW_TEXT("radius"), "radius_m", radius, radius > 0.0}};
  memcpy(m, all, sizeof all);
}

int pw_job_has_shapes(const pw_job *job)
{
  for (size_t i = 0; i < job->n_opening; i++)
    if (job->opening[i].shape != PW_SHAPE_RECTANGLE) return 1;
  return 0;
}

size_t pw_shape_headers(int any, const char *header[])
{
  static const char *const more[PW_SHAPE_COLUMNS] = {
      "shape", "rise_in", "leg_left_in", "leg_right_in", "peak_at_in", "radius_in", "template"};
  if (!any) return 0;
  memcpy(header, more, sizeof more);
  return PW_SHAPE_COLUMNS;
}

void pw_shape_cells(int any, const pw_fit *fit, pw_grid *grid)
{
  measure m[MEASURES];
  if (!any) return;
  measures_of(&fit->order_shape, m);
  pw_grid_cell(grid, "%s", pw_shape_name(fit->shape.kind));
  for (int k = RISE; k < MEASURES; k++) {
    char text[TAPE];
    pw_tape_text(m[k].value, 16, text, sizeof text);
    pw_grid_cell(grid, "%s", m[k].has ? text : "");
  }
  pw_grid_cell(grid, "%s", pw_shape_wants_template(fit->shape.kind) ? "wanted" : "no");
}

/* The words from the shape's name on. */
static void words(const pw_tongue *tongue, const char *name, const pw_fit *fit, int si,
                  char text[], size_t size)
{
  measure m[MEASURES];
  measures_of(&fit->order_shape, m);
  size_t n = (size_t)snprintf(text, size, "%s", name);
  for (int k = 0; k < MEASURES && n < size; k++) {
    char length[TAPE];
    if (!m[k].has) continue;
    if (k == PEAK && fit->shape.kind == PW_SHAPE_QUARTER_ROUND) {
      n += (size_t)snprintf(text + n, size - n, "%s",
                            pw_tongue_say(tongue, m[k].value > 0.0
                                                      ? PW_TEXT(", high on the right")
                                                      : PW_TEXT(", high on the left")));
      continue;
    }
    pw_tape_text(m[k].value, 16, length, sizeof length);
    if (si) snprintf(length, sizeof length, "%.0f mm", 1e3 * m[k].value);
    const char *said = pw_tongue_say(tongue, m[k].said);
    n +=
        (size_t)(k < RISE ? snprintf(text + n, size - n, "%s %s %s", k ? "," : "", length, said)
                          : snprintf(text + n, size - n, ", %s %s", said, length));
  }
  if (pw_shape_wants_template(fit->shape.kind) && n < size)
    snprintf(text + n, size - n, "%s", pw_tongue_say(tongue, PW_TEXT("; template wanted")));
}

void pw_shape_words(const pw_tongue *tongue, const pw_fit *fit, int si, char text[],
                    size_t size)
{
  words(tongue, pw_tongue_say(tongue, pw_shape_name(fit->shape.kind)), fit, si, text, size);
}

void pw_shape_words_plain(const pw_tongue *tongue, const pw_fit *fit, int si, char text[],
                          size_t size)
{
  pw_shape_words(tongue, fit, si, text, size);
  for (char *at; (at = strchr(text, '_'));)
    *at = ' ';
}

void pw_shapes_text(const pw_job *job, const pw_fit fit[], int si, FILE *f)
{
  int told = 0;
  for (size_t i = 0; i < job->n_opening; i++) {
    char lead[PW_TAG_MAX + 16], text[240];
    if (job->opening[i].shape == PW_SHAPE_RECTANGLE || job->opening[i].standing != PW_REPLACED)
      continue;
    if (!told++)
      fputs("\nShapes to order, seen from outside (widths and heights above are extents)\n", f);
    pw_tag_lead(lead, sizeof lead, "  ", job->opening[i].tag, 8);
    pw_shape_words(NULL, &fit[i], si, text, sizeof text);
    pw_wrap(f, lead, text, WIDE);
  }
}

static json_t *size_json(const pw_shape_size *z)
{
  measure m[MEASURES];
  json_t *o = json_object();
  measures_of(z, m);
  for (int k = 0; k < MEASURES; k++)
    if (m[k].has) pw_json_set(o, m[k].key, m[k].value);
  return o;
}

json_t *pw_shape_json(const pw_fit *fit)
{
  json_t *o = json_object();
  pw_json_set_text(o, "name", pw_shape_name(fit->shape.kind));
  json_object_set_new(o, "measured", size_json(&fit->shape));
  json_object_set_new(o, "order", size_json(&fit->order_shape));
  pw_json_set(o, "order_area_m2", fit->order_area);
  pw_json_set(o, "opening_perimeter_m", fit->opening_perimeter);
  json_object_set_new(o, "template_wanted",
                      json_boolean(pw_shape_wants_template(fit->shape.kind)));
  return o;
}
