/* Runs a model over scrambled Sobol draws of its inputs, on any number of threads with the same
 * digits; what each input has of the variance from a model that gives both samples of a draw. */
#ifndef STUDY_RANGE_RUN_H
#define STUDY_RANGE_RUN_H

#include <stddef.h>
#include <stdint.h>

#include "panewright/status.h"
#include "study/sensitivity.h"

enum { PW_THREADS_MAX = 64, PW_BESIDE_MAX = 64 };

/* A model: chances u[n_dim] inside (0, 1), results y[n_out]. Called from several threads at once;
 * what it changes must be in its own workspace. The result must depend on u alone. */
typedef pw_status (*pw_range_model)(const void *context, void *workspace, const double u[],
                                    double y[], pw_err *err);

/* The same of n draws at once, u[n * n_dim], y[n]: each gets what it gets alone. */
typedef pw_status (*pw_range_many)(const void *context, void *workspace, size_t n,
                                   const double u[], double *const y[], pw_err *err);

typedef struct pw_range_plan {
  size_t n_dim, n_out;
  size_t n_draw; /* draws for the bands; best a power of two */
  int both; /* 1: the model gets the chances of a draw in both samples, u[2 n_dim], and makes its own of them */
  uint64_t seed;
  int n_thread;         /* 0 means 1 */
  pw_range_model model; /* or */
  pw_range_many many;   /* of at most `beside` draws, all of one kind */
  size_t beside;
  uint64_t (*kind)(const void *context, const double u[]);
  /* NULL: the Sobol points */
  void (*point)(const void *point_context, size_t draw, double u[]);
  const void *point_context;
  const void *context;                         /* borrowed, shared by all threads, read only */
  void *(*workspace_new)(const void *context); /* one a thread; NULL: none wanted */
  void (*workspace_free)(void *workspace);
  /* Called from the thread that called pw_range_run only, now and then; NULL: not wanted.
   * A return other than 0 stops the run. */
  int (*progress)(void *progress_context, size_t done, size_t all);
  void *progress_context;
} pw_range_plan;

typedef struct pw_range_result {
  size_t n_draw, n_out, n_dim;
  double *y;   /* y[draw * n_out + out]; owned */
  int stopped; /* 1: progress stopped it; nothing else is set then */
} pw_range_result;

/* Status    PW_OK; PW_E_SHAPE a count; PW_E_NOMEM; PW_E_LACK no thread could be started; or the
 *           status of the model at the lowest draw that failed (the same for any thread count)
 */
pw_status pw_range_run(const pw_range_plan *plan, pw_range_result *result, pw_err *err);

/* What each input has of the variance of figure p of n: share[n_dim], from a model (`both`) that gives its n figures of the
 * first sample, of the second, then for each input of the first with this one of the second; n_out is n (2 + n_dim). NAN
 * where a figure is not finite: a payback that never comes has no variance to share out. */
void pw_range_shares(const pw_range_result *result, size_t p, size_t n, pw_sensitivity share[]);

void pw_range_free(pw_range_result *result);

#endif
