/* Sparse Cholesky of a grid matrix by SuiteSparse CHOLMOD. */
#include <cholmod.h>
#include <math.h>
#include <stdlib.h>

#include "frame/frame_impl.h"

struct frame_factor {
  cholmod_common common;
  cholmod_factor *symbolic; /* with the last numbers in it */
  size_t n;
};

/* Unknowns below which the simplicial code alone serves, in every build, so that digits do not hang on a
 * BLAS. It was the one taken there anyhow: 122 operations an entry at 84 000 unknowns, under the switch. */
enum { SIMPLICIAL_BELOW = 50000 };

pw_status frame_matrix_new(size_t n, size_t entries, frame_matrix *matrix, pw_err *err)
{
  *matrix = (frame_matrix){.n = n};
  matrix->start = malloc((n + 1) * sizeof *matrix->start);
  matrix->row = malloc((entries + 1) * sizeof *matrix->row);
  matrix->value = malloc((entries + 1) * sizeof *matrix->value);
  matrix->order = malloc((n + 1) * sizeof *matrix->order);
  if (matrix->start && matrix->row && matrix->value && matrix->order) return PW_OK;
  frame_matrix_free(matrix);
  return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu unknowns", n);
}

void frame_matrix_free(frame_matrix *matrix)
{
  free(matrix->start);
  free(matrix->row);
  free(matrix->value);
  free(matrix->order);
  *matrix = (frame_matrix){0};
}

pw_status frame_factor_new(frame_factor **factor, pw_err *err)
{
  *factor = calloc(1, sizeof **factor);
  if (!*factor) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a solver");
  cholmod_common *c = &(*factor)->common;
  if (!cholmod_start(c)) {
    free(*factor);
    *factor = NULL;
    return pw_fail(err, PW_E_NOMEM, NULL, "CHOLMOD does not start");
  }
  c->print = 0;
  c->nmethods = 1;
  c->method[0].ordering = CHOLMOD_GIVEN;
  c->postorder = 1;
  c->final_ll = 1; /* L L' took a tenth less time than L D L' */
  c->supernodal_switch =
      250.0; /* operations an entry; below, the simplicial code took less time */
  return PW_OK;
}

void frame_factor_free(frame_factor *factor)
{
  if (!factor) return;
  cholmod_free_factor(&factor->symbolic, &factor->common);
  cholmod_finish(&factor->common);
  free(factor);
}

void frame_factor_forget(frame_factor *factor)
{
  cholmod_free_factor(&factor->symbolic, &factor->common);
}

size_t frame_factor_bytes(const frame_factor *factor) { return factor->common.memory_usage; }

/* r = b - A x; returns the largest |r| over the largest |b|. */
static double remainder_of(const frame_matrix *a, const double *b, const double *x, double *r)
{
  double top = 0.0, scale = 0.0;
  for (size_t i = 0; i < a->n; i++)
    r[i] = b[i];
  for (size_t c = 0; c < a->n; c++) {
    r[c] -= a->value[a->start[c]] * x[c]; /* the diagonal comes first */
    for (int e = a->start[c] + 1; e < a->start[c + 1]; e++) {
      r[a->row[e]] -= a->value[e] * x[c];
      r[c] -= a->value[e] * x[a->row[e]];
    }
  }
  for (size_t i = 0; i < a->n; i++) {
    top = fmax(top, fabs(r[i]));
    scale = fmax(scale, fabs(b[i]));
  }
  return scale > 0.0 ? top / scale : top;
}

static pw_status failed(const cholmod_common *c, size_t n, pw_err *err)
{
  if (c->status == CHOLMOD_OUT_OF_MEMORY || c->status == CHOLMOD_TOO_LARGE)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory to factor %zu unknowns", n);
  return pw_fail(err, PW_E_CONVERGE, NULL,
                 "the conduction matrix of %zu unknowns is not definite", n);
}

static int solve_once(frame_factor *f, const double *b, double *x)
{
  cholmod_dense rhs = {.nrow = f->n,
                       .ncol = 1,
                       .nzmax = f->n,
                       .d = f->n,
                       .x = (void *)(size_t)b,
                       .xtype = CHOLMOD_REAL,
                       .dtype = CHOLMOD_DOUBLE};
  cholmod_dense *got = cholmod_solve(CHOLMOD_A, f->symbolic, &rhs, &f->common);
  if (!got) return 0;
  const double *v = got->x;
  for (size_t i = 0; i < f->n; i++)
    x[i] += v[i];
  cholmod_free_dense(&got, &f->common);
  return 1;
}

pw_status frame_factor_solve(frame_factor *factor, const frame_matrix *matrix, const double *b,
                             double *x, pw_err *err)
{
  cholmod_common *c = &factor->common;
  cholmod_sparse a = {.nrow = matrix->n,
                      .ncol = matrix->n,
                      .nzmax = (size_t)matrix->start[matrix->n],
                      .p = matrix->start,
                      .i = matrix->row,
                      .x = matrix->value,
                      .stype = -1,
                      .itype = CHOLMOD_INT,
                      .xtype = CHOLMOD_REAL,
                      .dtype = CHOLMOD_DOUBLE,
                      .sorted = 1,
                      .packed = 1};
  if (!factor->symbolic) {
    c->supernodal = matrix->n < SIMPLICIAL_BELOW ? CHOLMOD_SIMPLICIAL : CHOLMOD_AUTO;
    factor->symbolic = cholmod_analyze_p(&a, matrix->order, NULL, 0, c);
    factor->n = matrix->n;
    if (!factor->symbolic) return failed(c, matrix->n, err);
  }
  cholmod_factorize(&a, factor->symbolic, c);
  if (c->status != CHOLMOD_OK) return failed(c, matrix->n, err);
  double *r = malloc((matrix->n + 1) * sizeof *r);
  if (!r) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu unknowns", matrix->n);
  for (size_t i = 0; i < matrix->n; i++)
    x[i] = 0.0;
  int good = solve_once(factor, b, x);
  if (good && remainder_of(matrix, b, x, r) > 1e-13) good = solve_once(factor, r, x);
  free(r);
  return good ? PW_OK : failed(c, matrix->n, err);
}
