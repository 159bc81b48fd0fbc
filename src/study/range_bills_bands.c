/* The bands of a range by the bills: the draws that were drawn, or more of them where too few bear the bills. */
#include <stdlib.h>

#include "meter/limits.h"
#include "study/range_bills_impl.h"

/* Weighs a set of draws, and where they may be used makes the bands of them. */
static pw_status bands_of(const range_case *rc, const pw_range_options *o, const double *daily,
                          const range_drawn *d, pw_range *range, pw_err *err)
{
  pw_range_conditioned *b = &range->bills;
  pw_status s = range_bills_weigh(rc, o->bills, daily, d->need, d->n, d->weight, b, err);
  b->n_draw = d->n;
  if (s != PW_OK || !b->used) return s;
  range->n_worth = b->condition.effective;
  return range_all_bands(rc, d->f, d->n, d->weight, o->beat, d->sort, range, err);
}

static pw_status more_draws(const range_case *rc, const pw_range_options *o,
                            const double *daily, size_t n, range_drawer more,
                            const void *context, pw_range *range, pw_err *err)
{
  pw_sobol sobol;
  double *room = calloc(n * (rc->n_set * F_COUNT + 3), sizeof *room);
  range_drawn d = {room, calloc(n, sizeof *d.need), NULL, NULL, n};
  pw_status s = PW_OK;
  if (!room || !d.need)
    s = pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n);
  else
    s = pw_sobol_init(&sobol, 2 * IN_COUNT, n, range->seed + 1, err);
  if (s == PW_OK) {
    d.weight = room + n * rc->n_set * F_COUNT;
    d.sort = d.weight + n;
    s = more(context, &sobol, n, d.f, d.need, err);
  }
  if (s == PW_OK) s = bands_of(rc, o, daily, &d, range, err);
  free(d.need);
  free(room);
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
  size_t n = RANGE_MORE * drawn->n;
  if (s != PW_OK || !more || b->condition.refused == PW_CONDITION_FAR ||
      !(b->condition.effective > 0.0) ||
      b->condition.effective >= METER_LIMIT(wanted_effective) ||
      n > (size_t)1 << PW_SOBOL_BITS_MAX)
    return s;
  b->used = 0;
  return more_draws(rc, options, daily, n, more, context, range, err);
}
