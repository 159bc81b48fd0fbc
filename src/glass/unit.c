#include "panewright/unit.h"

#include <math.h>

#include "glass/cavity.h"
#include "glass/unit_check.h"
#include "panewright/units.h"

/* NFRC 100 and 200 conditions: 21 / -18 C, 5.5 m/s; 24 / 32 C, 2.75 m/s, 783 W/m2
 * (reference/glazing/constants.csv, read there but for the 783). */
const pw_env pw_env_winter = {.t_out = 255.15, .t_in = 294.15, .wind = 5.5};
const pw_env pw_env_summer = {.t_out = 305.15, .t_in = 297.15, .wind = 2.75, .sun = 783.0};

enum { SURFACES = 2 * PW_PANES_MAX, STEPS_MAX = 100 };
static const double closed = 1e-9; /* W/m2, imbalance at which a balance counts as closed */

/* Everything of one balance that does not change while it is solved. Link s joins surface s - 1 to
 * surface s, so link 0 is the outdoor film and link n the indoor film. */
typedef struct balance {
  size_t n; /* surfaces */
  gas_law room;
  cavity gap[PW_PANES_MAX - 1];
  double glass[PW_PANES_MAX];  /* W/(m2 K), face to face */
  double source[PW_PANES_MAX]; /* W/m2 on each face of the pane */
  double t_out, t_in, t_rad_out, t_rad_in;
  double h_c_out, h_c_in;             /* h_c_in 0: natural */
  double radiation_out, radiation_in; /* sigma times emissivity */
  double height, pressure;
} balance;

typedef struct state {
  double t[SURFACES];
  heat_flow link[SURFACES + 1];
  double imbalance[SURFACES];
  double worst; /* largest of them, W/m2 */
} state;

double pw_pane_conductivity(const pw_pane *pane)
{
  return pane->conductivity > 0.0 ? pane->conductivity : 1.0; /* soda-lime glass */
}

double pw_pane_emissivity(const pw_pane *pane, int side)
{
  return pane->emit[side] > 0.0 ? pane->emit[side] : PW_BARE_GLASS;
}

static pw_status balance_set(balance *b, const pw_unit *unit, const pw_env *env,
                             const double absorbed[], pw_err *err)
{
  static const pw_mix air = {{0}};
  size_t n = unit->n_pane;
  b->n = 2 * n;
  b->height = unit->height > 0.0 ? unit->height : 1.0;
  b->pressure = env->pressure > 0.0 ? env->pressure : 101325.0;
  pw_status s = gas_law_set(&air, &b->room, err);
  for (size_t i = 0; i < n && s == PW_OK; i++) {
    const pw_pane *pane = &unit->pane[i];
    b->glass[i] = pw_pane_conductivity(pane) / pane->thickness;
    b->source[i] = absorbed ? 0.5 * absorbed[i] * env->sun : 0.0; /* half on each face */
    if (i > 0)
      s = cavity_set(&b->gap[i - 1], &unit->gap[i - 1], b->height, b->pressure,
                     pw_pane_emissivity(&unit->pane[i - 1], 1), pw_pane_emissivity(pane, 0),
                     err);
  }
  b->t_out = env->t_out;
  b->t_in = env->t_in;
  b->t_rad_out = env->t_rad_out > 0.0 ? env->t_rad_out : env->t_out;
  b->t_rad_in = env->t_rad_in > 0.0 ? env->t_rad_in : env->t_in;
  b->h_c_out = env->h_c_out > 0.0 ? env->h_c_out : 4.0 + 4.0 * env->wind; /* ISO 15099 cl. 8 */
  b->h_c_in = env->h_c_in;
  b->radiation_out = PW_SIGMA * pw_pane_emissivity(&unit->pane[0], 0);
  b->radiation_in = PW_SIGMA * pw_pane_emissivity(&unit->pane[n - 1], 1);
  return s;
}

static double fourth(double t) { return t * t * t * t; }

