/* Where the bracket is wide. By Prager and Synge (1947) the squared distance between a temperature field that fits together
 * (elements) and a flux field that balances (volumes) is the difference of their energies; taken cell by cell it says which
 * columns and rows to split:
 *
 *   high - low = sum over cells k |grad T_e - f / k|^2 + sum over films (T_e - T_air - R f)^2 / R
 *
 * both with the bubbles on their edges (bubbles.c), f times the volumes' part. */
#include <math.h>

#include "frame/frame_impl.h"

enum { POINTS = 3 }; /* of Gauss: exact to the fifth power, the squares here have the fourth */

/* Abscissae and weights on 0..1. */
static const double at[POINTS] = {0.5 - 0.38729833462074170, 0.5, 0.5 + 0.38729833462074170};
static const double weight[POINTS] = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};

/* What a cell has of one scheme: both gradients at opposite sides, and its four bubbles. */
typedef struct cell {
  double x[2], y[2]; /* elements: at foot and head, west and east; volumes: at their faces */
  double foot, head, west, east;
} cell;

static cell bubbles_of(const frame_grid *g, const frame_bubble *b, size_t i, size_t j)
{
  const double *along_x = b->along[FRAME_X] + i * (g->n_y + 1) + j;
  const double *along_y = b->along[FRAME_Y] + j * (g->n_x + 1) + i;
  return (cell){.foot = along_x[0], .head = along_x[1], .west = along_y[0], .east = along_y[1]};
}

/* 4 s (1 - s) and its slope. */
static double bow(double s) { return 4.0 * s * (1.0 - s); }
static double slope(double s) { return 4.0 - 8.0 * s; }

static double mid(double a, double b, double s) { return a + s * (b - a); }

/* Squares of error[x][y]: what varies along x is for a split of columns, along y for one of rows, the mean and what varies along
 * both half for each. */
static void share_out(double error[POINTS][POINTS], double k_area, double *along_x,
                      double *along_y)
{
  double all = 0.0, x = 0.0, y = 0.0;
  for (int p = 0; p < POINTS; p++) {
    double column = 0.0, row = 0.0;
    for (int q = 0; q < POINTS; q++) {
      column += weight[q] * error[p][q];
      row += weight[q] * error[q][p];
      all += weight[p] * weight[q] * error[p][q] * error[p][q];
    }
    x += weight[p] * column * column; /* each with the mean's square */
    y += weight[p] * row * row;
  }
  *along_x += 0.5 * k_area * (all + x - y);
  *along_y += 0.5 * k_area * (all + y - x);
}

static void add_cell(const cell *e, const cell *v, double part, double k, double h_x,
                     double h_y, double *column, double *row)
{
  double x[POINTS][POINTS], y[POINTS][POINTS];
  for (int p = 0; p < POINTS; p++)
    for (int q = 0; q < POINTS; q++) {
      const double s = at[p], t = at[q];
      double t_x = mid(e->x[0], e->x[1], t) +
                   (slope(s) * mid(e->foot, e->head, t) + bow(t) * (e->east - e->west)) / h_x;
      double t_y = mid(e->y[0], e->y[1], s) +
                   (slope(t) * mid(e->west, e->east, s) + bow(s) * (e->head - e->foot)) / h_y;
      double f_x =
          mid(v->x[0], v->x[1], s) -
          (slope(t) * mid(v->west, v->east, s) + bow(s) * (v->head - v->foot)) / h_y / k;
      double f_y =
          mid(v->y[0], v->y[1], t) +
          (slope(s) * mid(v->foot, v->head, t) + bow(t) * (v->east - v->west)) / h_x / k;
      x[p][q] = t_x - part * f_x;
      y[p][q] = t_y - part * f_y;
    }
  share_out(x, k * h_x * h_y, column, row);
  share_out(y, k * h_x * h_y, column, row);
}

/* A film face: a, b the elements' ends and bubble, f the volumes' flux out of the body and its bubble's slope. */
static void add_film(const frame_region *air, double length, double a, double b, double bubble,
                     double f, double turn, double *normal, double *side)
{
  if (air->r == 0.0) return;
  double mean = 0.0, all = 0.0;
  for (int p = 0; p < POINTS; p++) {
    double error = mid(a, b, at[p]) + bubble * bow(at[p]) - air->theta -
                   air->r * (f + turn * slope(at[p]) / length);
    mean += weight[p] * error;
    all += weight[p] * error * error;
  }
  *normal += length / air->r * mean * mean;
  *side += length / air->r * (all - mean * mean);
}

/* The films at a cell: s the volumes' gradients out of it towards west, east, foot, head. */
static void add_films(const frame_grid *g, const double *t, size_t i, size_t j, double k,
                      const double s[4], const cell *e, const cell *v, double part,
                      double *column, double *row)
{
  static const int step[4][2] = {{-1, 0}, {1, 0}, {0, -1}, {0, 1}};
  const size_t m = g->n_x + 1, end[4][2] = {{0, m}, {1, m + 1}, {0, 1}, {m, m + 1}};
  const double bubble[4] = {e->west, e->east, e->foot, e->head};
  const double turn[4] = {-v->west, v->east, v->foot, -v->head}; /* of a stream function, out */
  const double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
  for (int d = 0; d < 4; d++) {
    double air, conductance = frame_face(g, i, j, step[d][0], step[d][1], &air);
    if (conductance == 0.0 || isnan(air)) continue;
    size_t i2 = (size_t)((ptrdiff_t)i + step[d][0]), j2 = (size_t)((ptrdiff_t)j + step[d][1]);
    add_film(&g->plane->region[frame_at(g, i2, j2)], d < 2 ? h_y : h_x, t[end[d][0]],
             t[end[d][1]], bubble[d], -part * k * s[d], part * turn[d], d < 2 ? column : row,
             d < 2 ? row : column);
  }
}

void frame_gap(const frame_grid *g, const frame_solution *volumes,
               const frame_solution *elements, double *by_column, double *by_row)
{
  const size_t m = g->n_x + 1;
  for (size_t i = 0; i < g->n_x; i++)
    by_column[i] = 0.0;
  for (size_t j = 0; j < g->n_y; j++)
    by_row[j] = 0.0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      const frame_region *r = &g->plane->region[frame_at(g, i, j)];
      if (!frame_is_body(r)) continue;
      const double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
      const double *t = elements->theta + j * m + i;
      const double s[4] = {frame_gradient(g, volumes->theta, i, j, -1, 0),
                           frame_gradient(g, volumes->theta, i, j, 1, 0),
                           frame_gradient(g, volumes->theta, i, j, 0, -1),
                           frame_gradient(g, volumes->theta, i, j, 0, 1)};
      cell e = bubbles_of(g, &elements->bubble, i, j),
           v = bubbles_of(g, &volumes->bubble, i, j);
      e.x[0] = (t[1] - t[0]) / h_x;
      e.x[1] = (t[m + 1] - t[m]) / h_x;
      e.y[0] = (t[m] - t[0]) / h_y;
      e.y[1] = (t[m + 1] - t[1]) / h_y;
      v.x[0] = -s[0];
      v.x[1] = s[1];
      v.y[0] = -s[2];
      v.y[1] = s[3];
      add_cell(&e, &v, volumes->part, r->k, h_x, h_y, &by_column[i], &by_row[j]);
      add_films(g, t, i, j, r->k, s, &e, &v, volumes->part, &by_column[i], &by_row[j]);
    }
}
