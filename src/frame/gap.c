/* Where the bracket is wide. By Prager and Synge (1947) the squared distance between a temperature
 * field that fits together (elements) and a flux field that balances (volumes) is the difference of
 * their energies; taken cell by cell it says which columns and rows to split:
 *
 *   q_e - q_v = sum over cells k |grad T_e - f / k|^2 + sum over films (T_e - T_air - R f)^2 / R
 *               + the surplus of the trapezoidal rule
 */
#include <math.h>

#include "frame/frame_impl.h"

/* Share of one axis in one cell: g0, g1 gradients of the elements on its two edges along the axis,
 * s0, s1 those of the volumes at its two faces across it. */
static void add_axis(double k_area, double g0, double g1, double s0, double s1, double *along,
                     double *across)
{
  double mean = 0.5 * (g0 + g1) - 0.5 * (s0 + s1), dg = g1 - g0, ds = s1 - s0;
  *along += k_area * (0.5 * mean * mean + ds * ds / 4.0); /* 1/12 exact + 1/6 trapezoidal */
  *across += k_area * (0.5 * mean * mean + dg * dg / 12.0);
}

/* Gradient at a face of cell (i, j), out of its half, from the volumes; positive outward. */
static double face_gradient(const frame_grid *g, const double *theta, size_t i, size_t j,
                            int di, int dj, double k, double length)
{
  double air, conductance = frame_face(g, i, j, di, dj, &air);
  if (conductance == 0.0) return 0.0;
  size_t there = (size_t)((ptrdiff_t)(j * g->n_x + i) + di + dj * (ptrdiff_t)g->n_x);
  double t2 = isnan(air) ? theta[there] : air;
  return conductance * (t2 - theta[j * g->n_x + i]) / (length * k);
}

/* A film face: a, b the elements' nodes, f the volumes' flux out of the body. */
static void add_film(double length, double r, double air, double a, double b, double f,
                     double *normal, double *side)
{
  if (r == 0.0) return;
  double mean = 0.5 * (a + b) - air - r * f, d = b - a;
  *normal += length / r * mean * mean;
  *side += length / r * d * d / 12.0;
}

static void add_films(const frame_grid *g, const double *t, size_t i, size_t j, double k,
                      const double s[4], double *column, double *row)
{
  static const int step[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
  size_t m = g->n_x + 1;
  const size_t end[4][2] = {{0, m}, {1, m + 1}, {0, 1}, {m, m + 1}};
  double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
  for (int e = 0; e < 4; e++) {
    double air, conductance = frame_face(g, i, j, step[e][0], step[e][1], &air);
    if (conductance == 0.0 || isnan(air)) continue;
    size_t i2 = (size_t)((ptrdiff_t)i + step[e][0]), j2 = (size_t)((ptrdiff_t)j + step[e][1]);
    const frame_region *there = &g->plane->region[frame_at(g, i2, j2)];
    add_film(e < 2 ? h_y : h_x, there->r, air, t[end[e][0]], t[end[e][1]], -k * s[e],
             e < 2 ? column : row, e < 2 ? row : column);
  }
}

void frame_gap(const frame_grid *g, const frame_solution *volumes,
               const frame_solution *elements, double *by_column, double *by_row)
{
  size_t m = g->n_x + 1;
  for (size_t i = 0; i < g->n_x; i++)
    by_column[i] = 0.0;
  for (size_t j = 0; j < g->n_y; j++)
    by_row[j] = 0.0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      const frame_region *r = &g->plane->region[frame_at(g, i, j)];
      if (!frame_is_body(r)) continue;
      double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
      const double *t = elements->theta + j * m + i;
      const double s[4] = {face_gradient(g, volumes->theta, i, j, -1, 0, r->k, h_y),
                           face_gradient(g, volumes->theta, i, j, 1, 0, r->k, h_y),
                           face_gradient(g, volumes->theta, i, j, 0, -1, r->k, h_x),
                           face_gradient(g, volumes->theta, i, j, 0, 1, r->k, h_x)};
      add_axis(r->k * h_x * h_y, (t[1] - t[0]) / h_x, (t[m + 1] - t[m]) / h_x, -s[0], s[1],
               &by_column[i], &by_row[j]);
      add_axis(r->k * h_x * h_y, (t[m] - t[0]) / h_y, (t[m + 1] - t[1]) / h_y, -s[2], s[3],
               &by_row[j], &by_column[i]);
      add_films(g, t, i, j, r->k, s, &by_column[i], &by_row[j]);
    }
}
