/* The bands of a range by the bills: the draws that were drawn, or others near those that bear the bills where too few
 * do or a few carry all. */
#include <math.h>
#include <stdlib.h>

#include "meter/limits.h"
#include "study/range_bills_impl.h"

/* Draws near the bills are LEAST to MOST, and slopes are fitted to EACH draws an input. */
enum { LEAST = 2048, MOST = 16384, EACH = 8 };

/* Weighs a set of draws, and where they may be used makes the bands of them. */
static pw_status bands_of(const range_bills_case *bc, const range_drawn *d, pw_range *range,
                          pw_err *err)
{
  const pw_range_options *o = bc->options;
  pw_range_conditioned *b = &range->bills;
  pw_status s = range_bills_weigh(bc->rc, o->bills, bc->daily, d, NULL, b, err);
  b->n_draw = d->n;
  if (s != PW_OK || !b->used) return s;
  range->n_worth = b->condition.effective;
  return range_all_bands(bc->rc, d->f, d->n, d->weight, o->beat, d->sort, range, err);
}

pw_status range_drawn_new(const range_case *rc, size_t n, int bills, range_drawn *d,
                          pw_err *err)
{
  const size_t n_figure = rc->n_set * F_COUNT, by_bills = bills ? 2 + 2 * rc->n_in : 0;
  *d = (range_drawn){.n = n};
  d->f = calloc(n * (n_figure + 3 + by_bills), sizeof *d->f);
  if (bills) d->need = calloc(n, sizeof *d->need);
  if (!d->f || (bills && !d->need)) {
    range_drawn_free(d);
    return pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n);
  }
  d->weight = d->f + n * n_figure;
  d->sort = d->weight + n;
  if (!bills) return PW_OK;
  d->ratio = d->sort + 2 * n;
  d->log_weight = d->ratio + n;
  d->z = d->log_weight + n;
  d->e = d->z + n * rc->n_in;
  return PW_OK;
}

void range_drawn_free(range_drawn *d)
{
  free(d->f);
  free(d->need);
  *d = (range_drawn){.n = 0};
}

/* Whether the bands of a set are the better ones. */
static int is_better(const pw_range_conditioned *a, const pw_range_conditioned *than)
{
  if (a->used != than->used) return a->used;
  return a->condition.effective > than->condition.effective;
}

/* Too few draws bear the bills, or a few of them carry all. */
static int wants_more(const pw_range_conditioned *b)
{
  return b->condition.effective > 0.0 && b->condition.refused != PW_CONDITION_FAR &&
         (b->condition.effective < METER_LIMIT(wanted_effective) || !b->used);
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

/* Where draws near the bills lie, as the draws *from tell; all of the spreads where these are too few for the slopes. */
static pw_status near_of(const range_bills_case *bc, const range_drawn *from, range_near *near,
                         pw_err *err)
{
  const range_case *rc = bc->rc;
  pw_range_conditioned spare = {0};
  range_choice choice[PW_FORM_KINDS];
  size_t n_choice = choices_of(rc, choice);
  range_slope *slope = from->n >= EACH * rc->n_in
                           ? range_slope_new(from->z, from->n, rc->n_in, choice, n_choice)
                           : NULL;
  pw_status s = PW_OK;
  range_near_all(rc->n_in, near);
  if (slope) s = range_bills_weigh(rc, bc->options->bills, bc->daily, from, slope, &spare, err);
  if (slope && s == PW_OK) s = range_near_of(slope, near, err);
  range_slope_free(slope);
  return s;
}

/* A set of draws near the bills, and its bands. */
static pw_status draw_near(const range_bills_case *bc, const range_near *near, size_t n,
                           range_drawn *to, pw_range *range, pw_err *err)
{
  pw_sobol sobol;
  pw_status s = range_drawn_new(bc->rc, n, 1, to, err);
  if (s == PW_OK) s = pw_sobol_init(&sobol, 2 * bc->rc->n_in, n, range->seed + 1, err);
  if (s == PW_OK) s = bc->more(bc->context, &sobol, near, to, err);
  if (s == PW_OK) s = bands_of(bc, to, range, err);
  return s;
}

/* Draws near those that bear the bills, and where they are too few, draws led there; *next is room. */
static pw_status draw_more(const range_bills_case *bc, const range_drawn *drawn, pw_range *next,
                           pw_range *range, pw_err *err)
{
  range_near near;
  range_drawn close = {.n = 0};
  size_t n = (size_t)fmin(MOST, fmax(LEAST, (double)drawn->n));
  *next = *range;
  next->bills.used = 0;
  pw_status s = near_of(bc, drawn, &near, err);
  if (s == PW_OK) s = draw_near(bc, &near, n, &close, next, err);
  if (s == PW_OK && is_better(&next->bills, &range->bills)) *range = *next;
  if (s == PW_OK && wants_more(&next->bills)) {
    s = near_of(bc, &close, &near, err);
    next->bills.used = 0;
    if (s == PW_OK) s = range_bills_temper(bc, &near, next, err);
    if (s == PW_OK && is_better(&next->bills, &range->bills)) *range = *next;
  }
  range_drawn_free(&close);
  return s;
}

pw_status range_bills_bands(const range_bills_case *bc, const range_drawn *drawn,
                            pw_range *range, pw_err *err)
{
  pw_range_conditioned *b = &range->bills;
  *b = (pw_range_conditioned){.before_cost = range->existing.cost_year};
  for (size_t p = 0; p < range->n_package; p++)
    b->before_saving[p] = range->package[p].saving_cost;
  pw_status s = bands_of(bc, drawn, range, err);
  if (s != PW_OK || !bc->more || !wants_more(b)) return s;
  pw_range *next = malloc(sizeof *next);
  if (!next) return pw_fail(err, PW_E_NOMEM, "draws", "no memory for the draws");
  s = draw_more(bc, drawn, next, range, err);
  free(next);
  return s;
}
