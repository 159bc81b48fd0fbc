/* What a parabola along each edge of the grid takes off both energies, and so off the bracket.
 *
 * On the edge at the foot of a cell, a long and with the cell's height b above it, the bubble is q(s) (1 - t) with
 * q = 4 s (1 - s), s = x/a, t = y/b. Added to the temperatures of the elements, or as a stream function to the fluxes of the
 * volumes (which then still balance), it lowers their energy; bubbles along x and along y do not see each other, so that
 * each column and each row is a chain of three diagonals, solved for its least energy. Integrals: q 2/3, q^2 8/15, q'^2 16/3,
 * q' 0. With w = k for temperatures and 1/k for the stream function a cell gives its two edges
 *
 *   w (16/9 b/a + 8/15 a/b) each, w (8/9 b/a - 8/15 a/b) to both, and -+ 2/3 a times k dT/dy or dT/dx as the first scheme
 *   left it; a film of resistance r: 8/15 a/r and 2/3 a/r (T - T_air), or 16/3 r/a.
 *
 * Source: hierarchical bases, e.g. Zienkiewicz, de S. R. Gago and Kelly 1983 (from memory); the integrals by hand. */
#include <math.h>
#include <stdlib.h>

#include "frame/frame_impl.h"

/* The edges of one strip of the grid, across it: what stands between them, and their three diagonals. */
typedef struct chain {
  double *pivot, *beside, *load, *put; /* put: the solution */
} chain;

typedef struct work {
  const frame_grid *g;
  const double *theta; /* of the scheme */
  int axis;            /* along which the parabolas go; strips of the other grid lines */
  int stream;          /* 1: the volumes' stream function */
  chain c;
} work;

static size_t strips(const work *w) { return w->axis == FRAME_X ? w->g->n_x : w->g->n_y; }
static size_t cells(const work *w) { return w->axis == FRAME_X ? w->g->n_y : w->g->n_x; }

static const frame_region *region(const work *w, size_t strip, size_t e)
{
  size_t i = w->axis == FRAME_X ? strip : e, j = w->axis == FRAME_X ? e : strip;
  return &w->g->plane->region[frame_at(w->g, i, j)];
}

static double size_along(const work *w, size_t strip)
{
  const double *line = w->axis == FRAME_X ? w->g->x : w->g->y;
  return line[strip + 1] - line[strip];
}

static double size_across(const work *w, size_t e)
{
  const double *line = w->axis == FRAME_X ? w->g->y : w->g->x;
  return line[e + 1] - line[e];
}

/* Temperature of the elements' node at that end (0, 1) of edge e. */
static double node(const work *w, size_t strip, size_t e, size_t end)
{
  size_t i = w->axis == FRAME_X ? strip + end : e, j = w->axis == FRAME_X ? e : strip + end;
  return w->theta[j * (w->g->n_x + 1) + i];
}

/* 2/3 a times the mean gradient that pulls at the edges of a cell: the elements' across the strip times k, the volumes' along
 * it, turned by the stream function. */
static double pull(const work *w, size_t strip, size_t e, double k)
{
  const double a = size_along(w, strip);
  if (!w->stream) {
    double rise = 0.5 * (node(w, strip, e + 1, 0) - node(w, strip, e, 0) +
                         node(w, strip, e + 1, 1) - node(w, strip, e, 1));
    return -2.0 / 3.0 * a * k * rise / size_across(w, e);
  }
  if (w->axis == FRAME_X)
    return a / 3.0 *
           (frame_gradient(w->g, w->theta, strip, e, 1, 0) -
            frame_gradient(w->g, w->theta, strip, e, -1, 0));
  return -a / 3.0 *
         (frame_gradient(w->g, w->theta, e, strip, 0, 1) -
          frame_gradient(w->g, w->theta, e, strip, 0, -1));
}

static void add_cell(work *w, size_t strip, size_t e, double k)
{
  const double weight = w->stream ? 1.0 / k : k;
  const double ratio = size_across(w, e) / size_along(w, strip), p = pull(w, strip, e, k);
  const double own = weight * (16.0 / 9.0 * ratio + 8.0 / 15.0 / ratio);
  w->c.pivot[e] += own;
  w->c.pivot[e + 1] += own;
  w->c.beside[e] = weight * (8.0 / 9.0 * ratio - 8.0 / 15.0 / ratio);
  w->c.load[e] += p;
  w->c.load[e + 1] -= p;
}

