#include "meter/change_point.h"

#include <math.h>
#include <string.h>

#include "change_impl.h"
#include "limits.h"
#include "meter/least_squares.h"

static const double EDGE = 1e-3; /* K from an end of the daily means */

/* Packs the bills in use into the working space. */
static void look(const pw_change_data *d, const unsigned char leave_out[], change_view *v)
{
  double days = 0.0;
  *v = (change_view){.data = d, .index = d->index, .low = INFINITY, .high = -INFINITY};
  double *room = d->room;
  for (size_t i = 0; i < d->n; i++) {
    if (leave_out && leave_out[i]) continue;
    d->index[v->n++] = i;
    days += d->days[i];
    v->low = fmin(v->low, d->sorted[d->start[i]]);
    v->high = fmax(v->high, d->sorted[d->start[i + 1] - 1]);
  }
  double **part[] = {&v->w, &v->root, &v->y, &v->one, &v->two, &v->residual};
  for (size_t k = 0; k < sizeof part / sizeof part[0]; k++, room += d->n)
    *part[k] = room;
  v->x = room;
  v->z = room + d->n * d->n_grid;
  for (size_t k = 0; k < v->n; k++) {
    v->w[k] = d->days[v->index[k]] * (double)v->n / days;
    v->root[k] = sqrt(v->w[k]);
    v->mean += v->w[k] * d->per_day[v->index[k]];
  }
  if (v->n == 0) return;
  v->mean /= (double)v->n;
  for (size_t k = 0; k < v->n; k++) {
    v->y[k] = v->root[k] * (d->per_day[v->index[k]] - v->mean);
    v->sst += v->y[k] * v->y[k];
  }
}

static void pack(change_view *v, const double *table, double *to)
{
  for (size_t g = v->first; g <= v->last; g++) {
    double mean = 0.0;
    for (size_t k = 0; k < v->n; k++)
      mean += v->w[k] * table[g * v->data->n + v->index[k]];
    mean /= (double)v->n;
    for (size_t k = 0; k < v->n; k++)
      to[g * v->n + k] = v->root[k] * (table[g * v->data->n + v->index[k]] - mean);
  }
}

/* Grid columns of the bills in use; the grid point just below and above their daily means are in. */
static void pack_grid(change_view *v, pw_change_model model)
{
  const pw_change_data *d = v->data;
  v->first = (size_t)((v->low - d->low) / d->step);
  v->last = (size_t)ceil((v->high - d->low) / d->step);
  if (model == PW_CHANGE_BASE) return;
  if (model != PW_CHANGE_C) pack(v, d->h, v->x);
  if (model != PW_CHANGE_H) pack(v, d->c, v->z);
}

static size_t parameters(pw_change_model model, int meet)
{
  static const size_t p[PW_CHANGE_COUNT] = {1, 3, 3, 5, 4};
  return model == PW_CHANGE_HC && meet ? 4 : p[model];
}

enum { BASE, SLOPE_H, SLOPE_C, BALANCE_H, BALANCE_C };

/* The linear fit with the balance points held: coefficients, SSE, t. */
static pw_status linear(const change_view *v, pw_change_fit *f, double e[], pw_err *err)
{
  size_t p = 1, column_of[2] = {0, 0};
  for (int side = 0; side < 2; side++)
    if (!isnan(f->balance[side])) column_of[side] = p++;
  /* The packed grid is done with: its room takes the rows. */
  double *wide = v->x, *y = v->z;
  for (size_t k = 0; k < v->n; k++) {
    wide[k * p] = 1.0;
    y[k] = v->data->per_day[v->index[k]];
    if (column_of[0])
      wide[k * p + column_of[0]] = pw_change_heating(v->data, v->index[k], f->balance[0], NULL);
    if (column_of[1])
      wide[k * p + column_of[1]] = pw_change_cooling(v->data, v->index[k], f->balance[1], NULL);
  }
  pw_least_squares fit;
  pw_status status = pw_least_squares_fit(wide, y, v->w, v->n, p, &fit, err);
  if (status != PW_OK) return status;
  f->base = fit.coefficient[0];
  f->sse = fit.sse;
  f->s = sqrt(fit.sse / (double)(f->n - f->p));
  for (int side = 0; side < 2; side++) {
    size_t c = column_of[side];
    f->slope[side] = c ? fit.coefficient[c] : 0.0;
    const double doubt = c ? f->s * sqrt(fit.inverse[c * p + c]) : 0.0;
    f->t[side] = doubt > 0.0             ? f->slope[side] / doubt
                 : f->slope[side] != 0.0 ? copysign(INFINITY, f->slope[side])
                                         : (double)NAN;
  }
  for (size_t k = 0; k < v->n; k++) {
    e[k] = y[k];
    for (size_t c = 0; c < p; c++)
      e[k] -= wide[k * p + c] * fit.coefficient[c];
  }
  return PW_OK;
}

