#include "out/unit_drawing.h"

#include <string.h>

#include "out/svg.h"
#include "panewright/shape.h"

/* The picture's room, in its own units. */
static const double room_width = 110.0, room_height = 74.0, rim = 3.0;

enum { POINTS_MAX = 160 };

typedef struct drawing {
  FILE *f;
  double scale, left, top; /* of the window's rectangle; y goes down */
} drawing;

static double at_x(const drawing *d, double x) { return d->left + d->scale * x; }
static double at_y(const drawing *d, double y, double height)
{
  return d->top + d->scale * (height - y);
}

static void line(const drawing *d, double x0, double y0, double x1, double y1, const char *look)
{
  fprintf(d->f, "<path d=\"M%.1f %.1fL%.1f %.1f\" %s/>", x0, y0, x1, y1, look);
}

static const char thin[] = "fill=\"none\" stroke=\"#000\" stroke-width=\"0.7\"";
static const char dashed[] =
    "fill=\"none\" stroke=\"#000\" stroke-width=\"0.7\" stroke-dasharray=\"3 2\"";
static const char strong[] = "fill=\"none\" stroke=\"#000\" stroke-width=\"1.6\"";

static void rectangle(const drawing *d, double x, double y, double width, double height,
                      const char *look)
{
  fprintf(d->f, "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" %s/>", x, y, width,
          height, look);
}

/* An outline that is no rectangle. */
static void outline(const drawing *d, const pw_bounds *shape, double height, const char *look)
{
  double x[POINTS_MAX], y[POINTS_MAX];
  pw_outline size;
  if (pw_shape_outline(shape, &size, NULL) != PW_OK) return;
  size_t n = pw_shape_points(shape, x, y, POINTS_MAX);
  fputs("<path d=\"", d->f);
  for (size_t i = 0; i < n; i++)
    fprintf(d->f, "%s%.1f %.1f", i ? "L" : "M", at_x(d, x[i]), at_y(d, y[i], height));
  fprintf(d->f, "Z\" %s/>", look);
}

/* A daylight rectangle on the picture. */
typedef struct box {
  double x, y, width, height;
} box;

static void bars(const drawing *d, const pw_grille *g, const box *b)
{
  if (g->place == PW_GRILLE_NONE) return;
  for (int k = 1; k < g->cols; k++)
    line(d, b->x + b->width * k / g->cols, b->y, b->x + b->width * k / g->cols,
         b->y + b->height, thin);
  for (int k = 1; k < g->rows; k++)
    line(d, b->x, b->y + b->height * k / g->rows, b->x + b->width,
         b->y + b->height * k / g->rows, thin);
}

/* The ends of an arrow in a lite: -1 towards the left or down, 1 right or up. */
static void arrow(const drawing *d, const box *b, int upright, int low, int high)
{
  const double head = 3.0, x = b->x + (upright ? 0.72 : 0.5) * b->width,
               y = b->y + 0.72 * b->height;
  double half = 0.3 * (upright ? b->height : b->width);
  if (half > 12.0) half = 12.0;
  if (upright) {
    double middle = b->y + 0.5 * b->height;
    line(d, x, middle - half, x, middle + half, strong);
    for (int s = -1; s <= 1; s += 2)
      if (s < 0 ? high : low) {
        line(d, x - head, middle + s * (half - head), x, middle + s * half, strong);
        line(d, x + head, middle + s * (half - head), x, middle + s * half, strong);
      }
    return;
  }
  line(d, x - half, y, x + half, y, strong);
  for (int s = -1; s <= 1; s += 2)
    if (s < 0 ? low : high) {
      line(d, x + s * (half - head), y - head, x + s * half, y, strong);
      line(d, x + s * (half - head), y + head, x + s * half, y, strong);
    }
}

/* Dashed lines that meet in the middle of the hinge side, and its two hinges. */
static void hinged(const drawing *d, const box *b, int side)
{
  const double far_x = side == PW_LEFT ? b->x + b->width : b->x;
  const double thick = 2.4, some = 0.16;
  if (side == PW_LEFT || side == PW_RIGHT) {
    double x = side == PW_LEFT ? b->x : b->x + b->width, y = b->y + 0.5 * b->height;
    line(d, far_x, b->y, x, y, dashed);
    line(d, far_x, b->y + b->height, x, y, dashed);
    for (int k = 0; k < 2; k++)
      rectangle(d, side == PW_LEFT ? x - thick : x,
                b->y + b->height * (k ? 1.0 - 2.0 * some : some), thick, some * b->height,
                "fill=\"#000\"");
    return;
  }
  double y = side == PW_TOP ? b->y : b->y + b->height, x = b->x + 0.5 * b->width;
  double far_y = side == PW_TOP ? b->y + b->height : b->y;
  line(d, b->x, far_y, x, y, dashed);
  line(d, b->x + b->width, far_y, x, y, dashed);
  for (int k = 0; k < 2; k++)
    rectangle(d, b->x + b->width * (k ? 1.0 - 2.0 * some : some),
              side == PW_TOP ? y - thick : y, some * b->width, thick, "fill=\"#000\"");
}

