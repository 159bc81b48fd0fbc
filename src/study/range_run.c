#include "study/range_run.h"

#include <math.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

#include "study/sobol.h"

/* Draws that are run together, of the order of a run. */
typedef struct batch {
  size_t first, n;
} batch;

/* Shared by the threads; the atomics are the only fields that change. */
typedef struct run {
  const pw_range_plan *plan;
  const pw_sobol *sobol;
  double *y;
  size_t n_batch, chunk;
  size_t *
      order; /* [n_draw] of the runs, those of one kind side by side; NULL, as batch: one by one */
  batch *batch;
  atomic_size_t next, done;
  atomic_size_t first_bad; /* lowest run that failed; n_draw none */
  atomic_int stop;
} run;

typedef struct worker {
  run *shared;
  pthread_t thread;
  int started, reports; /* reports: this one calls progress */
  size_t bad;           /* its lowest run that failed; n_draw none */
  pw_status status;
  pw_err err;
} worker;

/* Inputs of a run. point holds 2 n_dim chances. */
static void inputs(const run *r, size_t i, double point[], double u[])
{
  const pw_range_plan *p = r->plan;
  if (p->point) {
    p->point(p->point_context, i, u);
    return;
  }
  pw_sobol_point(r->sobol, i, p->both ? u : point);
  if (!p->both) memcpy(u, point, p->n_dim * sizeof *u);
}

static void note_failure(worker *w, size_t i, pw_status status, const pw_err *err)
{
  if (i < w->bad) {
    w->bad = i;
    w->status = status;
    w->err = *err;
  }
  size_t known = atomic_load(&w->shared->first_bad);
  while (i < known && !atomic_compare_exchange_weak(&w->shared->first_bad, &known, i)) {
  }
}

static pw_status run_one(const run *r, void *space, const double u[], double *y, pw_err *err)
{
  const pw_range_plan *p = r->plan;
  return p->many ? p->many(p->context, space, 1, u, &y, err)
                 : p->model(p->context, space, u, y, err);
}

/* Runs below a failed one still go on, so that the lowest failure is always found. */
static void work_one(worker *w, size_t i, void *space, double scratch[])
{
  run *r = w->shared;
  const pw_range_plan *p = r->plan;
  double *u = scratch + 2 * p->n_dim;
  if (i > atomic_load(&r->first_bad)) return;
  inputs(r, i, scratch, u);
  pw_err err = {0};
  pw_status s = run_one(r, space, u, r->y + i * p->n_out, &err);
  if (s != PW_OK) note_failure(w, i, s, &err);
}

/* What fails together is run one by one, so that the lowest failure is found here, too. */
static void work_batch(worker *w, const batch *b, void *space, double scratch[])
{
  run *r = w->shared;
  const pw_range_plan *p = r->plan;
  const size_t *draw = r->order + b->first;
  double *u = scratch + 2 * p->n_dim, *y[PW_BESIDE_MAX];
  if (draw[0] > atomic_load(&r->first_bad)) return; /* its lowest */
  for (size_t k = 0; k < b->n; k++) {
    inputs(r, draw[k], scratch, u + k * p->n_dim);
    y[k] = r->y + draw[k] * p->n_out;
  }
  if (p->many(p->context, space, b->n, u, y, NULL) == PW_OK) return;
  for (size_t k = 0; k < b->n; k++)
    work_one(w, draw[k], space, scratch);
}

/* Returns how many runs that were. */
static size_t work_chunk(worker *w, size_t begin, size_t end, void *space, double scratch[])
{
  size_t n = 0;
  for (size_t i = begin; i < end; i++) {
    const batch *b = w->shared->batch ? &w->shared->batch[i] : NULL;
    if (b)
      work_batch(w, b, space, scratch);
    else
      work_one(w, i, space, scratch);
    n += b ? b->n : 1;
  }
  return n;
}

static void *work(void *argument)
{
  worker *w = argument;
  run *r = w->shared;
  const pw_range_plan *p = r->plan;
  double *scratch = malloc((4 + p->beside) * p->n_dim * sizeof *scratch);
  void *space = scratch && p->workspace_new ? p->workspace_new(p->context) : NULL;
  if (!scratch || (p->workspace_new && !space)) {
    pw_err err;
    pw_fail(&err, PW_E_NOMEM, "workspace", "no memory for a thread");
    note_failure(w, 0, PW_E_NOMEM, &err);
  }
  while (w->bad > 0 && !atomic_load(&r->stop)) {
    size_t begin = atomic_fetch_add(&r->next, r->chunk);
    if (begin >= r->n_batch) break;
    size_t end = begin + r->chunk < r->n_batch ? begin + r->chunk : r->n_batch;
    size_t n = work_chunk(w, begin, end, space, scratch);
    size_t done = atomic_fetch_add(&r->done, n) + n;
    if (w->reports && p->progress && p->progress(p->progress_context, done, r->plan->n_draw))
      atomic_store(&r->stop, 1);
  }
  if (p->workspace_free && space) p->workspace_free(space);
  free(scratch);
  return NULL;
}

typedef struct kind_of_draw {
  uint64_t kind;
  size_t draw;
} kind_of_draw;

static int by_kind(const void *a, const void *b)
{
  const kind_of_draw *x = a, *y = b;
  return x->kind != y->kind ? (x->kind > y->kind) - (x->kind < y->kind)
                            : (x->draw > y->draw) - (x->draw < y->draw);
}

