/* Outdoor air: the year's mean rate by a blower door where the job gives that in place of a rate, spread over its hours
 * where the job names a model of infiltration. The same before and after, so that what it changes in a saving is the
 * glass's. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "gen/reference.h"
#include "house/infiltration.h"
#include "house/sash_leak.h"
#include "panewright/units.h"
#include "study/compare_impl.h"

pw_infiltration pw_compare_air_model(const pw_house_facts *f)
{
  return f->infiltration == PW_INFILTRATION_CONSTANT ? PW_INFILTRATION_SHERMAN_GRIMSRUD
                                                     : (pw_infiltration)f->infiltration;
}

pw_infiltration_site pw_compare_air_site(const pw_house_facts *f, const pw_house *house)
{
  int storeys = f->storeys < 1 ? 1 : f->storeys > 3 ? 3 : f->storeys;
  double ceiling = house->volume / house->floor_area;
  return (pw_infiltration_site){.height = storeys * ceiling,
                                .storeys = storeys,
                                .shield = 3, /* moderate: a suburb, handbook */
                                .terrain =
                                    3, /* low buildings: fw as the handbook's basic model */
                                .level = 0.5,
                                .flue = f->open_combustion == 1,
                                .crawl = f->floor[0] && strncmp(f->floor, "slab", 4) != 0};
}

static void note(pw_house_notes *notes, pw_infiltration model)
{
  if (notes->n_assumed == PW_HOUSE_ASSUMED_MAX) return;
  pw_house_assumed *a = &notes->assumed[notes->n_assumed++];
  a->item = PW_SAY_ASSUMED_HOURLY_AIR;
  a->value = PW_SAYS_PLAIN(model == PW_INFILTRATION_AIM2 ? PW_SAY_OF_AIM2 : PW_SAY_OF_SHERMAN);
  a->source = "table air/infiltration, from memory; the mean is air_changes";
}

/* Drapes and blinds, where an opening has any. */
static void note_coverings(pw_house_notes *notes)
{
  if (notes->n_assumed == PW_HOUSE_ASSUMED_MAX) return;
  notes->assumed[notes->n_assumed++] = (pw_house_assumed){
      PW_SAY_ASSUMED_COVERINGS,
      PW_SAYS(PW_SAY_OF_COVERINGS,
              PW_SI(pw_ref_air_shades[pw_ref_air_shades__closed_summer].value),
              PW_SI(pw_ref_air_shades[pw_ref_air_shades__closed_night].value)),
      "table air/shades, from memory"};
}

/* A rate that the job gives goes before its blower door. */
static int rate_by_door(const pw_house_facts *f)
{
  return f->cfm50.value > 0.0 && !(f->air_changes.value > 0.0);
}

int pw_compare_air_drawn(const pw_house_facts *f)
{
  return f->infiltration != PW_INFILTRATION_CONSTANT || rate_by_door(f);
}

/* A class and the next, and how far between. */
typedef struct between {
  int low, high;
  double part;
} between;

static between between_classes(double x)
{
  double held = fmin(5.0, fmax(1.0, x));
  int low = (int)held;
  return (between){low, low < 5 ? low + 1 : 5, held - low};
}

