#include "house/duct.h"

#include <math.h>
#include <stddef.h>

#include "base/own_math.h"
#include "gen/reference.h"
#include "panewright/units.h"

double pw_duct_delivers(const pw_duct *d)
{
  double air = 1.2 * PW_AIR_HEAT * d->flow; /* W/K, air of 1.2 kg/m3 */
  double bs = pw_exp(-d->ua_supply / air), br = pw_exp(-d->ua_return / air);
  double rise = d->t_supply - d->t_room;
  double supply = (d->t_room - d->t_round_supply) / rise;
  double back = (d->t_room - d->t_round_return) / rise;
  return d->tight_supply *
         (bs - bs * (1.0 - d->tight_return * br) * back - (1.0 - bs) * supply);
}

#define VALUE(name) (pw_ref_air_ducts[pw_ref_air_ducts__##name].value)

/* Mean outdoors over the hours that heat or cool, each by its degrees beyond where gains carry the house: 3 K under
 * the rooms in winter (a usual balance point, assumed), at the rooms in summer. */
static double season_mean(int cooling, double t_room, const pw_weather *weather)
{
  const double from = cooling ? t_room : t_room - 3.0;
  double sum = 0.0, weight = 0.0;
  for (size_t i = 0; i < PW_HOURS; i++) {
    double t = (double)weather->hour[i].t_air, w = fmax(0.0, cooling ? t - from : from - t);
    sum += w * t;
    weight += w;
  }
  return weight > 0.0 ? sum / weight : from;
}

static double round_ducts(pw_duct_place place, int cooling, double t_room, double t_out)
{
  switch (place) {
  case PW_DUCTS_CRAWL:
    return t_out +
           (cooling ? VALUE(crawl_share_summer) : VALUE(crawl_share)) * (t_room - t_out);
  case PW_DUCTS_BASEMENT:
    return t_out + VALUE(basement_share) * (t_room - t_out);
  case PW_DUCTS_INSIDE:
    return t_room;
  default:
    return t_out + (cooling ? VALUE(attic_summer) : VALUE(attic_winter));
  }
}

void pw_duct_season_of(pw_duct_place place, int cooling, double floor_area, double t_room,
                       const pw_weather *weather, pw_duct_season *out)
{
  const int sealed = place == PW_DUCTS_ATTIC_SEALED;
  const double tight = 1.0 - 0.5 * (sealed ? VALUE(leak_sealed) : VALUE(leak));
  const double u = 1.0 / (sealed ? VALUE(insulation_sealed) : VALUE(insulation));
  out->t_out = season_mean(cooling, t_room, weather);
  const double around = round_ducts(place, cooling, t_room, out->t_out);
  out->duct = (pw_duct){.tight_supply = tight,
                        .tight_return = tight,
                        .ua_supply = u * VALUE(supply_area) * floor_area,
                        .ua_return = u * VALUE(return_area) * floor_area,
                        .flow = VALUE(flow) * floor_area,
                        .t_supply = cooling ? VALUE(supply_cool) : VALUE(supply_heat),
                        .t_room = t_room,
                        .t_round_supply = around,
                        .t_round_return = around};
  /* what leaks inside the house is not lost */
  out->delivers = place == PW_DUCTS_INSIDE ? 1.0 : pw_duct_delivers(&out->duct);
}

const char *pw_duct_place_name(pw_duct_place place)
{
  static const char *const name[PW_DUCT_PLACES] = {"",      "attic",    "attic_sealed",
                                                   "crawl", "basement", "inside"};
  return (unsigned)place < PW_DUCT_PLACES ? name[place] : "";
}
