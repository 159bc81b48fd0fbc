/* What a job or a command calls its climate: a file or a built-in place. */
#include <ctype.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "climate/month.h"
#include "job/climate_file.h"

static int is_there(const char *path)
{
  struct stat st;
  return stat(path, &st) == 0 && !S_ISDIR(st.st_mode);
}

/* Whether the text can only mean a file: it has a slash, or ends as weather files do. */
static int looks_like_file(const char *text)
{
  static const char *const ending[] = {".csv", ".gz", ".txt"};
  size_t n = strlen(text);
  if (strchr(text, '/')) return 1;
  for (size_t k = 0; k < sizeof ending / sizeof ending[0]; k++) {
    size_t m = strlen(ending[k]), i = 0;
    while (n > m && i < m && tolower((unsigned char)text[n - m + i]) == ending[k][i])
      i++;
    if (n > m && i == m) return 1;
  }
  return 0;
}

pw_status pw_climate_get(const char *text, const char *folder, pw_weather *weather,
                         pw_climate_report *report, pw_place_hit *hit, pw_err *err)
{
  char path[4096];
  pw_place_hit found = {.zone = ""};
  if (hit) *hit = found;
  int n = snprintf(path, sizeof path, "%s/%s", folder ? folder : ".", text);
  int beside = folder && text[0] != '/' && n > 0 && (size_t)n < sizeof path && is_there(path);
  if (beside) return pw_climate_read(path, weather, report, err);
  if (is_there(text) || looks_like_file(text))
    return pw_climate_read(text, weather, report, err);
  pw_status status = pw_place_look(text, &found, err);
  if (status == PW_OK) status = pw_place_year(found.index, weather, err);
  if (status == PW_OK && hit) *hit = found;
  if (status == PW_OK && report) *report = (pw_climate_report){.per_hour = 1};
  return status;
}
