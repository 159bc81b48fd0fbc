/* Rectangles to a coarse grid on the union of their edges; later ones paint over earlier ones. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/frame_impl.h"

static const double SNAP = 1e-8;      /* m: edges nearer than this are one */
static const size_t CELLS = 40000000; /* painted at most, before lines without effect go */

static int by_value(const void *a, const void *b)
{
  double u = *(const double *)a, v = *(const double *)b;
  return (u > v) - (u < v);
}

/* Sorts and merges; returns how many are left. */
static size_t unique(double *v, size_t n)
{
  qsort(v, n, sizeof *v, by_value);
  size_t left = 0;
  for (size_t i = 0; i < n; i++)
    if (left == 0 || v[i] - v[left - 1] > SNAP) v[left++] = v[i];
  return left;
}

static size_t line_of(const double *v, size_t n, double at)
{
  size_t low = 0, high = n;
  while (high - low > 1) {
    size_t mid = (low + high) / 2;
    if (v[mid] <= at + 0.5 * SNAP)
      low = mid;
    else
      high = mid;
  }
  return low;
}

static pw_status lines(const pw_section *s, frame_plane *plane, pw_err *err)
{
  size_t n = 2 * s->n_part;
  plane->x = malloc(n * sizeof *plane->x);
  plane->y = malloc(n * sizeof *plane->y);
  if (!plane->x || !plane->y)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu edges", n);
  for (size_t i = 0; i < s->n_part; i++) {
    plane->x[2 * i] = s->part[i].x0;
    plane->x[2 * i + 1] = s->part[i].x1;
    plane->y[2 * i] = s->part[i].y0;
    plane->y[2 * i + 1] = s->part[i].y1;
  }
  plane->n_x = unique(plane->x, n) - 1;
  plane->n_y = unique(plane->y, n) - 1;
  if (plane->n_x == 0 || plane->n_y == 0 || plane->n_x > CELLS / plane->n_y)
    return pw_fail(err, PW_E_SHAPE, "section",
                   "%zu rectangles have %zu different x and %zu different y edges; the grid on "
                   "them may have at most %zu cells",
                   s->n_part, plane->n_x + 1, plane->n_y + 1, CELLS);
  return PW_OK;
}

/* The first unpainted cell at or after i of a row; next[] is shortened on the way. */
static int free_cell(int *next, int i)
{
  int at = i;
  while (next[at] != at)
    at = next[at];
  while (next[i] != at) {
    int after = next[i];
    next[i] = at;
    i = after;
  }
  return at;
}

/* From the last rectangle to the first, each cell is written once. */
static pw_status fill(const pw_section *s, frame_plane *plane, pw_err *err)
{
  size_t n_x = plane->n_x, n_y = plane->n_y, left = n_x * n_y;
  plane->cell = malloc(left * sizeof *plane->cell);
  int *next = malloc((n_x + 1) * n_y * sizeof *next);
  if (!plane->cell || !next) {
    free(next);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu cells", left);
  }
  memset(plane->cell, 0xff, left * sizeof *plane->cell);
  for (size_t j = 0; j < n_y; j++)
    for (size_t i = 0; i <= n_x; i++)
      next[j * (n_x + 1) + i] = (int)i;
  for (size_t p = s->n_part; p-- > 0 && left > 0;) {
    const pw_section_part *part = &s->part[p];
    int i0 = (int)line_of(plane->x, n_x + 1, part->x0);
    int i1 = (int)line_of(plane->x, n_x + 1, part->x1);
    size_t j0 = line_of(plane->y, n_y + 1, part->y0), j1 = line_of(plane->y, n_y + 1, part->y1);
    for (size_t j = j0; j < j1; j++) {
      int *row = next + j * (n_x + 1);
      for (int i = free_cell(row, i0); i < i1; i = free_cell(row, i)) {
        plane->cell[j * n_x + (size_t)i] = part->material;
        row[i] = i + 1;
        left--;
      }
    }
  }
  free(next);
  return PW_OK;
}

