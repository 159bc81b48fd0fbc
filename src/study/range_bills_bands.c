/* The bands of a range by the bills: the draws that were drawn, or others near those that bear the bills where too few
 * do or a few carry all. */
#include <math.h>
#include <stdlib.h>

#include "meter/limits.h"
#include "study/range_bills_impl.h"

/* Rounds of draws near the bills; a round has LEAST to MOST of them, and slopes are fitted to EACH draws an input. */
enum { ROUNDS = 3, LEAST = 2048, MOST = 16384, EACH = 8 };
static const double SPARE = 1.5; /* a round's worth is not known before it is drawn */

/* Weighs a set of draws, and where they may be used makes the bands of them. */
static pw_status bands_of(const range_case *rc, const pw_range_options *o, const double *daily,
                          const range_drawn *d, pw_range *range, pw_err *err)
{
  pw_range_conditioned *b = &range->bills;
  pw_status s = range_bills_weigh(rc, o->bills, daily, d, NULL, b, err);
  b->n_draw = d->n;
  if (s != PW_OK || !b->used) return s;
  range->n_worth = b->condition.effective;
  return range_all_bands(rc, d->f, d->n, d->weight, o->beat, d->sort, range, err);
}

pw_status range_drawn_new(const range_case *rc, size_t n, int bills, range_drawn *d,
                          pw_err *err)
{
  const size_t n_figure = rc->n_set * F_COUNT, by_bills = bills ? 1 + rc->n_in : 0;
  *d = (range_drawn){.n = n};
  d->f = calloc(n * (n_figure + 3 + by_bills), sizeof *d->f);
  if (bills) d->need = calloc(n, sizeof *d->need);
  if (!d->f || (bills && !d->need)) {
    range_drawn_free(d);
    return pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n);
  }
  d->weight = d->f + n * n_figure;
  d->sort = d->weight + n;
  if (bills) d->ratio = d->sort + 2 * n;
  if (bills) d->z = d->ratio + n;
  return PW_OK;
}

void range_drawn_free(range_drawn *d)
{
  free(d->f);
  free(d->need);
  *d = (range_drawn){.n = 0};
}

/* How many a round draws: the first as many as there were; others what would have been enough in the one before. */
static size_t count_of(int round, size_t n, double effective)
{
  double want =
      round ? SPARE * METER_LIMIT(wanted_effective) / effective * (double)n : (double)n;
  return (size_t)fmin(MOST, fmax(LEAST, want));
}

/* Whether the bands of a round are the better ones. */
static int is_better(const pw_range_conditioned *a, const pw_range_conditioned *than)
{
  if (a->used != than->used) return a->used;
  return a->condition.effective > than->condition.effective;
}

/* The inputs of the house that are a choice among forms. */
static size_t choices_of(const range_case *rc, range_choice choice[PW_FORM_KINDS])
{
  size_t n = 0;
  for (size_t k = 0; k < rc->n_in; k++) {
    const pw_spread *s = &rc->input[rc->which[k]].spread;
    if (s->shape != PW_SHAPE_CHOICE || !(s->high > s->low)) continue;
    choice[n++] = (range_choice){k, (size_t)(s->high - s->low + 1.5)};
  }
  return n;
}

/* The next set of draws, near those of *from where these are enough to tell the slopes. */
static pw_status draw_next(const range_case *rc, const pw_range_options *o, const double *daily,
                           range_drawer more, const void *context, int round, double effective,
                           const range_drawn *from, range_drawn *to, pw_range *range,
                           pw_err *err)
{
  pw_range_conditioned spare = {0};
  range_near near;
  pw_sobol sobol;
  size_t n = count_of(round, from->n, effective);
  int known = from->n >= EACH * rc->n_in;
  range_choice choice[PW_FORM_KINDS];
  size_t n_choice = choices_of(rc, choice);
  range_slope *slope =
      known ? range_slope_new(from->z, from->n, rc->n_in, choice, n_choice) : NULL;
  pw_status s = PW_OK;
  if (slope) s = range_bills_weigh(rc, o->bills, daily, from, slope, &spare, err);
  if (slope && s == PW_OK) s = range_near_of(slope, &near, err);
  if (s == PW_OK) s = range_drawn_new(rc, n, 1, to, err);
  if (s != PW_OK) {
    range_slope_free(slope);
    return s;
  }
  s = pw_sobol_init(&sobol, 2 * rc->n_in, n, range->seed + 1 + (uint64_t)round, err);
  if (s == PW_OK) s = more(context, &sobol, slope ? &near : NULL, to, err);
  range_slope_free(slope);
  if (s == PW_OK) s = bands_of(rc, o, daily, to, range, err);
  if (s != PW_OK) range_drawn_free(to);
  return s;
}

pw_status range_bills_bands(const range_case *rc, const pw_range_options *options,
                            const double *daily, const range_drawn *drawn, range_drawer more,
                            const void *context, pw_range *range, pw_err *err)
{
  pw_range_conditioned *b = &range->bills;
  *b = (pw_range_conditioned){.before_cost = range->existing.cost_year};
  for (size_t p = 0; p < range->n_package; p++)
    b->before_saving[p] = range->package[p].saving_cost;
  pw_status s = bands_of(rc, options, daily, drawn, range, err);
  if (s != PW_OK || !more || b->condition.refused == PW_CONDITION_FAR ||
      !(b->condition.effective > 0.0))
    return s;
  pw_range *next = malloc(sizeof *next);
  if (!next) return pw_fail(err, PW_E_NOMEM, "draws", "no memory for the draws");
  range_drawn from = *drawn;
  double effective = b->condition.effective;
  for (int round = 0; s == PW_OK && round < ROUNDS &&
                      (b->condition.effective < METER_LIMIT(wanted_effective) ||
                       b->condition.refused == PW_CONDITION_TAIL);
       round++) {
    range_drawn to;
    *next = *range;
    next->bills.used = 0;
    s = draw_next(rc, options, daily, more, context, round, effective, &from, &to, next, err);
    if (s != PW_OK) break;
    if (round) range_drawn_free(&from);
    from = to;
    effective = fmax(1.0, next->bills.condition.effective);
    if (is_better(&next->bills, b)) *range = *next;
  }
  if (from.f != drawn->f) range_drawn_free(&from);
  free(next);
  return s;
}
