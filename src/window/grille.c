#include "window/grille.h"

#include <math.h>
#include <string.h>

#include "base/own_math.h"
#include "base/tape.h"
#include "gen/reference.h"
#include "panewright/units.h"

static const double pressure = 101325.0; /* Pa, as the rating conditions */
static const double slices_least = 3e-3; /* m, both slices together: bars do not touch glass */
/* How far beside a bar the field of the gas before it reaches, per thickness of that gas: 2 ln 2 / pi, the edge
 * of a plate before a plane (conformal map; handbooks of electrostatics, from memory). */
static const double fringe = 0.44127;
static const double bar_resistance =
    0.06; /* m2 K/W, 10 mm of PVC: the most a bar outside adds */

int pw_grille_has_bars(const pw_grille *g)
{
  return g->place != PW_GRILLE_NONE && (g->cols > 1 || g->rows > 1);
}

int pw_grille_fits(const pw_unit *unit)
{
  return unit->n_pane > 1 && unit->gap[0].thickness >= PW_GRILLE_GAP;
}

pw_status pw_grille_cut(const pw_grille *g, double width, double height, pw_grille_cells *cells,
                        pw_err *err)
{
  pw_grille_cells c = {1, 1, width, height, 0.0};
  if (g->place == PW_GRILLE_NONE) {
    *cells = c;
    return PW_OK;
  }
  if (!(g->cols >= 1 && g->cols <= PW_GRILLE_MAX && g->rows >= 1 && g->rows <= PW_GRILLE_MAX))
    return pw_fail(err, PW_E_DOMAIN, "grille_pattern", "%d x %d cells, want 1 to %d a side",
                   g->cols, g->rows, PW_GRILLE_MAX);
  if (!(g->bar > 0.0))
    return pw_fail(err, PW_E_DOMAIN, "grille_bar", "bars %g mm wide, want above 0",
                   g->bar * 1e3);
  c.cols = (size_t)g->cols;
  c.rows = (size_t)g->rows;
  c.width = (width - (g->cols - 1) * g->bar) / g->cols;
  c.height = (height - (g->rows - 1) * g->bar) / g->rows;
  if (!(c.width > 0.0 && c.height > 0.0)) {
    char w[32], h[32], b[32];
    pw_tape_text(width, 16, w, sizeof w);
    pw_tape_text(height, 16, h, sizeof h);
    pw_tape_text(g->bar, 16, b, sizeof b);
    return pw_fail(err, PW_E_DOMAIN, "grille_pattern",
                   "bars of %s in, %d x %d, leave no glass in a lite of %s x %s in", b, g->cols,
                   g->rows, w, h);
  }
  c.bar_area = width * height - (double)(c.cols * c.rows) * c.width * c.height;
  if (c.cols * c.rows == 1) c.bar_area = 0.0;
  *cells = c;
  return PW_OK;
}

pw_status pw_grille_area(const pw_grille *g, const pw_lites *lites, double *area, pw_err *err)
{
  double sum = 0.0, boxes = 0.0;
  for (size_t i = 0; i < lites->n_lite; i++)
    boxes += lites->lite[i].width * lites->lite[i].height;
  if (pw_grille_has_bars(g) && fabs(boxes - lites->glass_area) > 1e-9 * boxes)
    return pw_fail(
        err, PW_E_DOMAIN, "grilles",
        "bars are computed in lites that are rectangles; leave grilles blank here and "
        "say them in maker_note");
  for (size_t i = 0; i < lites->n_lite; i++) {
    pw_grille_cells c;
    pw_status s = pw_grille_cut(g, lites->lite[i].width, lites->lite[i].height, &c, err);
    if (s != PW_OK) return s;
    sum += c.bar_area;
  }
  *area = sum;
  return PW_OK;
}

/* ---- two fins ---- */

/* One stretch of the fins: outer (0) and inner (1), rooms of 0 and 1.
 *   kt_0 t_0'' = film_0 t_0 + g (t_0 - t_1),  kt_1 t_1'' = film_1 (t_1 - 1) + g (t_1 - t_0)
 * t = rest + sum_j c_j v_j cosh(m_j x'), x' from the end at which nothing flows. */
typedef struct stretch {
  double rest[2], m[2], v[2][2]; /* v[j] of mode j */
} stretch;

static stretch stretch_of(const double film[2], const double kt[2], double g)
{
  stretch s;
  double a = (film[0] + g) / kt[0], b = g / kt[0], c = g / kt[1], d = (film[1] + g) / kt[1];
  double mean = 0.5 * (a + d), spread = sqrt(0.25 * (a - d) * (a - d) + b * c);
  double total = 1.0 / (1.0 / film[0] + 1.0 / g + 1.0 / film[1]);
  s.rest[0] = total / film[0];
  s.rest[1] = 1.0 - total / film[1];
  for (int j = 0; j < 2; j++) {
    double lambda = mean + (j ? spread : -spread);
    s.m[j] = sqrt(lambda);
    double big = fabs(a - lambda) > fabs(d - lambda) ? a - lambda : 0.0;
    s.v[j][0] = big != 0.0 ? b : d - lambda; /* (a - lambda) v0 - b v1 = 0 */
    s.v[j][1] = big != 0.0 ? a - lambda : c;
  }
  return s;
}

