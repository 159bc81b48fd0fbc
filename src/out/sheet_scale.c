#include "out/sheet_scale.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "out/clip.h"
#include "window/grille.h"

/* The old window and the new one. */
enum { SHOWN = 2 };

/* Colours of the drawing: wall, old metal, new frame, glass, a lite that moves. */
enum {
  WALL = 0xE9E2D3,
  OLD_METAL = 0x8C8A86,
  NEW_FRAME = 0xFBFBF8,
  GLASS = 0xA9CBDD,
  MOVING = 0xC4DFEC
};

size_t sheet_coldest_opening(const pw_compare *c)
{
  size_t best = pw_compare_first(c->job);
  for (size_t i = 0; i < c->n_opening; i++)
    if (pw_compare_replaces(c->job, i) &&
        c->rated.existing[i].sweat.center.t < c->rated.existing[best].sweat.center.t)
      best = i;
  return best;
}

size_t sheet_least_glass(const pw_compare *c, size_t opening)
{
  size_t least = 0;
  for (size_t p = 1; p < c->n_package; p++)
    if (c->rated.package[p][opening].glass_kept < c->rated.package[least][opening].glass_kept)
      least = p;
  return least;
}

static double kept(const pw_compare *c, size_t opening)
{
  return c->rated.package[sheet_least_glass(c, opening)][opening].glass_kept;
}

size_t sheet_most_changed(const pw_compare *c, size_t most[2])
{
  size_t n = 0;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!pw_compare_replaces(c->job, i)) continue;
    size_t k = n < 2 ? n++ : 2; /* room, or after both */
    if (k == 2 && kept(c, i) >= kept(c, most[1])) continue;
    if (k == 2) k = 1;
    most[k] = i;
    if (k == 1 && kept(c, most[1]) < kept(c, most[0])) {
      most[1] = most[0];
      most[0] = i;
    }
  }
  return n;
}

static void box(pw_plot *p, double x, double y, double width, double height, int colour)
{
  pw_plot_row(p, "fffff", x, x + width, y, y + height, (double)colour);
}

/* Glazing bars over a lite whose lower left corner is at x, y. */
static void bars(pw_plot *p, const pw_grille *grille, const pw_lite *lite, double x, double y)
{
  pw_grille_cells c;
  if (!pw_grille_has_bars(grille) ||
      pw_grille_cut(grille, lite->width, lite->height, &c, NULL) != PW_OK)
    return;
  for (size_t k = 1; k < c.cols; k++)
    box(p, x + (double)k * (c.width + grille->bar) - grille->bar, y, grille->bar, lite->height,
        NEW_FRAME);
  for (size_t k = 1; k < c.rows; k++)
    box(p, x, y + (double)k * (c.height + grille->bar) - grille->bar, lite->width, grille->bar,
        NEW_FRAME);
}

/* Outlines that are no rectangles, kept until their block is written. */
enum { OUTLINES_MAX = 3 * SHOWN, POINTS_MAX = 200 };
typedef struct outlines {
  size_t n, n_point[OUTLINES_MAX];
  double x[OUTLINES_MAX][POINTS_MAX], y[OUTLINES_MAX][POINTS_MAX];
  char colour[OUTLINES_MAX * 9];
} outlines;

/* A shape with the lower left corner of its extents at x, y; returns those extents' own corner. */
static void outline(outlines *o, const pw_bounds *shape, double x, double y, unsigned colour)
{
  pw_outline size;
  if (o->n == OUTLINES_MAX || pw_shape_outline(shape, &size, NULL) != PW_OK) return;
  size_t n = pw_shape_points(shape, o->x[o->n], o->y[o->n], POINTS_MAX);
  for (size_t k = 0; k < n; k++) {
    o->x[o->n][k] += x - size.x_min;
    o->y[o->n][k] += y - size.y_min;
  }
  size_t have = strlen(o->colour);
  snprintf(o->colour + have, sizeof o->colour - have, "%s#%06X", have ? " " : "", colour);
  o->n_point[o->n++] = n;
}

