/* The field for a picture: temperatures, heat flux and its stream function. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/frame_impl.h"

/* Mean flux of a cell by the volumes, W/m2 per K between the air zones, positive along the axis. */
static double cell_flux(const frame_grid *g, const double *theta, size_t i, size_t j, int axis)
{
  const int di = axis == FRAME_X, dj = axis == FRAME_Y;
  const double k = g->plane->region[frame_at(g, i, j)].k;
  return 0.5 * k *
         (frame_gradient(g, theta, i, j, -di, -dj) - frame_gradient(g, theta, i, j, di, dj));
}

/* Heat per kelvin through the grid edge from node (i, j) one step along `axis`, positive to the right
 * of that step; NAN where no body borders the edge. */
static double edge_heat(const frame_grid *g, const double *theta, size_t i, size_t j, int axis)
{
  size_t n = axis == FRAME_Y ? g->n_x : g->n_y, at = axis == FRAME_Y ? i : j;
  for (int side = 0; side < 2; side++) { /* the cell before the edge, then the one behind it */
    if (side ? at == n : at == 0) continue;
    size_t ci = axis == FRAME_Y ? i - 1 + (size_t)side : i;
    size_t cj = axis == FRAME_Y ? j : j - 1 + (size_t)side;
    if (!frame_is_body(&g->plane->region[frame_at(g, ci, cj)])) continue;
    int out = side ? -1 : 1, di = axis == FRAME_Y ? out : 0, dj = axis == FRAME_Y ? 0 : out;
    double air, conductance = frame_face(g, ci, cj, di, dj, &air);
    if (conductance == 0.0) return 0.0;
    size_t there = (size_t)((ptrdiff_t)(cj * g->n_x + ci) + di + dj * (ptrdiff_t)g->n_x);
    double t2 = isnan(air) ? theta[there] : air;
    double heat = out * conductance * (theta[cj * g->n_x + ci] - t2);
    return axis == FRAME_Y ? heat
                           : -heat; /* right of a step up is +x, of a step along x is -y */
  }
  return (double)NAN;
}

/* Stream function of the volumes' flux: it balances in every cell, so that any way from node to node
 * gives the same (round a hole with heat of its own it would not; such holes have air in them). */
static pw_status add_stream(const frame_grid *g, const double *theta, double span,
                            double *stream, pw_err *err)
{
  size_t m = g->n_x + 1, nodes = m * (g->n_y + 1), n = 0;
  size_t *queue = malloc(nodes * sizeof *queue);
  if (!queue) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for flow lines");
  for (size_t k = 0; k < nodes; k++)
    stream[k] = (double)NAN;
  for (size_t first = 0; first < nodes; first++) {
    size_t i0 = first % m, j0 = first / m;
    int body =
        i0 < g->n_x && j0 < g->n_y && frame_is_body(&g->plane->region[frame_at(g, i0, j0)]);
    if (!body || !isnan(stream[first])) continue;
    stream[first] = 0.0;
    queue[0] = first;
    n = 1;
    for (size_t at = 0; at < n; at++) {
      size_t k = queue[at], i = k % m, j = k / m;
      const struct {
        int there;
        size_t to, i, j;
        int axis;
        double sign;
      } step[4] = {{i < g->n_x, k + 1, i, j, FRAME_X, 1.0},
                   {i > 0, k - 1, i - 1, j, FRAME_X, -1.0},
                   {j < g->n_y, k + m, i, j, FRAME_Y, 1.0},
                   {j > 0, k - m, i, j - 1, FRAME_Y, -1.0}};
      for (int s = 0; s < 4; s++) {
        if (!step[s].there || !isnan(stream[step[s].to])) continue;
        double heat = edge_heat(g, theta, step[s].i, step[s].j, step[s].axis);
        if (isnan(heat)) continue;
        stream[step[s].to] = stream[k] + step[s].sign * span * heat;
        queue[n++] = step[s].to;
      }
    }
  }
  free(queue);
  return PW_OK;
}

pw_status frame_field(const pw_section_options *o, const frame_grid *g,
                      const frame_solution *volumes, const frame_solution *elements,
                      pw_section_field *f, pw_err *err)
{
  size_t cells = g->n_x * g->n_y, nodes = (g->n_x + 1) * (g->n_y + 1);
  const double span = o->t_in - o->t_out,
               flux = span * volumes->part; /* that of the low bound */
  *f = (pw_section_field){.n_x = g->n_x, .n_y = g->n_y};
  f->x = malloc((g->n_x + 1) * sizeof *f->x);
  f->y = malloc((g->n_y + 1) * sizeof *f->y);
  f->material = malloc(cells * sizeof *f->material);
  f->t = malloc(nodes * sizeof *f->t);
  f->flux_x = malloc(cells * sizeof *f->flux_x);
  f->flux_y = malloc(cells * sizeof *f->flux_y);
  f->stream = calloc(nodes, sizeof *f->stream);
  if (!f->x || !f->y || !f->material || !f->t || !f->flux_x || !f->flux_y || !f->stream)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a field of %zu cells", cells);
  memcpy(f->x, g->x, (g->n_x + 1) * sizeof *f->x);
  memcpy(f->y, g->y, (g->n_y + 1) * sizeof *f->y);
  for (size_t k = 0; k < nodes; k++)
    f->t[k] = o->t_out + span * elements->theta[k];
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      size_t c = j * g->n_x + i;
      const frame_region *r = &g->plane->region[frame_at(g, i, j)];
      int body = frame_is_body(r);
      f->material[c] = r->material;
      f->flux_x[c] = body ? flux * cell_flux(g, volumes->theta, i, j, FRAME_X) : NAN;
      f->flux_y[c] = body ? flux * cell_flux(g, volumes->theta, i, j, FRAME_Y) : NAN;
    }
  return add_stream(g, volumes->theta, flux, f->stream, err);
}