double pw_compare_air_at(const pw_compare *c, const pw_weather *weather, double shield,
                         double terrain, double level, float hour[])
{
  const pw_house_facts *facts = &c->job->house;
  const pw_infiltration model = pw_compare_air_model(facts);
  const double t_in = pw_c(c->rated.t_in);
  const pw_infiltration_site usual = pw_compare_air_site(facts, &c->lived.house);
  const between s = between_classes(usual.shield + shield),
                t = between_classes(usual.terrain + terrain);
  double mean = 0.0;
  memset(hour, 0, PW_HOURS * sizeof *hour);
  for (int k = 0; k < 4; k++) {
    const double part = (k & 1 ? s.part : 1.0 - s.part) * (k & 2 ? t.part : 1.0 - t.part);
    float one[PW_HOURS];
    pw_infiltration_site site = usual;
    if (!(part > 0.0)) continue;
    site.shield = k & 1 ? s.high : s.low;
    site.terrain = k & 2 ? t.high : t.low;
    site.level = fmin(1.0, fmax(0.0, usual.level + level));
    mean += part * pw_infiltration_year(model, &site, weather, t_in, one);
    for (int i = 0; i < PW_HOURS; i++)
      hour[i] += (float)part * one[i];
  }
  for (int i = 0; mean > 0.0 && i < PW_HOURS; i++)
    hour[i] = (float)((double)hour[i] / mean);
  if (!rate_by_door(facts)) return 1.0;
  return mean / pw_infiltration_year(model, &usual, weather, t_in, NULL);
}

/* Takes the place of the rate by age and of its note. */
static void by_door(pw_compare_lived *l, double cfm50, pw_infiltration model, double mean)
{
  l->house.air_changes = mean * pw_house_leak_area(cfm50) * 3600.0 / l->house.volume;
  for (size_t i = 0; i < l->house_notes.n_assumed; i++) {
    pw_house_assumed *a = &l->house_notes.assumed[i];
    if (a->item != PW_SAY_ASSUMED_AIR) continue;
    a->value = PW_SAYS(PW_SAY_OF_AIR_BY_DOOR, PW_SI(l->house.air_changes));
    a->source = model == PW_INFILTRATION_AIM2
                    ? "leakage area at 4 Pa, n 0.65; AIM-2, table air/infiltration, from memory"
                    : "leakage area at 4 Pa, n 0.65; Sherman and Grimsrud 1980, table "
                      "air/infiltration, from memory";
  }
}

pw_status pw_compare_air(const pw_house_facts *f, double t_in, const pw_weather *weather,
                         pw_compare_lived *l, pw_err *err)
{
  const pw_infiltration model = pw_compare_air_model(f);
  if (l->covered) note_coverings(&l->house_notes);
  const int by_hour = f->infiltration != PW_INFILTRATION_CONSTANT;
  if (!by_hour && !rate_by_door(f)) return PW_OK;
  const pw_infiltration_site site = pw_compare_air_site(f, &l->house);
  pw_status status = pw_infiltration_check(&site, err);
  if (status != PW_OK) return status;
  if (rate_by_door(f))
    by_door(l, f->cfm50.value, model,
            pw_infiltration_year(model, &site, weather, pw_c(t_in), NULL));
  if (!by_hour) return PW_OK;
  float *shape = malloc(PW_HOURS * sizeof *shape);
  l->air_shape = shape;
  if (!shape) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hours of the air");
  double mean = pw_infiltration_year(model, &site, weather, pw_c(t_in), shape);
  for (int i = 0; mean > 0.0 && i < PW_HOURS; i++)
    shape[i] = (float)((double)shape[i] / mean);
  if (mean > 0.0) l->house.air_shape = shape;
  note(&l->house_notes, model);
  return PW_OK;
}

pw_status pw_compare_open_flow(const pw_compare *c, int package, pw_airing_flow *flow,
                               pw_err *err)
{
  pw_house_window *window = calloc(c->n_opening, sizeof *window);
  if (!window) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the windows");
  pw_compare_windows(c->job, &c->fitted, &c->rated, package, window);
  *flow = pw_year_open_flow(&c->lived.house, window, pw_compare_inside(c->job, window));
  free(window);
  return PW_OK;
}

void pw_compare_ducts(const pw_house_facts *f, const pw_weather *weather, pw_compare_lived *l)
{
  const double t_room[2] = {f->heat_set_c.value, f->cool_set_c.value};
  for (int k = 0; f->ducts != PW_DUCTS_BLANK && k < 2; k++)
    pw_duct_season_of((pw_duct_place)f->ducts, k, l->house.floor_area, t_room[k], weather,
                      &l->duct[k]);
}
