#include "job/climate_of_job.h"

#include <stdio.h>

#include "job/climate_file.h"

pw_status pw_job_climate(const char *text, const char *dir, pw_weather *weather, char line[240],
                         pw_err *err)
{
  pw_climate_report report = {0};
  double distance = 0.0;
  pw_err why = {0};
  pw_status status = pw_climate_get(text, dir, weather, &report, &distance, &why);
  if (status != PW_OK) return pw_fail(err, status, "climate", "climate: %.340s", why.text);
  char away[40] = "";
  if (distance > 1.0) snprintf(away, sizeof away, ", %.0f km away", distance);
  if (weather->synthetic)
    snprintf(line, 240, "%.64s%s, hours made from monthly normals", weather->site.name, away);
  else
    snprintf(line, 240, "%.64s, hourly file (%s), %zu hours mended", weather->site.name,
             pw_climate_layout_name(report.layout), report.repaired);
  return PW_OK;
}
