/* Outdoor air by the hour: the year's mean rate as ever, spread over its hours by a model of infiltration. The
 * same before and after, so that what it changes in a saving is the glass's. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/infiltration.h"
#include "panewright/units.h"
#include "study/compare_impl.h"

static pw_infiltration_site site_of(const pw_house_facts *f, const pw_house *house)
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

pw_status pw_compare_air(pw_compare *c, const pw_weather *weather, pw_err *err)
{
  const pw_house_facts *f = &c->job->house;
  if (f->infiltration == PW_INFILTRATION_CONSTANT) return PW_OK;
  const pw_infiltration model = (pw_infiltration)f->infiltration;
  const pw_infiltration_site site = site_of(f, &c->house);
  pw_status status = pw_infiltration_check(&site, err);
  if (status != PW_OK) return status;
  c->air_shape = malloc(PW_HOURS * sizeof *c->air_shape);
  if (!c->air_shape)
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the hours of the air");
  double mean = pw_infiltration_year(model, &site, weather, pw_c(c->t_in), c->air_shape);
  for (int i = 0; mean > 0.0 && i < PW_HOURS; i++)
    c->air_shape[i] = (float)((double)c->air_shape[i] / mean);
  if (mean > 0.0) c->house.air_shape = c->air_shape;
  note(&c->house_notes, model);
  return PW_OK;
}
