/* What the files of the change-point regression share: the bills in use, weighted and packed. */
#ifndef METER_CHANGE_IMPL_H
#define METER_CHANGE_IMPL_H

#include "meter/change_point.h"

typedef struct change_view {
  const pw_change_data *data;
  size_t n;
  size_t *index;    /* of the bills in use */
  double *w, *root; /* weights of mean 1, and their roots */
  double *y;        /* root w (y - mean) */
  double mean, sst;
  double low, high;   /* daily means of the bills in use */
  size_t first, last; /* grid points within low .. high */
  double *x, *z;      /* packed columns of the grid: root w (H - mean), [grid * n + k] */
  double *one, *two;  /* n each: columns of a trial */
  double *residual;   /* n */
} change_view;

/* Balance points of least SSE; balance[2], NAN where the model has none. Returns whether both meet. */
int change_search(const change_view *v, pw_change_model model, double balance[2]);

/* Doubles of working space that n bills and a grid need. */
size_t change_room(size_t n, size_t n_grid);

#endif
