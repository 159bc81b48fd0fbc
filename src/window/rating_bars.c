/* Bars in the glass of a rated window: areas, heat, sun, light. */
#include <math.h>

#include "panewright/rating.h"
#include "window/grille.h"

static const double usual_absorptance = 0.3;

/* What all bars of a window make up. */
typedef struct bars {
  double area, center, edge; /* m2: bars; cells less their bands; bands beside bars */
  double ua, more;           /* W/K: over the bars; what they add in all */
  double sun;                /* m2, share of the sun times area */
  double band;               /* m, of heat: what stands in a lite besides is the same in all */
  pw_grille_heat heat;
} bars;

/* The bands of a lite's cells that lie beside bars. A corner of two bars is cut by the mitre. */
static double bands(const pw_grille_cells *c, double b)
{
  double sum = 0.0;
  for (size_t row = 0; row < c->rows; row++)
    for (size_t col = 0; col < c->cols; col++) {
      double across = (double)((col > 0) + (col + 1 < c->cols)); /* sides that stand at bars */
      double up = (double)((row > 0) + (row + 1 < c->rows));     /* sides that lie at bars */
      sum += across * b * c->height + up * b * c->width - across * up * b * b;
    }
  return sum;
}

/* Share of the sun that passes on from the outer pane. */
static double passed_on(const pw_light *light)
{
  double net = light->tau_e[0];
  for (size_t i = 1; i < light->n_pane; i++)
    net += light->absorbed[i][0];
  return net;
}

static pw_status add_lite(const pw_grille *grille, const pw_lite *lite,
                          const pw_glazing *glazing, double absorptance, bars *sum, pw_err *err)
{
  pw_grille_cells c;
  pw_status s = pw_grille_cut(grille, lite->width, lite->height, &c, err);
  if (s != PW_OK) return s;
  double b = fmin(PW_EDGE_BAND, 0.5 * fmin(c.width, c.height)), n = (double)(c.cols * c.rows);
  if (b != sum->band)
    s = pw_grille_heat_of(&glazing->unit, passed_on(&glazing->light), grille, absorptance, b,
                          &sum->heat, err);
  if (s != PW_OK) return s;
  sum->band = b;
  const pw_grille_heat *heat = &sum->heat;
  double beside = bands(&c, b);
  sum->area += c.bar_area;
  sum->center += n * (c.width - 2.0 * b) * (c.height - 2.0 * b);
  sum->edge += beside;
  sum->ua += c.bar_area * heat->u_bar;
  sum->more +=
      c.bar_area * (heat->u_bar - heat->u_glass) + beside * (heat->u_edge - heat->u_glass);
  sum->sun += c.bar_area * heat->sun;
  return PW_OK;
}

pw_status pw_rating_add_bars(const pw_grille *grille, const pw_lites *lites,
                             const pw_glazing *glazing, double absorptance, pw_rating *rating,
                             pw_err *err)
{
  bars b = {0};
  double area;
  if (!pw_grille_has_bars(grille)) return PW_OK;
  pw_status rectangles = pw_grille_area(grille, lites, &area, err);
  if (rectangles != PW_OK) return rectangles;
  for (size_t i = 0; i < lites->n_lite; i++) {
    pw_status s = add_lite(grille, &lites->lite[i], glazing,
                           absorptance > 0.0 ? absorptance : usual_absorptance, &b, err);
    if (s != PW_OK) return s;
  }
  pw_rating r = *rating;
  double opaque = r.areas.frame + r.areas.divider + r.areas.retained;
  double glass_ua = r.ua.center + r.ua.edge + b.more - b.ua;
  r.bars_area = b.area;
  r.bars_ua = b.ua;
  r.areas.divider += b.area;
  r.ua.divider += b.ua;
  r.glass_area -= b.area;
  r.areas.center = b.center;
  r.areas.edge = r.glass_area - b.center;
  r.ua.center = b.center * glazing->u_winter;
  r.ua.edge = glass_ua - r.ua.center;
  r.u += b.more / r.area;
  r.u_psi += b.more / r.area;
  r.shgc += (b.sun - glazing->shgc[0] * b.area) / r.area;
  r.vt -= glazing->light.tau_v[0] * b.area / r.area;
  r.shgc_opaque = (r.shgc_opaque * opaque + b.sun) / (opaque + b.area);
  *rating = r;
  return PW_OK;
}
