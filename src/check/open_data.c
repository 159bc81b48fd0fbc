#include "check/open_data.h"

#include <stdio.h>

#include "job/climate_file.h"

pw_status pw_check_hourly(const pw_check_sink *sink, const char *file, pw_weather *weather,
                          pw_err *err)
{
  char path[512];
  if (!sink->data)
    return pw_fail(err, PW_E_MISSING, NULL,
                   "no reference/checks here and none installed: name it with --data");
  int n = snprintf(path, sizeof path, "%s/hourly/%s.gz", sink->data, file);
  if (n < 0 || (size_t)n >= sizeof path)
    return pw_fail(err, PW_E_MISSING, NULL, "--data: the name is too long");
  return pw_climate_read(path, weather, NULL, err);
}
