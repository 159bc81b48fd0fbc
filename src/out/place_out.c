#include "out/place_out.h"

#include <jansson.h>
#include <math.h>

#include "out/calendar.h"
#include "out/json.h"
#include "panewright/units.h"

static const double mile_km = 1.609344;

static double year_of(const pw_place *p, int heating)
{
  double sum = 0.0;
  for (int m = 0; m < 12; m++)
    sum += heating ? p->month[m].hdd65 : p->month[m].cdd65;
  return sum;
}

static json_t *place_json(const pw_place *p)
{
  json_t *o = json_object();
  pw_json_set_text(o, "station", p->station);
  pw_json_set_text(o, "place", p->site.name);
  pw_json_set_text(o, "state", p->state);
  pw_json_set(o, "lat", p->site.latitude_deg);
  pw_json_set(o, "lon", p->site.longitude_deg);
  pw_json_set(o, "elevation_m", p->site.elevation);
  pw_json_set(o, "tz_h", p->site.tz_h);
  pw_json_set(o, "heating_degree_days_f", year_of(p, 1));
  pw_json_set(o, "cooling_degree_days_f", year_of(p, 0));
  pw_json_set_text(o, "source", p->source);
  return o;
}

/* Prints the list, as {name: [...]} or as a table; releases both. */
static pw_status finish(const pw_place_print *as, pw_status status, const char *name,
                        json_t *all, pw_grid *g, pw_err *err)
{
  if (status == PW_OK && as->format == PW_JSON) {
    json_t *o = json_object();
    json_object_set(o, name, all);
    status = pw_json_print(o, as->f, err);
  } else if (status == PW_OK) {
    status = pw_grid_print(g, as->f, as->format, err);
  }
  json_decref(all);
  pw_grid_free(g);
  return status;
}

pw_status pw_places_print(const pw_place_print *as, pw_err *err)
{
  json_t *all = json_array();
  pw_grid *g = pw_grid_new(
      7, as->format == PW_CSV
             ? (const char *const[]){"station", "place", "lat_deg", "lon_deg", "elevation_m",
                                     "heating_degree_days_f", "cooling_degree_days_f"}
             : (const char *const[]){"<station", "<place", "lat", "lon",
                                     as->si ? "elevation m" : "elevation ft", "HDD65 F",
                                     "CDD65 F"});
  pw_status status = PW_OK;
  for (size_t i = 0; i < pw_place_count() && status == PW_OK; i++) {
    pw_place p;
    status = pw_place_get(i, &p, err);
    if (status != PW_OK) break;
    if (as->format == PW_JSON) {
      json_array_append_new(all, place_json(&p));
      continue;
    }
    pw_grid_cell(g, "%s", p.station);
    pw_grid_cell(g, as->format == PW_CSV ? "%s" : "%.40s", p.site.name);
    pw_grid_number(g, p.site.latitude_deg, 2);
    pw_grid_number(g, p.site.longitude_deg, 2);
    pw_grid_number(
        g, as->si || as->format == PW_CSV ? p.site.elevation : p.site.elevation / PW_FOOT, 0);
    pw_grid_number(g, year_of(&p, 1), 0);
    pw_grid_number(g, year_of(&p, 0), 0);
  }
  return finish(as, status, "places", all, g, err);
}

static pw_status one_json(const pw_place_print *as, const pw_place *p, const pw_place_hit *hit,
                          double kwh[4][12], pw_err *err)
{
  static const char *const key[4] = {"sun_n_kwh_m2", "sun_e_kwh_m2", "sun_s_kwh_m2",
                                     "sun_w_kwh_m2"};
  json_t *o = place_json(p), *months = json_array();
  pw_json_set(o, "distance_km", hit->km);
  pw_json_set_text(o, "named", hit->said);
  pw_json_set_text(o, "code_zone_2012", hit->zone);
  if (hit->ca_zone) json_object_set_new(o, "california_zone", json_integer(hit->ca_zone));
  for (int m = 0; m < 12; m++) {
    const pw_month_normal *n = &p->month[m];
    json_t *row = json_object();
    pw_json_set(row, "month", m + 1);
    pw_json_set(row, "t_mean_c", n->t_mean);
    pw_json_set(row, "t_day_max_c", n->t_day_max);
    pw_json_set(row, "t_day_min_c", n->t_day_min);
    pw_json_set(row, "dew_point_c", n->t_dew);
    pw_json_set(row, "wind_m_s", n->wind);
    pw_json_set(row, "ghi_kwh_m2_day", n->ghi);
    pw_json_set(row, "dni_kwh_m2_day", n->dni);
    pw_json_set(row, "dhi_kwh_m2_day", n->dhi);
    pw_json_set(row, "heating_degree_days_f", n->hdd65);
    pw_json_set(row, "cooling_degree_days_f", n->cdd65);
    for (int k = 0; k < 4; k++)
      pw_json_set(row, key[k], kwh[k][m]);
    json_array_append_new(months, row);
  }
  json_object_set_new(o, "months", months);
  return pw_json_print(o, as->f, err);
}

