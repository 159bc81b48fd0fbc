/* One window in a stated house, lived in hour by hour with every surface: what batch reports. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/own_math.h"
#include "panewright/house_facts.h"
#include "panewright/units.h"
#include "study/alone_impl.h"

enum { SIDES = 4, DESKS = 8 };

/* The house that the window stands in: what a job gets that says no more than its year (house_facts.h), its other
 * glass a quarter on each side. */
struct alone_house {
  pw_weather weather;
  pw_house house;
  pw_glazing middle;
  pw_house_window other[SIDES];
};

/* A thread's own room: what was prepared for the places it met last. */
struct pw_alone_desk {
  const pw_alone_place *place[DESKS];
  pw_year_workspace *ws[DESKS];
  pw_house house[PW_ALONE_BESIDE];
  pw_house_window window[PW_ALONE_BESIDE][SIDES + 1];
  pw_year_result year[PW_ALONE_BESIDE];
  size_t turn;
  int lanes;
};

pw_alone_desk *pw_alone_desk_new(int lanes)
{
  pw_alone_desk *desk = calloc(1, sizeof *desk);
  if (desk) desk->lanes = lanes;
  return desk;
}

void pw_alone_desk_free(pw_alone_desk *desk)
{
  if (!desk) return;
  for (size_t i = 0; i < DESKS; i++)
    if (desk->ws[i]) pw_year_workspace_free(desk->ws[i]);
  free(desk);
}

/* The one made for this place, else the oldest made over. */
static pw_year_workspace *workspace_of(pw_alone_desk *d, const pw_alone_place *place)
{
  for (size_t i = 0; i < DESKS; i++)
    if (d->place[i] == place) return d->ws[i];
  size_t i = d->turn++ % DESKS;
  d->place[i] = NULL;
  if (!d->ws[i]) d->ws[i] = pw_year_workspace_new();
  if (d->ws[i]) d->place[i] = place;
  return d->ws[i];
}

/* Two panes of clear glass in bare aluminium: half-way between what is taken out and what is put in, so that what
 * windows save one by one sums to what they save together. */
static pw_status other_windows(struct alone_house *a, double area, pw_err *err)
{
  static const double glass_share = 0.85; /* of the opening, common practice, no source */
  static const double u_frame = 6.8;      /* W/(m2 K), bare aluminium; handbook, from memory */
  static const double frame_shgc = 0.12;  /* of such a frame, absorptance 0.6; from memory */
  const pw_buildup clear = {
      .n_pane = 2,
      .pane = {{.thickness = 0.003, .kind = "clear"}, {.thickness = 0.003, .kind = "clear"}},
      .gap = {{.thickness = 0.0127, .mix = {{[PW_AIR] = 1.0}}}}};
  pw_status s = pw_glazing_build(&clear, &a->middle, err);
  for (int i = 0; i < SIDES; i++) {
    double frame = (1.0 - glass_share) * area;
    a->other[i] = (pw_house_window){.facing_deg = 90.0 * i,
                                    .area_glass = glass_share * area,
                                    .height = 1.0,
                                    .width = glass_share * area,
                                    .glazing = &a->middle,
                                    .ua_other = u_frame * frame,
                                    .area_other = frame,
                                    .solar_other = frame_shgc * frame,
                                    .shade_factor = 0.15,
                                    .count = 1};
  }
  return s;
}

pw_status alone_house_new(const pw_weather *weather, const pw_house_facts *facts,
                          double window_share, struct alone_house **out, pw_err *err)
{
  struct alone_house *a = calloc(1, sizeof *a);
  if (!a) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the reference house");
  pw_house_hole hole[SIDES];
  double floor = facts->floor_area.value, side = window_share * floor / SIDES;
  for (int i = 0; i < SIDES; i++)
    hole[i] = (pw_house_hole){90.0 * i, side};
  a->weather = *weather;
  pw_status s = pw_house_from_facts(facts, weather, hole, SIDES, &a->house, NULL, err);
  if (s == PW_OK) s = other_windows(a, side, err);
  if (s == PW_OK)
    *out = a;
  else
    free(a);
  return s;
}

void alone_house_free(struct alone_house *house) { free(house); }

/* The wall that looks most the way the window does gives it its place. */
static void cut_hole(pw_house *house, double facing_deg, double area)
{
  size_t best = 0;
  double most = -2.0;
  for (size_t i = 0; i < house->n_part; i++) {
    const pw_house_part *p = &house->part[i];
    double c = pw_cos(pw_rad(p->facing_deg - facing_deg));
    if (p->outside != PW_OUTSIDE_AIR || p->tilt_deg != 90.0 || c <= most) continue;
    most = c;
    best = i;
  }
  house->part[best].area = fmax(1.0, house->part[best].area - area);
}

/* Houses with each of these windows more, side by side, or one with none (NULL). */
pw_status alone_detailed(const pw_alone_place *place, const pw_house_window more[],
                         const double area[], size_t n, pw_alone_desk *given, alone_need need[],
                         pw_err *err)
{
  const struct alone_house *a = place->house;
  pw_alone_desk *desk = given ? given : pw_alone_desk_new(0);
  pw_year_workspace *ws = desk ? workspace_of(desk, place) : NULL;
  pw_year_lane lane[PW_ALONE_BESIDE];
  pw_status s = ws ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year's work");
  for (size_t i = 0; i < n; i++) {
    if (s != PW_OK) break;
    memcpy(desk->window[i], a->other, sizeof a->other);
    desk->house[i] = a->house;
    if (more) {
      desk->window[i][SIDES] = more[i];
      desk->window[i][SIDES].count = 1;
      cut_hole(&desk->house[i], more[i].facing_deg, area[i]);
    }
    lane[i] = (pw_year_lane){&desk->house[i], desk->window[i], NULL, &desk->year[i]};
  }
  if (s == PW_OK) {
    const pw_year_options how = {.method = PW_YEAR_DETAILED, .lanes = desk->lanes};
    s = pw_year_run_beside(lane, n, &a->weather, SIDES + (more ? 1 : 0), &how, ws, NULL, err);
  }
  for (size_t i = 0; s == PW_OK && i < n; i++)
    need[i] = (alone_need){desk->year[i].heating_kwh, desk->year[i].cooling_kwh};
  if (!given) pw_alone_desk_free(desk);
  return s;
}
