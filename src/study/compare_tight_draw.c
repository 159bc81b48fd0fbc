/* How sure a saving of tightness is: draws of what is unknown about sashes, inserts and the air round a house. */
#include <math.h>
#include <stdlib.h>

#include "gen/reference.h"
#include "panewright/units.h"
#include "study/compare_impl.h"
#include "study/compare_tight_impl.h"
#include "study/sobol.h"
#include "study/spread.h"

#define ROW(name) (&pw_ref_air_leakage[pw_ref_air_leakage__##name])

enum { D_SASH = 0, D_INSERT, D_HOUSE, D_SHIELD, D_TERRAIN, D_LEVEL, D_MODEL, D_COUNT };
enum { CLASSES = 5, LEVELS = 3 };

/* An area's triangle over its logarithm: a single window lies within a factor of its row, either way. */
static double span_at(const pw_leak_span *s, double p)
{
  if (!(s->low > 0.0) || !(s->high > s->low)) return s->usual;
  const pw_spread in_logs = {.shape = PW_SHAPE_TRIANGULAR,
                             .low = log(s->low),
                             .mode = log(s->usual),
                             .high = log(s->high)};
  return exp(pw_spread_at(&in_logs, p));
}

/* The year's mean flow through 1 m2, m/s, by all that it hangs on, computed when first asked for. */
typedef struct means {
  const pw_compare *compare;
  const pw_weather *weather;
  double of[PW_INFILTRATION_COUNT][CLASSES + 1][CLASSES + 1][LEVELS];
} means;

static double mean_at(means *m, pw_infiltration model, int shield, int terrain, int level)
{
  const int aim2 = model == PW_INFILTRATION_AIM2; /* knows neither terrain nor level */
  double *to = &m->of[model][shield][aim2 ? 0 : terrain][aim2 ? 0 : level];
  if (*to > 0.0) return *to;
  pw_infiltration_site site =
      pw_compare_air_site(&m->compare->job->house, &m->compare->lived.house);
  site.shield = shield;
  site.terrain = terrain;
  site.level += 0.2 * (level - 1);
  return *to =
             pw_infiltration_year(model, &site, m->weather, pw_c(m->compare->rated.t_in), NULL);
}

/* The spreads of what is drawn beside the sashes. */
typedef struct spreads {
  pw_spread shield, terrain, level; /* about 0 */
  pw_spread rate, reading;          /* about 1: of a rate without a blower door; of a reading */
} spreads;

static pw_status spreads_of(const pw_compare *c, spreads *s, pw_err *err)
{
  const pw_given *rate = &c->job->house.air_changes;
  const pw_given zero = {.value = 0.0, .origin = PW_ORIGIN_ASSUMED};
  pw_given one = {.value = 1.0, .origin = PW_ORIGIN_ASSUMED};
  if (rate->value > 0.0) {
    one.origin = rate->origin;
    one.spread = rate->spread / rate->value;
  }
  *s = (spreads){.reading = {.shape = PW_SHAPE_TRIANGULAR,
                             .low = ROW(reading)->low,
                             .mode = ROW(reading)->value,
                             .high = ROW(reading)->high}};
  pw_status status = pw_spread_of("air_changes", &one, &s->rate, err);
  if (status == PW_OK) status = pw_spread_of("air_shield", &zero, &s->shield, err);
  if (status == PW_OK) status = pw_spread_of("air_terrain", &zero, &s->terrain, err);
  if (status == PW_OK) status = pw_spread_of("air_level", &zero, &s->level, err);
  return status;
}

static int class_at(int usual, const pw_spread *s, double p)
{
  int k = usual + (int)lround(pw_spread_at(s, p));
  return k < 1 ? 1 : k > CLASSES ? CLASSES : k;
}

/* One draw of the house: m2 and 1/h before. */
static void draw_house(const pw_compare *c, const pw_compare_tight *t, const spreads *s,
                       means *m, const double u[], double *area, double *rate)
{
  const pw_infiltration_site site = pw_compare_air_site(&c->job->house, &c->lived.house);
  const pw_infiltration model =
      u[D_MODEL] < 0.5 ? PW_INFILTRATION_SHERMAN_GRIMSRUD : PW_INFILTRATION_AIM2;
  int level = 1 + (int)lround(pw_spread_at(&s->level, u[D_LEVEL]) / 0.2);
  level = level < 0 ? 0 : level > 2 ? 2 : level;
  double mean = mean_at(m, model, class_at(site.shield, &s->shield, u[D_SHIELD]),
                        class_at(site.terrain, &s->terrain, u[D_TERRAIN]), level);
  double changes = 3600.0 * mean / c->lived.house.volume; /* 1/h a m2 */
  int given = c->job->house.air_changes.value > 0.0;
  if (t->by_door) *area = t->area * pw_spread_at(&s->reading, u[D_HOUSE]);
  if (!t->by_door || given) *rate = t->air_changes * pw_spread_at(&s->rate, u[D_HOUSE]);
  if (!t->by_door) *area = *rate / changes;
  if (t->by_door && !given) *rate = *area * changes;
}

/* One draw of the old sashes that are replaced, m2; *held counts. */
static double draw_sashes(const pw_compare *c, const pw_compare_tight *t, const double u[],
                          double area, int *held)
{
  double all = 0.0, replaced = 0.0;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!t->opening[i].counted) continue;
    double here = span_at(&t->opening[i].now, u[D_SASH]);
    all += here;
    if (t->opening[i].replaced) replaced += here;
  }
  if (t->taped) { /* two readings: what they miss by is a share of the house's area */
    const double miss = ROW(reading)->high - 1.0;
    const pw_spread read = {.shape = PW_SHAPE_TRIANGULAR,
                            .low = fmax(0.0, t->sashes - miss * t->area),
                            .mode = t->sashes,
                            .high = t->sashes + miss * t->area};
    return all > 0.0 ? fmin(pw_spread_at(&read, u[D_SASH]), area) * replaced / all : 0.0;
  }
  double most = t->share_most * area;
  if (!(all > most)) return replaced;
  (*held)++;
  return replaced * most / all;
}

pw_status tight_draw(const pw_compare *c, const pw_weather *weather, pw_compare_tight *t,
                     double share[], double of_area[], pw_err *err)
{
  spreads s;
  pw_sobol sobol;
  int held = 0;
  pw_status status = spreads_of(c, &s, err);
  if (status == PW_OK) status = pw_sobol_init(&sobol, D_COUNT, PW_TIGHT_DRAWS, 1, err);
  if (status != PW_OK) return status;
  means *m = calloc(1, sizeof *m);
  if (!m) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the draws of tightness");
  m->compare = c;
  m->weather = weather;
  for (size_t k = 0; k < PW_TIGHT_DRAWS; k++) {
    double u[D_COUNT], area = 0.0, rate = 0.0;
    pw_sobol_point(&sobol, k, u);
    draw_house(c, t, &s, m, u, &area, &rate);
    double old = draw_sashes(c, t, u, area, &held);
    for (size_t p = 0; p < c->n_package; p++) {
      double saved = old - span_at(&t->package[p].inserts, u[D_INSERT]);
      of_area[p * PW_TIGHT_DRAWS + k] = saved / area;
      share[p * PW_TIGHT_DRAWS + k] = rate / t->air_changes * saved / area;
    }
  }
  t->held_draws = (double)held / PW_TIGHT_DRAWS;
  free(m);
  return PW_OK;
}