/* The same of a shape: the wall, then opening, frame and glass as their outlines. */
static void shaped_window(outlines *o, const pw_fit *fit, int insert, double x, double y)
{
  pw_bounds opening, bare, order;
  const pw_lites *w = insert ? &fit->insert : &fit->existing;
  const pw_lite *lite = &w->lite[0];
  if (pw_fit_outlines(fit, &opening, &bare, &order) != PW_OK) return;
  outline(o, &opening, x, y, OLD_METAL);
  double left = 0.5 * (fit->opening_width - w->width);
  double low = insert ? fit->retained_width[PW_BOTTOM] : fit->retained_face;
  if (insert) outline(o, &order, x + left, y + low, NEW_FRAME);
  pw_bounds glass = insert ? order : bare;
  glass = pw_shape_inset(&glass, lite->face[PW_TOP]);
  outline(o, &glass, x + left + lite->x, y + low + lite->y, lite->moving ? MOVING : GLASS);
}

static void outlines_block(pw_plot *p, const outlines *o)
{
  pw_plot_number(p, "n_outline", (double)o->n);
  pw_plot_text(p, "outline_colour", o->colour);
  pw_plot_block(p, "P");
  for (size_t i = 0; i < o->n; i++) {
    for (size_t k = 0; k <= o->n_point[i]; k++)
      pw_plot_row(p, "ff", o->x[i][k % o->n_point[i]], o->y[i][k % o->n_point[i]]);
    pw_plot_blank(p);
    pw_plot_blank(p);
  }
  if (o->n == 0) pw_plot_row(p, "ff", 0.0, 0.0);
  pw_plot_end_block(p);
}

/* The opening with one window in it, its lower left corner at x, y. */
static void window(pw_plot *p, outlines *o, const pw_fit *fit, int insert, double x, double y)
{
  const pw_lites *w = insert ? &fit->insert : &fit->existing;
  double wall = 0.05 * fit->opening_height;
  box(p, x - wall, y - wall, fit->opening_width + 2.0 * wall, fit->opening_height + 2.0 * wall,
      WALL);
  if (fit->shape.kind != PW_SHAPE_RECTANGLE) {
    shaped_window(o, fit, insert, x, y);
    return;
  }
  box(p, x, y, fit->opening_width, fit->opening_height, OLD_METAL);
  double left = insert ? fit->retained_width[PW_LEFT] : 0.5 * (fit->opening_width - w->width);
  double low =
      insert ? fit->retained_width[PW_BOTTOM] : 0.5 * (fit->opening_height - w->height);
  if (insert) box(p, x + left, y + low, w->width, w->height, NEW_FRAME);
  for (size_t i = 0; i < w->n_lite; i++) {
    const pw_lite *lite = &w->lite[i];
    box(p, x + left + lite->x, y + low + lite->y, lite->width, lite->height,
        lite->moving ? MOVING : GLASS);
    if (insert) bars(p, &fit->grille, lite, x + left + lite->x, y + low + lite->y);
  }
}

pw_plot *sheet_scale_plot(const pw_compare *c, size_t opening, const pw_tongue *tongue,
                          int width, int *height)
{
  size_t p = sheet_least_glass(c, opening);
  const size_t n = SHOWN;
  const pw_fit *first = &c->fitted.fit[p][opening];
  double pitch = first->opening_width * 1.14 + 0.1 * first->opening_height;
  double gap = 0.5 * (pitch - first->opening_width);
  double low = 0.32 * first->opening_height;
  double x_max = pitch * (double)n, y_max = low + first->opening_height * 1.08;
  *height = (int)lround(0.46 * width); /* two pictures side by side are of one height */
  outlines shapes = {0};
  pw_plot *plot = pw_plot_new("plots/to_scale.gp");
  pw_plot_number(plot, "x_max", x_max);
  pw_plot_number(plot, "y_max", y_max);
  pw_plot_block(plot, "R");
  for (size_t s = 0; s < n; s++)
    window(plot, &shapes, first, s > 0, gap + pitch * (double)s, low);
  pw_plot_end_block(plot);
  outlines_block(plot, &shapes);
  pw_plot_block(plot, "L");
  for (size_t s = 0; s < n; s++)
    pw_plot_row(plot, "ffs", pitch * ((double)s + 0.5), 0.45 * low,
                s ? pw_clip(c->rated.package_set[p].name, 14).text
                  : pw_tongue_say(tongue, PW_TEXT("there now")));
  pw_plot_end_block(plot);
  return plot;
}
