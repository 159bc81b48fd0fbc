/* Any bytes as a weather file: it must be read or refused, without a stray access. The head of a real
 * layout is put before the bytes by the first one, so that rows are reached. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "job/climate_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const char *const head[] = {
      "",
      "1,\"A, B\",CO,-7,39,-104,1650\nDate (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),DNI (W/m^2),"
      "DHI (W/m^2),Dry-bulb (C),Dew-point (C),Wspd (m/s)\n",
      "Latitude,Longitude,Time "
      "Zone,Elevation\n40,-100,0,100\nYear,Month,Day,Hour,Minute,GHI,DNI,"
      "DHI,Temperature,Dew Point,Wind Speed\n",
      "Latitude (decimal degrees): 45\nLongitude (decimal degrees): 8\nElevation (m): 1\n"
      "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\n"};
  static pw_weather weather;
  if (size == 0) return 0;
  const char *start = head[data[0] % 4];
  size_t n = strlen(start), whole = n + size - 1;
  char *text = malloc(whole + 1);
  if (!text) return 0;
  memcpy(text, start, n);
  memcpy(text + n, data + 1, size - 1);
  char *exact = malloc(whole ? whole : 1); /* so that a byte too far is seen */
  if (exact) {
    pw_err err;
    memcpy(exact, text, whole);
    pw_climate_parse(exact, whole, "fuzz.csv", &weather, NULL, &err);
  }
  free(exact);
  free(text);
  return 0;
}
