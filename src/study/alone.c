#include "study/alone.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "climate/shade.h"
#include "gen/reference.h"
#include "panewright/house_facts.h"
#include "panewright/units.h"
#include "study/alone_impl.h"
#include "study/compare_impl.h"

static const double window_share = 0.15; /* of the floor; IECC reference home, from memory */

static double mean_pressure(const pw_weather *weather)
{
  double sum = 0.0;
  for (size_t h = 0; h < PW_HOURS; h++)
    sum += (double)weather->hour[h].pressure;
  return sum / PW_HOURS;
}

/* The house of a job that says no more than its year. */
static pw_house_facts reference_facts(void)
{
  pw_house_facts facts = {.year_built = 1972, .storeys = 1};
  facts.floor_area.value = 150.0;
  return facts;
}

/* The same a m2 of its floor. */
static pw_status room_of(const pw_weather *weather, alone_room *room, pw_err *err)
{
  const pw_house_facts facts = reference_facts();
  pw_house *house = malloc(sizeof *house);
  if (!house) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the reference room");
  pw_status status = pw_house_from_facts(&facts, weather, NULL, 0, house, NULL, err);
  if (status == PW_OK) {
    double air = 0.0, ground = 0.0, floor = house->floor_area;
    pw_house_ua(house, &air, &ground);
    double change = PW_AIR_HEAT * mean_pressure(weather) / (PW_AIR_GAS * PW_ROOM_T) *
                    (house->volume / floor) / 3600.0;
    *room = (alone_room){.simple = {.floor_area = 1.0,
                                    .mass_area = house->mass_area / floor,
                                    .mass_store = house->mass_store / floor,
                                    .h_opaque = (air + ground) / floor,
                                    .h_air = change * house->air_changes},
                         .gain = house->gain_w / floor,
                         .heat_set = house->heat_set_c[12],
                         .cool_set = house->cool_set_c[12]};
  }
  free(house);
  return status;
}

static void sun_of(const pw_sky_year *sky, alone_sun *sun)
{
  sun->n = sky->sun.n;
  for (size_t i = 0; i < sun->n; i++) {
    sun->hour[i] = sky->sun.hour[i];
    sun->east[i] = sky->sun.east[i];
    sun->north[i] = sky->sun.north[i];
    sun->up[i] = sky->sun.up[i];
    sun->beam[i] = sky->dni[i];
    sun->ring[i] = sky->circumsolar[i];
    sun->dome[i] = 0.5f * sky->even[i];
    sun->band[i] = sky->band[i];
    sun->ground[i] = 0.5f * sky->albedo[i] * sky->ghi[i]; /* as the house year takes it */
  }
}

static void months_of(pw_alone_place *p, const pw_weather *weather)
{
  for (size_t h = 0; h < PW_HOURS; h++) {
    int m = pw_month_of_day((int)h / 24);
    p->month_t[m] += (double)weather->hour[h].t_air;
    p->month_hours[m] += 1.0;
  }
  for (int m = 0; m < 12; m++)
    p->month_t[m] /= p->month_hours[m];
}

static pw_status weather_of(pw_alone_place *p, const pw_weather *weather, pw_err *err)
{
  months_of(p, weather);
  p->t_out = malloc(PW_HOURS * sizeof *p->t_out);
  p->sun = malloc(sizeof *p->sun);
  if (p->method == PW_ALONE_MONTHLY) p->moments = calloc(1, sizeof *p->moments);
  pw_sky_year *sky = malloc(sizeof *sky);
  pw_status status = PW_OK;
  if (!p->t_out || !p->sun || !sky || (p->method == PW_ALONE_MONTHLY && !p->moments))
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for a place");
  if (status == PW_OK) status = pw_sky_of_year(weather, PW_SKY_PEREZ, sky, err);
  if (status == PW_OK) {
    for (size_t h = 0; h < PW_HOURS; h++)
      p->t_out[h] = weather->hour[h].t_air;
    sun_of(sky, p->sun);
    if (p->moments) {
      alone_moments_of(p->sun, p->moments);
      free(p->sun);
      free(p->t_out);
      p->sun = NULL;
      p->t_out = NULL;
    }
  }
  free(sky);
  return status;
}

static pw_status need_of(const pw_alone_place *p, const alone_lane lane[ALONE_LANES],
                         alone_need need[ALONE_LANES], pw_err *err)
{
  return p->moments ? alone_monthly(p, lane, need, err) : alone_hourly(p, lane, need, err);
}

pw_status pw_alone_place_new(const pw_weather *weather, pw_alone_method method,
                             pw_alone_place **place, pw_err *err)
{
  static const alone_lane closed[ALONE_LANES];
  alone_need need[ALONE_LANES];
  if ((unsigned)method >= PW_ALONE_METHOD_COUNT)
    return pw_fail(err, PW_E_DOMAIN, "method", "%d, want 0 to %d", (int)method,
                   PW_ALONE_METHOD_COUNT - 1);
  pw_alone_place *p = calloc(1, sizeof *p);
  if (!p) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a place");
  p->method = method;
  pw_status status = room_of(weather, &p->room, err);
  if (status == PW_OK) status = pw_compare_design_night(weather, &p->design_night, err);
  if (status == PW_OK && method == PW_ALONE_DETAILED) {
    const pw_house_facts facts = reference_facts();
    status = alone_house_new(weather, &facts, window_share, &p->house, err);
    if (status == PW_OK) status = alone_detailed(p, NULL, NULL, 1, NULL, need, err);
  } else {
    if (status == PW_OK) status = weather_of(p, weather, err);
    if (status == PW_OK) status = need_of(p, closed, need, err);
  }
  if (status != PW_OK) {
    pw_alone_place_free(p);
    return status;
  }
  p->closed_heating = need[0].heating;
  p->closed_cooling = need[0].cooling;
  *place = p;
  return PW_OK;
}

