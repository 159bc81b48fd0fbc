#include "bench_peer.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

/* Nodes of a body get a number from 1; 0 off it. */
static size_t *number_nodes(const frame_grid *g, size_t *count)
{
  size_t m = g->n_x + 1, nodes = m * (g->n_y + 1), n = 0;
  size_t *number = calloc(nodes, sizeof *number);
  for (size_t j = 0; number && j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      if (!frame_is_body(&g->plane->region[frame_at(g, i, j)])) continue;
      number[j * m + i] = number[j * m + i + 1] = 1;
      number[(j + 1) * m + i] = number[(j + 1) * m + i + 1] = 1;
    }
  for (size_t k = 0; number && k < nodes; k++)
    if (number[k]) number[k] = ++n;
  *count = n;
  return number;
}

/* A side of a cell that touches air: side 0 below, 1 right, 2 above, 3 left. */
typedef struct film_side {
  size_t i, j, element; /* element counted from 1 over body cells */
  int side;
  const frame_region *air;
} film_side;

static const int step[4][2] = {{0, -1}, {1, 0}, {0, 1}, {-1, 0}};

typedef void film_visit(void *context, const frame_grid *g, const film_side *f);

static size_t each_film(const frame_grid *g, film_visit *visit, void *context)
{
  size_t count = 0, element = 0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      if (!frame_is_body(&g->plane->region[frame_at(g, i, j)])) continue;
      element++;
      for (int s = 0; s < 4; s++) {
        double air;
        frame_face(g, i, j, step[s][0], step[s][1], &air);
        if (isnan(air)) continue;
        size_t i2 = (size_t)((ptrdiff_t)i + step[s][0]),
               j2 = (size_t)((ptrdiff_t)j + step[s][1]);
        const film_side f = {i, j, element, s, &g->plane->region[frame_at(g, i2, j2)]};
        if (visit) visit(context, g, &f);
        count++;
      }
    }
  return count;
}

/* Regions with cells of their own (a hollow's material gave its cells to single hollows). */
static int solid(const frame_region *r) { return frame_is_body(r) && isfinite(r->k); }

/* Both ends of a side as places in the node array. */
static void ends(const frame_grid *g, const film_side *f, size_t *a, size_t *b)
{
  size_t m = g->n_x + 1, sw = f->j * m + f->i;
  const size_t corner[5] = {sw, sw + 1, sw + m + 1, sw + m, sw};
  *a = corner[f->side];
  *b = corner[f->side + 1];
}

typedef struct sheet {
  FILE *f;
  const size_t *number;
  size_t serial;
  int indoor;
} sheet;

static FILE *file(const char *folder, const char *name, const char *mode)
{
  char path[512];
  snprintf(path, sizeof path, "%s/%s", folder, name);
  return fopen(path, mode);
}

static double read_number(const char *folder, const char *name, const char *format)
{
  FILE *f = file(folder, name, "r");
  double v = (double)NAN;
  if (!f) return v;
  if (fscanf(f, format, &v) != 1) v = (double)NAN;
  fclose(f);
  return v;
}

static size_t count_bodies(const frame_grid *g)
{
  size_t n = 0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++)
      n += (size_t)frame_is_body(&g->plane->region[frame_at(g, i, j)]);
  return n;
}

/* Corners of cell (i, j), counter-clockwise, by number. */
static void corners(const frame_grid *g, const size_t *number, size_t i, size_t j, size_t c[4])
{
  size_t m = g->n_x + 1, sw = j * m + i;
  c[0] = number[sw];
  c[1] = number[sw + 1];
  c[2] = number[sw + m + 1];
  c[3] = number[sw + m];
}

/* One line a body cell, by its region, serial number from 1 and corners; returns how many. */
typedef void put_cell(FILE *f, int region, size_t serial, const size_t c[4]);

static size_t put_cells(const frame_grid *g, const size_t *number, FILE *f, put_cell *put)
{
  size_t serial = 0;
  for (size_t j = 0; j < g->n_y; j++)
    for (size_t i = 0; i < g->n_x; i++) {
      int r = frame_at(g, i, j);
      if (!frame_is_body(&g->plane->region[r])) continue;
      size_t c[4];
      corners(g, number, i, j, c);
      put(f, r, ++serial, c);
    }
  return serial;
}

/* ---- FreeFem++: triangles (each cell cut in two); film labels 1 indoors, 2 outdoors.
 * The film resistance is the same all along a side here (generic sections have no reduced zone). */
static void freefem_film(void *context, const frame_grid *g, const film_side *f)
{
  sheet *s = context;
  size_t a, b;
  ends(g, f, &a, &b);
  fprintf(s->f, "%zu %zu %d\n", s->number[a], s->number[b], frame_is_indoor(f->air) ? 1 : 2);
}

