#include "house/covering.h"

#include <math.h>

#include "gen/reference.h"

#define VALUE(name) (pw_ref_air_shades[pw_ref_air_shades__##name].value)

/* SHGC of the centre: low gain glass by the trade's word, two clear panes; between them the effect goes straight. */
static const double low_gain = 0.40, clear_gain = 0.70;

/* Share of the sun's gain left behind a closed covering and a half open one. */
static void sun_left(pw_covering kind, const pw_glazing *g, double *closed, double *half)
{
  const int one = g->unit.n_pane < 2;
  switch (kind) {
  case PW_COVERING_BLINDS:
    *closed = one ? VALUE(blinds_single) : VALUE(blinds_double);
    *half = one ? VALUE(blinds_half_single) : VALUE(blinds_half_double);
    break;
  case PW_COVERING_ROLLER:
    *closed = one ? VALUE(roller_single) : VALUE(roller_double);
    *half = 0.5 * (1.0 + *closed); /* over half the glass */
    break;
  default:
    *closed = VALUE(drapes_single);
    *half = 0.5 * (1.0 + *closed);
  }
  if (one || !(g->shgc[0] < clear_gain)) return;
  const double low = (1.0 - VALUE(blinds_low_gain)) / (1.0 - VALUE(blinds_double));
  const double way = fmin(1.0, (clear_gain - g->shgc[0]) / (clear_gain - low_gain));
  const double left = 1.0 - way * (1.0 - low);
  *closed = 1.0 - left * (1.0 - *closed);
  *half = 1.0 - left * (1.0 - *half);
}

static void one_kind(pw_covering kind, int of_all, const pw_glazing *glazing, pw_covered *out)
{
  double closed, half;
  *out = (pw_covered){.pass = {1.0, 1.0}};
  if (kind <= PW_COVERING_NONE || kind >= PW_COVERING_COUNT) return;
  const double has = of_all ? VALUE(covered) : 1.0;
  const double day[PW_COVERING_SEASONS] = {VALUE(closed_summer), VALUE(closed_winter)};
  sun_left(kind, glazing, &closed, &half);
  for (int s = 0; s < PW_COVERING_SEASONS; s++)
    out->pass[s] = 1.0 - has * (day[s] * (1.0 - closed) + VALUE(half_summer) * (1.0 - half));
  out->closed[PW_COVERING_DAY] = has * VALUE(closed_winter);
  out->closed[PW_COVERING_NIGHT] = has * VALUE(closed_night);
  out->resistance = kind == PW_COVERING_BLINDS   ? VALUE(blinds_r)
                    : kind == PW_COVERING_ROLLER ? VALUE(roller_r)
                                                 : VALUE(drapes_r);
}

void pw_covering_of(pw_covering kind, int of_all, const pw_glazing *glazing, pw_covered *out)
{
  const double blinds = VALUE(blinds_share), rest = 0.5 * (1.0 - blinds); /* roller, drapes */
  const double share[PW_COVERING_COUNT] = {
      [PW_COVERING_BLINDS] = blinds, [PW_COVERING_ROLLER] = rest, [PW_COVERING_DRAPES] = rest};
  pw_covered sum = {.resistance = 0.0}, one;
  if (kind != PW_COVERING_USUAL) {
    one_kind(kind, of_all, glazing, out);
    return;
  }
  for (int k = PW_COVERING_BLINDS; k <= PW_COVERING_DRAPES; k++) {
    one_kind((pw_covering)k, of_all, glazing, &one);
    for (int s = 0; s < PW_COVERING_SEASONS; s++)
      sum.pass[s] += share[k] * one.pass[s];
    for (int t = 0; t < PW_COVERING_TIMES; t++)
      sum.closed[t] += share[k] * one.closed[t];
    sum.resistance += share[k] * one.resistance;
  }
  *out = sum;
}

const char *pw_covering_name(pw_covering kind)
{
  static const char *const name[PW_COVERING_COUNT] = {"",       "none",   "blinds",
                                                      "roller", "drapes", "usual"};
  return (unsigned)kind < PW_COVERING_COUNT ? name[kind] : "";
}
