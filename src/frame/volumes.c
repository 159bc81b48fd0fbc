/* Cell-centred finite volumes: heat over a face is the drop between cell middles over the two
 * half-cell resistances in series. The flux field balances in every cell, so that heat squared over its complementary
 * energy, of a flux straight from face to face, is not above the exact heat at a difference of 1 K. */
#include <math.h>
#include <stdlib.h>

#include "frame/frame_impl.h"

double frame_face(const frame_grid *g, size_t i, size_t j, int di, int dj, double *theta)
{
  *theta = NAN;
  if ((di < 0 && i == 0) || (dj < 0 && j == 0) || (di > 0 && i + 1 == g->n_x) ||
      (dj > 0 && j + 1 == g->n_y))
    return 0.0;
  size_t i2 = (size_t)((ptrdiff_t)i + di), j2 = (size_t)((ptrdiff_t)j + dj);
  const frame_region *here = &g->plane->region[frame_at(g, i, j)];
  const frame_region *there = &g->plane->region[frame_at(g, i2, j2)];
  double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
  double length = di ? h_y : h_x, depth = di ? h_x : h_y;
  if (frame_is_air(there)) {
    *theta = there->theta;
    return length / (0.5 * depth / here->k + there->r);
  }
  if (!frame_is_body(there)) return 0.0;
  double depth2 = di ? g->x[i2 + 1] - g->x[i2] : g->y[j2 + 1] - g->y[j2];
  return length / (0.5 * depth / here->k + 0.5 * depth2 / there->k);
}

double frame_gradient(const frame_grid *g, const double *theta, size_t i, size_t j, int di,
                      int dj)
{
  double air, conductance = frame_face(g, i, j, di, dj, &air);
  if (conductance == 0.0) return 0.0;
  const double length = di ? g->y[j + 1] - g->y[j] : g->x[i + 1] - g->x[i];
  size_t there = (size_t)((ptrdiff_t)(j * g->n_x + i) + di + dj * (ptrdiff_t)g->n_x);
  double t2 = isnan(air) ? theta[there] : air;
  return conductance * (t2 - theta[j * g->n_x + i]) /
         (length * g->plane->region[frame_at(g, i, j)].k);
}

/* Cell numbers by place, -1 outside the body. */
static size_t number_cells(const frame_grid *g, int *number)
{
  int n = 0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++)
      number[j * g->n_x + i] = frame_is_body(&g->plane->region[frame_at(g, i, j)]) ? n++ : -1;
  return (size_t)n;
}

/* Lower triangle by columns: the diagonal, the cell to the east, the cell to the north. */
static void assemble(const frame_grid *g, const int *number, frame_matrix *a, double *b)
{
  static const int step[4][2] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
  int e = 0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      int c = number[j * g->n_x + i];
      if (c < 0) continue;
      int diagonal = e++;
      double sum = 0.0;
      a->start[c] = diagonal;
      a->row[diagonal] = c;
      b[c] = 0.0;
      for (int s = 0; s < 4; s++) {
        double theta, conductance = frame_face(g, i, j, step[s][0], step[s][1], &theta);
        if (conductance == 0.0) continue;
        sum += conductance;
        if (!isnan(theta)) {
          b[c] += conductance * theta;
        } else if (s < 2) {
          a->row[e] = number[s == 0 ? j * g->n_x + i + 1 : (j + 1) * g->n_x + i];
          a->value[e++] = -conductance;
        }
      }
      a->value[diagonal] = sum;
    }
  a->start[a->n] = e;
}

/* Heat from indoors and to outdoors. */
static void balance(const frame_grid *g, const double *theta, double *in, double *out)
{
  static const int step[4][2] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
  *in = *out = 0.0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      double t = theta[j * g->n_x + i];
      if (isnan(t)) continue;
      for (int s = 0; s < 4; s++) {
        double air, conductance = frame_face(g, i, j, step[s][0], step[s][1], &air);
        if (isnan(air)) continue;
        if (air > 0.5)
          *in += conductance * (air - t);
        else
          *out += conductance * (t - air);
      }
    }
}

/* The fluxes f of a cell's faces are taken to be straight from face to face; the scheme counts half of each square, a sixth
 * of (f1 - f0)^2 more than they hold: that much, over all cells. */
static double surplus(const frame_grid *g, const double *theta)
{
  double sum = 0.0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      const frame_region *r = &g->plane->region[frame_at(g, i, j)];
      if (!frame_is_body(r)) continue;
      double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
      double x = frame_gradient(g, theta, i, j, -1, 0) + frame_gradient(g, theta, i, j, 1, 0);
      double y = frame_gradient(g, theta, i, j, 0, -1) + frame_gradient(g, theta, i, j, 0, 1);
      sum += r->k * h_x * h_y * (x * x + y * y) / 6.0;
    }
  return sum;
}

/* Heat squared over energy: the least energy for that heat is at least heat squared over the exact coupling. */
static pw_status bound_of(const frame_grid *g, frame_solution *s, pw_err *err)
{
  double off = 0.0;
  pw_status status = frame_bubbles(g, s->theta, 1, &s->bubble, &off, err);
  if (status != PW_OK) return status;
  s->part = s->q / (s->q - surplus(g, s->theta) - off);
  s->bound = s->q * s->part;
  return PW_OK;
}

void frame_solution_free(frame_solution *s)
{
  free(s->theta);
  frame_bubbles_free(&s->bubble);
  *s = (frame_solution){0};
}

pw_status frame_volumes(const frame_grid *grid, frame_factor *factor, frame_solution *solution,
                        pw_err *err)
{
  size_t cells = grid->n_x * grid->n_y;
  *solution = (frame_solution){0};
  int *number = calloc(cells, sizeof *number);
  if (!number) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu cells", cells);
  size_t n = number_cells(grid, number);
  frame_matrix a = {0};
  double *b = calloc(2 * n + 1, sizeof *b), *x = b + n;
  solution->theta = malloc(cells * sizeof *solution->theta);
  pw_status status = b && solution->theta
                         ? frame_matrix_new(n, 3 * n, &a, err)
                         : pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu cells", cells);
  if (status == PW_OK) {
    assemble(grid, number, &a, b);
    status = frame_order(number, grid->n_x, grid->n_y, 1, a.order, err);
  }
  if (status == PW_OK) status = frame_factor_solve(factor, &a, b, x, err);
  if (status == PW_OK) {
    for (size_t c = 0; c < cells; c++)
      solution->theta[c] = number[c] >= 0 ? x[number[c]] : NAN;
    double in, out;
    balance(grid, solution->theta, &in, &out);
    solution->q = 0.5 * (in + out);
    solution->residual = fabs(in - out) / fabs(in);
    solution->n = n;
    status = bound_of(grid, solution, err);
  }
  if (status != PW_OK) frame_solution_free(solution);
  frame_matrix_free(&a);
  free(b);
  free(number);
  return status;
}
