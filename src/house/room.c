#include "house/room.h"
#include "base/own_math.h"
#include "house/site.h"
#include "panewright/units.h"

static double or_else(double value, double instead) { return value > 0.0 ? value : instead; }

/* Exchange of each face with one star point that stands for all others, so that faces of one plane
 * do not see each other. plane[i] is the first face of the plane that face i lies in.
 * Source: Carroll, 1980, mean radiant temperature method: F_i = 1 / (1 - A_i F_i / sum A F), here
 * for whole planes; from memory. */
static pw_status star(room *r, const double emit[], const size_t plane[], pw_err *err)
{
  double f[ROOM_FACES], area[ROOM_FACES] = {0};
  for (size_t i = 0; i < r->n; i++) {
    f[i] = 1.0;
    area[plane[i]] += r->area[i];
  }
  for (int round = 0; round < 200; round++) {
    double sum = 0.0, change = 0.0;
    for (size_t i = 0; i < r->n; i++)
      sum += area[i] * f[i];
    for (size_t i = 0; i < r->n; i++) {
      if (plane[i] != i) continue;
      double seen = 1.0 - area[i] * f[i] / sum;
      if (!(seen > 0.02))
        return pw_fail(err, PW_E_CONVERGE, "part",
                       "one inner plane (%.3g m2) outweighs all others", area[i]);
      double next = 1.0 / seen;
      change = fmax(change, fabs(next - f[i]));
      f[i] += 0.7 * (next - f[i]);
    }
    if (change < 1e-9) break;
  }
  for (size_t i = 0; i < r->n; i++)
    r->share[i] = 1.0 / ((1.0 - emit[i]) / emit[i] + 1.0 / f[plane[i]]);
  return PW_OK;
}

/* Walls and windows that look the same way share a plane; what stands in the room has its own. */
static void planes(const pw_house *house, const pw_house_window window[], size_t n,
                   size_t plane[])
{
  double tilt[ROOM_FACES], facing[ROOM_FACES];
  size_t np = house->n_part;
  for (size_t i = 0; i < np + n; i++) {
    const pw_house_part *p = &house->part[i < np ? i : 0];
    const pw_house_window *w = &window[i < np ? 0 : i - np];
    tilt[i] = i < np ? p->tilt_deg : w->tilt_deg > 0.0 ? w->tilt_deg : 90.0;
    facing[i] = tilt[i] == 0.0 || tilt[i] == 180.0 ? 0.0
                : i < np                           ? p->facing_deg
                                                   : w->facing_deg;
    plane[i] = i;
    if (i < np && p->outside == PW_OUTSIDE_SAME) tilt[i] = -1.0 - (double)i;
    for (size_t k = 0; k < i; k++)
      if (tilt[k] == tilt[i] && facing[k] == facing[i]) {
        plane[i] = plane[k];
        break;
      }
  }
}

/* Where the sun let in ends up. Beam falls on the floor; diffuse on all opaque faces alike (a pane
 * does not see itself). What they throw back goes round until it is absorbed or out through glass
 * (integrating sphere). absorb: share a face absorbs; leave: share that passes it. */
static void spread_sun(room *r, const double absorb[], const double leave[], const int floor[])
{
  double sum = 0.0, away = 0.0, floor_area = 0.0, floor_back = 0.0, area = 0.0, back = 0.0;
  for (size_t i = 0; i < r->n; i++) {
    double a = r->area[i], thrown = a * (1.0 - absorb[i] - leave[i]);
    sum += a - thrown;
    away += a * leave[i];
    floor_area += floor[i] ? a : 0.0;
    floor_back += floor[i] ? thrown : 0.0;
    area += i < r->n_part ? a : 0.0;
    back += i < r->n_part ? thrown : 0.0;
  }
  back /= area;
  floor_back = floor_area > 0.0 ? floor_back / floor_area : back;
  r->diffuse_out = back * away / sum;
  r->beam_out = floor_back * away / sum;
  for (size_t i = 0; i < r->n; i++) {
    double opaque = i < r->n_part ? absorb[i] / area : 0.0;
    double first = floor_area > 0.0 ? (floor[i] ? absorb[i] / floor_area : 0.0) : opaque;
    r->diffuse[i] = opaque + back * absorb[i] / sum;
    r->beam[i] = first + floor_back * absorb[i] / sum;
  }
}

