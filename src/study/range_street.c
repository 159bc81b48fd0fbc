/* A house's draws in the order that a street needs. */
#include <stdlib.h>
#include <string.h>

#include "study/range_impl.h"
#include "study/sobol.h"

/* 1: no house decides it, so one draw holds for all. Two choices are cautious, in that they widen the sum: the sun on the
 * walls and what normals miss are one draw for all places, and products of different packages err together. What only
 * some houses have is each one's own: when people open their windows is their habit. */
static const unsigned char shared[IN_COUNT] = {
    [IN_GLASS_U_OLD] = 1, /* its spread is of the method and of gas tables */
    [IN_GLASS_U_NEW] = 1,
    [IN_FRAME_U_NEW] = 1,
    [IN_SHGC_NEW] = 1,
    [IN_SIGHT_NEW] = 1,
    [IN_SUN] = 1,
    [IN_FORM + PW_FORM_FILM_OUT] = 1,
    [IN_FORM + PW_FORM_FILM_IN] = 1,
    [IN_FORM + PW_FORM_SKY_LIGHT] = 1,
    [IN_FORM + PW_FORM_SKY_COLD] = 1,
    [IN_FORM + PW_FORM_GROUND] = 1,
    [IN_WEATHER_HEAT] = 1,
    [IN_WEATHER_COOL] = 1,
    [IN_NORMALS_HEAT] = 1,
    [IN_NORMALS_COOL] = 1,
    [IN_MODEL_HEAT] = 1,
    [IN_MODEL_COOL] = 1,
    [IN_EFFECT_HEAT] = 1,
    [IN_EFFECT_COOL] = 1,
    [IN_PRICE_HEAT] = 1,
    [IN_PRICE_COOL] = 1,
    [IN_ESCALATION] = 1,
};

/* Dimension of an input among all that a house may have: what only some houses have comes last, so that it moves no
 * draw of the others, and what is shared has the same in every house. */
static size_t dimension(size_t input)
{
  if (input < IN_SOME) return input;
  return input < IN_YEAR ? input + (IN_COUNT - IN_YEAR) : input - (IN_YEAR - IN_SOME);
}

_Static_assert((int)(IN_COUNT - (IN_YEAR - IN_SOME)) <= (int)PW_SOBOL_BLOCK,
               "the facts that every house has are one block of its points");
_Static_assert((int)PW_SOBOL_BLOCK + (int)IN_COUNT <= (int)PW_SOBOL_DIMS_MAX,
               "a house's own points have room for every input");

static const int figure_of[PW_STREET_FIGURES] = {[PW_STREET_SAVING] = F_SAVING,
                                                 [PW_STREET_MINIMUM] = F_MINIMUM,
                                                 [PW_STREET_FUEL] = F_FUEL,
                                                 [PW_STREET_WORTH] = F_WORTH};

/* Row k of the house: its cost, then each package's figures; at: its place in the figures of a draw. */
static double *row_of(const pw_street_house *h, size_t k, size_t *at)
{
  *at = F_COST;
  if (k == 0) return h->cost;
  size_t p = (k - 1) / PW_STREET_FIGURES, figure = (k - 1) % PW_STREET_FIGURES;
  *at = (p + 1) * F_COUNT + (size_t)figure_of[figure];
  return h->package + (k - 1) * h->n_draw;
}

static size_t rows_of(const pw_street_house *h) { return 1 + h->n_package * PW_STREET_FIGURES; }

pw_status range_street_spreads(const range_case *rc, const double f[], size_t n,
                               const double weight[], double sort[], pw_err *err)
{
  pw_status s = PW_OK;
  for (size_t k = 0; s == PW_OK && k < rows_of(rc->street); k++) {
    size_t at = 0;
    double *row = row_of(rc->street, k, &at);
    s = pw_quantiles_of(f + at, rc->n_set * F_COUNT, n, weight, sort, row, rc->street->n_draw,
                        err);
  }
  return s;
}

typedef struct placed {
  double value;
  size_t draw;
} placed;

static int by_value(const void *a, const void *b)
{
  const placed *x = a, *y = b;
  if (x->value != y->value) return x->value > y->value ? 1 : -1;
  return (x->draw > y->draw) - (x->draw < y->draw);
}

/* sorted[] goes to where value[i * stride] stands among its like. */
static void order_as(const double value[], size_t stride, placed place[], double spare[],
                     double sorted[], size_t n)
{
  for (size_t i = 0; i < n; i++)
    place[i] = (placed){value[i * stride], i};
  qsort(place, n, sizeof *place, by_value);
  memcpy(spare, sorted, n * sizeof *spare);
  for (size_t i = 0; i < n; i++)
    sorted[place[i].draw] = spare[i];
}

/* Chances u[n_in] of draw i: what is shared as the range of a house with what all have draws it, the rest from the
 * house's own points after their first block, whose order is its own (sobol.h, note 2): two houses' own draws do not
 * go together. */
static void chances(const range_case *rc, const pw_sobol *all, const pw_sobol *own, size_t i,
                    double u[])
{
  double point[PW_SOBOL_BLOCK + IN_COUNT], common[IN_COUNT];
  pw_sobol_point(own, i, point);
  pw_sobol_point(all, i, common);
  for (size_t k = 0; k < rc->n_in; k++) {
    const size_t d = dimension(rc->which[k]);
    u[k] = shared[rc->which[k]] ? common[d] : point[PW_SOBOL_BLOCK + d];
  }
}

pw_status range_street_draws(const range_case *rc, uint64_t seed, range_figures figures,
                             const void *context, pw_err *err)
{
  const pw_street_house *h = rc->street;
  size_t n = h->n_draw, n_figure = rc->n_set * F_COUNT;
  double *f = calloc(n, n_figure * sizeof *f), *spare = calloc(n, sizeof *spare);
  placed *place = calloc(n, sizeof *place);
  pw_sobol all, own;
  pw_status s = f && spare && place
                    ? PW_OK
                    : pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n);
  if (s == PW_OK) s = pw_sobol_init(&all, IN_COUNT, n, seed, err);
  if (s == PW_OK) s = pw_sobol_init(&own, PW_SOBOL_BLOCK + IN_COUNT, n, seed ^ h->key, err);
  for (size_t i = 0; s == PW_OK && i < n; i++) {
    double u[IN_COUNT];
    chances(rc, &all, &own, i, u);
    s = figures(context, u, f + i * n_figure, err);
  }
  for (size_t k = 0; s == PW_OK && k < rows_of(h); k++) {
    size_t at = 0;
    double *row = row_of(h, k, &at);
    order_as(f + at, n_figure, place, spare, row, n);
  }
  free(f);
  free(spare);
  free(place);
  return s;
}
