/* Bilinear elements on the rectangles of the grid, films integrated exactly: heat comes from above
 * (least potential energy). Surfaces without a film (r = 0) hold their nodes at air temperature. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/frame_impl.h"

/* Couplings kept by node: itself, east, north-west, north, north-east. */
enum { SELF = 0, EAST, NORTH_WEST, NORTH, NORTH_EAST, N_LINK };

typedef struct mesh {
  const frame_grid *g;
  size_t n_x, n_y;       /* nodes */
  double *link;          /* N_LINK a node */
  unsigned char *joined; /* a node: bit l when link l exists, whatever its value */
  double *load;          /* a node */
  double *held; /* a node: the temperature it is held at, NAN free, INFINITY off the body */
} mesh;

static const frame_region *region_at(const frame_grid *g, size_t i, size_t j)
{
  return &g->plane->region[frame_at(g, i, j)];
}

/* Conduction of one rectangle: a = k h_y / (6 h_x), b = k h_x / (6 h_y). */
static void add_cell(mesh *m, size_t i, size_t j, double k)
{
  double h_x = m->g->x[i + 1] - m->g->x[i], h_y = m->g->y[j + 1] - m->g->y[j];
  double a = k * h_y / (6.0 * h_x), b = k * h_x / (6.0 * h_y);
  double *sw = m->link + N_LINK * (j * m->n_x + i), *se = sw + N_LINK;
  double *nw = sw + N_LINK * m->n_x, *ne = nw + N_LINK;
  double self = 2.0 * (a + b);
  unsigned char *join = m->joined + j * m->n_x + i;
  join[0] |= 1u << SELF | 1u << EAST | 1u << NORTH | 1u << NORTH_EAST;
  join[1] |= 1u << SELF | 1u << NORTH_WEST | 1u << NORTH;
  join[m->n_x] |= 1u << SELF | 1u << EAST;
  join[m->n_x + 1] |= 1u << SELF;
  sw[SELF] += self;
  se[SELF] += self;
  nw[SELF] += self;
  ne[SELF] += self;
  sw[EAST] += b - 2.0 * a;
  nw[EAST] += b - 2.0 * a;
  sw[NORTH] += a - 2.0 * b;
  se[NORTH] += a - 2.0 * b;
  sw[NORTH_EAST] -= a + b;
  se[NORTH_WEST] -= a + b;
}

/* A film over the edge from node p, which runs east or north to node q. */
static void add_film(mesh *m, size_t p, size_t q, double length, const frame_region *air)
{
  if (air->r == 0.0) {
    m->held[p] = isfinite(m->held[p]) && m->held[p] != air->theta ? 0.5 : air->theta;
    m->held[q] = isfinite(m->held[q]) && m->held[q] != air->theta ? 0.5 : air->theta;
    return;
  }
  double s = length / (6.0 * air->r); /* consistent film: s (2 1; 1 2) */
  m->link[N_LINK * p + SELF] += 2.0 * s;
  m->link[N_LINK * q + SELF] += 2.0 * s;
  m->link[N_LINK * p + (q == p + 1 ? EAST : NORTH)] += s;
  m->load[p] += 3.0 * s * air->theta;
  m->load[q] += 3.0 * s * air->theta;
}

/* The films round cell (i, j): edge by edge, with the nodes at its ends. */
typedef void edge_visit(void *context, size_t i, size_t j, size_t p, size_t q, double length,
                        const frame_region *air);

static void each_film(const frame_grid *g, edge_visit *visit, void *context)
{
  size_t m = g->n_x + 1;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      if (!frame_is_body(region_at(g, i, j))) continue;
      double h_x = g->x[i + 1] - g->x[i], h_y = g->y[j + 1] - g->y[j];
      size_t sw = j * m + i, se = sw + 1, nw = sw + m, ne = nw + 1;
      const frame_region *w = i ? region_at(g, i - 1, j) : NULL;
      const frame_region *e = i + 1 < g->n_x ? region_at(g, i + 1, j) : NULL;
      const frame_region *s = j ? region_at(g, i, j - 1) : NULL;
      const frame_region *n = j + 1 < g->n_y ? region_at(g, i, j + 1) : NULL;
      if (w && frame_is_air(w)) visit(context, i, j, sw, nw, h_y, w);
      if (e && frame_is_air(e)) visit(context, i, j, se, ne, h_y, e);
      if (s && frame_is_air(s)) visit(context, i, j, sw, se, h_x, s);
      if (n && frame_is_air(n)) visit(context, i, j, nw, ne, h_x, n);
    }
}

static void film_of_mesh(void *context, size_t i, size_t j, size_t p, size_t q, double length,
                         const frame_region *air)
{
  (void)i;
  (void)j;
  add_film(context, p, q, length, air);
}

static void assemble_links(mesh *m)
{
  const frame_grid *g = m->g;
  for (size_t k = 0; k < m->n_x * m->n_y; k++)
    m->held[k] = INFINITY;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      const frame_region *r = region_at(g, i, j);
      if (!frame_is_body(r)) continue;
      size_t sw = j * m->n_x + i;
      const size_t node[4] = {sw, sw + 1, sw + m->n_x, sw + m->n_x + 1};
      for (int e = 0; e < 4; e++)
        m->held[node[e]] = NAN;
      add_cell(m, i, j, r->k);
    }
  each_film(g, film_of_mesh, m);
}

static size_t number_nodes(const mesh *m, int *number)
{
  int n = 0;
  for (size_t k = 0; k < m->n_x * m->n_y; k++)
    number[k] = isnan(m->held[k]) ? n++ : -1;
  return (size_t)n;
}

