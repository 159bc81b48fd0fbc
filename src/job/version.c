#include "job/version.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <zlib.h>

#include "job/input_text.h"

static const char *const file_name[] = {"job.csv",         "openings.csv", "packages.csv",
                                        "frame_lines.csv", "labels.csv",   "prices.csv",
                                        "firm.csv",        "bills.csv",    "bills_weather.csv"};

static pw_status add(const char *dir, const char *name, unsigned long *crc, pw_err *err)
{
  char path[PW_INPUT_PATH];
  char *text = NULL;
  size_t size = 0;
  pw_status status = pw_input_path(dir, name, path, err);
  if (status != PW_OK) return status;
  if (access(path, F_OK) != 0) return PW_OK;
  status = pw_input_read(path, PW_INPUT_FEED, &text, &size, err);
  if (status != PW_OK) return status;
  *crc = crc32(*crc, (const unsigned char *)name, (unsigned)strlen(name) + 1);
  *crc = crc32(*crc, (const unsigned char *)text, (unsigned)size);
  free(text);
  return PW_OK;
}

pw_status pw_job_version(const char *dir, char version[PW_VERSION_MAX], pw_err *err)
{
  unsigned long crc = crc32(0, NULL, 0);
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < sizeof file_name / sizeof file_name[0]; i++)
    status = add(dir, file_name[i], &crc, err);
  snprintf(version, PW_VERSION_MAX, "%08lx", crc & 0xffffffffUL);
  return status;
}
