#include "check/open_data.h"

#include <stdio.h>
#include <unistd.h>

#include "job/climate_file.h"

pw_status pw_check_file(const pw_check_sink *sink, const char *folder, const char *file,
                        char path[PW_CHECK_PATH], pw_err *err)
{
  if (!sink->data)
    return pw_fail(err, PW_E_MISSING, NULL,
                   "no reference/checks here and none installed: name it with --data");
  int n = snprintf(path, PW_CHECK_PATH, "%s/%s/%s", sink->data, folder, file);
  if (n < 0 || n >= PW_CHECK_PATH)
    return pw_fail(err, PW_E_MISSING, NULL, "--data: the name is too long");
  return PW_OK;
}

pw_status pw_check_hourly(const pw_check_sink *sink, const char *file, pw_weather *weather,
                          pw_err *err)
{
  char name[64], path[PW_CHECK_PATH];
  snprintf(name, sizeof name, "%s.gz", file);
  pw_status status = pw_check_file(sink, "hourly", name, path, err);
  return status == PW_OK ? pw_climate_read(path, weather, NULL, err) : status;
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

void pw_check_bare(pw_job *job)
{
  job->house.covering = PW_COVERING_NONE;
  for (size_t i = 0; i < job->n_opening; i++)
    job->opening[i].covering = PW_COVERING_NONE;
  job->house.setback_k = (pw_given){.value = 0.0, .origin = PW_ORIGIN_STATED};
}
