/* panewright sun: what a facade receives in an hourly file, or in a year made for a place. */
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "climate/month.h"
#include "climate/shade.h"
#include "job/climate_file.h"
#include "out/calendar.h"
#include "out/json.h"
#include "panewright/units.h"

enum { SIDES = 8 };

/* All that one run holds; 1.5 MB, so on the heap. */
typedef struct desk {
  pw_weather weather;
  pw_climate_report report;
  pw_sky_year sky;
  pw_facade_year part;
  float sunlit[PW_HOURS];
  pw_facade facade;
  pw_shade shade;
  pw_shade_factor factor;
  double hour, distance_km;
} desk;

static pw_status read_options(const cli_args *args, desk *d, pw_sky_model *model, pw_err *err)
{
  const char *sky = cli_get(args, "sky");
  *model = PW_SKY_PEREZ;
  while (sky && *model < PW_SKY_MODEL_COUNT && strcmp(sky, pw_sky_model_name(*model)) != 0)
    ++*model;
  if (*model == PW_SKY_MODEL_COUNT)
    return pw_fail(err, PW_E_DOMAIN, "option", "--sky %s: want perez, hay-davies or even", sky);
  d->facade = (pw_facade){180.0, 90.0, PW_GROUND_ALBEDO};
  d->shade = (pw_shade){.width = 1.2, .height = 1.2, .overhang_run = {INFINITY, INFINITY}};
  const struct {
    const char *name;
    double low, high, *to;
  } option[] = {{"azimuth", -360.0, 360.0, &d->facade.azimuth_deg},
                {"tilt", 0.0, 180.0, &d->facade.tilt_deg},
                {"albedo", 0.0, 1.0, &d->facade.albedo},
                {"hour", 1.0, PW_HOURS, &d->hour},
                {"overhang", 0.0, 1e3, &d->shade.overhang_depth},
                {"overhang-gap", 0.0, 1e3, &d->shade.overhang_gap},
                {"reveal", 0.0, 1e3, &d->shade.reveal},
                {"width", 0.0, 1e3, &d->shade.width},
                {"height", 0.0, 1e3, &d->shade.height}};
  for (size_t i = 0; i < sizeof option / sizeof option[0]; i++) {
    pw_status status =
        cli_number(args, option[i].name, option[i].low, option[i].high, option[i].to, err);
    if (status != PW_OK) return status;
  }
  if (d->hour != floor(d->hour))
    return pw_fail(err, PW_E_DOMAIN, "option", "--hour %g: want a whole number", d->hour);
  return PW_OK;
}

/* Sun on the glass of hour h, W/m2: disc, sky, ground, after what shades it. */
static void parts_of(const desk *d, int h, double *beam, double *sky, double *ground)
{
  const pw_facade_year *p = &d->part;
  double lit = (double)d->sunlit[h];
  *beam = (double)p->beam[h] * lit;
  *sky = (double)p->circumsolar[h] * lit + (double)p->dome[h] * d->factor.dome +
         (double)p->horizon[h] * d->factor.horizon;
  *ground = (double)p->ground[h] * d->factor.ground;
}

static pw_status facade_months(desk *d, const pw_facade *facade, double kwh[12], pw_err *err)
{
  pw_status status = pw_facade_of_year(&d->sky, facade, &d->part, err);
  if (status == PW_OK) status = pw_shade_year(&d->shade, facade, &d->sky.sun, d->sunlit, err);
  if (status == PW_OK) status = pw_shade_factors(&d->shade, &d->factor, err);
  if (status != PW_OK) return status;
  for (int m = 0; m < 12; m++) {
    kwh[m] = 0.0;
    for (int h = pw_month_start[m] * 24; h < (pw_month_start[m] + pw_month_days[m]) * 24; h++) {
      double beam, sky, ground;
      parts_of(d, h, &beam, &sky, &ground);
      kwh[m] += (beam + sky + ground) / 1000.0;
    }
  }
  return PW_OK;
}

static double sum(const double v[12])
{
  double s = 0.0;
  for (int m = 0; m < 12; m++)
    s += v[m];
  return s;
}

static void warn(const desk *d)
{
  const pw_climate_report *r = &d->report;
  if (d->weather.synthetic) {
    pw_month_spread s;
    fprintf(stderr,
            "panewright sun: no hourly file: the year is made from monthly normals of %s",
            d->weather.site.name);
    if (d->distance_km >= 1.0) fprintf(stderr, ", %.0f km away", d->distance_km);
    if (pw_month_sun_spread(d->facade.azimuth_deg, &s, NULL) == PW_OK)
      fprintf(stderr, "; a wall's year is %+.1f %% off, give or take %.1f %%",
              (s.ratio - 1.0) * 100.0, s.deviation * 100.0);
    fputc('\n', stderr);
  }
  if (r->repaired)
    fprintf(stderr,
            "panewright sun: %zu hours were filled by interpolation, %zu h at most in a "
            "row\n",
            r->repaired, r->longest_gap);
  if (r->inconsistent)
    fprintf(stderr, "panewright sun: in %zu hours global is not beam and diffuse together\n",
            r->inconsistent);
}