void pw_alone_place_free(pw_alone_place *place)
{
  if (!place) return;
  free(place->t_out);
  free(place->sun);
  free(place->moments);
  alone_house_free(place->house);
  free(place);
}

pw_alone_method pw_alone_method_of(const pw_alone_place *place) { return place->method; }

static void around(double saved, const pw_ref_alone_spread_row *row, double *low, double *high)
{
  *low = fmin(saved * row->low, saved * row->high);
  *high = fmax(saved * row->low, saved * row->high);
}

void pw_alone_in_other_houses(const pw_alone *saved, pw_alone *low, pw_alone *high)
{
  around(saved->heating_kwh, &pw_ref_alone_spread[pw_ref_alone_spread__heating],
         &low->heating_kwh, &high->heating_kwh);
  around(saved->cooling_kwh, &pw_ref_alone_spread[pw_ref_alone_spread__cooling],
         &low->cooling_kwh, &high->cooling_kwh);
}

double pw_alone_t_in(const pw_alone_place *place) { return pw_k(place->room.heat_set); }

double pw_alone_design_night(const pw_alone_place *place) { return place->design_night; }

/* The window a m2 of floor. */
static pw_status lane_of(const pw_house_window *w, double area, alone_lane *lane, pw_err *err)
{
  pw_shade_factor left = {1.0, 1.0, 1.0};
  pw_status status = pw_in_range(area, 1e-4, 1e4, "area", " m2", err);
  if (status == PW_OK) status = pw_in_range(w->area_glass, 0.0, area, "area_glass", " m2", err);
  if (status == PW_OK) status = pw_in_range(w->ua_other, -1e3, 1e5, "ua_other", " W/K", err);
  if (status == PW_OK) status = pw_in_range(w->solar_other, 0.0, 1e4, "solar_other", "", err);
  if (status == PW_OK) status = pw_in_range(w->screen, 0.0, 1.0, "screen", "", err);
  if (status == PW_OK) status = pw_in_range(w->shade_factor, 0.0, 1.0, "shade_factor", "", err);
  if (status == PW_OK)
    status = pw_in_range(w->facing_deg, -360.0, 720.0, "facing_deg", "", err);
  if (status == PW_OK && w->tilt_deg != 0.0 && w->tilt_deg != 90.0)
    return pw_fail(err, PW_E_DOMAIN, "tilt_deg", "tilt %g, want 90", w->tilt_deg);
  if (status == PW_OK && !w->glazing)
    return pw_fail(err, PW_E_SHAPE, "glazing", "window without a glazing");
  if (status != PW_OK) return status;
  double height = w->height > 0.0 ? w->height : sqrt(w->area_glass);
  if (w->overhang_depth > 0.0) {
    const pw_shade shade = {.width = 1.0,
                            .height = height,
                            .overhang_depth = w->overhang_depth,
                            .overhang_gap = w->overhang_gap,
                            .overhang_run = {INFINITY, INFINITY}};
    status = pw_shade_factors(&shade, &left, err);
    if (status != PW_OK) return status;
  }
  double floor = area / window_share;
  double pass = (w->screen > 0.0 ? w->screen : 1.0) * (1.0 - w->shade_factor);
  *lane =
      (alone_lane){.h_window = (w->glazing->u_winter * w->area_glass + w->ua_other) / floor,
                   .glass = pass * w->area_glass / floor,
                   .other = pass * w->solar_other / floor,
                   .deep = w->overhang_depth > 0.0 ? (float)(w->overhang_depth / height) : 0.0f,
                   .gap = w->overhang_depth > 0.0 ? (float)(w->overhang_gap / height) : 0.0f,
                   .dome = (float)left.dome,
                   .facing_deg = w->facing_deg,
                   .glazing = w->glazing};
  return PW_OK;
}

pw_status pw_alone_years(const pw_alone_place *place, const pw_house_window window[],
                         const double area[], size_t n, pw_alone_desk *desk, pw_alone figure[],
                         pw_err *err)
{
  alone_lane lane[PW_ALONE_BESIDE];
  alone_need need[PW_ALONE_BESIDE];
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < n; i++)
    status = lane_of(&window[i], area[i], &lane[i], err);
  if (status == PW_OK && place->house)
    status = alone_detailed(place, window, area, n, desk, need, err);
  for (size_t i = 0; status == PW_OK && !place->house && i < n; i += ALONE_LANES)
    status = need_of(place, &lane[i], &need[i], err);
  for (size_t i = 0; status == PW_OK && i < n; i++) {
    double floor = place->house ? 1.0 : area[i] / window_share;
    figure[i] = (pw_alone){floor * (need[i].heating - place->closed_heating),
                           floor * (need[i].cooling - place->closed_cooling)};
  }
  return status;
}