/* Edge e of a body against what is no body; returns 0 where no bubble may stand. */
static int add_side(work *w, size_t strip, size_t e, const frame_region *beyond)
{
  const double a = size_along(w, strip);
  const int film = beyond && frame_is_air(beyond);
  if (w->stream) {
    if (film) w->c.pivot[e] += 16.0 / 3.0 * beyond->r / a;
    return film; /* nothing flows into a void */
  }
  if (film && beyond->r == 0.0) return 0; /* held */
  if (film) {
    w->c.pivot[e] += 8.0 / 15.0 * a / beyond->r;
    w->c.load[e] += 2.0 / 3.0 * a / beyond->r *
                    (0.5 * (node(w, strip, e, 0) + node(w, strip, e, 1)) - beyond->theta);
  }
  return 1;
}

/* Least energy of a chain of n edges; pivot 0: no bubble. Returns what is taken off. */
static double solve_chain(chain *c, size_t n)
{
  double off = 0.0;
  for (size_t e = 0; e < n; e++) {
    if (e > 0 && c->pivot[e] > 0.0 && c->pivot[e - 1] > 0.0) {
      double f = c->beside[e - 1] / c->pivot[e - 1];
      c->pivot[e] -= f * c->beside[e - 1];
      c->load[e] -= f * c->load[e - 1];
    }
    if (c->pivot[e] > 0.0) off += c->load[e] * c->load[e] / c->pivot[e];
  }
  for (size_t e = n; e-- > 0;) {
    c->put[e] = 0.0;
    if (!(c->pivot[e] > 0.0)) continue;
    double next = e + 1 < n ? c->beside[e] * c->put[e + 1] : 0.0;
    c->put[e] = (-c->load[e] - next) / c->pivot[e];
  }
  return off;
}

/* One strip; returns what is taken off. */
static double one_strip(work *w, size_t strip)
{
  const size_t n = cells(w);
  for (size_t e = 0; e <= n; e++)
    w->c.pivot[e] = w->c.load[e] = w->c.beside[e] = 0.0;
  for (size_t e = 0; e < n; e++) {
    const frame_region *r = region(w, strip, e);
    if (frame_is_body(r)) add_cell(w, strip, e, r->k);
  }
  for (size_t e = 0; e <= n; e++) {
    const frame_region *below = e > 0 ? region(w, strip, e - 1) : NULL;
    const frame_region *above = e < n ? region(w, strip, e) : NULL;
    const int under = below && frame_is_body(below), over = above && frame_is_body(above);
    int stands = under || over;
    if (under != over) stands = add_side(w, strip, e, under ? above : below);
    if (!stands) w->c.pivot[e] = w->c.load[e] = 0.0;
  }
  return solve_chain(&w->c, n + 1);
}

pw_status frame_bubbles(const frame_grid *g, const double *theta, int stream,
                        frame_bubble *bubble, double *off, pw_err *err)
{
  const size_t most = (g->n_x > g->n_y ? g->n_x : g->n_y) + 1;
  *off = 0.0;
  bubble->along[FRAME_X] = malloc(g->n_x * (g->n_y + 1) * sizeof(double));
  bubble->along[FRAME_Y] = malloc(g->n_y * (g->n_x + 1) * sizeof(double));
  double *room = malloc(3 * most * sizeof *room);
  if (!bubble->along[FRAME_X] || !bubble->along[FRAME_Y] || !room) {
    frame_bubbles_free(bubble);
    free(room);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a grid");
  }
  for (int axis = FRAME_X; axis <= FRAME_Y; axis++) {
    work w = {g, theta, axis, stream, {room, room + most, room + 2 * most, NULL}};
    for (size_t strip = 0; strip < strips(&w); strip++) {
      w.c.put = bubble->along[axis] + strip * (cells(&w) + 1);
      *off += one_strip(&w, strip);
    }
  }
  free(room);
  return PW_OK;
}

void frame_bubbles_free(frame_bubble *bubble)
{
  free(bubble->along[FRAME_X]);
  free(bubble->along[FRAME_Y]);
  *bubble = (frame_bubble){{NULL, NULL}};
}