/* Position at the middle of hour h, as the kernels take it. */
static pw_status position(const desk *d, int h, pw_sun *sun, pw_err *err)
{
  const pw_weather *w = &d->weather;
  int day = h / 24, m = pw_month_of_day(day);
  double clock = h % 24 + 0.5 + w->sun_shift_h[m] - w->site.tz_h;
  double jd =
      pw_julian_day(w->year[m] ? w->year[m] : 2001, m + 1, day - pw_month_start[m] + 1, clock);
  return pw_sun_at(jd, w->site.latitude_deg, w->site.longitude_deg, 0.0, 0.0, sun, err);
}

static void add_hour(json_t *o, const desk *d, int h, const pw_sun *sun)
{
  double beam, sky, ground;
  int day = h / 24, m = pw_month_of_day(day);
  parts_of(d, h, &beam, &sky, &ground);
  pw_json_set(o, "hour", h + 1);
  pw_json_set(o, "month", m + 1);
  pw_json_set(o, "day", day - pw_month_start[m] + 1);
  pw_json_set(o, "hour_ending", h % 24 + 1);
  pw_json_set(o, "zenith_deg", sun->zenith_deg);
  pw_json_set(o, "apparent_zenith_deg", sun->apparent_zenith_deg);
  pw_json_set(o, "azimuth_deg", sun->azimuth_deg);
  pw_json_set(o, "incidence_deg",
              acos(fmin(fmax((double)d->part.cos_incidence[h], -1.0), 1.0)) * (180.0 / PW_PI));
  pw_json_set(o, "beam_w_m2", beam);
  pw_json_set(o, "sky_w_m2", sky);
  pw_json_set(o, "ground_w_m2", ground);
}

static pw_status print_json(const desk *d, const double kwh[12], const pw_sun *sun, pw_err *err)
{
  const pw_site *site = &d->weather.site;
  json_t *o = json_object();
  pw_json_set_text(o, "place", site->name);
  pw_json_set_text(o, "source", d->weather.source);
  pw_json_set(o, "lat", site->latitude_deg);
  pw_json_set(o, "lon", site->longitude_deg);
  pw_json_set(o, "tz_h", site->tz_h);
  pw_json_set(o, "elevation_m", site->elevation);
  json_object_set_new(o, "hours", json_integer(PW_HOURS));
  json_object_set_new(o, "repaired", json_integer((json_int_t)d->weather.repaired));
  json_object_set_new(o, "inconsistent", json_integer((json_int_t)d->report.inconsistent));
  json_object_set_new(o, "synthetic", json_boolean(d->weather.synthetic));
  pw_json_set_text(o, "sky", pw_sky_model_name(d->sky.model));
  pw_json_set(o, "facade_azimuth_deg", d->facade.azimuth_deg);
  pw_json_set(o, "facade_tilt_deg", d->facade.tilt_deg);
  pw_json_set(o, "albedo", d->facade.albedo);
  pw_json_set(o, "annual_kwh_m2", sum(kwh));
  json_object_set_new(o, "monthly_kwh_m2", pw_json_array(kwh, 12));
  pw_month_spread spread;
  if (d->weather.synthetic &&
      pw_month_sun_spread(d->facade.azimuth_deg, &spread, NULL) == PW_OK) {
    pw_json_set(o, "fallback_ratio", spread.ratio);
    pw_json_set(o, "fallback_deviation", spread.deviation);
  }
  if (sun) add_hour(o, d, (int)d->hour - 1, sun);
  return pw_json_print(o, stdout, err);
}

static pw_status print_hour(const cli_args *args, const desk *d, const pw_sun *sun, pw_err *err)
{
  double beam, sky, ground, k = args->si || args->format == PW_CSV ? 1.0 : PW_FOOT2 / PW_BTU_H;
  parts_of(d, (int)d->hour - 1, &beam, &sky, &ground);
  const char *unit = k == 1.0 ? "W/m2" : "Btu/h ft2";
  char head[3][24];
  snprintf(head[0], sizeof head[0], "beam %s", unit);
  snprintf(head[1], sizeof head[1], "sky %s", unit);
  snprintf(head[2], sizeof head[2], "ground %s", unit);
  pw_grid *g = pw_grid_new(
      6, (const char *const[]){"hour", "zenith deg", "azimuth deg", head[0], head[1], head[2]});
  pw_grid_cell(g, "%.0f", d->hour);
  pw_grid_number(g, sun->zenith_deg, 3);
  pw_grid_number(g, sun->azimuth_deg, 3);
  pw_grid_number(g, beam * k, 1);
  pw_grid_number(g, sky * k, 1);
  pw_grid_number(g, ground * k, 1);
  pw_status status = pw_grid_print(g, stdout, args->format, err);
  pw_grid_free(g);
  return status;
}

