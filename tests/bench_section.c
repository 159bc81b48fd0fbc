/* Speed of conduction through a section, by itself and beside general-purpose finite element packages
 * (bench_peer.h). */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "bench.h"
#include "bench_peer.h"
#include "check/section_table.h"
#include "frame/conduct.h"

static const double ERROR = 3e-4; /* of the heat flow, allowed to all */
static const double TIMES = 20.0; /* less than a package takes */

typedef struct desk {
  pw_section section;
  pw_section_options o;
  pw_section_result r;
  int failed;
} desk;

static void solve(void *data)
{
  desk *d = data;
  d->failed |= pw_section_solve(&d->section, &d->o, &d->r, NULL) != PW_OK;
}

/* The default tolerance with the hollows settled, on the dearest and the usual section. */
static void whole_sections(bench *b)
{
  static const char *const name[] = {"generic/insert_jamb_fins_kept_air",
                                     "generic/insert_jamb_wall"};
  for (size_t i = 0; i < 2; i++) {
    desk d = {.o = {.tolerance = 0.002}};
    if (pw_section_of_table(name[i], &d.section, NULL) != PW_OK) return;
    double cpu = bench_cpu(solve, &d);
    char what[160];
    snprintf(what, sizeof what, "section %s, bracket 0.2 %%, %zu cells, solver %.0f MB",
             name[i] + 8, d.r.n_cell, 1e-6 * (double)d.r.bytes);
    const bench_row row = {what, "section", 1.0, cpu, 0.15, 0.0, "asked for"};
    if (!d.failed) bench_give(b, &row);
    pw_section_free(&d.section);
  }
}

static double now(void) { return (double)clock() / CLOCKS_PER_SEC; }

static size_t bodies(const frame_grid *g)
{
  size_t n = 0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++)
      n += (size_t)frame_is_body(&g->plane->region[frame_at(g, i, j)]);
  return n;
}

/* Replaces *g by itself with about `factor` times the lines, evenly spread. */
static int split_by(frame_grid *g, double factor)
{
  frame_grid finer;
  unsigned char *parts = malloc(g->n_x + g->n_y);
  if (!parts) return 0;
  for (size_t k = 0; k < g->n_x + g->n_y; k++) {
    size_t m = k < g->n_x ? k : k - g->n_x; /* parts add up to factor times the strips */
    parts[k] = (unsigned char)(floor(factor * (double)(m + 1)) - floor(factor * (double)m));
  }
  int good = frame_grid_split(g, parts, parts + g->n_x, &finer, NULL) == PW_OK;
  free(parts);
  if (!good) return 0;
  frame_grid_free(g);
  *g = finer;
  return 1;
}

typedef pw_status scheme(const frame_grid *grid, frame_factor *factor, frame_solution *solution,
                         pw_err *err);

static void one_solve(bench *b, const frame_grid *g, scheme *run, const char *name,
                      double bound, int rounds, const char *held)
{
  double best = 1e9;
  size_t n = 0, bytes = 0;
  for (int k = 0; k < rounds; k++) {
    frame_factor *f;
    frame_solution s = {0};
    if (frame_factor_new(&f, NULL) != PW_OK) return;
    double start = now();
    if (run(g, f, &s, NULL) != PW_OK) best = INFINITY;
    best = fmin(best, now() - start);
    n = s.n;
    bytes = frame_factor_bytes(f);
    free(s.theta);
    frame_factor_free(f);
  }
  char what[160];
  snprintf(what, sizeof what, "one solve by %s, %zu unknowns, %.0f MB", name, n,
           1e-6 * (double)bytes);
  const bench_row row = {what, "solve", 1.0, best, bound, 0.0, held};
  bench_give(b, &row);
}

/* Assembly, ordering, factor and solution of one system. Elements couple eight neighbours, volumes
 * four: their factor has 2.5 times the operations. */
static void large_systems(bench *b, const frame_plane *plane)
{
  static const double size[] = {1e5, 1e6}, bound[] = {0.2, 3.5};
  frame_grid g;
  if (frame_grid_first(plane, &g, NULL) != PW_OK) return;
  for (size_t k = 0; k < 2; k++) {
    while ((double)bodies(&g) < 0.98 * size[k])
      if (!split_by(&g, fmin(2.0, 1.002 * sqrt(size[k] / (double)bodies(&g))))) return;
    one_solve(b, &g, frame_volumes, "volumes", bound[k], k ? 2 : 5, "asked for");
    one_solve(b, &g, frame_elements, "elements", k ? 0.0 : bound[k], k ? 2 : 5,
              k ? "" : "asked for");
  }
  frame_grid_free(&g);
}

/* A grid of even steps on the section's own lines, as one draws it without knowing where the error
 * sits. */