/* The films: ISO 15099 cl. 8 (from memory), convection to the air and radiation to black surroundings. */
static void films_flow(const balance *b, state *x)
{
  double t = x->t[0];
  heat_flow *out = &x->link[0], *in = &x->link[b->n];
  out->h_conv = b->h_c_out;
  out->q = b->h_c_out * (t - b->t_out) + b->radiation_out * (fourth(t) - fourth(b->t_rad_out));
  out->by_in = b->h_c_out + 4.0 * b->radiation_out * t * t * t;
  t = x->t[b->n - 1];
  if (b->h_c_in > 0.0) {
    in->h_conv = in->by_out = b->h_c_in;
    in->q = b->h_c_in * (b->t_in - t);
  } else {
    indoor_film_flow(&b->room, b->height, b->pressure, t, b->t_in, in);
  }
  in->q += b->radiation_in * (fourth(b->t_rad_in) - fourth(t));
  in->by_out += 4.0 * b->radiation_in * t * t * t;
}

static void flow_at(const balance *b, state *x)
{
  films_flow(b, x);
  for (size_t s = 1; s < b->n; s++) {
    heat_flow *link = &x->link[s];
    if (s % 2 == 0) {
      cavity_flow(&b->gap[s / 2 - 1], x->t[s - 1], x->t[s], link);
    } else {
      link->by_in = link->by_out = b->glass[s / 2];
      link->q = link->by_in * (x->t[s] - x->t[s - 1]);
    }
  }
  x->worst = 0.0;
  for (size_t s = 0; s < b->n; s++) {
    x->imbalance[s] = x->link[s + 1].q - x->link[s].q + b->source[s / 2];
    double size = fabs(x->imbalance[s]);
    if (!(size <= x->worst)) x->worst = size; /* a NaN stays visible */
  }
}

/* The Newton step: a tridiagonal system with dominant diagonal, solved without pivoting. */
static void newton_step(const balance *b, const state *x, double step[])
{
  double upper[SURFACES];
  for (size_t s = 0; s < b->n; s++) {
    double lower = s > 0 ? x->link[s].by_out : 0.0;
    double pivot =
        x->link[s].by_in + x->link[s + 1].by_out - (s > 0 ? lower * upper[s - 1] : 0.0);
    double inverse = 1.0 / pivot;
    upper[s] = x->link[s + 1].by_in * inverse;
    step[s] = (x->imbalance[s] + (s > 0 ? lower * step[s - 1] : 0.0)) * inverse;
  }
  for (size_t s = b->n; s > 1; s--)
    step[s - 2] += upper[s - 2] * step[s - 1];
}

/* Temperatures in proportion to usual resistances. */
static void first_guess(const balance *b, state *x)
{
  static const double out = 0.035, pane = 0.003, gap = 0.19, in = 0.125; /* m2 K/W */
  double n = (double)(b->n / 2), part = out;
  double total = out + in + n * pane + (n - 1.0) * gap;
  for (size_t s = 0; s < b->n; s++) {
    x->t[s] = b->t_out + (b->t_in - b->t_out) * part / total;
    part += s % 2 == 0 ? pane : gap;
  }
}

/* Newton with halved steps. All flows rise with the temperature difference that drives them, so
 * there is one solution, and a short enough step along Newton's direction always comes nearer. */
static pw_status balance_solve(const balance *b, state *x, int *iterations, pw_err *err)
{
  double step[SURFACES] = {0}, start[SURFACES] = {0}, share = 1.0, last = INFINITY;
  int n = 0;
  for (flow_at(b, x); !(x->worst <= closed); flow_at(b, x), n++) {
    if (n == STEPS_MAX)
      return pw_fail(err, PW_E_CONVERGE, "balance", "%g W/m2 left after %d steps, want %g",
                     x->worst, n, closed);
    if (!(x->worst < last) && share > 1.0 / 64.0) {
      share *= 0.5;
    } else {
      share = 1.0;
      last = x->worst;
      newton_step(b, x, step);
      double longest = 0.0;
      for (size_t s = 0; s < b->n; s++) {
        start[s] = x->t[s];
        longest = fmax(longest, fabs(step[s]));
      }
      if (longest > 60.0) share = 60.0 / longest;
    }
    for (size_t s = 0; s < b->n; s++)
      x->t[s] = start[s] + share * step[s];
  }
  *iterations = n;
  return PW_OK;
}