static void freefem_cell(FILE *f, int region, size_t serial, const size_t c[4])
{
  (void)serial;
  fprintf(f, "%zu %zu %zu %d\n%zu %zu %zu %d\n", c[0], c[1], c[2], region, c[0], c[2], c[3],
          region);
}

static double film_of(const frame_grid *g, int indoor)
{
  for (size_t r = 0; r < g->plane->n_region; r++) {
    const frame_region *region = &g->plane->region[r];
    if (region->zone == (indoor ? PW_ZONE_INDOOR : PW_ZONE_OUTDOOR)) return region->r;
  }
  return (double)NAN;
}

static int freefem_write(const frame_grid *g, const char *folder, const char *space)
{
  size_t n = 0, *number = number_nodes(g, &n), m = g->n_x + 1;
  FILE *f = file(folder, "s.msh", "w");
  if (!number || !f) return 1;
  fprintf(f, "%zu %zu %zu\n", n, 2 * count_bodies(g), each_film(g, NULL, NULL));
  for (size_t k = 0; k < m * (g->n_y + 1); k++)
    if (number[k]) fprintf(f, "%.12g %.12g 0\n", g->x[k % m], g->y[k / m]);
  put_cells(g, number, f, freefem_cell);
  sheet s = {.f = f, .number = number};
  each_film(g, freefem_film, &s);
  fclose(f);
  f = file(folder, "s.edp", "w");
  if (!f) return 1;
  fprintf(f,
          "mesh Th = readmesh(\"s.msh\");\nfespace P0(Th, P0);\nfespace V(Th, %s);\nP0 k;\n"
          "real[int] kr(%zu);\n",
          space, g->plane->n_region);
  for (size_t r = 0; r < g->plane->n_region; r++)
    fprintf(f, "kr[%zu] = %.12g;\n", r,
            solid(&g->plane->region[r]) ? g->plane->region[r].k : 0.0);
  fprintf(f,
          "k = kr[region];\nV u, v;\n"
          "solve a(u, v, solver=sparsesolver) = int2d(Th)(k*(dx(u)*dx(v)+dy(u)*dy(v)))"
          " + int1d(Th,1)(u*v/%.12g) + int1d(Th,2)(u*v/%.12g) - int1d(Th,1)(v/%.12g);\n"
          "ofstream f(\"q.txt\");\nf.precision(12);\nf << int1d(Th,1)((1-u)/%.12g) << endl;\n",
          film_of(g, 1), film_of(g, 0), film_of(g, 1), film_of(g, 1));
  fclose(f);
  free(number);
  return 0;
}

static int freefem_linear(const frame_grid *g, const char *folder)
{
  return freefem_write(g, folder, "P1");
}

static int freefem_quadratic(const frame_grid *g, const char *folder)
{
  return freefem_write(g, folder, "P2");
}

static double freefem_read(const frame_grid *g, const char *folder)
{
  (void)g;
  return read_number(folder, "q.txt", "%lf");
}

/* ---- getdp: bilinear quadrangles, mesh in the open .msh 2.2 form. */
static void getdp_film(void *context, const frame_grid *g, const film_side *f)
{
  sheet *s = context;
  size_t a, b;
  ends(g, f, &a, &b);
  int tag = frame_is_indoor(f->air) ? 9001 : 9002;
  fprintf(s->f, "%zu 1 2 %d %d %zu %zu\n", ++s->serial, tag, tag, s->number[a], s->number[b]);
}

static void getdp_cell(FILE *f, int region, size_t serial, const size_t c[4])
{
  fprintf(f, "%zu 3 2 %d %d %zu %zu %zu %zu\n", serial, region + 1, region + 1, c[0], c[1],
          c[2], c[3]);
}

