#include "job/climate_of_job.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "job/climate_file.h"
#include "panewright/month.h"

static int names_a_file(const char *text)
{
  return strchr(text, '/') || strstr(text, ".csv") || strstr(text, ".CSV") ||
         strstr(text, ".gz");
}

static pw_status from_file(const char *path, pw_weather *weather, char line[240], pw_err *err)
{
  pw_climate_report report = {0};
  pw_status status = pw_climate_read(path, weather, &report, err);
  if (status != PW_OK) return status;
  snprintf(line, 240, "%.64s, hourly file (%s), %zu hours mended", weather->site.name,
           pw_climate_layout_name(report.layout), report.repaired);
  return PW_OK;
}

static pw_status from_place(const char *text, pw_weather *weather, char line[240], pw_err *err)
{
  size_t index = 0;
  double distance = 0.0;
  pw_place place;
  pw_status status = pw_place_find(text, &index, &distance, err);
  if (status == PW_OK) status = pw_place_get(index, &place, err);
  if (status == PW_OK) status = pw_month_year(&place, PW_MONTH_VARIED_DAYS, weather, err);
  if (status != PW_OK) return status;
  char away[40] = "";
  if (distance > 1.0) snprintf(away, sizeof away, ", %.0f km away", distance);
  snprintf(line, 240, "%.64s%s, hours made from monthly normals", weather->site.name, away);
  return PW_OK;
}

pw_status pw_job_climate(const char *text, const char *dir, pw_weather *weather, char line[240],
                         pw_err *err)
{
  char path[4096];
  if (text[0] == '/')
    snprintf(path, sizeof path, "%s", text);
  else
    snprintf(path, sizeof path, "%s/%s", dir, text);
  if (access(path, R_OK) == 0 && text[0]) return from_file(path, weather, line, err);
  if (names_a_file(text))
    return pw_fail(err, PW_E_MISSING, "climate", "job.csv: climate: no file %s", path);
  return from_place(text, weather, line, err);
}