/* Lines with the same on both sides all along say nothing and would cost cells. */
static pw_status prune(frame_plane *plane, pw_err *err)
{
  size_t n_x = plane->n_x, n_y = plane->n_y, k_x = 0, k_y = 0;
  unsigned char *keep = calloc(n_x + n_y, 1); /* column i starts something new; then rows */
  if (!keep) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu lines", n_x + n_y);
  keep[0] = keep[n_x] = 1;
  for (size_t j = 0; j < n_y; j++)
    for (size_t i = 0; i < n_x; i++) {
      int here = plane->cell[j * n_x + i];
      if (i && here != plane->cell[j * n_x + i - 1]) keep[i] = 1;
      if (j && here != plane->cell[(j - 1) * n_x + i]) keep[n_x + j] = 1;
    }
  size_t *column = malloc((n_x + 1) * sizeof *column);
  if (!column) {
    free(keep);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu lines", n_x);
  }
  for (size_t i = 0; i < n_x; i++)
    if (keep[i]) {
      column[k_x] = i;
      plane->x[k_x++] = plane->x[i];
    }
  plane->x[k_x] = plane->x[n_x];
  for (size_t j = 0; j < n_y; j++) {
    if (!keep[n_x + j]) continue;
    for (size_t i = 0; i < k_x; i++)
      plane->cell[k_y * k_x + i] = plane->cell[j * n_x + column[i]];
    plane->y[k_y++] = plane->y[j];
  }
  plane->y[k_y] = plane->y[n_y];
  plane->n_x = k_x;
  plane->n_y = k_y;
  free(column);
  free(keep);
  return PW_OK;
}

void frame_plane_free(frame_plane *plane)
{
  free(plane->x);
  free(plane->y);
  free(plane->cell);
  free(plane->region);
  *plane = (frame_plane){0};
}

pw_status frame_paint(const pw_section *section, frame_plane *plane, pw_err *err)
{
  *plane = (frame_plane){0};
  if (section->n_part == 0)
    return pw_fail(err, PW_E_DATA, "section", "the section has no rectangles");
  pw_status status = lines(section, plane, err);
  if (status == PW_OK) status = fill(section, plane, err);
  if (status == PW_OK) status = prune(plane, err);
  if (status != PW_OK) frame_plane_free(plane);
  return status;
}

pw_status frame_plane_cut(frame_plane *plane, int axis, double at, pw_err *err)
{
  double **line = axis == FRAME_X ? &plane->x : &plane->y;
  size_t n = axis == FRAME_X ? plane->n_x : plane->n_y, n_x = plane->n_x, n_y = plane->n_y;
  if (!(at > (*line)[0] + SNAP && at < (*line)[n] - SNAP)) return PW_OK;
  size_t k = line_of(*line, n + 1, at);
  if (fabs((*line)[k] - at) <= SNAP || fabs((*line)[k + 1] - at) <= SNAP) return PW_OK;
  size_t m_x = n_x + (axis == FRAME_X), m_y = n_y + (axis == FRAME_Y);
  int *cell = malloc(m_x * m_y * sizeof *cell);
  double *grown = malloc((n + 2) * sizeof *grown);
  if (!cell || !grown) {
    free(cell);
    free(grown);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a line");
  }
  for (size_t j = 0; j < m_y; j++)
    for (size_t i = 0; i < m_x; i++) {
      size_t from_i = axis == FRAME_X && i > k ? i - 1 : i;
      size_t from_j = axis == FRAME_Y && j > k ? j - 1 : j;
      cell[j * m_x + i] = plane->cell[from_j * n_x + from_i];
    }
  memcpy(grown, *line, (k + 1) * sizeof *grown);
  grown[k + 1] = at;
  memcpy(grown + k + 2, *line + k + 1, (n - k) * sizeof *grown);
  free(*line);
  free(plane->cell);
  *line = grown;
  plane->cell = cell;
  plane->n_x = m_x;
  plane->n_y = m_y;
  return PW_OK;
}
