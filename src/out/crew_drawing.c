#include "out/crew_drawing.h"

#include <math.h>
#include <stdio.h>

#include "base/tape.h"
#include "out/svg.h"
#include "panewright/lites.h"

/* The picture and, inside it, where the opening may stand; drawing units. */
enum { WIDE = 300, HIGH = 262, LEFT = 58, RIGHT = 242, TOP = 26, BOTTOM = 222 };

/* Attributes and not a style sheet: converters to PDF do not all carry one into a picture. */
static const char old_frame[] = "fill=\"#bbb\" stroke=\"#000\" stroke-width=\"1.4\"";
static const char pocket[] = "fill=\"#fff\" stroke=\"#000\" stroke-width=\"0.8\"";
static const char comes_off[] =
    "fill=\"none\" stroke=\"#000\" stroke-width=\"1.4\" stroke-dasharray=\"5 3\"";
static const char solid[] = "fill=\"#000\" stroke=\"#000\"";
static const char unit[] = "fill=\"#eee\" stroke=\"#000\" stroke-width=\"2\"";
static const char glass[] = "fill=\"#fff\" stroke=\"#000\" stroke-width=\"1\"";
static const char thin[] = "fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\"";

/* From metres, up from the lower left corner of the opening, to the picture. */
typedef struct canvas {
  FILE *f;
  double scale, x, y;
} canvas;

static double across(const canvas *c, double x) { return c->x + c->scale * x; }
static double down(const canvas *c, double y) { return c->y - c->scale * y; }

static void box(const canvas *c, double x, double y, double width, double height,
                const char *look)
{
  if (width <= 0.0 || height <= 0.0) return;
  fprintf(c->f, "<rect %s x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/>\n", look,
          across(c, x), down(c, y + height), c->scale * width, c->scale * height);
}

/* An outline with the lower left corner of its extents at x, y. */
static void outline(const canvas *c, const pw_bounds *shape, double x, double y,
                    const char *look)
{
  enum { POINTS = 200 };
  double px[POINTS], py[POINTS];
  pw_outline size;
  if (pw_shape_outline(shape, &size, NULL) != PW_OK) return;
  size_t n = pw_shape_points(shape, px, py, POINTS);
  fprintf(c->f, "<path %s d=\"", look);
  for (size_t k = 0; k < n; k++)
    fprintf(c->f, "%s%.1f %.1f", k ? "L" : "M", across(c, px[k] + x - size.x_min),
            down(c, py[k] + y - size.y_min));
  fputs("Z\"/>\n", c->f);
}

/* ---------------------------------------------------------------- what is said of it */

int pw_crew_fins_off(const pw_opening *o)
{
  return o->fin_width > 0.0 && !o->fins_stay ? o->fins_cut : 0;
}

int pw_crew_lip_off(const pw_opening *o)
{
  return o->sill_lip > 0.0 && !o->lip_stay && o->sill_lip_cut;
}

void pw_crew_gap(const pw_fit *fit, double gap[4])
{
  const int whole = fit->shape.kind == PW_SHAPE_RECTANGLE;
  gap[PW_LEFT] = gap[PW_RIGHT] =
      whole ? 0.5 * (fit->pocket_width - fit->order_width) : fit->gap;
  gap[PW_BOTTOM] = gap[PW_TOP] =
      whole ? 0.5 * (fit->pocket_height - fit->order_height) : fit->gap;
}

/* ---------------------------------------------------------------- parts */

/* Fins and lip, as wide as they are or as a pen can show. */
static void fins(const canvas *c, const pw_opening *o, const pw_fit *fit)
{
  const double least = 3.0 / c->scale, face = fit->retained_face;
  const double fin = o->fin_width > 0.0 ? fmax(o->fin_width, least) : 0.0;
  const double lip = o->sill_lip > 0.0 ? fmax(o->sill_lip, least) : 0.0;
  const int off = pw_crew_fins_off(o);
  const double w = fit->opening_width - 2.0 * face, high = fit->opening_height - 2.0 * face;
  box(c, face, face, fin, high, off >= 1 ? comes_off : solid);
  box(c, face + w - fin, face, fin, high, off >= 2 ? comes_off : solid);
  box(c, face, face, w, lip, pw_crew_lip_off(o) ? comes_off : solid);
}

