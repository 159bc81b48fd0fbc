#include "house/wall.h"

#include <gsl/gsl_eigen.h>
#include <math.h>
#include <string.h>

#define LANES 1 /* one wall by the year's own steps */
#include "base/gsl_quiet.h"
#include "base/own_math.h"
#include "house/lane_wall.h"
#include "panewright/units.h"

/* The chain of cells: heat capacity of each and the resistance before each one; the last entry of
 * r is what lies behind the last cell. */
typedef struct chain {
  size_t n;
  double c[PW_CELLS_MAX]; /* J/(m2 K) */
  double r[PW_CELLS_MAX + 1];
} chain;

static pw_status check_layer(const pw_wall_layer *l, pw_err *err)
{
  if (l->thickness == 0.0) {
    if (!(l->resistance > 0.0 && l->resistance < 1000.0))
      return pw_fail(err, PW_E_DOMAIN, "resistance",
                     "resistance %g m2K/W of a layer without thickness, want above 0 to 1000",
                     l->resistance);
    return PW_OK;
  }
  if (!(l->thickness > 0.0 && l->thickness <= 5.0))
    return pw_fail(err, PW_E_DOMAIN, "thickness", "layer %g m thick, want above 0 to 5",
                   l->thickness);
  if (!(l->conductivity > 0.0 && l->conductivity < 500.0))
    return pw_fail(err, PW_E_DOMAIN, "conductivity", "%g W/mK, want above 0 to 500",
                   l->conductivity);
  if (!(l->density >= 0.0 && l->density < 25000.0))
    return pw_fail(err, PW_E_DOMAIN, "density", "%g kg/m3, want 0 to 25000", l->density);
  if (!(l->heat >= 0.0 && l->heat < 10000.0))
    return pw_fail(err, PW_E_DOMAIN, "heat", "%g J/kgK, want 0 to 10000", l->heat);
  return PW_OK;
}

static size_t cells_of(const pw_wall_layer *l)
{
  double a = l->conductivity / (l->density * l->heat);
  double width = 0.5 * sqrt(a * 3600.0 / PW_PI);
  double n = ceil(l->thickness / width);
  return n < 2.0 ? 2 : n > 12.0 ? 12 : (size_t)n;
}

static pw_status cut(const pw_wall_layers *layers, chain *ch, pw_err *err)
{
  *ch = (chain){0};
  double before = 0.0;
  for (size_t i = 0; i < layers->n_layer; i++) {
    const pw_wall_layer *l = &layers->layer[i];
    pw_status s = check_layer(l, err);
    if (s != PW_OK) return s;
    if (l->thickness == 0.0) {
      before += l->resistance;
      continue;
    }
    if (!(l->density * l->heat > 0.0)) {
      before += l->thickness / l->conductivity;
      continue;
    }
    size_t n = cells_of(l);
    if (ch->n + n > PW_CELLS_MAX) n = PW_CELLS_MAX - ch->n;
    if (n == 0)
      return pw_fail(err, PW_E_SHAPE, "n_layer", "layers need more than %d cells",
                     PW_CELLS_MAX);
    double dx = l->thickness / (double)n, half = 0.5 * dx / l->conductivity;
    for (size_t k = 0; k < n; k++) {
      ch->c[ch->n] = l->density * l->heat * dx;
      ch->r[ch->n] = before + half;
      before = half;
      ch->n++;
    }
  }
  ch->r[ch->n] = before;
  return PW_OK;
}

/* What one mode of decay rate lambda adds; b couples it to the two sides. With z' = -lambda z +
 * b (mean + rise (time / step - 1/2)) over a step, x = lambda step, f = (1 - exp(-x)) / x:
 *   end of step   exp(-x) z + b/lambda [(1 - exp(-x)) mean + (1 - (1 - exp(-x)) (1/x + 1/2)) rise]
 *   mean of z     f z + b/lambda [(1 - f) mean + (1/2 - (1 - f) (1/x + 1/2)) rise] */
static void add_mode(pw_wall *w, double least, double lambda, const double b[2], size_t *kept)
{
  double x = lambda * w->step, gone = -pw_expm1(-x), lead = 1.0 / x + 0.5;
  /* Heat a quick mode takes up when a side warms by 1 K a step, W/m2: films carry thousands of
   * times as much. */
  double stored = (b[0] * b[0] + b[1] * b[1]) / (lambda * (lambda * least));
  int keeps = stored > 2e-3 && *kept < PW_MODES_MAX;
  double f = keeps ? gone / x : 0.0;
  double rise = keeps ? 0.5 - (1.0 - f) * lead : 0.0;
  for (int i = 0; i < 2; i++)
    for (int j = 0; j < 2; j++) {
      double bb = b[i] * b[j] / lambda;
      w->direct[i][j] -= bb * (1.0 - f + rise);
      w->past[i][j] += bb * rise;
    }
  if (!keeps) return;
  size_t k = (*kept)++;
  w->keep[k] = pw_exp(-x);
  w->content[k] = (b[0] + b[1]) / lambda;
  for (int i = 0; i < 2; i++) {
    double end = (1.0 - gone * lead) * b[i] / lambda;
    w->drive[i][k] = gone * b[i] / lambda + end;
    w->drive_past[i][k] = -end;
    w->recall[i][k] = -b[i] * f;
  }
}

