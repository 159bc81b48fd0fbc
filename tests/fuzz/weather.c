/* Weather by the hour and by the day. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fuzz.h"
#include "job/climate_file.h"
#include "job/daily_file.h"
#include "job/input_text.h"

static void climate(const char *text, size_t size)
{
  static pw_weather weather;
  pw_err err = {0};
  fuzz_said(pw_climate_parse(text, size, "fuzz.csv", &weather, NULL, &err), &err);
}

void fuzz_climate(const char *text, size_t size) { climate(text, size); }

/* A whole year of one of the three layouts, from the checks, into which lines of the input go: the first byte says
 * which file, then each line gives a place (two bytes, of 65536ths of the file) and what stands there. */
static const char *const whole_year[] = {
    "reference/checks/hourly/725650TYA.CSV.gz",
    "reference/checks/hourly/pvgis_tmy_45.000_8.000_2005_2023.csv.gz",
    "reference/checks/hourly/nsrdb_psm3_halfhour_40.53_-108.54_2017.csv.gz"};
enum { N_YEAR = sizeof whole_year / sizeof whole_year[0] };

static void patch(char *year, size_t n, const char *line, size_t size)
{
  if (size < 3) return;
  size_t place = (size_t)(unsigned char)line[0] * 256 + (unsigned char)line[1];
  size_t at = (size_t)((double)place / 65536.0 * (double)n);
  memcpy(year + at, line + 2, size - 2 < n - at ? size - 2 : n - at);
}

void fuzz_year(const char *text, size_t size)
{
  static char *kept[N_YEAR];
  static size_t n[N_YEAR];
  if (size < 1) return;
  size_t k = (unsigned char)text[0] % N_YEAR;
  if (!kept[k] &&
      pw_input_read(whole_year[k], PW_INPUT_WEATHER, &kept[k], &n[k], NULL) != PW_OK)
    abort(); /* the program is to run in the project's folder */
  char *year = malloc(n[k]);
  if (!year) abort();
  memcpy(year, kept[k], n[k]);
  for (size_t at = 1; at < size;) {
    const char *end = memchr(text + at, '\n', size - at);
    size_t here = end ? (size_t)(end - text) - at : size - at;
    patch(year, n[k], text + at, here);
    at += here + 1;
  }
  climate(year, n[k]);
  free(year);
}

void fuzz_daily(const char *text, size_t size)
{
  pw_daily daily;
  pw_normal_set normal;
  pw_err err = {0};
  pw_status status =
      pw_daily_parse("fuzz.csv", text, size, size & 1 ? -7.0 : (double)NAN, &daily, &err);
  fuzz_said(status, &err);
  if (status == PW_OK && pw_normal_set_of(&daily, &normal, NULL) == PW_OK)
    pw_normal_set_free(&normal);
  pw_daily_free(&daily);
}