/* The way a lite moves: an arrow for one that slides, the lines to the hinge for one that swings. */
static void motion(const canvas *c, const pw_opening *o, const pw_lites *w, size_t i, double x,
                   double y)
{
  const pw_lite *l = &w->lite[i];
  const double x0 = across(c, x), x1 = across(c, x + l->width), y0 = down(c, y + l->height),
               y1 = down(c, y), xm = 0.5 * (x0 + x1), ym = 0.5 * (y0 + y1);
  switch (o->operator_insert) {
  case PW_CASEMENT:
  case PW_HINGED_DOOR: {
    if (o->option.hinge == PW_HINGE_ASK) return;
    const int left = o->option.hinge == PW_HINGE_LEFT;
    fprintf(c->f, "<path %s d=\"M%.1f %.1fL%.1f %.1fL%.1f %.1f\"/>\n", thin, left ? x1 : x0, y0,
            left ? x0 : x1, ym, left ? x1 : x0, y1);
    return;
  }
  case PW_AWNING:
  case PW_HOPPER: {
    const int top = o->operator_insert == PW_AWNING;
    fprintf(c->f, "<path %s d=\"M%.1f %.1fL%.1f %.1fL%.1f %.1f\"/>\n", thin, x0, top ? y1 : y0,
            xm, top ? y0 : y1, x1, top ? y1 : y0);
    return;
  }
  case PW_SINGLE_HUNG:
  case PW_DOUBLE_HUNG: {
    const double tip = i == 0 ? ym - 14 : ym + 14, back = i == 0 ? 6 : -6;
    fprintf(c->f, "<path %s d=\"M%.1f %.1fV%.1fM%.1f %.1fL%.1f %.1fL%.1f %.1f\"/>\n", thin, xm,
            i == 0 ? ym + 14 : ym - 14, tip, xm - 5, tip + back, xm, tip, xm + 5, tip + back);
    return;
  }
  default: {
    /* a sliding lite goes toward the middle of the window, a middle one to the left */
    const int right = l->x + 0.5 * l->width < 0.5 * w->width - 1e-6;
    const double tip = right ? xm + 14 : xm - 14, back = right ? -6 : 6;
    fprintf(c->f, "<path %s d=\"M%.1f %.1fH%.1fM%.1f %.1fL%.1f %.1fL%.1f %.1f\"/>\n", thin,
            right ? xm - 14 : xm + 14, ym, tip, tip + back, ym - 5, tip, ym, tip + back,
            ym + 5);
  }
  }
}

static void window(const canvas *c, const pw_opening *o, const pw_fit *fit, double x, double y)
{
  const pw_lites *w = &fit->insert;
  pw_bounds opening, bare, order;
  if (fit->shape.kind == PW_SHAPE_RECTANGLE) {
    box(c, x, y, fit->order_width, fit->order_height, unit);
  } else if (pw_fit_outlines(fit, &opening, &bare, &order) == PW_OK) {
    outline(c, &order, x, y, unit);
    pw_bounds inside = pw_shape_inset(&order, w->lite[0].face[PW_TOP]);
    outline(c, &inside, x + w->lite[0].x, y + w->lite[0].y, glass);
  }
  for (size_t i = 0; i < w->n_lite; i++) {
    const pw_lite *l = &w->lite[i];
    if (fit->shape.kind == PW_SHAPE_RECTANGLE)
      box(c, x + l->x, y + l->y, l->width, l->height, glass);
    if (l->moving) motion(c, o, w, i, x + l->x, y + l->y);
  }
}

/* A wedge that points at the unit from the left, right or below. */
static void wedge(const canvas *c, double x, double y, int side)
{
  const double px = across(c, x), py = down(c, y);
  const double away_x = side == PW_LEFT    ? -9
                        : side == PW_RIGHT ? 9
                                           : 0,
               away_y = side == PW_BOTTOM ? 9 : 0;
  const double wide_x = side == PW_BOTTOM ? 4 : 0, wide_y = side == PW_BOTTOM ? 0 : 4;
  fprintf(c->f, "<path %s class=\"shim\" d=\"M%.1f %.1fL%.1f %.1fL%.1f %.1fZ\"/>\n", solid, px,
          py, px + away_x - wide_x, py + away_y - wide_y, px + away_x + wide_x,
          py + away_y + wide_y);
}