static int getdp_write(const frame_grid *g, const char *folder)
{
  size_t n = 0, *number = number_nodes(g, &n), m = g->n_x + 1;
  FILE *f = file(folder, "s.msh", "w");
  if (!number || !f) return 1;
  fprintf(f, "$MeshFormat\n2.2 0 8\n$EndMeshFormat\n$Nodes\n%zu\n", n);
  for (size_t k = 0; k < m * (g->n_y + 1); k++)
    if (number[k]) fprintf(f, "%zu %.12g %.12g 0\n", number[k], g->x[k % m], g->y[k / m]);
  fprintf(f, "$EndNodes\n$Elements\n%zu\n", count_bodies(g) + each_film(g, NULL, NULL));
  size_t serial = put_cells(g, number, f, getdp_cell);
  sheet s = {.f = f, .number = number, .serial = serial};
  each_film(g, getdp_film, &s);
  fprintf(f, "$EndElements\n");
  fclose(f);
  free(number);
  f = file(folder, "s.pro", "w");
  if (!f) return 1;
  fprintf(f, "Group {\n  Inside = Region[9001]; Outside = Region[9002];\n  Dom = Region[{");
  const char *comma = "";
  for (size_t r = 0; r < g->plane->n_region; r++)
    if (solid(&g->plane->region[r])) {
      fprintf(f, "%s%zu", comma, r + 1);
      comma = ",";
    }
  fprintf(f, "}];\n}\nFunction {\n");
  for (size_t r = 0; r < g->plane->n_region; r++)
    if (solid(&g->plane->region[r]))
      fprintf(f, "  k[Region[%zu]] = %.12g;\n", r + 1, g->plane->region[r].k);
  fprintf(
      f,
      "}\nFunctionSpace { { Name H; Type Form0; BasisFunction { { Name sn; NameOfCoef tn; "
      "Function BF_Node; Support Region[{Dom, Inside, Outside}]; Entity NodesOf[All]; } } } }\n"
      "Jacobian { { Name V; Case { { Region All; Jacobian Vol; } } } { Name S; Case { { Region "
      "All; Jacobian Sur; } } } }\n"
      "Integration { { Name I; Case { { Type Gauss; Case { { GeoElement Quadrangle; "
      "NumberOfPoints 4; } { GeoElement Line; NumberOfPoints 2; } } } } } }\n"
      "Formulation { { Name F; Type FemEquation; Quantity { { Name T; Type Local; NameOfSpace "
      "H; } } Equation {\n"
      "  Galerkin { [ k[] * Dof{d T}, {d T} ]; In Dom; Integration I; Jacobian V; }\n"
      "  Galerkin { [ %.12g * Dof{T}, {T} ]; In Inside; Integration I; Jacobian S; }\n"
      "  Galerkin { [ %.12g * Dof{T}, {T} ]; In Outside; Integration I; Jacobian S; }\n"
      "  Galerkin { [ -%.12g, {T} ]; In Inside; Integration I; Jacobian S; }\n} } }\n"
      "Resolution { { Name R; System { { Name A; NameOfFormulation F; } } Operation { "
      "Generate[A]; Solve[A]; } } }\n"
      "PostProcessing { { Name P; NameOfFormulation F; Quantity { { Name q; Value { Integral { "
      "[ "
      "(1 - {T}) * %.12g ]; In Inside; Integration I; Jacobian S; } } } } } }\n"
      "PostOperation { { Name P; NameOfPostProcessing P; Operation { Print[ q[Inside], "
      "OnGlobal, "
      "Format Table, File \"q.txt\" ]; } } }\n",
      1.0 / film_of(g, 1), 1.0 / film_of(g, 0), 1.0 / film_of(g, 1), 1.0 / film_of(g, 1));
  fclose(f);
  return 0;
}

static double getdp_read(const frame_grid *g, const char *folder)
{
  (void)g;
  return read_number(folder, "q.txt", "%*f %lf");
}

/* ---- CalculiX ccx: bilinear plane elements, temperatures of the indoor nodes printed. */
static void ccx_film(void *context, const frame_grid *g, const film_side *f)
{
  sheet *s = context;
  (void)g;
  fprintf(s->f, "%zu,F%d,%g,%.12g\n", f->element, f->side + 1, f->air->theta, 1.0 / f->air->r);
}

static void ccx_indoor_node(void *context, const frame_grid *g, const film_side *f)
{
  sheet *s = context;
  size_t a, b;
  if (!frame_is_indoor(f->air)) return;
  ends(g, f, &a, &b);
  fprintf(s->f, "%zu,\n%zu,\n", s->number[a], s->number[b]);
}