/* Free nodes to the matrix, held ones to the load of their neighbours. */
static void assemble(const mesh *m, const int *number, frame_matrix *a, double *b)
{
  const size_t to[N_LINK] = {0, 1, m->n_x - 1, m->n_x, m->n_x + 1};
  int e = 0;
  size_t nodes = m->n_x * m->n_y;
  for (size_t p = 0; p < nodes; p++)
    if (number[p] >= 0) b[number[p]] = m->load[p];
  for (size_t p = 0; p < nodes; p++) {
    int c = number[p];
    const double *link = m->link + N_LINK * p;
    if (c >= 0) a->start[c] = e;
    for (int l = 0; l < N_LINK; l++) {
      size_t q = p + to[l];
      if (!((unsigned)m->joined[p] >> l & 1u)) continue;
      int d = number[q];
      if (c >= 0 && d >= 0) {
        a->row[e] = d;
        a->value[e++] = link[l];
      } else if (c >= 0 && isfinite(m->held[q])) {
        b[c] -= link[l] * m->held[q];
      } else if (d >= 0 && isfinite(m->held[p])) {
        b[d] -= link[l] * m->held[p];
      }
    }
  }
  a->start[a->n] = e;
}

typedef struct heat {
  const double *theta;
  double in, out;
} heat;

static void film_heat(void *context, size_t i, size_t j, size_t p, size_t q, double length,
                      const frame_region *air)
{
  (void)i;
  (void)j;
  heat *h = context;
  if (air->r == 0.0) return;
  double mean = 0.5 * (h->theta[p] + h->theta[q]);
  if (frame_is_indoor(air))
    h->in += length * (air->theta - mean) / air->r;
  else
    h->out += length * (mean - air->theta) / air->r;
}

/* Heat through films, and what held nodes give (their row of the matrix times theta). */
static void balance(const mesh *m, const double *theta, heat *h)
{
  each_film(m->g, film_heat, h);
  const size_t to[N_LINK] = {0, 1, m->n_x - 1, m->n_x, m->n_x + 1};
  size_t nodes = m->n_x * m->n_y;
  for (size_t p = 0; p < nodes; p++)
    for (int l = 0; l < N_LINK; l++) {
      size_t q = p + to[l];
      double link = m->link[N_LINK * p + (size_t)l];
      if (!((unsigned)m->joined[p] >> l & 1u)) continue;
      for (int end = 0; end < (l == SELF ? 1 : 2); end++) {
        double held = m->held[end ? q : p];
        if (!isfinite(held)) continue;
        double give = link * theta[end ? p : q];
        if (held > 0.5)
          h->in += give;
        else
          h->out -= give;
      }
    }
  for (size_t p = 0; p < nodes; p++)
    if (isfinite(m->held[p])) { /* films that share a held node are not its reaction */
      if (m->held[p] > 0.5)
        h->in -= m->load[p];
      else
        h->out += m->load[p];
    }
}

static pw_status solve(mesh *m, const int *number, size_t n, frame_factor *factor,
                       double *theta, pw_err *err)
{
  frame_matrix a = {0};
  double *b = malloc((2 * n + 1) * sizeof *b);
  if (!b) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu nodes", n);
  pw_status status = frame_matrix_new(n, N_LINK * n, &a, err);
  if (status == PW_OK) {
    assemble(m, number, &a, b);
    status = frame_order(number, m->n_x, m->n_y, 0, a.order, err);
  }
  if (status == PW_OK) status = frame_factor_solve(factor, &a, b, b + n, err);
  for (size_t k = 0; k < m->n_x * m->n_y && status == PW_OK; k++)
    theta[k] = number[k] >= 0         ? b[n + (size_t)number[k]]
               : isfinite(m->held[k]) ? m->held[k]
                                      : NAN;
  frame_matrix_free(&a);
  free(b);
  return status;
}

pw_status frame_elements(const frame_grid *grid, frame_factor *factor, frame_solution *solution,
                         pw_err *err)
{
  mesh m = {.g = grid, .n_x = grid->n_x + 1, .n_y = grid->n_y + 1};
  size_t nodes = m.n_x * m.n_y;
  *solution = (frame_solution){0};
  m.joined = calloc(nodes, 1);
  m.link = calloc(N_LINK * nodes, sizeof *m.link);
  m.load = calloc(nodes, sizeof *m.load);
  m.held = malloc(nodes * sizeof *m.held);
  int *number = malloc(nodes * sizeof *number);
  solution->theta = calloc(nodes, sizeof *solution->theta);
  pw_status status = PW_OK;
  if (m.joined && m.link && m.load && m.held && number && solution->theta) {
    assemble_links(&m);
    size_t n = number_nodes(&m, number);
    status = solve(&m, number, n, factor, solution->theta, err);
    solution->n = n;
  } else {
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu nodes", nodes);
  }
  if (status == PW_OK) {
    heat h = {solution->theta, 0.0, 0.0};
    balance(&m, solution->theta, &h);
    solution->q = 0.5 * (h.in + h.out);
    solution->residual = fabs(h.in - h.out) / fabs(h.in);
  } else {
    frame_solution_free(solution);
  }
  free(m.joined);
  free(m.link);
  free(m.load);
  free(m.held);
  free(number);
  return status;
}

pw_status frame_elements_bound(const frame_grid *grid, frame_solution *solution, pw_err *err)
{
  double off = 0.0;
  frame_bubbles_free(&solution->bubble);
  pw_status status = frame_bubbles(grid, solution->theta, 0, &solution->bubble, &off, err);
  solution->bound = solution->q - off;
  return status;
}
