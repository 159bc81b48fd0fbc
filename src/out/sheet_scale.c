#include "out/sheet_scale.h"

#include <math.h>

#include "out/clip.h"
#include "panewright/grille.h"

/* Beyond these many the windows would be too small to tell apart. */
enum { SHOWN_MAX = 4 };

/* Colours of the drawing: wall, old metal, new frame, glass, a lite that moves. */
enum {
  WALL = 0xE9E2D3,
  OLD_METAL = 0x8C8A86,
  NEW_FRAME = 0xFBFBF8,
  GLASS = 0xA9CBDD,
  MOVING = 0xC4DFEC
};

size_t sheet_typical_opening(const pw_compare *c)
{
  size_t best = 0;
  double off = INFINITY;
  for (size_t i = 0; i < c->n_opening; i++) {
    double d = fabs(pw_compare_window_of(c, 0, i)->glass_kept - c->package_set[0].glass_kept);
    if (d < off) {
      off = d;
      best = i;
    }
  }
  return best;
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

/* The opening with one window in it, its lower left corner at x, y. */
static void window(pw_plot *p, const pw_fit *fit, int insert, double x, double y)
{
  const pw_lites *w = insert ? &fit->insert : &fit->existing;
  double wall = 0.05 * fit->opening_height;
  box(p, x - wall, y - wall, fit->opening_width + 2.0 * wall, fit->opening_height + 2.0 * wall,
      WALL);
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

pw_plot *sheet_scale_plot(const pw_compare *c, size_t opening, int width, int *height)
{
  size_t n = c->n_package + 1 < SHOWN_MAX ? c->n_package + 1 : SHOWN_MAX;
  const pw_fit *first = pw_compare_fit(c, 0, opening);
  double pitch = first->opening_width * 1.14 + 0.1 * first->opening_height;
  double gap = 0.5 * (pitch - first->opening_width);
  double low = 0.32 * first->opening_height;
  double x_max = pitch * (double)n, y_max = low + first->opening_height * 1.08;
  /* A very wide or very narrow opening is kept to a picture of sound shape by empty margins. */
  double shape = fmin(fmax(y_max / x_max, 0.18), 0.5);
  *height = (int)lround(shape * width);
  pw_plot *p = pw_plot_new("plots/to_scale.gp");
  pw_plot_number(p, "x_max", x_max);
  pw_plot_number(p, "y_max", y_max);
  pw_plot_block(p, "R");
  for (size_t s = 0; s < n; s++)
    window(p, pw_compare_fit(c, s ? s - 1 : 0, opening), s > 0, gap + pitch * (double)s, low);
  pw_plot_end_block(p);
  pw_plot_block(p, "L");
  for (size_t s = 0; s < n; s++)
    pw_plot_row(p, "ffs", pitch * ((double)s + 0.5), 0.45 * low,
                s ? pw_clip(c->package_set[s - 1].name, 14).text : "there now");
  pw_plot_end_block(p);
  return p;
}
