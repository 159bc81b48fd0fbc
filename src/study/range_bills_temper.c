/* Equal draws that bear the bills, where weights would leave too few: the sharper bills are, the less does one normal
 * distribution cover where they are borne (a plant twice as good in a house twice as open burns the same).
 *
 * A cloud of draws from near the bills is led there in stages. In each the weight of the bills is raised to a higher power,
 * to 1 in the last, so far that half of the draws still count; the cloud is taken again by these weights and each
 * draw is moved by steps that keep what the stage asks for: a step goes from e to sqrt(1 - b^2) e + b x, x standard normal as
 * e is, and is taken with the chance that weights of end and start give (Metropolis). What no bill tells of is drawn anew at
 * each step; each third step draws a choice of forms anew instead, in turn.
 *
 * What the cloud is worth is told by families, the draws that come from one draw of its first state: n sum d^2 over the
 * sum of (sum of d over a family)^2, d what a figure has above its mean; the least over the figures counts.
 *
 * Source: Del Moral, Doucet and Jasra, J. Royal Statistical Society B 68 (2006); steps: Cotter and others, Statistical
 * Science 28 (2013); families: Lee and Whiteley, Biometrika 105 (2018); all from memory. METHODS section 7: temper. */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "meter/limits.h"
#include "study/range_bills_impl.h"

/* STEPS of a round, the TURN-th of them for a choice; ROUNDS of a stage at most; STAGES at most; families that are FEWEST
 * tell what the cloud is worth (own choice, as all of these). */
enum {
  DRAWS = 1024,
  STEPS = 15,
  TURN = 3,
  ROUNDS = 6,
  STAGES = 40,
  FEWEST = 30,
  SEEDS_APART = 16
};
/* Share of the draws that count after a stage; taken steps that widen and narrow the next one (own choice). */
static const double LEFT = 0.5, TAKEN_MOST = 0.35, TAKEN_LEAST = 0.2, TOLD = 0.995;

typedef struct cloud {
  const range_bills_case *bc;
  const range_near *near;
  range_drawn now, next;
  size_t family[DRAWS], from[DRAWS];
  double width, power, best_chi2;
  uint64_t seed;
  size_t step;
} cloud;

static double ugauss(double u)
{
  return gsl_cdf_ugaussian_Pinv(fmin(1.0 - 1e-12, fmax(1e-12, u)));
}

/* Figures and weights of the draws at to->e. */
static pw_status look(cloud *c, range_drawn *to, pw_err *err)
{
  pw_range_conditioned what = {0};
  pw_status s = c->bc->more(c->bc->context, NULL, c->near, to, err);
  if (s == PW_OK)
    s = range_bills_weigh(c->bc->rc, c->bc->options->bills, c->bc->daily, to, NULL, &what, err);
  c->best_chi2 = fmin(c->best_chi2, what.condition.best_chi2);
  return s;
}

static pw_status start(cloud *c, pw_err *err)
{
  const size_t n_in = c->bc->rc->n_in;
  pw_sobol sobol;
  double u[IN_COUNT];
  pw_status s = pw_sobol_init(&sobol, n_in, DRAWS, c->seed++, err);
  for (size_t i = 0; s == PW_OK && i < DRAWS; i++) {
    pw_sobol_point(&sobol, i, u);
    range_near_z(u, n_in, c->now.e + i * n_in);
    c->family[i] = i;
  }
  return s == PW_OK ? look(c, &c->now, err) : s;
}

/* Weights of a rise of the power into w[], the largest 1; returns how many draws count. */
static double rise(const double log_weight[], double by, double w[])
{
  double most = -INFINITY, sum = 0.0, squares = 0.0;
  for (size_t i = 0; i < DRAWS; i++)
    most = fmax(most, log_weight[i]);
  for (size_t i = 0; i < DRAWS; i++) {
    w[i] = exp(by * (log_weight[i] - most));
    sum += w[i];
    squares += w[i] * w[i];
  }
  return sum * sum / squares;
}

/* The rise that leaves as many as LEFT, or what is left to 1. */
static double next_rise(cloud *c, double w[])
{
  double low = 0.0, high = 1.0 - c->power;
  if (rise(c->now.log_weight, high, w) >= LEFT * DRAWS) return high;
  for (int i = 0; i < 40; i++) {
    double middle = 0.5 * (low + high);
    if (rise(c->now.log_weight, middle, w) >= LEFT * DRAWS)
      low = middle;
    else
      high = middle;
  }
  rise(c->now.log_weight, low, w);
  return low;
}