/* x[4] in b: elimination with row pivots (GSL's takes memory inside and does not look whether it got it). */
static void solve_four(double a[4][4], double b[4])
{
  for (int k = 0; k < 4; k++) {
    int pivot = k;
    for (int i = k + 1; i < 4; i++)
      if (fabs(a[i][k]) > fabs(a[pivot][k])) pivot = i;
    for (int j = 0; j < 4; j++) {
      double t = a[k][j];
      a[k][j] = a[pivot][j];
      a[pivot][j] = t;
    }
    double t = b[k];
    b[k] = b[pivot];
    b[pivot] = t;
    for (int i = k + 1; i < 4; i++) {
      double f = a[i][k] / a[k][k];
      for (int j = k; j < 4; j++)
        a[i][j] -= f * a[k][j];
      b[i] -= f * b[k];
    }
  }
  for (int i = 3; i >= 0; i--) {
    for (int j = i + 1; j < 4; j++)
      b[i] -= a[i][j] * b[j];
    b[i] /= a[i][i];
  }
}

void pw_grille_fins(const double film[2], const double kt[2], double gap, double slice,
                    double thick, double half, double band, double flow[2], double *out)
{
  const stretch s[2] = {stretch_of(film, kt, slice), stretch_of(film, kt, gap)};
  double beside = fmin(fringe * thick, 0.5 * band);
  const double length[2] = {half + beside, band - beside};
  double a[4][4], b[4];
  /* At the bar's edge both stretches have one temperature and one slope, either fin. The mode's cosh is taken
   * over that at its edge, so that nothing grows. */
  for (int fin = 0; fin < 2; fin++) {
    b[fin] = s[1].rest[fin] - s[0].rest[fin];
    b[2 + fin] = 0.0;
    for (int k = 0; k < 2; k++)
      for (int j = 0; j < 2; j++) {
        double slope = s[k].m[j] * pw_tanh(s[k].m[j] * length[k]);
        a[fin][2 * k + j] = (k ? -1.0 : 1.0) * s[k].v[j][fin];
        a[2 + fin][2 * k + j] = slope * s[k].v[j][fin];
      }
  }
  solve_four(a, b);
  *out = 0.0;
  for (int k = 0; k < 2; k++) {
    double mean[2] = {s[k].rest[0] * length[k], s[k].rest[1] * length[k]};
    for (int j = 0; j < 2; j++)
      for (int fin = 0; fin < 2; fin++)
        mean[fin] += b[2 * k + j] * s[k].v[j][fin] * pw_tanh(s[k].m[j] * length[k]) / s[k].m[j];
    flow[k] = film[1] * (length[k] - mean[1]);
    *out += film[0] * mean[0];
  }
  double over = flow[0] * half / length[0]; /* what passes over the bar as seen */
  flow[1] += flow[0] - over;
  flow[0] = over;
}

/* ---- a unit as two fins ---- */

typedef struct fins {
  double film[2], kt[2], gap; /* as pw_grille_fins: half of each pane belongs to its film */
  double half_pane[2];        /* m2 K/W */
  double film_bare;           /* W/(m2 K), outdoors */
} fins;

static double resistance(const pw_pane *p) { return p->thickness / pw_pane_conductivity(p); }

/* The outermost gap has the bars; what lies behind its inner pane is part of the inner film. */
static fins fins_of(const pw_unit *unit, const pw_unit_result *r)
{
  fins f = {.film_bare = r->h_c_out + r->h_r_out};
  double inside = 1.0 / (r->h_c_in + r->h_r_in);
  for (size_t i = 2; i < unit->n_pane; i++)
    inside += resistance(&unit->pane[i]) + 1.0 / r->gap[i - 1].conductance;
  for (int k = 0; k < 2; k++) {
    const pw_pane *p = &unit->pane[k];
    f.half_pane[k] = 0.5 * resistance(p);
    f.kt[k] = pw_pane_conductivity(p) * p->thickness;
  }
  f.film[0] = 1.0 / (1.0 / f.film_bare + f.half_pane[0]);
  f.film[1] = 1.0 / (inside + f.half_pane[1]);
  f.gap = 1.0 / (1.0 / r->gap[0].conductance + f.half_pane[0] + f.half_pane[1]);
  return f;
}

