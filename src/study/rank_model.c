/* The house year as a smooth function of the heat that the windows conduct and the sun they gain. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "frame/catalogue.h"
#include "study/compare_impl.h"
#include "study/rank_impl.h"
#include "window/grille.h"

enum {
  SAMPLES = 600, /* build-ups looked at for where the catalogue lies */
  PICKS = 26,    /* of them, lived with for a year */
  VARIANTS = 7,  /* of the first pick, so that heat and sun always vary apart */
  RUNS = PICKS + VARIANTS
};

static size_t house_windows(const rank_house *h, const pw_glazing *glazing, size_t line,
                            size_t spacer, double more_ua, double less_sun,
                            pw_house_window window[], pw_err *err)
{
  const pw_compare *c = h->compare;
  pw_package package = {.filling = "foam", .spacer = h->catalogue->spacer[spacer].spacer};
  pw_compare_windows(c->job, &c->fitted, &c->rated, 0, window);
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!rank_seeks(h, i)) continue;
    const pw_opening *o = &c->job->opening[i];
    const pw_fit *fit = &h->fit[line * c->n_opening + i];
    pw_rating r;
    pw_fit held = *fit; /* glass without a gap has its bars outside */
    if (held.grille.place == PW_GRILLE_BETWEEN && !pw_grille_fits(&glazing->unit))
      held.grille.place = PW_GRILLE_OUTSIDE;
    if (pw_rating_insert(&held, &package, h->line[line].line[i], glazing, NULL, &r, err) !=
        PW_OK)
      return 0;
    pw_compare_house_window(o, &fit->insert, &r, glazing, &window[i]);
    window[i].ua_other += more_ua * r.u * r.area;
    window[i].screen *= 1.0 - less_sun;
    window[i].solar_other *= 1.0 - less_sun;
  }
  return c->n_opening;
}

/* The numbers of these very windows. */
static pw_status numbers(const rank_house *h, const pw_glazing *g, size_t line, size_t spacer,
                         double z[RANK_DIMS], pw_err *err)
{
  pw_given edge;
  double t_inner = 0.0;
  rank_glass glass = {.n_pane = g->unit.n_pane,
                      .u = g->u_winter,
                      .vt = g->light.tau_v[0],
                      .shgc = g->shgc,
                      .tau_e = g->light.tau_e};
  pw_status status = rank_dark(h, &g->unit, &t_inner, &glass.u_year, err);
  if (status == PW_OK)
    status = pw_catalogue_edge_u(h->catalogue->spacer[spacer].spacer, g->unit.n_pane,
                                 g->u_winter, &edge, err);
  if (status == PW_OK) rank_drive(h, &glass, line, spacer, edge.value, z);
  return status;
}

pw_status rank_live(const rank_house *h, const pw_glazing *glazing, size_t line, size_t spacer,
                    double more_ua, double less_sun, pw_year_workspace *ws, rank_lived *lived,
                    pw_err *err)
{
  const pw_compare *c = h->compare;
  const pw_compare_options options = {.method = h->options->method};
  compare_trial *trial = calloc(1, sizeof *trial);
  pw_house_window *window = calloc(c->n_opening, sizeof *window);
  pw_status status = trial && window ? numbers(h, glazing, line, spacer, lived->z, err)
                                     : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year");
  if (status == PW_OK &&
      !house_windows(h, glazing, line, spacer, more_ua, less_sun, window, err))
    status = err ? err->code : PW_E_DATA;
  if (status == PW_OK)
    status =
        pw_compare_try(c, &c->lived.house, "", window, h->weather, &options, ws, trial, err);
  if (status == PW_OK) {
    lived->heating = trial->lived.year.heating_kwh;
    lived->cooling = trial->lived.year.cooling_kwh;
    lived->bill = trial->bill.cost_year;
    lived->z[0] *= 1.0 + more_ua;
    lived->z[1] *= 1.0 - less_sun;
    lived->z[2] *= 1.0 - less_sun;
  }
  free(trial);
  free(window);
  return status;
}

/* A build-up of the catalogue and where it lies. */
typedef struct sample {
  pw_glazing glazing;
  size_t line, spacer;
  double z[RANK_DIMS];
  int taken;
} sample;

/* Build-ups at even steps of the enumeration; those that fit no pocket only count when nothing does. */
static pw_status take_samples(const rank_house *h, const rank_space *space, sample s[],
                              size_t *n, pw_err *err)
{
  uint64_t step = space->n_all / SAMPLES ? space->n_all / SAMPLES : 1;
  if (step > 1 && step % 2 == 0)
    step++; /* even steps would meet the same line again and again */
  *n = 0;
  for (int round = 0; round < 2 && *n == 0; round++)
    for (uint64_t k = 0; k < space->n_all && *n < SAMPLES; k += step) {
      pw_buildup b;
      sample *x = &s[*n];
      double thick = 0.0;
      rank_decode(space, k, &b, &x->spacer, &x->line);
      for (size_t i = 0; i < b.n_pane; i++)
        thick += b.pane[i].thickness + (i + 1 < b.n_pane ? b.gap[i].thickness : 0.0);
      if (round == 0 && thick > h->catalogue->line[x->line].pocket) continue;
      if (pw_glazing_build(&b, &x->glazing, NULL) != PW_OK) continue; /* no such coated pane */
      pw_status status = numbers(h, &x->glazing, x->line, x->spacer, x->z, err);
      if (status != PW_OK) return status;
      x->taken = 0;
      ++*n;
    }
  return *n > 0
             ? PW_OK
             : pw_fail(err, PW_E_DATA, "catalogue", "no build-up of the catalogue can be made");
}

