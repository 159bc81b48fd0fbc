/* Speed of weather files, sun and sky, in CPU time. */
#include "bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>
#include <zlib.h>

#include "climate/month.h"
#include "job/climate_file.h"

/* Everything a run holds; 3 MB. */
typedef struct desk {
  pw_weather weather;
  pw_sky_year sky;
  pw_facade_year facade[8];
  char path[512];
  int facades, failed;
} desk;

static void read_file(void *data)
{
  desk *d = data;
  d->failed |= pw_climate_read(d->path, &d->weather, NULL, NULL) != PW_OK;
}

static void make_year(void *data)
{
  desk *d = data;
  pw_place p;
  d->failed |= pw_place_get(0, &p, NULL) != PW_OK ||
               pw_month_year(&p, PW_MONTH_VARIED_DAYS, &d->weather, NULL) != PW_OK;
}

static void sun_and_sky(void *data)
{
  desk *d = data;
  d->failed |= pw_sky_of_year(&d->weather, PW_SKY_PEREZ, &d->sky, NULL) != PW_OK;
  for (int k = 0; k < d->facades; k++)
    d->failed |= pw_facade_of_year(&d->sky, &(pw_facade){360.0 * k / d->facades, 90.0, 0.2},
                                   &d->facade[k], NULL) != PW_OK;
}

/* Writes a packed file plain into a temporary one and names it. */
static void unpack(const char *packed, char *plain, size_t size)
{
  char buffer[1 << 16];
  snprintf(plain, size, "/tmp/pw_bench_XXXXXX");
  int fd = mkstemp(plain), n = 0;
  gzFile in = gzopen(packed, "rb");
  while (fd >= 0 && in && (n = gzread(in, buffer, sizeof buffer)) > 0)
    if (write(fd, buffer, (size_t)n) != n) break;
  if (in) gzclose(in);
  if (fd >= 0) close(fd);
}

void bench_climate(bench *b)
{
  desk *d = calloc(1, sizeof *d);
  if (!d) return;
  unpack("reference/checks/hourly/723170TYA.CSV.gz", d->path, sizeof d->path);
  bench_run(b, "weather file of 8760 rows, plain", "file", 1, read_file, d, 15e-3,
            "bound, one core");
  unlink(d->path);
  snprintf(d->path, sizeof d->path, "reference/checks/hourly/725650TYA.CSV.gz");
  bench_run(b, "weather file of 8760 rows, gzip", "file", 1, read_file, d, 15e-3,
            "bound, one core");
  bench_run(b, "year made from monthly normals", "year", 1, make_year, d, 3e-3,
            "bound, one core");
  d->facades = 8;
  bench_run(b, "sun and Perez sky, 8 facades", "year", 1, sun_and_sky, d, 4e-3,
            "bound, one core");
  d->facades = 4;
  bench_run(b, "sun and Perez sky, 4 facades", "year", 1, sun_and_sky, d, 1.1e-3,
            "a 20th of 22 ms, an open solar library measured before");
  if (d->failed) fputs("bench: a call of the climate part failed\n", stderr);
  free(d);
}