static void copy(const range_case *rc, const range_drawn *a, size_t i, range_drawn *b, size_t k)
{
  const size_t n_figure = rc->n_set * F_COUNT, n_in = rc->n_in;
  memcpy(b->f + k * n_figure, a->f + i * n_figure, n_figure * sizeof *b->f);
  memcpy(b->e + k * n_in, a->e + i * n_in, n_in * sizeof *b->e);
  b->log_weight[k] = a->log_weight[i];
}

/* Takes the cloud again by w[], systematically: each draw as often as its weight is, to one more or less. */
static void take(cloud *c, const double w[], double chance)
{
  double sum = 0.0, at = 0.0;
  size_t i = 0, family[DRAWS];
  for (size_t k = 0; k < DRAWS; k++)
    sum += w[k];
  for (size_t k = 0; k < DRAWS; k++) {
    while (i + 1 < DRAWS && at + w[i] < ((double)k + chance) / DRAWS * sum)
      at += w[i++];
    copy(c->bc->rc, &c->now, i, &c->next, k);
    family[k] = c->family[i];
  }
  memcpy(c->family, family, sizeof family);
  range_drawn spare = c->now;
  c->now = c->next;
  c->next = spare;
}

/* Whether this step draws a choice anew, and nothing else that bills tell of: each TURN-th does, in turn. */
static int turn_of(const cloud *c, size_t *choice)
{
  if (!c->near->n_choice || c->step % TURN != TURN - 1) return 0;
  *choice = c->step / TURN % c->near->n_choice;
  return 1;
}

/* How far a step goes along an input. */
static double reach(const cloud *c, size_t j)
{
  const range_near *near = c->near;
  size_t choice = 0;
  int turn = turn_of(c, &choice);
  for (size_t k = 0; k < near->n_choice; k++)
    if (near->choice[k].input == j) return turn && k == choice ? 1.0 : 0.0;
  if (near->root[j * near->n_in + j] > TOLD) return 1.0;
  return turn ? 0.0 : c->width;
}

/* Wider steps where many were taken, narrower where few. */
static void adapt(cloud *c, size_t taken)
{
  size_t choice;
  if (!turn_of(c, &choice) && (double)taken > TAKEN_MOST * DRAWS)
    c->width = fmin(1.0, 1.25 * c->width);
  if (!turn_of(c, &choice) && (double)taken < TAKEN_LEAST * DRAWS) c->width *= 0.8;
  c->step++;
}

/* One step of every draw. */
static pw_status step(cloud *c, pw_err *err)
{
  const size_t n_in = c->bc->rc->n_in;
  pw_sobol sobol;
  double u[IN_COUNT + 1];
  size_t taken = 0;
  double chance[DRAWS] = {0.0};
  pw_status s = pw_sobol_init(&sobol, n_in + 1, DRAWS, c->seed++, err);
  for (size_t i = 0; s == PW_OK && i < DRAWS; i++) {
    pw_sobol_point(&sobol, i, u);
    chance[i] = u[n_in];
    for (size_t j = 0; j < n_in; j++) {
      double b = reach(c, j);
      c->next.e[i * n_in + j] = sqrt(1.0 - b * b) * c->now.e[i * n_in + j] + b * ugauss(u[j]);
    }
  }
  if (s == PW_OK) s = look(c, &c->next, err);
  for (size_t i = 0; s == PW_OK && i < DRAWS; i++) {
    double more = c->next.log_weight[i] - c->now.log_weight[i];
    if (!(log(chance[i]) < c->power * more)) continue;
    copy(c->bc->rc, &c->next, i, &c->now, i);
    taken++;
  }
  adapt(c, taken);
  return s;
}

