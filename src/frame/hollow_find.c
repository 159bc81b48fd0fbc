/* Hollows in the painted plane: told apart, necks split, made equivalent rectangles; and their
 * conductivity from the temperatures of their walls. */
#include <math.h>
#include <stdlib.h>

#include "frame/frame_impl.h"

/* A hollow is split where opposite walls come this near (METHODS.md 3, 4). */
static const double NECK[] = {[PW_HOLLOW_ISO10077] = 0.002, [PW_HOLLOW_ISO15099] = 0.005};
static const double SNAP = 1e-7, WALL = 0.9;

typedef struct search {
  const frame_plane *plane;
  unsigned char *narrow; /* by cell */
  unsigned char *seen;
  size_t *queue;
} search;

static double extent(const frame_plane *p, int axis, size_t k)
{
  return axis == FRAME_X ? p->x[k + 1] - p->x[k] : p->y[k + 1] - p->y[k];
}

/* Marks the cells of hollows in runs along one axis that are no longer than the neck. */
static void mark_narrow(const frame_plane *p, int axis, double neck, unsigned char *narrow)
{
  size_t n = axis == FRAME_X ? p->n_x : p->n_y, rows = axis == FRAME_X ? p->n_y : p->n_x;
  size_t step = axis == FRAME_X ? 1 : p->n_x, row_step = axis == FRAME_X ? p->n_x : 1;
  for (size_t r = 0; r < rows; r++)
    for (size_t k = 0; k < n;) {
      const int *cell = p->cell + r * row_step;
      size_t end = k;
      double run = 0.0;
      while (end < n && cell[end * step] == cell[k * step])
        run += extent(p, axis, end++);
      if (frame_is_hollow(&p->region[cell[k * step]]) && run <= neck + SNAP)
        for (size_t m = k; m < end; m++)
          narrow[r * row_step + m * step] = 1;
      k = end;
    }
}

/* Cells that hang together with queue[0], of the same material and alike narrow or not. */
static size_t gather(search *s)
{
  const frame_plane *p = s->plane;
  const size_t n_x = p->n_x, n_y = p->n_y;
  size_t n = 1;
  s->seen[s->queue[0]] = 1;
  for (size_t at = 0; at < n; at++) {
    size_t c = s->queue[at], i = c % n_x, j = c / n_x, near[4], n_near = 0;
    if (i > 0) near[n_near++] = c - 1;
    if (i + 1 < n_x) near[n_near++] = c + 1;
    if (j > 0) near[n_near++] = c - n_x;
    if (j + 1 < n_y) near[n_near++] = c + n_x;
    for (size_t e = 0; e < n_near; e++) {
      size_t d = near[e];
      if (s->seen[d] || p->cell[d] != p->cell[c] || s->narrow[d] != s->narrow[c]) continue;
      s->seen[d] = 1;
      s->queue[n++] = d;
    }
  }
  return n;
}

/* Same area and aspect ratio as the smallest rectangle round it; ISO 10077-2 6.4 (memory). */
static void equivalent(const search *s, size_t n, pw_hollow *h)
{
  const frame_plane *p = s->plane;
  double area = 0.0, x0 = INFINITY, x1 = -INFINITY, y0 = INFINITY, y1 = -INFINITY;
  for (size_t k = 0; k < n; k++) {
    size_t i = s->queue[k] % p->n_x, j = s->queue[k] / p->n_x;
    area += (p->x[i + 1] - p->x[i]) * (p->y[j + 1] - p->y[j]);
    x0 = fmin(x0, p->x[i]);
    x1 = fmax(x1, p->x[i + 1]);
    y0 = fmin(y0, p->y[j]);
    y1 = fmax(y1, p->y[j + 1]);
  }
  double d = p->axis == FRAME_X ? x1 - x0 : y1 - y0, b = p->axis == FRAME_X ? y1 - y0 : x1 - x0;
  h->depth = sqrt(area * d / b);
  h->breadth = sqrt(area * b / d);
}

/* Mean emissivity of the walls that the flow meets, on the low and on the high side. */
static void walls(const search *s, const pw_section *section, size_t n, pw_hollow *h)
{
  const frame_plane *p = s->plane;
  double length[2] = {0.0, 0.0}, sum[2] = {0.0, 0.0};
  size_t step = p->axis == FRAME_X ? 1 : p->n_x, last = p->axis == FRAME_X ? p->n_x : p->n_y;
  for (size_t k = 0; k < n; k++) {
    size_t c = s->queue[k], i = c % p->n_x, j = c / p->n_x;
    size_t along = p->axis == FRAME_X ? i : j, across = p->axis == FRAME_X ? j : i;
    double l = extent(p, p->axis == FRAME_X ? FRAME_Y : FRAME_X, across);
    for (int side = 0; side < 2; side++) {
      if (side ? along + 1 == last : along == 0) continue;
      size_t d = side ? c + step : c - step;
      const frame_region *r = &p->region[p->cell[d]];
      if (r->zone != PW_ZONE_SOLID) continue;
      sum[side] += l * section->material[r->material].emissivity;
      length[side] += l;
    }
  }
  for (int side = 0; side < 2; side++)
    h->emit[side] = length[side] > 0.0 ? sum[side] / length[side] : WALL;
}

