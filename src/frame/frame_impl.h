/* What the files of src/frame share: the painted plane, the grid on it, the two discretisations.
 *
 * A "region" is a solid material, one hollow, or an air zone; the painted plane is a coarse grid of
 * region numbers on the union of all edges that matter, and the solver's grid subdivides it. */
#ifndef FRAME_IMPL_H
#define FRAME_IMPL_H

#include <stddef.h>

#include "frame/conduct.h"

enum { FRAME_X = 0, FRAME_Y = 1 };

typedef struct frame_region {
  pw_zone zone;
  int material;     /* index into the section's materials; -1 for void */
  double k;         /* W/(m K); solids and hollows */
  double r;         /* m2 K/W; air zones */
  double theta;     /* air zones: 0 outdoors, 1 indoors */
  pw_hollow hollow; /* hollows: equivalent rectangle and walls */
} frame_region;

/* The painted plane. cell[j * n_x + i] is a region; x and y are strictly rising. */
typedef struct frame_plane {
  size_t n_x, n_y;
  double *x, *y;
  int *cell;
  frame_region *region;
  size_t n_region, n_hollow;
  int axis;   /* along which heat flows */
  int island; /* solids without a way out were turned to void */
  int up;     /* across the flow: 1 the glass is at the high end, -1 at the low end */
  int two;    /* glass at both ends (meeting rail): start is its other sight line */
  double sight, start, end; /* m: sight line (NAN none), opening edge, glass end */
  int sight_found;
  int below; /* the section begins before y = 0, which is taken for the opening's edge */
} frame_plane;

/* The solver's grid: lines of the plane and lines between them. */
typedef struct frame_grid {
  const frame_plane *plane; /* borrowed */
  size_t n_x, n_y;
  double *x, *y;
  size_t *base_x, *base_y; /* cell column / row of the plane that holds this one */
} frame_grid;

static inline int frame_at(const frame_grid *g, size_t i, size_t j)
{
  return g->plane->cell[g->base_y[j] * g->plane->n_x + g->base_x[i]];
}
static inline int frame_is_air(const frame_region *r)
{
  return r->zone == PW_ZONE_OUTDOOR || r->zone == PW_ZONE_INDOOR ||
         r->zone == PW_ZONE_INDOOR_REDUCED;
}
static inline int frame_is_indoor(const frame_region *r)
{
  return r->zone == PW_ZONE_INDOOR || r->zone == PW_ZONE_INDOOR_REDUCED;
}
static inline int frame_is_hollow(const frame_region *r)
{
  return r->zone == PW_ZONE_HOLLOW || r->zone == PW_ZONE_HOLLOW_VENTED;
}
static inline int frame_is_body(const frame_region *r)
{
  return r->zone == PW_ZONE_SOLID || frame_is_hollow(r);
}

/* paint.c: cells of the plane hold the section's material index, -1 where nothing is painted. */
pw_status frame_paint(const pw_section *section, frame_plane *plane, pw_err *err);
/* A further line of the plane at that coordinate, where there is none. */
pw_status frame_plane_cut(frame_plane *plane, int axis, double at, pw_err *err);
void frame_plane_free(frame_plane *plane);

/* plane.c: materials to regions, hollows told apart, islands dropped, sight line, axis. */
pw_status frame_plane_make(const pw_section *section, const pw_section_options *options,
                           frame_plane *plane, pw_err *err);

/* A gap that still waits for its conductance is an error. */
pw_status frame_gaps_set(const pw_section *section, const frame_plane *plane, pw_err *err);

/* hollow_find.c: hollows are told apart and get a region each, with the fixed-form conductivity. */
pw_status frame_find_hollows(const pw_section *section, const pw_section_options *options,
                             frame_plane *plane, pw_err *err);

/* grid.c */
pw_status frame_grid_first(const frame_plane *plane, frame_grid *grid, pw_err *err);
/* Splits column i into split_x[i] equal parts, row j into split_y[j]. */
pw_status frame_grid_split(const frame_grid *old, const unsigned char *split_x,
                           const unsigned char *split_y, frame_grid *grid, pw_err *err);
void frame_grid_free(frame_grid *grid);

/* matrix.c: symmetric matrix, lower triangle by columns; given[] is the fill-reducing order. */
typedef struct frame_matrix {
  size_t n;
  int *start, *row;
  double *value;
  int *order; /* owned: elimination order */
} frame_matrix;

pw_status frame_matrix_new(size_t n, size_t entries, frame_matrix *matrix, pw_err *err);
void frame_matrix_free(frame_matrix *matrix);