/* Scaled modes z of the cells: t = C^-1/2 V z, z' = -lambda z + b . t_surface. */
static pw_status modes(const chain *ch, double least, pw_wall *w, pw_err *err)
{
  size_t n = ch->n;
  gsl_error_handler_t *held = pw_gsl_hold();
  gsl_matrix *m = gsl_matrix_calloc(n, n), *v = gsl_matrix_alloc(n, n);
  gsl_vector *lambda = gsl_vector_alloc(n);
  gsl_eigen_symmv_workspace *work = gsl_eigen_symmv_alloc(n);
  pw_status status = PW_OK;
  if (!m || !v || !lambda || !work) {
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the modes of a wall");
  } else {
    for (size_t i = 0; i < n; i++) {
      gsl_matrix_set(m, i, i, (1.0 / ch->r[i] + 1.0 / ch->r[i + 1]) / ch->c[i]);
      if (i + 1 < n) {
        double off = -1.0 / ch->r[i + 1] / sqrt(ch->c[i] * ch->c[i + 1]);
        gsl_matrix_set(m, i, i + 1, off);
        gsl_matrix_set(m, i + 1, i, off);
      }
    }
    if (gsl_eigen_symmv(m, lambda, v, work) != 0 ||
        gsl_eigen_symmv_sort(lambda, v, GSL_EIGEN_SORT_VAL_ASC) != 0)
      status = pw_fail(err, PW_E_CONVERGE, NULL, "modes of a wall not found");
  }
  if (status == PW_OK) {
    w->direct[0][0] = 1.0 / ch->r[0];
    w->direct[1][1] = 1.0 / ch->r[n];
    for (size_t k = 0; k < n; k++) {
      double b[2] = {gsl_matrix_get(v, 0, k) / sqrt(ch->c[0]) / ch->r[0],
                     gsl_matrix_get(v, n - 1, k) / sqrt(ch->c[n - 1]) / ch->r[n]};
      add_mode(w, least, gsl_vector_get(lambda, k), b, &w->n_mode);
    }
  }
  gsl_matrix_free(m);
  gsl_matrix_free(v);
  gsl_vector_free(lambda);
  gsl_eigen_symmv_free(work);
  pw_gsl_release(held);
  return status;
}

pw_status pw_wall_init(const pw_wall_layers *layers, double step, pw_wall *wall, pw_err *err)
{
  return pw_wall_init_cut(layers, step, step, wall, err);
}

pw_status pw_wall_init_cut(const pw_wall_layers *layers, double step, double least,
                           pw_wall *wall, pw_err *err)
{
  if (!(layers->n_layer >= 1 && layers->n_layer <= PW_LAYERS_MAX))
    return pw_fail(err, PW_E_SHAPE, "n_layer", "%zu layers, want 1 to %d", layers->n_layer,
                   PW_LAYERS_MAX);
  if (!(step > 0.0 && step <= 86400.0))
    return pw_fail(err, PW_E_DOMAIN, "step", "%g s, want above 0 to 86400", step);
  if (!(least > 0.0 && least <= step))
    return pw_fail(err, PW_E_DOMAIN, "least", "%g s, want above 0 to the step", least);
  chain ch;
  pw_status s = cut(layers, &ch, err);
  if (s != PW_OK) return s;
  pw_wall w = {.step = step, .n_cell = ch.n};
  double r = 0.0;
  for (size_t i = 0; i <= ch.n; i++)
    r += ch.r[i];
  for (size_t i = 0; i < ch.n; i++)
    w.store += ch.c[i];
  w.u = 1.0 / r;
  if (ch.n == 0) {
    w.direct[0][0] = w.direct[1][1] = w.u;
    w.direct[0][1] = w.direct[1][0] = -w.u;
  } else {
    s = modes(&ch, least, &w, err);
    if (s != PW_OK) return s;
  }
  *wall = w;
  return PW_OK;
}

double pw_wall_layer_resistance(const pw_wall_layer *l)
{
  return l->thickness > 0.0 ? l->thickness / l->conductivity : l->resistance;
}

double pw_wall_resistance(const pw_wall_layers *layers)
{
  double r = 0.0;
  for (size_t i = 0; i < layers->n_layer; i++)
    r += pw_wall_layer_resistance(&layers->layer[i]);
  return r;
}

void pw_wall_steady(const pw_wall *wall, const double t_surface[2], double state[])
{
  for (size_t k = 0; k < wall->n_mode; k++)
    state[k] = ((wall->drive[0][k] + wall->drive_past[0][k]) * t_surface[0] +
                (wall->drive[1][k] + wall->drive_past[1][k]) * t_surface[1]) /
               (1.0 - wall->keep[k]);
}

/* Puts a wall into one lane, its values as the faces of the step before leave them. */
static void take_state(lane_wall *to, const pw_wall *wall, const double state[],
                       const double before[2], double value[])
{
  lane_put_wall(to, 0, wall);
  for (size_t k = 0; k < wall->n_mode; k++)
    value[k] = state[k] - lane_leads(to, k, before);
}

void pw_wall_recall(const pw_wall *wall, const double state[], const double before[2],
                    double flux[2])
{
  lane_wall one;
  double value[PW_MODES_MAX];
  take_state(&one, wall, state, before, value);
  lane_recall(&one, wall->n_mode, before, value, flux);
}

void pw_wall_step(const pw_wall *wall, const double before[2], const double now[2],
                  double state[])
{
  lane_wall one;
  double value[PW_MODES_MAX], flux[2];
  take_state(&one, wall, state, before, value);
  lane_recall(&one, wall->n_mode, before, value, flux);
  for (size_t k = 0; k < wall->n_mode; k++)
    state[k] = value[k] + lane_leads(&one, k, now);
}