/* Straight forms of the wind hold free convection, and come whole by the hour. */
static int straight(const pw_house *house) { return house->film_out >= PW_FILM_OUT_LEE; }

static room_outer outer_of(double tilt_deg, double emit, double plate, double thin, double free)
{
  double up = pw_cos(pw_rad(tilt_deg)), sky = 0.5 * (1.0 + up);
  /* The sky near the horizon is as warm as the air: its cold part weighs sqrt(view).
   * Source: Walton, NBSIR 83-2655; from memory. Ground is taken at air temperature. */
  double cold = sky * sqrt(sky);
  room_outer o = {film_of_tilt(up, thin), plate, free, emit * cold, emit * (1.0 - cold)};
  return o;
}

static double roughness(pw_rough rough)
{
  static const double factor[] = {1.52, 2.17, 1.67, 1.13, 1.11, 1.00}; /* as in enum order */
  return factor[rough];
}

/* The indoor form's law of face i, size m of its plane. */
static void laws(room *r, size_t i, double up, double size, double thin)
{
  if (r->film_in == PW_FILM_IN_STILL) return;
  for (int lively = 0; lively < 2; lively++)
    r->law[i][lively] = film_in_law(r->film_in, up, lively, size, i >= r->n_part, thin);
}

pw_status room_faces(room *r, const pw_house *house, const pw_house_window window[], size_t n,
                     double thin, pw_err *err)
{
  double emit[ROOM_FACES], absorb[ROOM_FACES], leave[ROOM_FACES];
  int floor[ROOM_FACES];
  size_t plane[ROOM_FACES];
  const double free = straight(house) ? 0.0 : 1.0;
  r->film_in = house->film_in;
  r->n_part = house->n_part;
  r->n_window = n;
  r->n = r->n_part + n;
  for (size_t i = 0; i < r->n_part; i++) {
    const pw_house_part *p = &house->part[i];
    room_part *q = &r->part[i];
    int twice = p->outside == PW_OUTSIDE_SAME; /* both faces are in the room */
    r->area[i] = p->area * (twice ? 2.0 : 1.0);
    r->tilt[i] = film_of_tilt(-pw_cos(pw_rad(p->tilt_deg)), thin);
    laws(r, i, -pw_cos(pw_rad(p->tilt_deg)), sqrt(p->area), thin);
    emit[i] = or_else(p->emittance_in, 0.9);
    absorb[i] = or_else(p->absorptance_in, 0.6);
    leave[i] = 0.0;
    floor[i] = p->floor;
    q->outside = p->outside;
    q->absorptance = p->absorptance;
    double plate = straight(house) ? 1.0 : film_wind_plate(p->area, roughness(p->rough), thin);
    q->outer = outer_of(p->tilt_deg, or_else(p->emittance, 0.9), plate, thin, free);
  }
  for (size_t w = 0; w < n; w++) {
    size_t i = r->n_part + w;
    const pw_light *light = &window[w].glazing->light;
    r->area[i] = window[w].area_glass * (window[w].count > 0 ? window[w].count : 1);
    r->tilt[i] = film_of_tilt(0.0, thin);
    laws(r, i, 0.0, site_height(&window[w]), thin);
    emit[i] = r->unit[w]->emit_in;
    leave[i] = light->tau_e[PW_ANGLE_DIFFUSE]; /* the same both ways: reciprocity */
    absorb[i] = 1.0 - light->rho_e_in[PW_ANGLE_DIFFUSE] - leave[i];
    floor[i] = 0;
  }
  r->glass_outer = outer_of(90.0, 1.0, 0.0, thin, free);
  r->air_heat = PW_AIR_HEAT * house->volume * or_else(house->air_store, 1.0);
  spread_sun(r, absorb, leave, floor);
  planes(house, window, n, plane);
  return star(r, emit, plane, err);
}