static pw_status one_grid(const pw_place_print *as, const pw_place *p, const pw_place_hit *hit,
                          double kwh[4][12], pw_err *err)
{
  int csv = as->format == PW_CSV, si = as->si || csv;
  double sun = si ? 1.0 : PW_FOOT2 / PW_BTU_H, wind = si ? 1.0 : 1.0 / PW_MPH;
  static const char *const head_csv[] = {"month",    "t_mean_c", "t_day_max_c", "t_day_min_c",
                                         "dew_c",    "wind_m_s", "hdd_f",       "cdd_f",
                                         "n_kwh_m2", "e_kwh_m2", "s_kwh_m2",    "w_kwh_m2"};
  static const char *const head[] = {"<month",  "mean",    "day max", "day min", "dew", "wind",
                                     "HDD65 F", "CDD65 F", "sun N",   "E",       "S",   "W"};
  if (!csv) {
    double km = hit->km, up = p->site.elevation;
    if (hit->said[0]) fprintf(as->f, "%s: ", hit->said);
    fprintf(as->f, "%s, station %s, %.3f, %.3f", p->site.name, p->station, p->site.latitude_deg,
            p->site.longitude_deg);
    if (km >= 1.0)
      fprintf(as->f, ", %.0f %s from there", si ? km : km / mile_km, si ? "km" : "miles");
    fprintf(as->f, "\nstation at %.0f %s", si ? up : up / PW_FOOT, si ? "m" : "ft");
    if (hit->zone[0]) fprintf(as->f, "; code zone %s", hit->zone);
    if (hit->ca_zone) fprintf(as->f, ", California %d", hit->ca_zone);
    if (hit->zone[0])
      fprintf(as->f, " (edition 2012; later ones moved some counties: ask the local code)");
    fprintf(as->f, "\n%s; sun on walls in %s a month, from the made year\n",
            si ? "C, m/s" : "F, mph", si ? "kWh/m2" : "kBtu/ft2");
  }
  pw_grid *g = pw_grid_new(12, csv ? head_csv : head);
  for (int m = 0; m < 12; m++) {
    const pw_month_normal *n = &p->month[m];
    const double t[4] = {n->t_mean, n->t_day_max, n->t_day_min, n->t_dew};
    pw_grid_cell(g, "%s", pw_month_name[m]);
    for (int k = 0; k < 4; k++)
      pw_grid_number(g, si ? t[k] : pw_f(pw_k(t[k])), 1);
    pw_grid_number(g, n->wind * wind, 1);
    pw_grid_number(g, n->hdd65, 0);
    pw_grid_number(g, n->cdd65, 0);
    for (int k = 0; k < 4; k++)
      pw_grid_number(g, kwh[k][m] * sun, 1);
  }
  pw_status status = pw_grid_print(g, as->f, as->format, err);
  pw_grid_free(g);
  if (status == PW_OK && !csv) {
    pw_month_spread s[3];
    if (pw_month_sun_spread(180.0, &s[0], err) == PW_OK &&
        pw_month_sun_spread(90.0, &s[1], err) == PW_OK &&
        pw_month_degree_spread(1, &s[2], err) == PW_OK)
      fprintf(
          as->f,
          "Beside hourly files made years are off by: south wall %+.1f %% "
          "(+- %.1f), east\n%+.1f %% (+- %.1f), heating degree-hours %+.1f %% (+- %.1f). An "
          "hourly file is better.\n",
          (s[0].ratio - 1) * 100, s[0].deviation * 100, (s[1].ratio - 1) * 100,
          s[1].deviation * 100, (s[2].ratio - 1) * 100, s[2].deviation * 100);
    fprintf(as->f, "Source: %s; a typical year, not the 30-year normal.\n", p->source);
  }
  return status;
}

pw_status pw_place_months_print(const pw_place_print *as, const pw_place *p,
                                const pw_place_hit *hit, double kwh[4][12], pw_err *err)
{
  return as->format == PW_JSON ? one_json(as, p, hit, kwh, err)
                               : one_grid(as, p, hit, kwh, err);
}

/* "OAKLAND METROPOLITAN ARPT CA, 5 mi, 7 ft": how far its station is, and at what height. */
static void say_choice(const pw_place_print *as, const pw_place *p, double km, char said[120])
{
  double up = p->site.elevation;
  size_t n = (size_t)snprintf(said, 120, "%.60s", p->site.name);
  if (km >= 1.0)
    n += (size_t)snprintf(said + n, 120 - n, ", %.0f %s", as->si ? km : km / mile_km,
                          as->si ? "km" : "mi");
  snprintf(said + n, 120 - n, ", %.0f %s", as->si ? up : up / PW_FOOT, as->si ? "m" : "ft");
}

pw_status pw_places_like_print(const pw_place_print *as, const char *text, pw_err *err)
{
  enum { MOST = 8 };
  pw_place_choice choice[MOST];
  size_t n = pw_place_like(text, choice, MOST);
  json_t *all = json_array();
  pw_grid *g = pw_grid_new(3, as->format == PW_CSV
                                  ? (const char *const[]){"write", "station", "said"}
                                  : (const char *const[]){"<write", "<station", "<place"});
  pw_status status = PW_OK;
  for (size_t i = 0; i < n && status == PW_OK; i++) {
    pw_place p;
    char said[120];
    status = pw_place_get(choice[i].hit.index, &p, err);
    if (status != PW_OK) break;
    say_choice(as, &p, choice[i].hit.km, said);
    json_t *o = json_object();
    pw_json_set_text(o, "write", choice[i].write);
    pw_json_set_text(o, "station", p.station);
    pw_json_set_text(o, "said", said);
    pw_json_set(o, "distance_km", choice[i].hit.km);
    pw_json_set(o, "elevation_m", p.site.elevation);
    pw_json_set_text(o, "code_zone_2012", choice[i].hit.zone);
    json_array_append_new(all, o);
    pw_grid_cell(g, "%s", choice[i].write);
    pw_grid_cell(g, "%s", p.station);
    pw_grid_cell(g, "%s", said);
  }
  return finish(as, status, "like", all, g, err);
}
