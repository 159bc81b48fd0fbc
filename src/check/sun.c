/* Sun position, air mass, splits, shadows and single-hour sky models against reference/climate/. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "check/check.h"
#include "check/table_rows.h"
#include "climate/shade.h"
#include "panewright/units.h"

/* "2003-10-17T19:30:30Z" as a Julian day; NAN when it does not read so. */
static double instant(const char *text)
{
  int y, mo, d, h, mi, s;
  if (sscanf(text, "%d-%d-%dT%d:%d:%dZ", &y, &mo, &d, &h, &mi, &s) != 6) return NAN;
  return pw_julian_day(y, mo, d, h + mi / 60.0 + s / 3600.0);
}

/* The target is 0.01 degree; the azimuth counts by the arc it makes on the sky. */
static pw_status positions(const pw_check_sink *sink, pw_err *err)
{
  static const char source[] = "table climate/sun_position";
  const pw_table *t = pw_table_find("climate/sun_position");
  if (!t) return pw_fail(err, PW_E_DATA, NULL, "%s is not compiled in", source);
  for (size_t i = 0; i < t->n_row; i++) {
    double v[12] = {0};
    for (int c = 2; c < 12; c++)
      v[c] = pw_table_number(t, i, c);
    const char *id = pw_table_text(t, i, 0), *how = pw_table_text(t, i, 12);
    pw_sun sun;
    pw_status status = pw_sun_at(instant(pw_table_text(t, i, 1)), v[2], v[3], v[4] * 100.0,
                                 v[5] + 273.15, &sun, err);
    if (status != PW_OK) return status;
    double arc = remainder(sun.azimuth_deg - v[9], 360.0) * sin(pw_rad(sun.zenith_deg));
    pw_check_give(sink, id, "zenith", "deg", sun.zenith_deg, v[7], 0.01, source, how);
    pw_check_give(sink, id, "apparent zenith", "deg", sun.apparent_zenith_deg, v[8], 0.01,
                  source, how);
    pw_check_give(sink, id, "azimuth, arc on the sky", "deg", v[9] + arc, v[9], 0.01, source,
                  how);
    if (!isnan(v[10]))
      pw_check_give(sink, id, "declination", "deg", sun.declination_deg, v[10], 0.01, source,
                    how);
    if (!isnan(v[11]))
      pw_check_give(sink, id, "equation of time", "min", sun.equation_of_time_min, v[11], 0.02,
                    source, how);
  }
  return PW_OK;
}

/* 1950 to 2100 beside another library; the target is 0.01 degree. */
static pw_status years(const pw_check_sink *sink, pw_err *err)
{
  static const char source[] = "table climate/sun_position_years";
  const pw_table *t = pw_table_find("climate/sun_position_years");
  if (!t) return pw_fail(err, PW_E_DATA, NULL, "%s is not compiled in", source);
  for (size_t i = 0; i < t->n_row; i++) {
    const char *id = pw_table_text(t, i, 0), *how = pw_table_text(t, i, 8);
    double z = pw_table_number(t, i, 5), a = pw_table_number(t, i, 6);
    pw_sun sun;
    pw_status status = pw_sun_at(instant(pw_table_text(t, i, 1)), pw_table_number(t, i, 2),
                                 pw_table_number(t, i, 3), 0.0, 0.0, &sun, err);
    if (status != PW_OK) return status;
    double arc = remainder(sun.azimuth_deg - a, 360.0) * sin(pw_rad(z));
    pw_check_give(sink, id, "zenith", "deg", sun.zenith_deg, z, 0.01, source, how);
    pw_check_give(sink, id, "azimuth, arc on the sky", "deg", a + arc, a, 0.01, source, how);
    pw_check_give(sink, id, "declination", "deg", sun.declination_deg, pw_table_number(t, i, 7),
                  0.01, source, how);
  }
  return PW_OK;
}

/* The number after name in a text such as "ghi=800 zenith=30" or "H 1.2 G 0.3"; NAN without. */
static double named(const char *text, const char *name)
{
  double v;
  const char *p = strstr(text, name);
  return p && sscanf(p + strlen(name), " %lf", &v) == 1 ? v : NAN;
}

static pw_status shadow(const char *input, double *ours, int sunlit, pw_err *err)
{
  pw_shade shade = {.width = 1.0, .overhang_run = {INFINITY, INFINITY}};
  shade.height = named(input, sunlit ? "H " : "window height ");
  shade.overhang_gap = named(input, sunlit ? "G " : "gap ");
  shade.overhang_depth = named(input, sunlit ? "P " : "depth ");
  pw_shade_factor f;
  pw_status status = pw_shade_factors(&shade, &f, err);
  if (status != PW_OK) return status;
  *ours = sunlit ? pw_shade_sunlit(&shade, named(input, "altitude "),
                                   named(input, "surface-solar azimuth "))
                 : f.dome;
  return PW_OK;
}

static pw_status incidence(const char *input, double *ours, pw_err *err)
{
  const pw_facade facade = {named(input, " azimuth="), named(input, "tilt="), 0.2};
  pw_plane_sun p;
  pw_status status =
      pw_sky_plane(PW_SKY_EVEN, &facade, 0.0, 0.0, 0.0, 1366.1, named(input, "zenith="),
                   named(input, "sun azimuth="), &p, err);
  if (status == PW_OK) *ours = acos(p.cos_incidence) * (180.0 / PW_PI);
  return status;
}

