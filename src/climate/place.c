/* The built-in places: where they are in the table, which one is meant. */
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "gen/reference.h"
#include "panewright/month.h"
#include "panewright/nearest.h"
#include "panewright/units.h"

enum { ROWS = 13 }; /* of a place: twelve months and the year */

typedef pw_ref_climate_monthly_climate_row normals;

size_t pw_place_count(void) { return pw_ref_climate_monthly_climate__n / ROWS; }

/* The rows of a place: its months, then its year. */
static const normals *place_rows(size_t index)
{
  return &pw_ref_climate_monthly_climate[index * ROWS];
}

pw_status pw_place_get(size_t index, pw_place *p, pw_err *err)
{
  if (index >= pw_place_count())
    return pw_fail(err, PW_E_DOMAIN, "index", "place %zu of %zu", index, pw_place_count());
  const normals *row = place_rows(index);
  *p = (pw_place){.site = {.latitude_deg = row->lat_deg,
                           .longitude_deg = row->lon_deg,
                           .tz_h = row->tz_h,
                           .elevation = row->elev_m}};
  snprintf(p->state, sizeof p->state, "%s", row->state);
  snprintf(p->station, sizeof p->station, "%s", row->usaf);
  snprintf(p->site.name, sizeof p->site.name, "%s %s", row->name, p->state);
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
  return PW_OK;
}

/* Great-circle distance, km (haversine, mean Earth radius 6371 km). */
static double distance(double lat1, double lon1, double lat2, double lon2)
{
  double a = sin(pw_rad(lat2 - lat1) / 2.0), b = sin(pw_rad(lon2 - lon1) / 2.0);
  double s = a * a + cos(pw_rad(lat1)) * cos(pw_rad(lat2)) * b * b;
  return 2.0 * 6371.0 * asin(sqrt(fmin(s, 1.0)));
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
  double best = INFINITY;
  for (size_t i = 0; i < pw_place_count(); i++) {
    double d =
        distance(latitude_deg, longitude_deg, place_rows(i)->lat_deg, place_rows(i)->lon_deg);
    if (d >= best) continue;
    best = d;
    *index = i;
  }
  if (distance_km) *distance_km = best;
  return isfinite(best) ? PW_OK : pw_fail(err, PW_E_DATA, NULL, "no built-in places");
}

/* Whether every word of text begins a word of name, case aside. */
static int words_fit(const char *text, const char *name)
{
  static const char apart[] = " ,/-.\t";
  for (;;) {
    text += strspn(text, apart);
    size_t n = strcspn(text, apart);
    if (n == 0) return 1;
    const char *word = name;
    int found = 0;
    while (*word && !found) {
      word += strspn(word, apart);
      size_t k = 0;
      while (k < n && word[k] &&
             toupper((unsigned char)word[k]) == toupper((unsigned char)text[k]))
        k++;
      found = k == n;
      word += strcspn(word, apart);
    }
    if (!found) return 0;
    text += n;
  }
}

/* The place whose name's beginning is spelt most like the text, or n. */
static size_t nearest_spelling(const char *text, size_t n)
{
  size_t best = n, least = strlen(text) / 3 + 1;
  for (size_t i = 0; i < n; i++) {
    char head[64];
    snprintf(head, sizeof head, "%.*s", (int)(strlen(text) < 60 ? strlen(text) : 60),
             place_rows(i)->name);
    size_t d = pw_edit_distance(text, head);
    if (d >= least) continue;
    least = d;
    best = i;
  }
  return best;
}

pw_status pw_place_find(const char *text, size_t *index, double *distance_km, pw_err *err)
{
  double lat, lon;
  char rest;
  if (sscanf(text, " %lf , %lf %c", &lat, &lon, &rest) == 2)
    return pw_place_nearest(lat, lon, index, distance_km, err);
  size_t n = pw_place_count(), found = 0, first = n;
  char names[200] = "";
  for (size_t i = 0; i < n; i++) {
    char name[72];
    snprintf(name, sizeof name, "%s %s", place_rows(i)->name, place_rows(i)->state);
    if (strcmp(text, place_rows(i)->usaf) != 0 &&
        !(text[strspn(text, " ,")] && words_fit(text, name)))
      continue;
    if (found++ == 0) first = i;
    size_t used = strlen(names);
    if (found <= 4)
      snprintf(names + used, sizeof names - used, "%s%s", found > 1 ? "; " : "", name);
  }
  if (found == 1) {
    *index = first;
    if (distance_km) *distance_km = 0.0;
    return PW_OK;
  }
  if (found > 1)
    return pw_fail(err, PW_E_DATA, "climate", "'%.60s' may be %s%s", text, names,
                   found > 4 ? " and more" : "");
  size_t near = nearest_spelling(text, n);
  if (near < n)
    return pw_fail(err, PW_E_DATA, "climate", "no place '%.60s'; did you mean %s %s?", text,
                   place_rows(near)->name, place_rows(near)->state);
  return pw_fail(
      err, PW_E_DATA, "climate",
      "no place '%.60s'; want a built-in place, latitude,longitude, or an hourly file", text);
}
