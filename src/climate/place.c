/* The built-in places: where they are in the tables, which is the nearest. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/own_math.h"
#include "climate/place_find.h"
#include "climate/place_impl.h"
#include "gen/reference.h"
#include "panewright/units.h"

enum {
  ROWS = 13, /* of a place: twelve months and the year */
  FIRST = pw_ref_climate_monthly_climate__n / ROWS,
  MORE = pw_ref_climate2_monthly_more__n / ROWS
};

typedef pw_ref_climate_monthly_climate_row normals;
typedef pw_ref_climate2_monthly_more_row compact;

size_t pw_place_count(void) { return FIRST + MORE; }

/* The rows of a place of the first set: its months, then its year. */
static const normals *first_rows(size_t index)
{
  return &pw_ref_climate_monthly_climate[index * ROWS];
}

static const compact *more_rows(size_t index)
{
  return &pw_ref_climate2_monthly_more[(index - FIRST) * ROWS];
}

place_name place_name_of(size_t index)
{
  if (index < FIRST) {
    const normals *row = first_rows(index);
    return (place_name){row->usaf, row->name, row->state, row->lat_deg, row->lon_deg};
  }
  const pw_ref_climate2_places_row *row = &pw_ref_climate2_places[more_rows(index)->usaf];
  return (place_name){row->usaf, row->name, row->state, row->lat_deg, row->lon_deg};
}

size_t place_first_set(void) { return FIRST; }

static void get_first(size_t index, pw_place *p)
{
  const normals *row = first_rows(index);
  *p = (pw_place){.site = {.latitude_deg = row->lat_deg,
                           .longitude_deg = row->lon_deg,
                           .tz_h = row->tz_h,
                           .elevation = row->elev_m}};
  const char *source = row->source;
  int words = (int)strcspn(source, "("); /* what follows says where the copy was read */
  while (words > 0 && source[words - 1] == ' ')
    words--;
  snprintf(p->source, sizeof p->source, "%.*s", words, source);
  for (size_t m = 0; m < 12; m++)
    p->month[m] = (pw_month_normal){.t_mean = row[m].t_mean_C,
                                    .t_day_max = row[m].t_daymax_mean_C,
                                    .t_day_min = row[m].t_daymin_mean_C,
                                    .t_lowest = row[m].t_abs_min_C,
                                    .t_highest = row[m].t_abs_max_C,
                                    .t_dew = row[m].dew_point_mean_C,
                                    .wind = row[m].wind_mean_m_s,
                                    .ghi = row[m].ghi_kWh_m2_day,
                                    .dni = row[m].dni_kWh_m2_day,
                                    .dhi = row[m].dhi_kWh_m2_day,
                                    .hdd65 = row[m].hdd65F_minmax,
                                    .cdd65 = row[m].cdd65F_minmax};
  p->t_lowest = row[12].t_abs_min_C;
  p->t_highest = row[12].t_abs_max_C;
}

/* A value of the compact rows, which hold so many to one. */
#define VALUE(row, column) ((row).column / (double)pw_ref_climate2_monthly_more__##column##_per)

static void get_more(size_t index, pw_place *p)
{
  const compact *row = more_rows(index);
  const pw_ref_climate2_places_row *at = &pw_ref_climate2_places[row->usaf];
  *p = (pw_place){.site = {.latitude_deg = at->lat_deg,
                           .longitude_deg = at->lon_deg,
                           .tz_h = at->tz_h,
                           .elevation = at->elev_m}};
  if (at->lon_deg - 15.0 * at->tz_h > 180.0) p->site.tz_h += 24.0; /* west of the date line */
  snprintf(p->source, sizeof p->source, "TMY3 %sTYA.CSV", at->usaf);
  for (size_t m = 0; m < 12; m++)
    p->month[m] = (pw_month_normal){.t_mean = VALUE(row[m], t_mean_C),
                                    .t_day_max = VALUE(row[m], t_daymax_mean_C),
                                    .t_day_min = VALUE(row[m], t_daymin_mean_C),
                                    .t_lowest = VALUE(row[m], t_abs_min_C),
                                    .t_highest = VALUE(row[m], t_abs_max_C),
                                    .t_dew = VALUE(row[m], dew_point_mean_C),
                                    .wind = VALUE(row[m], wind_mean_m_s),
                                    .ghi = VALUE(row[m], ghi_kWh_m2_day),
                                    .dni = VALUE(row[m], dni_kWh_m2_day),
                                    .dhi = VALUE(row[m], dhi_kWh_m2_day),
                                    .hdd65 = VALUE(row[m], hdd65F_minmax),
                                    .cdd65 = VALUE(row[m], cdd65F_minmax)};
  p->t_lowest = VALUE(row[12], t_abs_min_C);
  p->t_highest = VALUE(row[12], t_abs_max_C);
}

pw_status pw_place_get(size_t index, pw_place *p, pw_err *err)
{
  if (index >= pw_place_count())
    return pw_fail(err, PW_E_DOMAIN, "index", "place %zu of %zu", index, pw_place_count());
  if (index < FIRST)
    get_first(index, p);
  else
    get_more(index, p);
  place_name name = place_name_of(index);
  snprintf(p->state, sizeof p->state, "%s", name.state);
  snprintf(p->station, sizeof p->station, "%s", name.station);
  snprintf(p->site.name, sizeof p->site.name, "%s %s", name.name, p->state);
  return PW_OK;
}

/* Great-circle distance, km (haversine, mean Earth radius 6371 km). */
static double distance(double lat1, double lon1, double lat2, double lon2)
{
  double a = pw_sin(pw_rad(lat2 - lat1) / 2.0), b = pw_sin(pw_rad(lon2 - lon1) / 2.0);
  double s = a * a + pw_cos(pw_rad(lat1)) * pw_cos(pw_rad(lat2)) * b * b;
  return 2.0 * 6371.0 * pw_asin(sqrt(fmin(s, 1.0)));
}

pw_status pw_place_nearest(double latitude_deg, double longitude_deg, size_t *index,
                           double *distance_km, pw_err *err)
{
  if (!(fabs(latitude_deg) <= 90.0))
    return pw_fail(err, PW_E_DOMAIN, "latitude_deg", "latitude %g, want -90 to 90",
                   latitude_deg);
  if (!(fabs(longitude_deg) <= 180.0))
    return pw_fail(err, PW_E_DOMAIN, "longitude_deg", "longitude %g, want -180 to 180",
                   longitude_deg);
  double best = INFINITY; /* no place is as far */
  for (size_t i = 0; i < pw_place_count(); i++) {
    place_name at = place_name_of(i);
    double d = distance(latitude_deg, longitude_deg, at.lat_deg, at.lon_deg);
    if (d >= best) continue;
    best = d;
    *index = i;
  }
  if (distance_km) *distance_km = best;
  return PW_OK;
}

pw_status pw_place_find(const char *text, size_t *index, double *distance_km, pw_err *err)
{
  pw_place_hit hit;
  pw_status status = pw_place_look(text, &hit, err);
  if (status != PW_OK) return status;
  *index = hit.index;
  if (distance_km) *distance_km = hit.km;
  return PW_OK;
}
