#include "out/opening_drawing.h"

#include "out/json.h"
#include "panewright/shape.h"

enum { POINTS_MAX = 160 };

static json_t *point(double x, double y)
{
  json_t *p = json_array();
  json_array_append_new(p, pw_json_real(x));
  json_array_append_new(p, pw_json_real(y));
  return p;
}

static json_t *box(double x, double y, double width, double height)
{
  json_t *all = json_array();
  json_array_append_new(all, point(x, y));
  json_array_append_new(all, point(x + width, y));
  json_array_append_new(all, point(x + width, y + height));
  json_array_append_new(all, point(x, y + height));
  return all;
}

/* An outline that is no rectangle, its extents' lower left corner at x, y; NULL when nothing is left of it. */
static json_t *bounds(const pw_bounds *shape, double x, double y)
{
  double px[POINTS_MAX], py[POINTS_MAX];
  pw_outline size;
  if (pw_shape_outline(shape, &size, NULL) != PW_OK) return NULL;
  size_t n = pw_shape_points(shape, px, py, POINTS_MAX);
  json_t *all = json_array();
  for (size_t i = 0; i < n; i++)
    json_array_append_new(all, point(x + px[i] - size.x_min, y + py[i] - size.y_min));
  return all;
}

/* A window's lites; x, y: the lower left corner of its rectangle; shape its outline, NULL of a rectangle. */
static json_t *lites(const pw_lites *w, double x, double y, const pw_bounds *shape)
{
  json_t *all = json_array();
  for (size_t i = 0; i < w->n_lite; i++) {
    const pw_lite *l = &w->lite[i];
    json_t *o = json_object(), *outline = NULL;
    if (shape) {
      pw_bounds glass = pw_shape_inset(shape, l->face[PW_TOP]);
      outline = bounds(&glass, x + l->x, y + l->y);
    }
    if (!outline) outline = box(x + l->x, y + l->y, l->width, l->height);
    json_object_set_new(o, "outline", outline);
    json_object_set_new(o, "moving", json_boolean(l->moving));
    json_array_append_new(all, o);
  }
  return all;
}

static void part(json_t *all, json_t *outline, int cut)
{
  json_t *o = json_object();
  json_object_set_new(o, "outline", outline);
  json_object_set_new(o, "cut", json_boolean(cut));
  json_array_append_new(all, o);
}

static void tape(json_t *all, const char *reading, json_t *from, json_t *to)
{
  json_t *o = json_object();
  pw_json_set_text(o, "reading", reading);
  json_object_set_new(o, "from", from);
  json_object_set_new(o, "to", to);
  json_array_append_new(all, o);
}

/* In the order in which one measures: widths from the bottom, heights from the left, diagonals; at the marks of the
 * measuring form. x, y, width, height: the pocket as measured, fins and lip on. */
static json_t *tapes(double x, double y, double width, double height)
{
  static const char *const across[] = {"width_bottom", "width_middle", "width_top"},
                           *const up[] = {"height_left", "height_middle", "height_right"};
  static const double mark[] = {0.08, 0.5, 0.92};
  json_t *all = json_array();
  for (size_t i = 0; i < 3; i++) {
    double at = y + mark[i] * height;
    tape(all, across[i], point(x, at), point(x + width, at));
  }
  for (size_t i = 0; i < 3; i++) {
    double at = x + mark[i] * width;
    tape(all, up[i], point(at, y), point(at, y + height));
  }
  tape(all, "diagonal_1", point(x, y), point(x + width, y + height));
  tape(all, "diagonal_2", point(x, y + height), point(x + width, y));
  return all;
}

json_t *pw_opening_drawing_json(const pw_opening *op, const pw_fit *fit)
{
  const double face = fit->retained_face, x = fit->retained_width[PW_LEFT],
               y = fit->retained_width[PW_BOTTOM];
  const double fin = 0.5 * (fit->bare_width - fit->width_min),
               lip = fit->bare_height - fit->height_min;
  json_t *o = json_object(), *fins = json_array(), *lips = json_array();
  pw_bounds opening, bare, order;
  const int shaped =
      op->shape != PW_SHAPE_RECTANGLE && pw_fit_outlines(fit, &opening, &bare, &order) == PW_OK;
  pw_json_set(o, "width_m", fit->opening_width);
  pw_json_set(o, "height_m", fit->opening_height);
  if (pw_is_given(op->sill_height))
    pw_json_set(o, "sill_m", op->sill_height);
  else
    json_object_set_new(o, "sill_m", json_null());
  json_t *old = shaped ? bounds(&bare, face, face) : NULL;
  json_t *unit = shaped ? bounds(&order, x, y) : NULL;
  json_object_set_new(o, "old", old ? old : box(face, face, fit->bare_width, fit->bare_height));
  json_object_set_new(o, "order", unit ? unit : box(x, y, fit->order_width, fit->order_height));
  json_object_set_new(o, "old_lites", lites(&fit->existing, face, face, shaped ? &bare : NULL));
  json_object_set_new(o, "lites", lites(&fit->insert, x, y, shaped ? &order : NULL));
  if (!shaped && fin > 0.0) {
    part(fins, box(face, face, fin, fit->bare_height), op->fins_cut >= 1);
    part(fins, box(face + fit->bare_width - fin, face, fin, fit->bare_height),
         op->fins_cut >= 2);
  }
  if (!shaped && lip > 0.0) part(lips, box(face, face, fit->bare_width, lip), op->sill_lip_cut);
  json_object_set_new(o, "fins", fins);
  json_object_set_new(o, "lip", lips);
  json_object_set_new(o, "tapes",
                      tapes(face + fin, face + lip, fit->width_min, fit->height_min));
  return o;
}