static void shims(const canvas *c, const pw_materials *m, const pw_fit *fit, double x, double y)
{
  for (size_t k = 0; k < m->n_shim[PW_LEFT]; k++)
    wedge(c, x, y + m->shim[PW_LEFT][k], PW_LEFT);
  for (size_t k = 0; k < m->n_shim[PW_RIGHT]; k++)
    wedge(c, x + fit->order_width, y + m->shim[PW_RIGHT][k], PW_RIGHT);
  for (size_t k = 0; k < m->n_shim[PW_BOTTOM]; k++)
    wedge(c, x + m->shim[PW_BOTTOM][k], y, PW_BOTTOM);
}

static void gap_text(pw_html *h, double x, double y, const char *anchor, const char *text)
{
  fprintf(h->f,
          "<text x=\"%.1f\" y=\"%.1f\" font-size=\"15\" font-weight=\"700\" "
          "text-anchor=\"%s\">",
          x, y, anchor);
  pw_html_text(h, text);
  fputs("</text>\n", h->f);
}

/* The figure alone: its unit stands in the words below. */
static void figure(pw_html *h, double x, double y, const char *anchor, pw_reading as,
                   double gap)
{
  char text[24];
  if (as.si)
    snprintf(text, sizeof text, "%.1f", gap * 1e3);
  else
    pw_tape_text(gap, 32, text, sizeof text);
  gap_text(h, x, y, anchor, text);
}

static void gaps(const canvas *c, const pw_fit *fit, pw_reading as, pw_html *h)
{
  double gap[4];
  const double middle = across(c, 0.5 * fit->opening_width),
               right = across(c, fit->opening_width), head = down(c, fit->opening_height);
  pw_crew_gap(fit, gap);
  figure(h, c->x - 14, head + 0.32 * (c->y - head), "end", as, gap[PW_LEFT]);
  figure(h, right + 14, head + 0.32 * (c->y - head), "start", as, gap[PW_RIGHT]);
  figure(h, middle, head - 8, "middle", as, gap[PW_TOP]);
  figure(h, middle, c->y + 28, "middle", as, gap[PW_BOTTOM]);
}

void pw_crew_drawing(const pw_opening *o, const pw_fit *fit, const pw_materials *m,
                     pw_reading as, pw_html *h)
{
  const double w = fit->opening_width, high = fit->opening_height;
  canvas c = {.f = h->f, .scale = fmin((RIGHT - LEFT) / w, (BOTTOM - TOP) / high)};
  c.x = 0.5 * (LEFT + RIGHT) - 0.5 * c.scale * w;
  c.y = 0.5 * (TOP + BOTTOM) + 0.5 * c.scale * high;
  pw_html_put(
      h,
      "<svg class=\"seen\" " PW_SVG_LETTERS
      " viewBox=\"0 0 300 262\" role=\"img\" aria-label=\"%s\">\n",
      pw_say(h,
             "The unit in its pocket, seen from outside, to scale, with the gap at each side "
             "and the places of the shims"));
  const double x = 0.5 * (w - fit->order_width), y = fit->retained_width[PW_BOTTOM];
  if (fit->shape.kind == PW_SHAPE_RECTANGLE) {
    box(&c, 0.0, 0.0, w, high, old_frame);
    box(&c, fit->retained_face, fit->retained_face, w - 2.0 * fit->retained_face,
        high - 2.0 * fit->retained_face, pocket);
    window(&c, o, fit, fit->retained_width[PW_LEFT], y);
    fins(&c, o, fit); /* over the unit, which stands where they were */
    shims(&c, m, fit, fit->retained_width[PW_LEFT], y);
  } else {
    pw_bounds opening, bare, order;
    if (pw_fit_outlines(fit, &opening, &bare, &order) == PW_OK)
      outline(&c, &opening, 0.0, 0.0, old_frame);
    window(&c, o, fit, x, y);
    shims(&c, m, fit, x, y);
  }
  gaps(&c, fit, as, h);
  fputs("</svg>\n", h->f);
}