/* Puts the draws of a kind side by side, the kinds in their order, each cut into batches. */
static pw_status make_batches(run *r, pw_err *err)
{
  const pw_range_plan *p = r->plan;
  const size_t n = r->plan->n_draw;
  double *u = malloc(4 * p->n_dim * sizeof *u);
  kind_of_draw *of = malloc(n * sizeof *of);
  r->order = malloc(n * sizeof *r->order);
  r->batch = malloc(n * sizeof *r->batch);
  pw_status s = PW_OK;
  if (!u || !of || !r->order || !r->batch)
    s = pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n);
  for (size_t i = 0; s == PW_OK && i < n; i++) {
    inputs(r, i, u, u + 2 * p->n_dim);
    of[i] = (kind_of_draw){p->kind ? p->kind(p->context, u + 2 * p->n_dim) : 0, i};
  }
  if (s == PW_OK) qsort(of, n, sizeof *of, by_kind);
  r->n_batch = 0;
  for (size_t i = 0; s == PW_OK && i < n; i++) {
    int fits = i > 0 && of[i].kind == of[i - 1].kind && r->batch[r->n_batch - 1].n < p->beside;
    if (!fits) r->batch[r->n_batch++] = (batch){i, 0};
    r->batch[r->n_batch - 1].n++;
    r->order[i] = of[i].draw;
  }
  free(u);
  free(of);
  return s;
}

/* Starts the other threads, works along, waits for them; the lowest failure is the run's. */
static pw_status work_all(run *r, pw_err *err)
{
  size_t n = r->plan->n_thread > 1 ? (size_t)r->plan->n_thread : 1;
  worker *w = calloc(n, sizeof *w);
  if (!w) return pw_fail(err, PW_E_NOMEM, "n_thread", "no memory for %zu threads", n);
  for (size_t i = 0; i < n; i++) {
    w[i].shared = r;
    w[i].bad = r->plan->n_draw;
    /* Where a thread cannot be had, the others do its share. */
    if (i > 0) w[i].started = pthread_create(&w[i].thread, NULL, work, &w[i]) == 0;
  }
  w[0].reports = 1;
  work(&w[0]);
  size_t worst = 0;
  for (size_t i = 1; i < n; i++) {
    if (w[i].started) pthread_join(w[i].thread, NULL);
    if (w[i].bad < w[worst].bad) worst = i;
  }
  pw_status s = w[worst].status;
  if (s != PW_OK && err) *err = w[worst].err;
  free(w);
  return s;
}

static pw_status check(const pw_range_plan *p, pw_err *err)
{
  if (!p->model == !p->many) return pw_fail(err, PW_E_SHAPE, "model", "want one");
  if (p->many && !(p->beside >= 1 && p->beside <= PW_BESIDE_MAX))
    return pw_fail(err, PW_E_SHAPE, "beside", "%zu, want 1 to %d", p->beside, PW_BESIDE_MAX);
  if (!(p->n_out >= 1 && p->n_out <= 100000))
    return pw_fail(err, PW_E_SHAPE, "n_out", "%zu, want 1 to 100000", p->n_out);
  if (!(p->n_draw >= (p->point ? 1 : 2) && p->n_draw <= (size_t)1 << PW_SOBOL_BITS_MAX))
    return pw_fail(err, PW_E_SHAPE, "draws", "%zu, want 2 to %d", p->n_draw,
                   1 << PW_SOBOL_BITS_MAX);
  if (!(p->n_thread >= 0 && p->n_thread <= PW_THREADS_MAX))
    return pw_fail(err, PW_E_SHAPE, "threads", "%d, want 1 to %d", p->n_thread, PW_THREADS_MAX);
  return PW_OK;
}

void pw_range_shares(const pw_range_result *r, size_t p, size_t n, pw_sensitivity share[])
{
  const double *a = r->y + p, *b = a + n, *ab = b + n;
  for (size_t k = 0; k < r->n_dim; k++)
    if (pw_sensitivity_of(a, b, ab + k * n, r->n_out, r->n_draw, &share[k], NULL) != PW_OK)
      share[k] = (pw_sensitivity){(double)NAN, (double)NAN};
}

pw_status pw_range_run(const pw_range_plan *plan, pw_range_result *result, pw_err *err)
{
  pw_status s = check(plan, err);
  if (s != PW_OK) return s;
  pw_sobol sobol;
  s = pw_sobol_init(&sobol, plan->n_dim * 2, plan->n_draw, plan->seed, err);
  if (s != PW_OK) return s;

  run r = {.plan = plan, .sobol = &sobol};
  r.n_batch = plan->n_draw;
  if (plan->many) s = make_batches(&r, err);
  size_t share = r.n_batch / (64 * (size_t)(plan->n_thread > 1 ? plan->n_thread : 1));
  r.chunk = share < 1 ? 1 : share > 64 ? 64 : share;
  atomic_init(&r.first_bad, plan->n_draw);
  pw_range_result out = {plan->n_draw, plan->n_out, plan->n_dim, NULL, 0};
  out.y = r.y = calloc(plan->n_draw * plan->n_out, sizeof *r.y);
  if (s == PW_OK && !out.y)
    s = pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu runs", plan->n_draw);
  if (s == PW_OK) s = work_all(&r, err);
  free(r.order);
  free(r.batch);
  out.stopped = s == PW_OK && atomic_load(&r.stop) && atomic_load(&r.done) < plan->n_draw;
  if (s == PW_OK && out.stopped) {
    pw_range_free(&out);
    out.stopped = 1;
  }
  if (s == PW_OK)
    *result = out;
  else
    pw_range_free(&out);
  return s;
}

void pw_range_free(pw_range_result *result)
{
  if (!result) return;
  free(result->y);
  *result = (pw_range_result){0};
}