static void statistics(const change_view *v, const double e[], pw_change_fit *f)
{
  double n = (double)f->n, p = (double)f->p, bias = 0.0, mean = 0.0, own = 0.0, next = 0.0;
  for (size_t k = 0; k < v->n; k++) {
    bias += v->w[k] * e[k];
    mean += e[k] / n;
  }
  for (size_t k = 0; k < v->n; k++) {
    own += (e[k] - mean) * (e[k] - mean);
    if (k > 0) next += (e[k] - mean) * (e[k - 1] - mean);
  }
  f->mean = v->mean;
  f->sst = v->sst;
  f->r2 = v->sst > 0.0 ? 1.0 - f->sse / v->sst : 0.0;
  if (f->model == PW_CHANGE_BASE) f->r2 = 0.0;
  f->r2_adjusted = 1.0 - (1.0 - f->r2) * (n - 1.0) / (n - p);
  f->cv = f->s / v->mean;
  f->nmbe = bias / ((n - p) * v->mean);
  f->rho = own > 0.0 ? next / own : 0.0;
  /* An exact fit has no logarithm: rounding of the figures is the floor. */
  double floor = 1e-18 * v->mean * v->mean * n;
  f->bic = n * log(fmax(f->sse, floor) / n) + p * log(n);
}

/* Covariance s^2 (J' W J)^-1 spread over the five parameters. */
static pw_status covariance(const change_view *v, pw_change_fit *f, int meet, pw_err *err)
{
  size_t place[PW_CHANGE_PARAMETERS] = {BASE}, p = 1;
  double *jacobian = v->x, *y = v->z;
  for (int side = 0; side < 2; side++)
    if (!isnan(f->balance[side])) place[p++] = side ? SLOPE_C : SLOPE_H;
  for (int side = 0; side < 2; side++)
    if (!isnan(f->balance[side]) && !(meet && side)) place[p++] = side ? BALANCE_C : BALANCE_H;
  for (size_t k = 0; k < v->n; k++) {
    double below = 0.0, above = 0.0, column[PW_CHANGE_PARAMETERS] = {1.0};
    size_t i = v->index[k];
    if (!isnan(f->balance[0]))
      column[SLOPE_H] = pw_change_heating(v->data, i, f->balance[0], &below);
    if (!isnan(f->balance[1]))
      column[SLOPE_C] = pw_change_cooling(v->data, i, f->balance[1], &above);
    column[BALANCE_H] = f->slope[0] * below;
    column[BALANCE_C] = -f->slope[1] * above;
    if (meet) column[BALANCE_H] += column[BALANCE_C];
    for (size_t c = 0; c < p; c++)
      jacobian[k * p + c] = column[place[c]];
    y[k] = 0.0;
  }
  pw_least_squares fit;
  pw_status status = pw_least_squares_fit(jacobian, y, v->w, v->n, p, &fit, err);
  if (status != PW_OK) return status;
  double *cov = f->covariance;
  for (size_t a = 0; a < p; a++)
    for (size_t b = 0; b < p; b++)
      cov[place[a] * PW_CHANGE_PARAMETERS + place[b]] = f->s * f->s * fit.inverse[a * p + b];
  if (!meet) return PW_OK;
  for (size_t a = 0; a < PW_CHANGE_PARAMETERS; a++)
    cov[BALANCE_C * PW_CHANGE_PARAMETERS + a] = cov[BALANCE_H * PW_CHANGE_PARAMETERS + a];
  for (size_t a = 0; a < PW_CHANGE_PARAMETERS; a++)
    cov[a * PW_CHANGE_PARAMETERS + BALANCE_C] = cov[a * PW_CHANGE_PARAMETERS + BALANCE_H];
  return PW_OK;
}

