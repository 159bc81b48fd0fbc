#include "job/climate_of_job.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "climate/code_zone.h"
#include "climate/height.h"
#include "job/climate_file.h"
#include "panewright/units.h"

/* What the heights of house and station are, and what was done about them. */
static pw_message say_height(const pw_house_facts *house, double station, double change,
                             int synthetic)
{
  double up = house->elevation.value - station, apart = floor(fabs(up) + 0.5);
  if (!isfinite(up))
    return PW_SAYS(PW_SAY_STATION_AT, PW_SI(floor(station + 0.5)), PW_SI(station));
  if (change != 0.0)
    return PW_SAYS(change < 0.0 ? PW_SAY_MADE_COLDER : PW_SAY_MADE_WARMER,
                   PW_SI(0.1 * floor(10.0 * fabs(change) + 0.5)), PW_SI(PW_LAPSE), PW_SI(apart),
                   PW_SI(fabs(up)));
  int own = house->correct_height == PW_HEIGHT_NO     ? 1
            : fabs(up) < PW_HEIGHT_LEAST || synthetic ? 0
                                                      : 2;
  static const pw_message_number below[] = {PW_SAY_HOUSE_BELOW, PW_SAY_HOUSE_BELOW_AS_ASKED,
                                            PW_SAY_HOUSE_BELOW_OF_FILE};
  static const pw_message_number above[] = {PW_SAY_HOUSE_ABOVE, PW_SAY_HOUSE_ABOVE_AS_ASKED,
                                            PW_SAY_HOUSE_ABOVE_OF_FILE};
  return PW_SAYS(up < 0.0 ? below[own] : above[own], PW_SI(apart), PW_SI(fabs(up)));
}

static pw_message say_place(const pw_weather *weather, const pw_climate_report *report,
                            const pw_place_hit *hit)
{
  const char *name = weather->site.name;
  int away = hit->km > 1.0;
  pw_message m;
  if (!weather->synthetic) {
    m = PW_SAYS(PW_SAY_CLIMATE_HOURLY, PW_OWN, PW_OWN_2, PW_INT(report->repaired));
    pw_message_owns(&m, name, pw_climate_layout_name(report->layout));
    return m;
  }
  int km = (int)floor(hit->km + 0.5);
  if (hit->said[0]) {
    m = away ? PW_SAYS(PW_SAY_CLIMATE_MADE_OF_AWAY, PW_OWN, PW_OWN_2, PW_INT(km))
             : PW_SAYS(PW_SAY_CLIMATE_MADE_OF, PW_OWN, PW_OWN_2);
    pw_message_owns(&m, hit->said, name);
    return m;
  }
  m = away ? PW_SAYS(PW_SAY_CLIMATE_MADE_AWAY, PW_OWN, PW_INT(km))
           : PW_SAYS(PW_SAY_CLIMATE_MADE, PW_OWN);
  pw_message_own(&m, name);
  return m;
}

static int corrects(const pw_house_facts *house, int synthetic)
{
  if (house->correct_height == PW_HEIGHT_NO) return 0;
  return synthetic || house->correct_height == PW_HEIGHT_YES;
}

pw_status pw_job_climate(const pw_house_facts *house, const char *dir, pw_weather *weather,
                         pw_message said[PW_CLIMATE_SAYS], pw_err *err)
{
  pw_climate_report report = {0};
  pw_place_hit hit = {.zone = ""};
  pw_err why = {0};
  pw_status status = pw_climate_get(house->climate, dir, weather, &report, &hit, &why);
  if (status != PW_OK) return pw_fail(err, status, "climate", "climate: %.340s", why.text);
  double station = weather->site.elevation, change = 0.0;
  if (corrects(house, weather->synthetic))
    change = pw_weather_to_height(weather, house->elevation.value);
  said[0] = say_place(weather, &report, &hit);
  said[1] = say_height(house, station, change, weather->synthetic);
  return PW_OK;
}

enum { FAR_KM = 400 }; /* climate2/README.md: beyond it a ZIP code has no place */

/* By the place that the weather is of. */
static void zone_of_place(const pw_house_facts *house, pw_code_place *place)
{
  pw_place_hit hit = {.zone = ""};
  if (pw_place_look(house->climate, &hit, NULL) != PW_OK || hit.km > FAR_KM) return;
  snprintf(place->zone, sizeof place->zone, "%s", hit.zone);
  place->ca_zone = hit.ca_zone;
  if (hit.said[0])
    snprintf(place->from, sizeof place->from, "of %.60s, 2012 edition", hit.said);
  else if (hit.km > 1.0)
    snprintf(place->from, sizeof place->from,
             "of the nearest station, %.0f km away, 2012 edition", hit.km);
  else
    snprintf(place->from, sizeof place->from, "of its station, 2012 edition");
}

pw_status pw_job_code_place(const pw_house_facts *house, const pw_weather *weather,
                            pw_code_place *place, pw_err *err)
{
  pw_code_place p = {.edition = house->code_edition, .elevation = house->elevation.value};
  pw_code_zone_said said = {0};
  if (weather->synthetic) zone_of_place(house, &p);
  p.california = house->state[0] ? strcmp(house->state, "CA") == 0 : p.ca_zone > 0;
  if (house->code_zone[0]) {
    pw_status status = pw_code_zone_look(house->code_zone, house->state, &said, err);
    if (status != PW_OK) return status;
    if (said.ca_zone && house->state[0] && !p.california)
      return pw_fail(
          err, PW_E_DATA, "code_zone",
          "'%s' is a zone of California's code, and the state is %s; want 1 to 8 as in "
          "4B, or a county",
          house->code_zone, house->state);
    p.california = p.california || said.ca_zone > 0;
    /* Where the zone that counts is still the place's, the job has not said it. */
    if (!p.california || said.ca_zone || !p.ca_zone)
      snprintf(p.from, sizeof p.from, "%s%s", said.from,
               strncmp(said.from, "of ", 3) == 0 ? ", 2012 edition" : "");
    if (said.zone[0]) memcpy(p.zone, said.zone, sizeof p.zone);
    p.ca_zone = said.ca_zone ? said.ca_zone : p.ca_zone;
  }
  *place = p;
  return pw_date_read(house->install_date, &place->date, err);
}
