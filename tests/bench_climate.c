/* Speed of weather files, sun and sky, in CPU time; beside pvlib where python3 has it. */
#include "bench.h"

#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>
#include <zlib.h>

#include "job/climate_file.h"
#include "panewright/month.h"

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

/* s of numpy and pvlib for position and Perez on four walls, measured before on a machine of this
 * kind; used where python3 has no pvlib. */
static const double pvlib_before = 22e-3;

/* CPU s of pvlib for the same: position of 8760 hours and Perez on four walls; below 0 without it. */
static double pvlib_s(void)
{
  static const char script[] =
      "python3 -c \"\n"
      "import time, numpy as np, pandas as pd, pvlib\n"
      "t = pd.date_range('2001-01-01 00:30', periods=8760, freq='h', tz='Etc/GMT+7')\n"
      "ghi = np.maximum(0, 800*np.sin((np.arange(8760)%24-6)/12*np.pi)); dni = ghi*.8; dhi = "
      "ghi*.2\n"
      "def run():\n"
      " s = pvlib.solarposition.spa_python(t, 39.8, -104.6)\n"
      " e = pvlib.irradiance.get_extra_radiation(t)\n"
      " a = pvlib.atmosphere.get_relative_airmass(s.apparent_zenith)\n"
      " for z in (0, 90, 180, 270):\n"
      "  pvlib.irradiance.get_total_irradiance(90, z, s.apparent_zenith, s.azimuth, dni, ghi, "
      "dhi,"
      " dni_extra=e, airmass=a, model='perez')\n"
      "run(); b = 1e9\n"
      "for i in range(5):\n"
      " c = time.process_time(); run(); b = min(b, time.process_time()-c)\n"
      "print(b)\n"
      "\" 2>/dev/null";
  FILE *f = popen(script, "r");
  double s = -1.0;
  if (!f) return s;
  if (fscanf(f, "%lf", &s) != 1) s = -1.0;
  pclose(f);
  return s;
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
  bench_run(b, "year made from monthly normals", "year", 1, make_year, d, 0.0, "");
  d->facades = 8;
  bench_run(b, "sun and Perez sky, 8 facades", "year", 1, sun_and_sky, d, 4e-3,
            "bound, one core");
  d->facades = 4;
  double ours = bench_cpu(sun_and_sky, d), theirs = pvlib_s();
  int found = theirs > 0.0;
  if (!found) theirs = pvlib_before;
  char name[96];
  snprintf(name, sizeof name, "sun and Perez sky, 4 facades: %.0f times pvlib (want 20)",
           theirs / ours);
  const bench_row row = {name,
                         "year",
                         1,
                         ours,
                         theirs / 20.0,
                         theirs,
                         found ? "a 20th of pvlib, here" : "a 20th of pvlib, 22 ms before"};
  bench_give(b, &row);
  if (!found)
    fputs("bench: python3 has no pvlib here; its 22 ms were measured before\n", stderr);
  if (d->failed) fputs("bench: a call of the climate part failed\n", stderr);
  free(d);
}