static pw_status set_conductivity(frame_region *r, pw_hollow_method method, pw_err *err)
{
  pw_status status = pw_hollow_conductivity(&r->hollow, method, &r->k, err);
  if (r->zone == PW_ZONE_HOLLOW_VENTED) r->k *= 2.0; /* ISO 10077-2, slit 2 to 10 mm */
  return status;
}

static pw_status new_region(frame_plane *p, const frame_region *r, size_t *room, pw_err *err)
{
  if (p->n_region == *room) {
    size_t more = 2 * *room;
    frame_region *grown = realloc(p->region, more * sizeof *grown);
    if (!grown) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu hollows", more);
    p->region = grown;
    *room = more;
  }
  p->region[p->n_region++] = *r;
  return PW_OK;
}

static pw_status split(const pw_section *section, const pw_section_options *options,
                       frame_plane *plane, search *s, pw_err *err)
{
  size_t room = plane->n_region;
  pw_status status = PW_OK;
  for (size_t c = 0; c < plane->n_x * plane->n_y && status == PW_OK; c++) {
    frame_region r = plane->region[plane->cell[c]];
    if (s->seen[c] || !frame_is_hollow(&r)) continue;
    s->queue[0] = c;
    size_t n = gather(s);
    r.hollow = (pw_hollow){.dt = 10.0, .t_mean = 283.0, .tall = options->tall};
    equivalent(s, n, &r.hollow);
    walls(s, section, n, &r.hollow);
    status = set_conductivity(&r, options->hollow, err);
    if (status == PW_OK) status = new_region(plane, &r, &room, err);
    if (status != PW_OK) break;
    for (size_t k = 0; k < n; k++)
      plane->cell[s->queue[k]] = (int)(plane->n_region - 1);
    plane->n_hollow++;
  }
  return status;
}

pw_status frame_find_hollows(const pw_section *section, const pw_section_options *options,
                             frame_plane *plane, pw_err *err)
{
  size_t n = plane->n_x * plane->n_y;
  if (plane->n_x == 0 || plane->n_y == 0) return PW_OK;
  search s = {plane, calloc(n, 1), calloc(n, 1), malloc(n * sizeof(size_t))};
  pw_status status = PW_OK;
  if (s.narrow && s.seen && s.queue) {
    for (int axis = FRAME_X; axis <= FRAME_Y; axis++)
      mark_narrow(plane, axis, NECK[options->hollow], s.narrow);
    status = split(section, options, plane, &s, err);
  } else {
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu cells", n);
  }
  free(s.narrow);
  free(s.seen);
  free(s.queue);
  return status;
}

/* What the walls of a hollow are at. */
typedef struct wall_range {
  double low, high, sum, length;
} wall_range;

static void take_wall(wall_range *w, double a, double b, double length)
{
  w->low = fmin(w->low, fmin(a, b));
  w->high = fmax(w->high, fmax(a, b));
  w->sum += 0.5 * (a + b) * length;
  w->length += length;
}

static void look_walls(const frame_plane *p, const frame_grid *g, const double *theta,
                       wall_range *range)
{
  size_t m = g->n_x + 1;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      int here = frame_at(g, i, j);
      if (!frame_is_hollow(&p->region[here])) continue;
      const double *t = theta + j * m + i;
      double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
      wall_range *w = &range[here];
      if (i == 0 || frame_at(g, i - 1, j) != here) take_wall(w, t[0], t[m], h_y);
      if (i + 1 == g->n_x || frame_at(g, i + 1, j) != here) take_wall(w, t[1], t[m + 1], h_y);
      if (j == 0 || frame_at(g, i, j - 1) != here) take_wall(w, t[0], t[1], h_x);
      if (j + 1 == g->n_y || frame_at(g, i, j + 1) != here) take_wall(w, t[m], t[m + 1], h_x);
    }
}

pw_status frame_update_hollows(frame_plane *plane, const frame_grid *grid, const double *theta,
                               const pw_section_options *options, double enough, double *change,
                               pw_err *err)
{
  *change = 0.0;
  if (plane->n_hollow == 0 || options->fixed_hollow) return PW_OK;
  wall_range *range = malloc(plane->n_region * sizeof *range);
  double *before = malloc(plane->n_region * sizeof *before);
  if (!range || !before) {
    free(range);
    free(before);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for hollows");
  }
  for (size_t r = 0; r < plane->n_region; r++) {
    range[r] = (wall_range){INFINITY, -INFINITY, 0.0, 0.0};
    before[r] = plane->region[r].k;
  }
  look_walls(plane, grid, theta, range);
  double span = options->t_in - options->t_out;
  pw_status status = PW_OK;
  for (size_t r = 0; r < plane->n_region && status == PW_OK; r++) {
    frame_region *region = &plane->region[r];
    if (!frame_is_hollow(region) || !(range[r].length > 0.0)) continue;
    region->hollow.dt = (range[r].high - range[r].low) * fabs(span);
    region->hollow.t_mean = options->t_out + span * range[r].sum / range[r].length;
    status = set_conductivity(region, options->hollow, err);
    *change = fmax(*change, fabs(region->k / before[r] - 1.0));
  }
  for (size_t r = 0; r < plane->n_region && *change <= enough; r++)
    plane->region[r].k = before[r];
  free(range);
  free(before);
  return status;
}