/* Resistance of the gas before (0) and behind (1) a bar of that depth: still gas and radiation. */
static pw_status slices(const pw_unit *unit, const pw_unit_result *r, double depth,
                        double emissivity, double slice[2], double *thickness, pw_err *err)
{
  double s = unit->gap[0].thickness, t = 0.5 * (r->t[1] + r->t[2]);
  double thick = 0.5 * (s - fmin(depth, s - slices_least));
  *thickness = thick;
  pw_gas_state gas;
  pw_status status = pw_gas_iso15099(&unit->gap[0].mix, t, pressure, &gas, err);
  for (int k = 0; status == PW_OK && k < 2; k++) {
    double e = pw_pane_emissivity(&unit->pane[k], k == 0),
           eff = 1.0 / (1.0 / e + 1.0 / emissivity - 1.0);
    slice[k] = 1.0 / (gas.conductivity / thick + 4.0 * PW_SIGMA * t * t * t * eff);
  }
  return status;
}

/* The conductance between the fins' middles at the bar. A bar that would hold heat back, as a screen for
 * radiation in a gap without coating, is not credited. */
static double at_bar(const fins *f, const double slice[2])
{
  return fmax(f->gap, 1.0 / (slice[0] + slice[1] + f->half_pane[0] + f->half_pane[1]));
}

static pw_status between(const pw_unit *unit, double net, const pw_grille *g,
                         double absorptance, double band, pw_grille_heat *h, pw_err *err)
{
  const pw_ref_options_bars_row *bar = &pw_ref_options_bars[pw_ref_options_bars__between];
  const double depth[3] = {bar->depth_in * PW_INCH, bar->depth_low_in * PW_INCH,
                           bar->depth_high_in * PW_INCH};
  pw_unit_result winter, summer;
  double slice[2], thick, flow[2], out, half = 0.5 * g->bar;
  if (!pw_grille_fits(unit))
    return pw_fail(err, PW_E_DATA, "grilles",
                   "bars between the panes need two panes and a gap of at least 6 mm; want "
                   "none or outside");
  pw_status s = pw_unit_solve(unit, &pw_env_winter, NULL, &winter, err);
  if (s == PW_OK) s = pw_unit_balance(unit, &pw_env_summer, NULL, &summer, err);
  if (s != PW_OK) return s;
  fins f = fins_of(unit, &winter);
  for (int d = 2; d >= 0; d--) {
    s = slices(unit, &winter, depth[d], bar->emissivity, slice, &thick, err);
    if (s != PW_OK) return s;
    pw_grille_fins(f.film, f.kt, f.gap, at_bar(&f, slice), thick, half, band, flow, &out);
    if (d > 0) h->u_bar_range[d - 1] = flow[0] / half;
  }
  h->u_glass = winter.u;
  h->u_bar = flow[0] / half;
  h->u_edge = flow[1] / band;
  f = fins_of(unit, &summer);
  s = slices(unit, &summer, depth[0], bar->emissivity, slice, &thick, err);
  if (s != PW_OK) return s;
  double outward = 1.0 / f.film[0] + f.half_pane[0] + slice[0];
  double inward = 1.0 / f.film[1] + f.half_pane[1] + slice[1];
  h->sun = absorptance * net * outward / (outward + inward);
  return PW_OK;
}

static pw_status outside(const pw_unit *unit, double absorptance, pw_grille_heat *h,
                         pw_err *err)
{
  pw_unit_result winter, summer;
  pw_status s = pw_unit_solve(unit, &pw_env_winter, NULL, &winter, err);
  if (s == PW_OK) s = pw_unit_solve(unit, &pw_env_summer, NULL, &summer, err);
  if (s != PW_OK) return s;
  *h = (pw_grille_heat){.u_glass = winter.u,
                        .u_bar = winter.u,
                        .u_edge = winter.u,
                        .u_bar_range = {1.0 / (1.0 / winter.u + bar_resistance), winter.u}};
  h->sun = absorptance * summer.u / (summer.h_c_out + summer.h_r_out);
  return PW_OK;
}

pw_status pw_grille_heat_of(const pw_unit *unit, double net, const pw_grille *g,
                            double absorptance, double band, pw_grille_heat *heat, pw_err *err)
{
  pw_grille_heat h = {0};
  pw_status s = pw_in_range(absorptance, 0.0, 1.0, "absorptance", "", err);
  if (s == PW_OK) s = pw_in_range(net, 0.0, 1.0, "net", "", err);
  if (s == PW_OK) s = pw_in_range(band, 1e-4, 1.0, "band", " m", err);
  if (s == PW_OK) s = pw_in_range(g->bar, 1e-4, 0.5, "grille_bar", " m", err);
  if (s == PW_OK)
    s = g->place == PW_GRILLE_BETWEEN ? between(unit, net, g, absorptance, band, &h, err)
                                      : outside(unit, absorptance, &h, err);
  if (s == PW_OK) *heat = h;
  return s;
}