static unsigned doubts(const change_view *v, const pw_change_fit *f)
{
  unsigned doubt = 0;
  for (unsigned side = 0; side < 2; side++) {
    double t = f->balance[side], days = 0.0, degree_days = 0.0, all = 0.0;
    if (isnan(t)) continue;
    for (size_t k = 0; k < v->n; k++) {
      double share, of = v->data->days[v->index[k]];
      degree_days += of * (side ? pw_change_cooling(v->data, v->index[k], t, &share)
                                : pw_change_heating(v->data, v->index[k], t, &share));
      days += of * share;
      all += of;
    }
    if (t <= v->low + EDGE || t >= v->high - EDGE) doubt |= (unsigned)PW_CHANGE_EDGE << side;
    if (!(f->slope[side] > 0.0)) doubt |= (unsigned)PW_CHANGE_SIGN << side;
    if (!(fabs(f->t[side]) >= METER_LIMIT(least_t))) doubt |= (unsigned)PW_CHANGE_WEAK << side;
    if (days * 365.0 < METER_LIMIT(least_days) * all ||
        degree_days * 365.0 < METER_LIMIT(least_degree_days) * all)
      doubt |= (unsigned)PW_CHANGE_FEW_DAYS << side;
  }
  return doubt;
}

pw_status pw_change_point_fit(const pw_change_data *data, const unsigned char leave_out[],
                              pw_change_model model, pw_change_fit *fit, pw_err *err)
{
  change_view v;
  look(data, leave_out, &v);
  if ((unsigned)model >= PW_CHANGE_COUNT)
    return pw_fail(err, PW_E_DOMAIN, "model", "%d is no model", (int)model);
  if (v.n <= parameters(model, 0))
    return pw_fail(err, PW_E_SHAPE, "n", "%zu bills, want more than the %zu parameters", v.n,
                   parameters(model, 0));
  pw_change_fit f = {.model = model, .n = v.n};
  pack_grid(&v, model);
  int meet = change_search(&v, model, f.balance);
  f.p = parameters(model, meet);
  double *e = v.residual;
  pw_status status = linear(&v, &f, e, err);
  if (status != PW_OK) return status;
  statistics(&v, e, &f);
  status = covariance(&v, &f, meet, err);
  if (status != PW_OK) return status;
  f.doubt = doubts(&v, &f);
  *fit = f;
  return PW_OK;
}

pw_status pw_change_point_choose(const pw_change_data *data, const unsigned char leave_out[],
                                 int may_cool, pw_change_fit *best, pw_change_fit tried[4],
                                 pw_err *err)
{
  pw_change_fit base, one;
  pw_status status = pw_change_point_fit(data, leave_out, PW_CHANGE_BASE, &base, err);
  if (status != PW_OK) return status;
  if (tried) memset(tried, 0, 4 * sizeof *tried);
  if (tried) tried[0] = base;
  for (int m = PW_CHANGE_H; m <= (may_cool ? PW_CHANGE_HC : PW_CHANGE_H); m++) {
    status = pw_change_point_fit(data, leave_out, (pw_change_model)m, &one, err);
    if (status == PW_E_SHAPE) continue; /* too few bills for this one */
    if (status != PW_OK) return status;
    if (tried) tried[m] = one;
    if (!one.doubt && one.bic < base.bic) base = one;
  }
  *best = base;
  return PW_OK;
}

double pw_change_point_at(const pw_change_fit *fit, const pw_change_data *data, size_t i)
{
  double y = fit->base;
  if (!isnan(fit->balance[0]))
    y += fit->slope[0] * pw_change_heating(data, i, fit->balance[0], NULL);
  if (!isnan(fit->balance[1]))
    y += fit->slope[1] * pw_change_cooling(data, i, fit->balance[1], NULL);
  return y;
}

const char *pw_change_model_name(pw_change_model model)
{
  static const char *const name[PW_CHANGE_COUNT] = {"base", "H", "C", "HC", "HC"};
  return (unsigned)model < PW_CHANGE_COUNT ? name[model] : "?";
}