static void report(const balance *b, const state *x, int iterations, pw_unit_result *r)
{
  double t_face = x->t[0], t_back = x->t[b->n - 1];
  *r = (pw_unit_result){.u = NAN, .iterations = iterations, .residual = x->worst};
  r->q_out = x->link[0].q;
  r->q_in = x->link[b->n].q;
  for (size_t s = 0; s < b->n; s++)
    r->t[s] = x->t[s];
  for (size_t g = 0; g + 1 < b->n / 2; g++) {
    const heat_flow *link = &x->link[2 * g + 2];
    double a = x->t[2 * g + 1], c = x->t[2 * g + 2];
    double h_rad = b->gap[g].radiation * (a * a + c * c) * (a + c);
    r->gap[g] = (pw_gap_result){link->nusselt, link->h_conv, h_rad, link->h_conv + h_rad};
  }
  r->h_c_out = b->h_c_out;
  r->h_c_in = x->link[b->n].h_conv;
  r->h_r_out = b->radiation_out * (t_face * t_face + b->t_rad_out * b->t_rad_out) *
               (t_face + b->t_rad_out);
  r->h_r_in =
      b->radiation_in * (t_back * t_back + b->t_rad_in * b->t_rad_in) * (t_back + b->t_rad_in);
}

/* One balance, with its sun when the shares are given; u of the dark one. */
static pw_status solve_once(const pw_unit *unit, const pw_env *env, const double absorbed[],
                            pw_unit_result *result, pw_err *err)
{
  balance b;
  state x;
  int iterations = 0;
  pw_status s = balance_set(&b, unit, env, absorbed, err);
  if (s != PW_OK) return s;
  first_guess(&b, &x);
  s = balance_solve(&b, &x, &iterations, err);
  if (s == PW_OK) report(&b, &x, iterations, result);
  return s;
}

pw_status pw_unit_balance(const pw_unit *unit, const pw_env *env, const double absorbed[],
                          pw_unit_result *result, pw_err *err)
{
  pw_status s = unit_check(unit, err);
  if (s == PW_OK) s = env_check(env, err);
  if (s == PW_OK && absorbed) s = absorbed_check(unit->n_pane, absorbed, err);
  if (s == PW_OK) s = solve_once(unit, env, absorbed, result, err);
  return s;
}

pw_status pw_unit_solve(const pw_unit *unit, const pw_env *env, const double absorbed[],
                        pw_unit_result *result, pw_err *err)
{
  pw_unit_result sunny, dark;
  pw_status s = pw_unit_balance(unit, env, absorbed, &sunny, err);
  if (s != PW_OK) return s;
  double q_dark = sunny.q_in;
  if (absorbed && env->sun > 0.0) {
    s = solve_once(unit, env, NULL, &dark, err);
    if (s != PW_OK) return s;
    q_dark = dark.q_in;
  }
  *result = sunny;
  if (env->t_in != env->t_out) result->u = q_dark / (env->t_in - env->t_out);
  return PW_OK;
}

pw_status pw_unit_shgc(const pw_unit *unit, const pw_env *env, double tau_e,
                       const double absorbed[], double *shgc, pw_err *err)
{
  pw_unit_result sunny, dark;
  if (!(tau_e >= 0.0 && tau_e <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "tau_e", "solar transmittance %g, want 0 to 1", tau_e);
  if (!absorbed) return pw_fail(err, PW_E_SHAPE, "absorbed", "no absorbed shares");
  pw_status s = pw_unit_balance(unit, env, absorbed, &sunny, err);
  if (s != PW_OK) return s;
  if (!(env->sun > 0.0))
    return pw_fail(err, PW_E_DOMAIN, "sun", "%g W/m2, want above 0 for an SHGC", env->sun);
  s = solve_once(unit, env, NULL, &dark, err);
  if (s != PW_OK) return s;
  *shgc = tau_e + (dark.q_in - sunny.q_in) / env->sun; /* ISO 15099:2003 4.2; q_in is outward */
  return PW_OK;
}