/* The range of the samples, widened to hold the variants. */
static void set_range(rank_house *h, const sample s[], size_t n)
{
  for (int d = 0; d < RANK_DIMS; d++) {
    h->low[d] = INFINITY;
    h->high[d] = -INFINITY;
    for (size_t i = 0; i < n; i++) {
      h->low[d] = fmin(h->low[d], s[i].z[d]);
      h->high[d] = fmax(h->high[d], s[i].z[d]);
    }
    double room = 0.05 * (fabs(h->high[d]) + 1.0);
    h->low[d] -= room;
    h->high[d] += room;
  }
}

/* The sample farthest from all that were taken; the first is the one nearest to the middle. */
static size_t farthest(const rank_house *h, const sample s[], size_t n)
{
  size_t best = n;
  double most = -INFINITY;
  for (size_t i = 0; i < n; i++) {
    if (s[i].taken) continue;
    double near = INFINITY, middle = 0.0;
    for (int d = 0; d < RANK_DIMS; d++) {
      double x = (s[i].z[d] - h->low[d]) / (h->high[d] - h->low[d]) - 0.5;
      middle += x * x;
    }
    for (size_t j = 0; j < n; j++) {
      double sum = 0.0;
      if (!s[j].taken) continue;
      for (int d = 0; d < RANK_DIMS; d++) {
        double x = (s[i].z[d] - s[j].z[d]) / (h->high[d] - h->low[d]);
        sum += x * x;
      }
      near = fmin(near, sum);
    }
    double far = isfinite(near) ? near : -middle;
    if (far > most) {
      most = far;
      best = i;
    }
  }
  return best;
}

typedef struct training {
  double z[RUNS * RANK_DIMS], y[RUNS * 2];
  size_t n;
} training;

static pw_status add_run(const rank_house *h, training *t, const sample *s, double more_ua,
                         double less_sun, pw_year_workspace *ws, pw_err *err)
{
  rank_lived lived;
  pw_status status =
      rank_live(h, &s->glazing, s->line, s->spacer, more_ua, less_sun, ws, &lived, err);
  if (status != PW_OK) return status;
  for (int d = 0; d < RANK_DIMS; d++)
    t->z[t->n * RANK_DIMS + (size_t)d] =
        2.0 * (lived.z[d] - h->low[d]) / (h->high[d] - h->low[d]) - 1.0;
  t->y[2 * t->n] = lived.heating;
  t->y[2 * t->n + 1] = lived.cooling;
  t->n++;
  return PW_OK;
}

static pw_status fit(rank_house *h, const training *t, pw_err *err)
{
  static const double focus[2] = {1.0, 1.0};
  pw_status status = surface_fit(t->z, t->y, t->n, RANK_DIMS, 2, focus, &h->model, err);
  if (status != PW_OK) return status;
  h->n_year = t->n;
  for (size_t o = 0; o < 2; o++) {
    double sum = 0.0;
    for (size_t i = 0; i < t->n; i++)
      sum += h->model.left_out[2 * i + o] * h->model.left_out[2 * i + o];
    h->error[o] = sqrt(sum / (double)t->n);
  }
  return PW_OK;
}

pw_status rank_train(rank_house *h, const rank_space *space, pw_year_workspace *ws, pw_err *err)
{
  static const double variant[VARIANTS][2] = {{0.15, 0.0}, {0.0, 0.15}, {0.15, 0.15},
                                              {0.3, 0.0},  {0.0, 0.3},  {0.3, 0.15},
                                              {0.15, 0.3}}; /* more UA, less sun */
  size_t n = 0;
  sample *s = calloc(SAMPLES, sizeof *s);
  training *t = calloc(1, sizeof *t);
  pw_status status =
      s && t ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the years of the search");
  if (status == PW_OK) status = take_samples(h, space, s, &n, err);
  if (status == PW_OK) set_range(h, s, n);
  for (size_t k = 0; status == PW_OK && k < PICKS; k++) {
    size_t i = farthest(h, s, n);
    if (i == n) break;
    s[i].taken = 1;
    status = add_run(h, t, &s[i], 0.0, 0.0, ws, err);
    for (size_t v = 0; status == PW_OK && k == 0 && v < VARIANTS; v++)
      status = add_run(h, t, &s[i], variant[v][0], variant[v][1], ws, err);
  }
  if (status == PW_OK) status = fit(h, t, err);
  free(s);
  free(t);
  return status;
}
