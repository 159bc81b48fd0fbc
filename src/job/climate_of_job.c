#include "job/climate_of_job.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "job/climate_file.h"
#include "panewright/code_zone.h"
#include "panewright/height.h"
#include "panewright/units.h"

/* What the heights of house and station are, and what was done about them. */
static void say_height(const pw_house_facts *house, double station, double change,
                       int synthetic, char text[160])
{
  double up = house->elevation.value - station;
  const char *side = up < 0.0 ? "below" : "above";
  if (!isfinite(up))
    snprintf(text, 160, "station at %.0f m (%.0f ft)", station, station / PW_FOOT);
  else if (change != 0.0)
    snprintf(text, 160, "made %.1f K %s (%g K/m) for a house %.0f m (%.0f ft) %s it",
             fabs(change), change < 0.0 ? "colder" : "warmer", PW_LAPSE, fabs(up),
             fabs(up) / PW_FOOT, side);
  else
    snprintf(text, 160, "house %.0f m (%.0f ft) %s it, not corrected%s", fabs(up),
             fabs(up) / PW_FOOT, side,
             house->correct_height == PW_HEIGHT_NO ? " as asked"
             : fabs(up) < PW_HEIGHT_LEAST          ? ""
             : synthetic                           ? ""
                                                   : " (correct_height yes does)");
}

static int corrects(const pw_house_facts *house, int synthetic)
{
  if (house->correct_height == PW_HEIGHT_NO) return 0;
  return synthetic || house->correct_height == PW_HEIGHT_YES;
}

pw_status pw_job_climate(const pw_house_facts *house, const char *dir, pw_weather *weather,
                         char line[PW_CLIMATE_LINE], pw_err *err)
{
  pw_climate_report report = {0};
  pw_place_hit hit = {.zone = ""};
  pw_err why = {0};
  pw_status status = pw_climate_get(house->climate, dir, weather, &report, &hit, &why);
  if (status != PW_OK) return pw_fail(err, status, "climate", "climate: %.340s", why.text);
  char away[40] = "", height[160];
  double station = weather->site.elevation, change = 0.0;
  if (corrects(house, weather->synthetic))
    change = pw_weather_to_height(weather, house->elevation.value);
  say_height(house, station, change, weather->synthetic, height);
  if (hit.km > 1.0) snprintf(away, sizeof away, ", %.0f km away", hit.km);
  if (weather->synthetic)
    snprintf(line, PW_CLIMATE_LINE, "%s%s%.64s%s, hours made from monthly normals; %s",
             hit.said, hit.said[0] ? ": " : "", weather->site.name, away, height);
  else
    snprintf(line, PW_CLIMATE_LINE, "%.64s, hourly file (%s), %zu hours mended; %s",
             weather->site.name, pw_climate_layout_name(report.layout), report.repaired,
             height);
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
