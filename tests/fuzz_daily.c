/* Any bytes as daily weather: read or refused, without a stray access. The first byte picks the header that
 * goes before, so that rows are reached. */
#include "fuzz_text.h"

#include <math.h>

#include "job/daily_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const char *const head[] = {"",
                                     "date,t_mean_c\n",
                                     "day,t_mean_c\n",
                                     "2021 01 01 00    94\n",
                                     "USX00000001,20210101,TMAX,94,,,7,\n",
                                     "Longitude (decimal degrees):\t-105\ntime,T2m\n"};
  size_t whole = 0;
  char *text = fuzz_text(head, sizeof head / sizeof head[0], data, size, &whole);
  if (!text) return 0;
  pw_daily daily;
  pw_normal_set normal;
  if (pw_daily_parse("fuzz.csv", text, whole, -7.0, &daily, NULL) == PW_OK &&
      pw_normal_set_of(&daily, &normal, NULL) == PW_OK)
    pw_normal_set_free(&normal);
  pw_daily_free(&daily);
  free(text);
  return 0;
}
