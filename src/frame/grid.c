/* The solver's grid: each column and row of the painted plane, subdivided. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/frame_impl.h"

static const double FIRST = 0.0015; /* m, cells at the ends of a strip of the first grid */
static const double GROWTH = 2.5;   /* ratio of neighbours away from them */

static pw_status room_for(frame_grid *g, pw_err *err)
{
  g->x = malloc((g->n_x + 1) * sizeof *g->x);
  g->y = malloc((g->n_y + 1) * sizeof *g->y);
  g->base_x = malloc((g->n_x + 1) * sizeof *g->base_x);
  g->base_y = malloc((g->n_y + 1) * sizeof *g->base_y);
  if (g->x && g->y && g->base_x && g->base_y) return PW_OK;
  frame_grid_free(g);
  return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a grid");
}

/* Relative sizes of the cells of a strip of that width, small at both ends; returns how many. */
static size_t strip_sizes(double width, double size[64])
{
  size_t n = 1;
  double h = FIRST, total = 0.0;
  size[0] = width;
  if (width < 2.0 * FIRST) return 1;
  for (n = 0; n < 31 && total < 0.5 * width; n++) {
    size[n] = h;
    total += h;
    h *= GROWTH;
  }
  double scale = 0.5 * width / total;
  for (size_t k = 0; k < n; k++)
    size[2 * n - 1 - k] = size[k] *= scale;
  return 2 * n;
}

static void first_lines(const double *line, size_t n, const unsigned char *body, double *fine,
                        size_t *base, size_t *count)
{
  size_t m = 0;
  double size[64] = {0};
  for (size_t k = 0; k < n; k++) {
    size_t parts = body[k] ? strip_sizes(line[k + 1] - line[k], size) : 1;
    double at = line[k];
    for (size_t e = 0; e < parts; e++) {
      if (fine) {
        fine[m] = at;
        base[m] = k;
        at += size[e];
      }
      m++;
    }
  }
  if (fine) fine[m] = line[n];
  *count = m;
}

pw_status frame_grid_first(const frame_plane *plane, frame_grid *grid, pw_err *err)
{
  *grid = (frame_grid){.plane = plane};
  unsigned char *body = calloc(plane->n_x + plane->n_y, 1);
  if (!body) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a grid");
  for (size_t j = 0; j < plane->n_y; j++)
    for (size_t i = 0; i < plane->n_x; i++)
      if (frame_is_body(&plane->region[plane->cell[j * plane->n_x + i]]))
        body[i] = body[plane->n_x + j] = 1;
  first_lines(plane->x, plane->n_x, body, NULL, NULL, &grid->n_x);
  first_lines(plane->y, plane->n_y, body + plane->n_x, NULL, NULL, &grid->n_y);
  pw_status status = room_for(grid, err);
  if (status == PW_OK) {
    first_lines(plane->x, plane->n_x, body, grid->x, grid->base_x, &grid->n_x);
    first_lines(plane->y, plane->n_y, body + plane->n_x, grid->y, grid->base_y, &grid->n_y);
  }
  free(body);
  return status;
}

static void split_lines(const double *line, const size_t *base, size_t n,
                        const unsigned char *split, double *fine, size_t *fine_base)
{
  size_t m = 0;
  for (size_t k = 0; k < n; k++)
    for (unsigned e = 0; e < split[k]; e++) {
      fine[m] = line[k] + (line[k + 1] - line[k]) * e / split[k];
      fine_base[m++] = base[k];
    }
  fine[m] = line[n];
}

pw_status frame_grid_split(const frame_grid *old, const unsigned char *split_x,
                           const unsigned char *split_y, frame_grid *grid, pw_err *err)
{
  *grid = (frame_grid){.plane = old->plane};
  for (size_t i = 0; i < old->n_x; i++)
    grid->n_x += split_x[i];
  for (size_t j = 0; j < old->n_y; j++)
    grid->n_y += split_y[j];
  pw_status status = room_for(grid, err);
  if (status != PW_OK) return status;
  split_lines(old->x, old->base_x, old->n_x, split_x, grid->x, grid->base_x);
  split_lines(old->y, old->base_y, old->n_y, split_y, grid->y, grid->base_y);
  return PW_OK;
}

void frame_grid_free(frame_grid *grid)
{
  free(grid->x);
  free(grid->y);
  free(grid->base_x);
  free(grid->base_y);
  *grid = (frame_grid){0};
}