/* Months down; the asked facade, or the eight points of the compass, across. */
static pw_status print_months(const cli_args *args, desk *d, pw_err *err)
{
  int one = cli_get(args, "azimuth") != NULL || d->facade.tilt_deg == 0.0, n = one ? 1 : SIDES;
  int csv = args->format == PW_CSV;
  double kwh[SIDES][12], k = args->si || csv ? 1.0 : PW_FOOT2 / (PW_BTU_H * 1.0);
  const char *unit = k == 1.0 ? "kWh/m2" : "kBtu/ft2";
  char head[SIDES + 1][24];
  const char *header[SIDES + 1];
  snprintf(head[0], sizeof head[0], "<%s", csv ? "month" : unit);
  for (int s = 0; s < n; s++) {
    pw_facade facade = d->facade;
    if (!one) facade.azimuth_deg = 360.0 / SIDES * s;
    pw_status status = facade_months(d, &facade, kwh[s], err);
    if (status != PW_OK) return status;
    if (one)
      snprintf(head[s + 1], sizeof head[0], csv ? "kwh_m2_%.0f_deg" : "%.0f deg",
               facade.azimuth_deg);
    else
      snprintf(head[s + 1], sizeof head[0], csv ? "kwh_m2_%s" : "%s", pw_side_name[s]);
  }
  for (int s = 0; s <= n; s++)
    header[s] = head[s];
  if (args->format == PW_TEXT)
    printf("%s (%s), %s sky, tilt %.0f\n", d->weather.site.name, d->weather.source,
           pw_sky_model_name(d->sky.model), d->facade.tilt_deg);
  pw_grid *g = pw_grid_new((size_t)n + 1, header);
  for (int m = 0; m < 12; m++) {
    pw_grid_cell(g, "%s", pw_month_name[m]);
    for (int s = 0; s < n; s++)
      pw_grid_number(g, kwh[s][m] * k, 1);
  }
  pw_grid_rule(g);
  pw_grid_cell(g, "year");
  for (int s = 0; s < n; s++)
    pw_grid_number(g, sum(kwh[s]) * k, 1);
  pw_status status = pw_grid_print(g, stdout, args->format, err);
  pw_grid_free(g);
  return status;
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  pw_sky_model model;
  desk *d = calloc(1, sizeof *d);
  if (!d) {
    pw_fail(&err, PW_E_NOMEM, NULL, "no memory for a year of weather");
    return cli_fail(&err);
  }
  if (read_options(args, d, &model, &err) != PW_OK) {
    free(d);
    cli_fail(&err);
    return EXIT_USAGE;
  }
  double kwh[12];
  pw_sun sun = {.zenith_deg = NAN}; /* without an hour */
  pw_place_hit hit = {.zone = ""};
  pw_status status = pw_climate_get(args->word[0], NULL, &d->weather, &d->report, &hit, &err);
  d->distance_km = hit.km;
  if (status == PW_OK) status = pw_sky_of_year(&d->weather, model, &d->sky, &err);
  if (status == PW_OK) status = facade_months(d, &d->facade, kwh, &err);
  if (status == PW_OK && d->hour > 0.0) status = position(d, (int)d->hour - 1, &sun, &err);
  if (status == PW_OK) {
    warn(d);
    if (args->format == PW_JSON)
      status = print_json(d, kwh, d->hour > 0.0 ? &sun : NULL, &err);
    else if (d->hour > 0.0)
      status = print_hour(args, d, &sun, &err);
    else
      status = print_months(args, d, &err);
  }
  free(d);
  return status == PW_OK ? cli_finish() : cli_fail(&err);
}

static const cli_option option[] = {
    {"azimuth", "DEG", "way the facade looks, 0 north, 90 east (all eight; 180 in JSON)"},
    {"tilt", "DEG", "0 level, 90 a wall (90)"},
    {"sky", "MODEL", "perez, hay-davies or even (perez)"},
    {"albedo", "SHARE", "of sun that the ground reflects (0.2)"},
    {"hour", "N", "one hour, 1 to 8760, each ending at its number"},
    {"overhang", "M", "depth of an endless overhang over the window (0)"},
    {"overhang-gap", "M", "from the window's head up to it (0)"},
    {"reveal", "M", "depth that the glass sits behind the wall's face (0)"},
    {"width", "M", "of the window that is shaded (1.2)"},
    {"height", "M", "of the window that is shaded (1.2)"},
    CLI_FORMAT,
    CLI_UNITS,
    CLI_END};
extern const cli_command cli_sun;
const cli_command cli_sun = {
    "sun",
    "FILE|PLACE",
    "what a facade receives in a year, by month, or in one hour",
    "FILE is an hourly year in one of three open layouts (TMY3 csv, NSRDB csv, PVGIS TMY csv; "
    "gzip\n"
    "too). PLACE is a built-in place (panewright climates) or latitude,longitude: its year is "
    "made\n"
    "from monthly normals. Hours are local standard time; the sun stands at mid-hour.",
    option,
    1,
    1,
    run};