/* A lite slides over the fixed one beside it, or, where all move, towards the middle. */
static void slides(const drawing *d, const pw_lites *w, size_t k, const box *b)
{
  int left = k > 0 && !w->lite[k - 1].moving,
      right = k + 1 < w->n_lite && !w->lite[k + 1].moving;
  if (!left && !right) {
    left = 2 * k + 1 > w->n_lite;
    right = !left;
  }
  arrow(d, b, 0, left, right);
}

static void moves(const drawing *d, const pw_opening *o, const pw_lites *w, size_t k,
                  const box *b)
{
  switch (w->operator_) {
  case PW_SLIDER:
  case PW_SLIDING_DOOR:
    slides(d, w, k, b);
    return;
  case PW_SINGLE_HUNG:
  case PW_DOUBLE_HUNG:
    arrow(d, b, 1, k > 0, k == 0); /* the lower sash goes up, the upper one down */
    return;
  case PW_AWNING:
    hinged(d, b, PW_TOP);
    return;
  case PW_HOPPER:
    hinged(d, b, PW_BOTTOM);
    return;
  case PW_CASEMENT:
  case PW_HINGED_DOOR:
    if (o->option.hinge == PW_HINGE_LEFT) hinged(d, b, PW_LEFT);
    if (o->option.hinge == PW_HINGE_RIGHT) hinged(d, b, PW_RIGHT);
    if (o->option.hinge == PW_HINGE_TOP) hinged(d, b, PW_TOP);
    return;
  default: /* fixed, or a flanker whose kind of sash the job does not say */
    return;
  }
}

static void lite(const drawing *d, const pw_opening *o, const pw_fit *fit, size_t k)
{
  const pw_lites *w = &fit->insert;
  const pw_lite *l = &w->lite[k];
  const int upright = w->operator_ == PW_SINGLE_HUNG || w->operator_ == PW_DOUBLE_HUNG;
  const box b = {at_x(d, l->x), at_y(d, l->y + l->height, w->height), d->scale * l->width,
                 d->scale * l->height};
  if (o->shape == PW_SHAPE_RECTANGLE) rectangle(d, b.x, b.y, b.width, b.height, thin);
  bars(d, &fit->grille, &b);
  if (l->moving) moves(d, o, w, k, &b);
  const double x = b.x + (upright && l->moving ? 0.3 : 0.5) * b.width, y = b.y + 0.3 * b.height;
  rectangle(d, x - 5.0, y - 5.0, 10.0, 10.0, "fill=\"#fff\"");
  fprintf(d->f,
          "<text x=\"%.1f\" y=\"%.1f\" font-size=\"11\" font-weight=\"700\" "
          "text-anchor=\"middle\">%s</text>",
          x, y + 4.0, l->moving ? "X" : "O");
}

void pw_unit_drawing(const pw_opening *o, const pw_fit *fit, const char *alt, pw_html *h)
{
  const pw_lites *w = &fit->insert;
  pw_bounds opening, bare, order;
  double wide = (room_width - 2.0 * rim) / w->width,
         high = (room_height - 2.0 * rim) / w->height;
  drawing d = {h->f, wide < high ? wide : high, 0.0, rim};
  d.left = 0.5 * (room_width - d.scale * w->width);
  double tall = 2.0 * rim + d.scale * w->height;
  pw_html_put(h,
              "<svg class=\"unit\" " PW_SVG_LETTERS
              " viewBox=\"0 0 %.0f %.0f\" role=\"img\" aria-label=\"%s\">",
              room_width, tall, alt);
  if (o->shape == PW_SHAPE_RECTANGLE) {
    rectangle(&d, d.left, d.top, d.scale * w->width, d.scale * w->height, strong);
  } else if (pw_fit_outlines(fit, &opening, &bare, &order) == PW_OK) {
    pw_outline size;
    if (pw_shape_outline(&order, &size, NULL) == PW_OK) {
      drawing own = d;
      own.left -= d.scale * size.x_min;
      own.top += d.scale * size.y_min;
      pw_bounds glass = pw_shape_inset(&order, w->lite[0].face[PW_TOP]);
      outline(&own, &order, w->height, strong);
      outline(&own, &glass, w->height, thin);
    }
  }
  for (size_t k = 0; k < w->n_lite; k++)
    lite(&d, o, fit, k);
  fputs("</svg>\n", h->f);
}
