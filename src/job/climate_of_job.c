#include "job/climate_of_job.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "job/climate_file.h"
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
