/* Sizes beside sizes: a slip of the pen by an inch, ten inches or a foot. */
#include <math.h>

#include "panewright/units.h"
#include "window/fit_impl.h"

enum { SIDES = 2 };

static const double alike = 0.251 * PW_INCH; /* 1/4 in, inclusive after conversion */
static const double step[] = {1.0 * PW_INCH, 10.0 * PW_INCH, PW_FOOT};
enum { STEPS = sizeof step / sizeof step[0], TEN = 1, A_FOOT = STEPS - 1 };

static void size_of(const pw_opening *o, double side[SIDES])
{
  side[0] = fit_read_three(o->width).middle;
  side[1] = fit_read_three(o->height).middle;
}

/* Both diagonals were taken and fit the readings: what was written is what is there. */
static int confirmed(const pw_opening *o, const pw_fit *fit)
{
  if (!(o->diagonal[0] > 0.0 && o->diagonal[1] > 0.0)) return 0;
  for (size_t k = 0; k < fit->n_finding; k++)
    if (fit->finding[k].kind == PW_FINDING_DIAGONAL) return 0;
  return 1;
}

/* Another opening has the same size; a slip does not come twice. */
static int shared(const pw_opening o[], size_t n, size_t i)
{
  double mine[SIDES], other[SIDES];
  size_of(&o[i], mine);
  for (size_t j = 0; j < n; j++) {
    size_of(&o[j], other);
    if (j != i && fabs(mine[0] - other[0]) <= alike && fabs(mine[1] - other[1]) <= alike)
      return 1;
  }
  return 0;
}

/* The step by which side s of i differs from j, the other side being alike; -1 when it is none. */
static int step_between(const pw_opening *i, const pw_opening *j, int s)
{
  double mine[SIDES], other[SIDES];
  size_of(i, mine);
  size_of(j, other);
  if (i->operator_existing != j->operator_existing || i->shape != j->shape) return -1;
  if (fabs(mine[1 - s] - other[1 - s]) > alike) return -1;
  for (int k = 0; k < STEPS; k++)
    if (fabs(fabs(mine[s] - other[s]) - step[k]) <= alike) return k;
  return -1;
}

static void say(const pw_opening *i, const pw_opening *j, int s, int k, int confirmed,
                pw_fit *fit)
{
  static const pw_message_number by[STEPS] = {PW_SAY_ONE_INCH, PW_SAY_TEN_INCHES,
                                              PW_SAY_ONE_FOOT};
  double mine[SIDES], other[SIDES];
  size_of(i, mine);
  size_of(j, other);
  pw_message m = confirmed ? PW_SAYS(PW_SAY_NEIGHBOUR_TEN, FIT_SIDE(s), PW_SI(mine[s]), PW_OWN,
                                     PW_SI(other[s]))
                           : PW_SAYS(PW_SAY_NEIGHBOUR_SLIP, FIT_SIDE(s), PW_SI(mine[s]), PW_OWN,
                                     PW_SI(other[s]), PW_WORD(by[k]));
  pw_message_own(&m, j->tag);
  fit_find(fit,
           confirmed     ? PW_FINDING_TEN
           : k == A_FOOT ? PW_FINDING_FOOT
                         : PW_FINDING_SLIP,
           m);
}

void pw_fit_neighbours(const pw_opening o[], size_t n, pw_fit fit[])
{
  for (size_t i = 0; i < n; i++) {
    if (shared(o, n, i)) continue;
    int said = 0, sure = confirmed(&o[i], &fit[i]);
    for (int k = sure ? TEN : 0; k < (sure ? TEN + 1 : STEPS) && !said; k++)
      for (size_t j = 0; j < n && !said; j++)
        for (int s = 0; s < SIDES && !said && j != i; s++)
          if (step_between(&o[i], &o[j], s) == k) {
            say(&o[i], &o[j], s, k, sure, &fit[i]);
            said = 1;
          }
  }
}