static pw_status split(const pw_check_sink *sink, const char *id, const char *input,
                       double beam, double diffuse, const char *source, const char *how,
                       pw_err *err)
{
  double dni, dhi;
  pw_status status = pw_sky_split(named(input, "ghi="), named(input, "zenith="),
                                  (int)named(input, "day="), &dni, &dhi, err);
  if (status != PW_OK) return status;
  pw_check_give(sink, id, "Erbs split, beam", "W/m2", dni, beam, 0.01, source, how);
  pw_check_give(sink, id, "Erbs split, diffuse", "W/m2", dhi, diffuse, 0.01, source, how);
  return PW_OK;
}

/* Two rows stand on each side of the jumps at kt 0.22 and 0.80: the branch that a row's value
 * belongs to is asked just beside the edge. */
static double diffuse_fraction(double kt, double want)
{
  double below = pw_sky_diffuse_fraction(kt), above = pw_sky_diffuse_fraction(kt + 1e-9);
  return fabs(below - want) < fabs(above - want) ? below : above;
}

static pw_status parts(const pw_check_sink *sink, pw_err *err)
{
  static const char source[] = "table climate/solar_parts";
  const pw_table *t = pw_table_find("climate/solar_parts");
  if (!t) return pw_fail(err, PW_E_DATA, NULL, "%s is not compiled in", source);
  for (size_t i = 0; i < t->n_row; i++) {
    const char *id = pw_table_text(t, i, 0), *what = pw_table_text(t, i, 1);
    const char *in = pw_table_text(t, i, 2), *how = pw_table_text(t, i, 7);
    double want = pw_table_number(t, i, 3), ours = NAN, tolerance = 1e-6;
    pw_status status = PW_OK;
    if (strcmp(what, "erbs_split") == 0) {
      status = split(sink, id, in, pw_table_number(t, i, 4), pw_table_number(t, i, 5), source,
                     how, err);
      if (status != PW_OK) return status;
      continue;
    }
    if (strcmp(what, "erbs_diffuse_fraction") == 0)
      ours = diffuse_fraction(named(in, "kt="), want);
    else if (strcmp(what, "beam_top_of_air_spencer") == 0) {
      ours = pw_sun_extraterrestrial((int)named(in, "day="));
      tolerance = 1e-4;
    } else if (strcmp(what, "air_mass_kasten_young_1989") == 0) {
      ours = pw_air_mass(named(in, "zenith="));
      tolerance = 2e-5;
    } else if (strcmp(what, "incidence_angle") == 0) {
      status = incidence(in, &ours, err);
      tolerance = 1e-5;
    } else if (strncmp(what, "overhang", 8) == 0)
      status = shadow(in, &ours, strstr(what, "sunlit") != NULL, err);
    if (status != PW_OK) return status;
    pw_check_give(sink, id, what, pw_table_text(t, i, 6), ours, want, tolerance, source, how);
  }
  return PW_OK;
}

/* Single hours with every input stated. Tolerance 0.05 W/m2: reference/climate/README.md. */
static pw_status hours(const pw_check_sink *sink, pw_err *err)
{
  static const char source[] = "table climate/facade_hours";
  static const struct {
    pw_sky_model model;
    const char *quantity, *column;
  } sky[] = {{PW_SKY_EVEN, "sky, even", "sky_even_W_m2"},
             {PW_SKY_HAY_DAVIES, "sky, Hay-Davies", "sky_hay_davies_W_m2"},
             {PW_SKY_PEREZ, "sky, Perez", "sky_perez_W_m2"}};
  const pw_table *t = pw_table_find("climate/facade_hours");
  if (!t) return pw_fail(err, PW_E_DATA, NULL, "%s is not compiled in", source);
#define CELL(name) row_number(t, i, name)
  for (size_t i = 0; i < t->n_row; i++) {
    const char *id = pw_table_text(t, i, 0);
    const pw_facade facade = {CELL("facade_azimuth_deg"), CELL("facade_tilt_deg"),
                              CELL("albedo")};
    pw_plane_sun p;
    for (size_t k = 0; k < sizeof sky / sizeof sky[0]; k++) {
      pw_status status = pw_sky_plane(sky[k].model, &facade, CELL("ghi_W_m2"), CELL("dni_W_m2"),
                                      CELL("dhi_W_m2"), CELL("beam_top_of_air_W_m2"),
                                      CELL("zenith_bent_deg"), CELL("azimuth_deg"), &p, err);
      if (status != PW_OK) return status;
      pw_check_give(sink, id, sky[k].quantity, "W/m2", p.circumsolar + p.dome + p.horizon,
                    CELL(sky[k].column), 0.05, source, "pvlib");
    }
    pw_check_give(sink, id, "beam", "W/m2", p.beam, CELL("beam_W_m2"), 0.05, source, "pvlib");
    pw_check_give(sink, id, "ground", "W/m2", p.ground, CELL("ground_W_m2"), 0.05, source,
                  "pvlib");
    double z;
    pw_sun sun;
    pw_status status = pw_sun_at(instant(pw_table_text(t, i, 2)), CELL("lat_deg"),
                                 CELL("lon_deg"), 0.0, 0.0, &sun, err);
    if (status != PW_OK) return status;
    z = sun.apparent_zenith_deg;
    pw_check_give(sink, id, "apparent zenith at mid-hour", "deg", z, CELL("zenith_bent_deg"),
                  0.01, source, "pvlib");
  }
#undef CELL
  return PW_OK;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  pw_status status = positions(sink, err);
  if (status == PW_OK) status = years(sink, err);
  if (status == PW_OK) status = parts(sink, err);
  if (status == PW_OK) status = hours(sink, err);
  return status;
}

extern const pw_check_group pw_check_sun;
const pw_check_group pw_check_sun = {
    "sun", "sun position, air mass, shadows, sky models hour by hour", run};