/* factor.c: x = A^-1 b. The symbolic factor is kept for further matrices of the same pattern, until
 * it is told to forget. */
typedef struct frame_factor frame_factor;
pw_status frame_factor_new(frame_factor **factor, pw_err *err);
void frame_factor_forget(frame_factor *factor);
void frame_factor_free(frame_factor *factor);
pw_status frame_factor_solve(frame_factor *factor, const frame_matrix *matrix, const double *b,
                             double *x, pw_err *err);
/* The most memory CHOLMOD has held so far. */
size_t frame_factor_bytes(const frame_factor *factor);

/* order.c: nested dissection of a grid of n_x * n_y points, of which number[] >= 0 count; order[]
 * gets the numbers in the order of elimination. diagonal 1 when only side neighbours couple. */
pw_status frame_order(const int *number, size_t n_x, size_t n_y, int diagonal, int *order,
                      pw_err *err);

/* Parabolas on the edges of a grid, 0 where none stands: along[FRAME_X][i * (n_y + 1) + j] on the edge from node (i, j) to
 * (i + 1, j), along[FRAME_Y][j * (n_x + 1) + i] on that from (i, j) to (i, j + 1). */
typedef struct frame_bubble {
  double *along[2];
} frame_bubble;

/* A solved scheme: theta is 0 outdoors and 1 indoors. */
typedef struct frame_solution {
  double *theta; /* volumes: n_x * n_y cells; elements: (n_x + 1)(n_y + 1) nodes; NAN off */
  double q;      /* W/(m K): the scheme's coupling */
  double
      bound; /* the same, of the energy with its bubbles: volumes not above, elements not below the exact one */
  double part;         /* volumes: their fluxes times this have the bound for energy */
  double residual;     /* |in - out| / in */
  size_t n;            /* unknowns */
  frame_bubble bubble; /* volumes: of a stream function */
} frame_solution;
void frame_solution_free(frame_solution *solution);

pw_status frame_volumes(const frame_grid *grid, frame_factor *factor, frame_solution *solution,
                        pw_err *err);
pw_status frame_elements(const frame_grid *grid, frame_factor *factor, frame_solution *solution,
                         pw_err *err);
/* The bound of the elements, which frame_volumes has of its own: for hollows that still change it is not asked. */
pw_status frame_elements_bound(const frame_grid *grid, frame_solution *solution, pw_err *err);

/* What the elements and the volumes say of one thing: the first lie about half as far from the exact value. */
static inline double frame_weigh(double elements, double volumes)
{
  return (2.0 * elements + volumes) / 3.0;
}

/* Conductance per metre from the middle of cell (i, j) through its face towards di, dj to whatever
 * is there (a body cell's middle or air); 0 for none. *theta is set to the air's, NAN for a body. */
double frame_face(const frame_grid *grid, size_t i, size_t j, int di, int dj, double *theta);

/* Gradient of the volumes at that face of cell (i, j), in its half; positive outward, 0 where nothing passes. */
double frame_gradient(const frame_grid *grid, const double *theta, size_t i, size_t j, int di,
                      int dj);

/* bubbles.c: those of least energy beside theta, the elements' temperatures or (stream) the volumes' fluxes, and what they take
 * off the energy. */
pw_status frame_bubbles(const frame_grid *grid, const double *theta, int stream,
                        frame_bubble *bubble, double *off, pw_err *err);
void frame_bubbles_free(frame_bubble *bubble);

/* gap.c: how much each column and each row adds to the bracket, elements' bound less volumes'; all together they sum to it, to
 * rounding. */
void frame_gap(const frame_grid *grid, const frame_solution *volumes,
               const frame_solution *elements, double *by_column, double *by_row);

/* gauge.c: everything of the result but l2d, low, high from the two solutions. */
void frame_gauge(const pw_section *section, const pw_section_options *options,
                 const frame_grid *grid, const frame_solution *volumes,
                 const frame_solution *elements, pw_section_result *result);
/* field.c */
pw_status frame_field(const pw_section_options *options, const frame_grid *grid,
                      const frame_solution *volumes, const frame_solution *elements,
                      pw_section_field *field, pw_err *err);

/* hollow_find.c: conductivities from the nodes' temperatures. *change is the largest relative one;
 * they are only set when it is above `enough`, so that a settled solution keeps those it has. */
pw_status frame_update_hollows(frame_plane *plane, const frame_grid *grid, const double *theta,
                               const pw_section_options *options, double enough, double *change,
                               pw_err *err);

#endif