/* Of a figure. */
static double worth_of(const cloud *c, size_t figure)
{
  const size_t n_figure = c->bc->rc->n_set * F_COUNT;
  double mean = 0.0, squares = 0.0, family[DRAWS] = {0.0}, sum = 0.0;
  for (size_t i = 0; i < DRAWS; i++)
    mean += c->now.f[i * n_figure + figure] / DRAWS;
  for (size_t i = 0; i < DRAWS; i++) {
    double d = c->now.f[i * n_figure + figure] - mean;
    squares += d * d;
    family[c->family[i]] += d;
  }
  for (size_t i = 0; i < DRAWS; i++)
    sum += family[i] * family[i];
  return sum > 0.0 ? fmin(DRAWS, DRAWS * squares / sum) : DRAWS;
}

static size_t families(const cloud *c)
{
  unsigned char seen[DRAWS] = {0};
  size_t n = 0;
  for (size_t i = 0; i < DRAWS; i++) {
    n += !seen[c->family[i]];
    seen[c->family[i]] = 1;
  }
  return n;
}

static double worth(const cloud *c)
{
  double least = worth_of(c, F_COST);
  if (families(c) < FEWEST) return 0.0;
  for (size_t set = 1; set + 1 < c->bc->rc->n_set; set++)
    least = fmin(least, worth_of(c, set * F_COUNT + F_NORMAL_FUEL));
  return least;
}

/* What the cloud says, when it may be used. */
static pw_status say(cloud *c, pw_range *range, pw_err *err)
{
  pw_condition *what = &range->bills.condition;
  what->effective = c->power < 1.0 ? 0.0 : worth(c);
  what->tail = (double)NAN; /* no draw carries more than another */
  what->best_chi2 = c->best_chi2;
  what->refused = what->best_chi2 > what->chi2_limit               ? PW_CONDITION_FAR
                  : what->effective < METER_LIMIT(least_effective) ? PW_CONDITION_FEW
                                                                   : PW_CONDITION_ACCEPTED;
  range->bills.n_draw = DRAWS;
  range->bills.used = what->refused == PW_CONDITION_ACCEPTED;
  if (!range->bills.used) return PW_OK;
  range->n_worth = what->effective;
  return range_all_bands(c->bc->rc, c->now.f, DRAWS, NULL, c->bc->options->beat, c->now.sort,
                         range, err);
}

/* Raises the power once and takes the cloud again by it. */
static pw_status raise_power(cloud *c, pw_err *err)
{
  double w[DRAWS], chance = 0.0, by = next_rise(c, w);
  pw_sobol sobol;
  pw_status s = pw_sobol_init(&sobol, 1, 1, c->seed++, err);
  if (s != PW_OK) return s;
  pw_sobol_point(&sobol, 0, &chance);
  take(c, w, chance);
  c->power = by < 1.0 - c->power ? c->power + by : 1.0;
  return PW_OK;
}

/* Steps until families stand no more together: twice what is wanted, since the next stage leaves half. */
static pw_status mix(cloud *c, pw_err *err)
{
  pw_status s = PW_OK;
  for (int round = 0; s == PW_OK && round < ROUNDS; round++) {
    for (int k = 0; s == PW_OK && k < STEPS; k++)
      s = step(c, err);
    if (worth(c) >= 2.0 * METER_LIMIT(wanted_effective)) break;
  }
  return s;
}

/* Stages up to the bills' whole weight. */
static pw_status lead(cloud *c, pw_err *err)
{
  pw_status s = start(c, err);
  for (int stage = 0; s == PW_OK && c->power < 1.0 && stage < STAGES; stage++) {
    s = raise_power(c, err);
    if (s == PW_OK) s = mix(c, err);
  }
  return s;
}

pw_status range_bills_temper(const range_bills_case *bc, const range_near *near,
                             pw_range *range, pw_err *err)
{
  cloud *c = calloc(1, sizeof *c);
  if (!c) return pw_fail(err, PW_E_NOMEM, "draws", "no memory for %d draws", DRAWS);
  *c = (cloud){.bc = bc, .near = near, .width = 0.3, .best_chi2 = INFINITY};
  c->seed = range->seed + SEEDS_APART;
  pw_status s = range_drawn_new(bc->rc, DRAWS, 1, &c->now, err);
  if (s == PW_OK) s = range_drawn_new(bc->rc, DRAWS, 1, &c->next, err);
  if (s == PW_OK) s = lead(c, err);
  if (s == PW_OK) s = say(c, range, err);
  range_drawn_free(&c->now);
  range_drawn_free(&c->next);
  free(c);
  return s;
}