static int ccx_write(const frame_grid *g, const char *folder)
{
  size_t n = 0, *number = number_nodes(g, &n), m = g->n_x + 1;
  FILE *f = file(folder, "s.inp", "w");
  if (!number || !f) return 1;
  fprintf(f, "*NODE,NSET=NALL\n");
  for (size_t k = 0; k < m * (g->n_y + 1); k++)
    if (number[k]) fprintf(f, "%zu,%.12g,%.12g,0.\n", number[k], g->x[k % m], g->y[k / m]);
  for (size_t r = 0; r < g->plane->n_region; r++) {
    size_t element = 0, mine = 0;
    if (!solid(&g->plane->region[r])) continue;
    for (size_t j = 0; j < g->n_y; j++)
      for (size_t i = 0; i < g->n_x; i++) {
        int here = frame_at(g, i, j);
        if (!frame_is_body(&g->plane->region[here])) continue;
        element++;
        if (here != (int)r) continue;
        if (!mine++) fprintf(f, "*ELEMENT,TYPE=CPS4,ELSET=E%zu\n", r);
        size_t c[4];
        corners(g, number, i, j, c);
        fprintf(f, "%zu,%zu,%zu,%zu,%zu\n", element, c[0], c[1], c[2], c[3]);
      }
    if (mine)
      fprintf(
          f,
          "*MATERIAL,NAME=M%zu\n*CONDUCTIVITY\n%.12g\n*SOLID SECTION,ELSET=E%zu,MATERIAL=M%zu\n"
          "1.\n",
          r, g->plane->region[r].k, r, r);
  }
  sheet s = {.f = f, .number = number};
  fprintf(f, "*NSET,NSET=NIN\n");
  each_film(g, ccx_indoor_node, &s);
  fprintf(f, "*INITIAL CONDITIONS,TYPE=TEMPERATURE\nNALL,0.5\n*STEP\n*HEAT TRANSFER,STEADY "
             "STATE,DIRECT\n1.,1.\n*FILM\n");
  each_film(g, ccx_film, &s);
  fprintf(f, "*NODE PRINT,NSET=NIN\nNT\n*END STEP\n");
  fclose(f);
  free(number);
  return 0;
}

typedef struct ccx_sum {
  const size_t *number;
  const double *t; /* by node number */
  double heat;
} ccx_sum;

static void ccx_add(void *context, const frame_grid *g, const film_side *f)
{
  ccx_sum *s = context;
  size_t a, b, m = g->n_x + 1;
  if (!frame_is_indoor(f->air)) return;
  ends(g, f, &a, &b);
  double length = fabs(g->x[a % m] - g->x[b % m]) + fabs(g->y[a / m] - g->y[b / m]);
  s->heat += length * (1.0 - 0.5 * (s->t[s->number[a]] + s->t[s->number[b]])) / f->air->r;
}

static double ccx_read(const frame_grid *g, const char *folder)
{
  size_t n = 0, *number = number_nodes(g, &n), got = 0;
  double *t = calloc(n + 1, sizeof *t);
  FILE *f = file(folder, "s.dat", "r");
  char line[256];
  while (f && t && fgets(line, sizeof line, f)) {
    size_t node;
    double v;
    if (sscanf(line, "%zu %lf", &node, &v) == 2 && node <= n) {
      t[node] = v;
      got++;
    }
  }
  if (f) fclose(f);
  ccx_sum s = {number, t, 0.0};
  if (got) each_film(g, ccx_add, &s);
  free(number);
  free(t);
  return got ? s.heat : (double)NAN;
}

const peer peers[] = {
    {"FreeFem++ (linear)", "FreeFem++", "FreeFem++ -nw -v 0 s.edp >log 2>&1", freefem_linear,
     freefem_read},
    {"FreeFem++ (quadratic)", "FreeFem++", "FreeFem++ -nw -v 0 s.edp >log 2>&1",
     freefem_quadratic, freefem_read},
    {"getdp (rectangles)", "getdp", "getdp s.pro -msh s.msh -solve R -pos P -v 1 >log 2>&1",
     getdp_write, getdp_read},
    {"CalculiX ccx (rectangles)", "ccx", "OMP_NUM_THREADS=1 ccx s >log 2>&1", ccx_write,
     ccx_read},
};
const size_t peer_count = sizeof peers / sizeof peers[0];

int peer_installed(const peer *p)
{
  char command[128];
  snprintf(command, sizeof command, "command -v %s >/dev/null 2>&1", p->program);
  return system(command) == 0;
}

static double child_cpu(void)
{
  struct rusage u;
  getrusage(RUSAGE_CHILDREN, &u);
  return (double)u.ru_utime.tv_sec + (double)u.ru_stime.tv_sec +
         1e-6 * (double)(u.ru_utime.tv_usec + u.ru_stime.tv_usec);
}

double peer_run(const peer *p, const frame_grid *grid, double *cpu)
{
  char folder[] = "/tmp/pw_peer_XXXXXX", command[640];
  *cpu = 0.0;
  if (!mkdtemp(folder)) return (double)NAN;
  double q = (double)NAN;
  if (p->write(grid, folder) == 0) {
    double before = child_cpu();
    snprintf(command, sizeof command, "cd %s && %s", folder, p->command);
    int rc = system(command);
    *cpu = child_cpu() - before;
    q = p->read(grid, folder);
    if (isnan(q)) fprintf(stderr, "%s ended with %d and no heat flow\n", p->name, rc);
  }
  snprintf(command, sizeof command, "rm -r %s", folder);
  if (system(command) != 0) fprintf(stderr, "%s is left behind\n", folder);
  return q;
}
