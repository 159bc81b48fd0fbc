#include "check/open_data.h"

#include <stdio.h>
#include <unistd.h>

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

pw_status pw_check_example(const pw_check_sink *sink, const char *name, char dir[], size_t size,
                           pw_err *err)
{
  static const char *const home[] = {"examples", "../../examples"};
  for (size_t i = 0; sink->data && i < sizeof home / sizeof home[0]; i++) {
    int n = snprintf(dir, size, "%s/%s/%s", sink->data, home[i], name);
    if (n > 0 && (size_t)n < size && access(dir, R_OK) == 0) return PW_OK;
  }
  return pw_fail(err, PW_E_MISSING, NULL, "no examples/%s beside the folder of open data",
                 name);
}