static int even_grid(const frame_plane *p, double h, frame_grid *g)
{
  frame_grid lines = {.plane = p, .n_x = p->n_x, .n_y = p->n_y, .x = p->x, .y = p->y}, coarse;
  size_t n = p->n_x + p->n_y, *base = malloc(n * sizeof *base);
  unsigned char *parts = malloc(n);
  int good = base && parts;
  for (size_t k = 0; good && k < n; k++) {
    int x = k < p->n_x;
    const double *line = x ? p->x + k : p->y + (k - p->n_x);
    base[k] = x ? k : k - p->n_x;
    parts[k] = (unsigned char)fmin(200.0, ceil((line[1] - line[0]) / (8.0 * h)));
  }
  if (good) {
    lines.base_x = base;
    lines.base_y = base + p->n_x;
    good = frame_grid_split(&lines, parts, parts + p->n_x, &coarse, NULL) == PW_OK;
  }
  free(base);
  free(parts);
  if (!good) return 0;
  unsigned char *fine = malloc(coarse.n_x + coarse.n_y);
  for (size_t k = 0; fine && k < coarse.n_x + coarse.n_y; k++) {
    const double *line = k < coarse.n_x ? coarse.x + k : coarse.y + (k - coarse.n_x);
    fine[k] = (unsigned char)fmin(200.0, ceil((line[1] - line[0]) / h - 1e-9));
  }
  good = fine && frame_grid_split(&coarse, fine, fine + coarse.n_x, g, NULL) == PW_OK;
  free(fine);
  frame_grid_free(&coarse);
  return good;
}

/* The cheapest run of a package with its error allowed: over even grids, and over our own graded first
 * grid halved, which favours it. */
static double cheapest(const frame_plane *plane, const peer *p, double want, double *error,
                       size_t *cells)
{
  double best = INFINITY;
  for (int graded = 0; graded < 2; graded++) {
    frame_grid g;
    double h = 0.7e-3;
    if (graded && (frame_grid_first(plane, &g, NULL) != PW_OK || !split_by(&g, 3.0))) break;
    for (int step = 0; step < 8; step++, h *= 0.8) {
      if (!graded && !even_grid(plane, h, &g)) break;
      double cpu, q = peer_run(p, &g, &cpu), off = fabs(q / want - 1.0);
      if (off <= ERROR && cpu < best) {
        best = cpu;
        *error = off;
        *cells = bodies(&g);
      }
      int done = isnan(q) || off <= ERROR || cpu > best;
      if (!graded) frame_grid_free(&g);
      if (done || (graded && !split_by(&g, 1.3))) break;
    }
    if (graded) frame_grid_free(&g);
  }
  return best;
}

static void beside_packages(bench *b, desk *d, const frame_plane *plane)
{
  d->o = (pw_section_options){.fixed_hollow = 1, .tolerance = 5e-5};
  solve(d);
  double want = d->r.l2d;
  d->o.tolerance = 0.002;
  double ours = bench_cpu(solve, d), off = fabs(d->r.l2d / want - 1.0);
  if (d->failed || off > ERROR) {
    fprintf(stderr, "bench: our own error is %.1e of the heat flow, want %.0e\n", off, ERROR);
    return;
  }
  for (size_t i = 0; i < peer_count; i++) {
    const peer *p = &peers[i];
    if (!peer_installed(p)) {
      fprintf(stderr, "bench: %s is not installed, no comparison with it\n", p->program);
      continue;
    }
    double error = 0.0;
    size_t cells = 0;
    double cpu = cheapest(plane, p, want, &error, &cells);
    if (!isfinite(cpu)) {
      fprintf(stderr, "bench: %s did not come within %.0e of the heat flow\n", p->name, ERROR);
      continue;
    }
    char what[200], held[120];
    snprintf(what, sizeof what, "section, error %.0e, beside %s", off, p->name);
    snprintf(held, sizeof held, "1/20 of its %.2f s (error %.1e, %zu cells); ours is 1/%.0f",
             cpu, error, cells, cpu / ours);
    const bench_row row = {what, "section", 1.0, ours, cpu / TIMES, cpu, held};
    bench_give(b, &row);
  }
}

void bench_section(bench *b)
{
  desk d = {0};
  frame_plane plane;
  const pw_section_options o = {.t_in = 293.15, .t_out = 273.15, .fixed_hollow = 1};
  whole_sections(b);
  if (pw_section_of_table("generic/insert_jamb_fins_kept_foam", &d.section, NULL) != PW_OK ||
      frame_plane_make(&d.section, &o, &plane, NULL) != PW_OK)
    return;
  large_systems(b, &plane);
  beside_packages(b, &d, &plane);
  frame_plane_free(&plane);
  pw_section_free(&d.section);
}
