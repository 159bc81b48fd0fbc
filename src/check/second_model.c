#include "check/second_model.h"

#include <math.h>
#include <stdlib.h>

enum { NODES = 4 * PW_LAYERS_MAX + 2, STEPS = 2 }; /* of a wall; an hour */

static const double pi = 3.14159265358979;
static const double dt = 3600.0 / STEPS;
static const double air_heat = 1006.0;  /* J/(kg K) */
static const double sky_colder = 11.0;  /* K, sky below air; ISO 13790 11.3.5 */
static const double ground_light = 0.2; /* reflectance where none is given */
static const double on_floor = 0.6;     /* of the sun let in */
static const double rated_out = 30.0;   /* W/(m2 K), film of a rated U; handbook 29 to 30 */
static const double radiant_in = 4.6;   /* W/(m2 K), 5.1 times 0.9; ISO 6946 */
static const double glass_in = 3.6;     /* W/(m2 K); EN 673 */
static const double radiant_out = 5.1;  /* W/(m2 K) at an emittance of 1 */

/* Share of the mast's wind before a low wall: open country, or among houses. */
static double wind_share(const pw_house *house)
{
  return house->terrain > 0.0 && house->terrain < 0.18 ? 0.75 : 0.5;
}

/* W/m2 that a face loses to the sky's cold: the view of ISO 13790 11.4.6. */
static double sky_loss(double tilt_deg, double emittance)
{
  double view = tilt_deg < 45.0 ? 1.0 : tilt_deg > 135.0 ? 0.0 : 0.5;
  return view * radiant_out * emittance * sky_colder;
}

/* ---------------------------------------------------------------- sun */

typedef struct sun {
  double up, south, west; /* unit vector; up below 0: night */
  double normal;          /* W/m2 outside the atmosphere */
} sun;

/* Spencer 1971 for declination, equation of time and distance. */
static sun sun_at(const pw_weather *w, int hour)
{
  int day = hour / 24;
  double clock = hour % 24 + 0.5 + w->sun_shift_h[pw_month_of_day(day)];
  double b = 2.0 * pi * day / 365.0;
  double dec = 0.006918 - 0.399912 * cos(b) + 0.070257 * sin(b) - 0.006758 * cos(2 * b) +
               0.000907 * sin(2 * b) - 0.002697 * cos(3 * b) + 0.00148 * sin(3 * b);
  double minutes = 229.18 * (0.000075 + 0.001868 * cos(b) - 0.032077 * sin(b) -
                             0.014615 * cos(2 * b) - 0.040849 * sin(2 * b));
  double solar = clock + minutes / 60.0 + w->site.longitude_deg / 15.0 - w->site.tz_h;
  double angle = pi * (solar - 12.0) / 12.0, lat = w->site.latitude_deg * pi / 180.0;
  sun s = {.up = sin(lat) * sin(dec) + cos(lat) * cos(dec) * cos(angle),
           .south = sin(lat) * cos(dec) * cos(angle) - cos(lat) * sin(dec),
           .west = cos(dec) * sin(angle),
           .normal = 1367.0 * (1.00011 + 0.034221 * cos(b) + 0.00128 * sin(b) +
                               0.000719 * cos(2 * b) + 0.000077 * sin(2 * b))};
  return s;
}

static double incidence(const sun *s, double tilt_deg, double facing_deg)
{
  double t = tilt_deg * pi / 180.0, f = facing_deg * pi / 180.0;
  /* azimuth from north by east: south is 180, west 270 */
  return s->up * cos(t) - sin(t) * (s->south * cos(f) + s->west * sin(f));
}

typedef struct on_plane {
  double direct, even, cosine; /* W/m2: from the sun's direction; from sky and ground */
} on_plane;

static on_plane plane_at(const pw_hour *h, const sun *s, double tilt_deg, double facing_deg,
                         double albedo)
{
  on_plane p = {0.0, 0.0, fmax(0.0, incidence(s, tilt_deg, facing_deg))};
  double view = 0.5 * (1.0 + cos(tilt_deg * pi / 180.0)), dhi = (double)h->dhi;
  double near = fmin(1.0, fmax(0.0, (double)h->dni / s->normal)); /* Hay & Davies */
  if (s->up > 0.03) p.direct = ((double)h->dni + dhi * near / fmax(s->up, 0.087)) * p.cosine;
  p.even =
      dhi * (s->up > 0.03 ? 1.0 - near : 1.0) * view + (double)h->ghi * albedo * (1.0 - view);
  return p;
}

/* ---------------------------------------------------------------- walls */

typedef struct wall {
  size_t n;
  double link[NODES + 1], store[NODES]; /* W/(m2 K) between nodes, [0] to outdoors; J/(m2 K) */
  double t[NODES];                      /* C */
  double area, film_in;                 /* m2; W/(m2 K), convective */
  int inside;                           /* nothing behind */
} wall;

/* Nodes in the middle of slices; a bare resistance only parts its neighbours. A partition is two halves that stand
 * back to back: twice the face, half the depth, nothing behind. */
static void wall_of(const pw_house_part *p, wall *w)
{
  int inside = p->outside == PW_OUTSIDE_SAME;
  double r = 0.0, depth = inside ? 0.5 : 1.0;
  *w = (wall){.area = p->area / depth, .inside = inside};
  /* a ceiling loses heat upwards, a floor downwards */
  w->film_in = inside || (p->tilt_deg >= 30.0 && p->tilt_deg <= 150.0) ? 2.5
               : p->tilt_deg < 30.0                                    ? 5.0
                                                                       : 0.7;
  for (size_t l = 0; l < p->layers.n_layer; l++) {
    const pw_wall_layer *q = &p->layers.layer[l];
    double whole = q->thickness > 0.0 ? q->thickness / q->conductivity : q->resistance;
    double heat = q->thickness > 0.0 ? q->thickness * q->density * q->heat : 0.0;
    whole *= depth;
    heat *= depth;
    if (!(heat > 0.0)) {
      r += whole;
      continue;
    }
    for (int k = 0; k < 4; k++) {
      w->link[w->n] = r + whole / 8.0;
      w->store[w->n++] = heat / 4.0;
      r = whole / 8.0;
    }
  }
  if (w->n == 0) { /* no mass at all */
    w->link[0] = r = 0.5 * r;
    w->store[w->n++] = 1.0;
  }
  w->link[w->n] = r;
}

/* An inner face: it gives e, W/m2, and takes h per K of its own temperature. */
typedef struct face {
  double area, e, h, convective;
} face;

/* One implicit step by elimination from outdoors: t[i] = e[i] + f[i] t[i + 1], the last node towards the face. sun_in:
 * W/m2 on the face. */
static face wall_reduce(const wall *w, double film_out, double t_out, double sun_in, double e[],
                        double f[])
{
  double below = w->inside ? 0.0 : 1.0 / (1.0 / film_out + w->link[0]);
  double e_below = t_out, f_below = 0.0;
  for (size_t i = 0; i < w->n; i++) {
    double c = w->store[i] / dt, next = 1.0 / w->link[i + 1];
    double d = 1.0 / (c + below * (1.0 - f_below) + next);
    e[i] = e_below = (c * w->t[i] + below * e_below) * d;
    f[i] = f_below = next * d;
    below = next;
  }
  return (face){w->area, below * e_below + sun_in, below * (1.0 - f_below), w->film_in};
}

static void wall_follow(wall *w, double t_face, const double e[], const double f[])
{
  double next = t_face;
  for (size_t i = w->n; i-- > 0;) {
    w->t[i] = e[i] + f[i] * next;
    next = w->t[i];
  }
}

/* ---------------------------------------------------------------- windows */

/* Shade of an endless board over the glass and of the walls of its reveal. */
typedef struct lit {
  double direct, even;
} lit;

static lit lit_at(const pw_house_window *w, const sun *s, double height, double width)
{
  lit l = {1.0, 1.0};
  double f = w->facing_deg * pi / 180.0;
  double ahead =
      -(s->south * cos(f) + s->west * sin(f)); /* towards the sun, level, out of the wall */
  double aside = s->south * sin(f) - s->west * cos(f);
  if (ahead > 1e-3) {
    double drop = 0.0;
    if (w->overhang_depth > 0.0)
      drop = fmax(drop, w->overhang_depth * s->up / ahead - w->overhang_gap);
    drop = fmax(drop, w->reveal_depth * s->up / ahead);
    double side = w->reveal_depth * fabs(aside) / ahead;
    l.direct = fmax(0.0, 1.0 - drop / height) * fmax(0.0, 1.0 - side / width);
  }
  if (w->overhang_depth > 0.0) {
    double sum = 0.0; /* sky below the edge of the board, seen from ten points of the height */
    for (int i = 0; i < 10; i++) {
      double y = w->overhang_gap + (i + 0.5) * height / 10.0;
      sum += 0.1 * y / hypot(y, w->overhang_depth);
    }
    l.even = 0.5 * (1.0 + sum); /* the sky is half of the even light, the ground the rest */
  }
  return l;
}

static double share_at(const double share[PW_ANGLES], double cosine)
{
  double x = acos(fmin(1.0, cosine)) * 18.0 / pi;
  int k = x < 8.999 ? (int)x : 8;
  return share[k] + (x - k) * (share[k + 1] - share[k]);
}

static double moved(double ua, double area, double film)
{
  if (!(area > 0.0 && ua > 0.0)) return ua;
  return 1.0 / (1.0 / ua - 1.0 / (rated_out * area) + 1.0 / (film * area));
}

typedef struct window_hour {
  double ua, area, sun; /* W/K, m2, W */
} window_hour;

static window_hour windows_at(const pw_house_window window[], size_t n, const pw_hour *h,
                              const sun *s, double film, double albedo)
{
  window_hour sum = {0.0, 0.0, 0.0};
  for (size_t i = 0; i < n; i++) {
    const pw_house_window *w = &window[i];
    double count = w->count > 0 ? w->count : 1, height = w->height, width = w->width;
    if (!(height > 0.0)) height = sqrt(w->area_glass);
    if (!(width > 0.0)) width = w->area_glass / height;
    on_plane p = plane_at(h, s, w->tilt_deg > 0.0 ? w->tilt_deg : 90.0, w->facing_deg, albedo);
    lit l = lit_at(w, s, height, width);
    double pass = (w->screen > 0.0 ? w->screen : 1.0) * (1.0 - w->shade_factor);
    const double *g = w->glazing->shgc;
    sum.ua += count * (moved(w->glazing->u_winter * w->area_glass, w->area_glass, film) +
                       moved(w->ua_other, w->area_other, film));
    sum.area += count * (w->area_glass + w->area_other);
    sum.sun += count * pass *
               (w->area_glass * (p.direct * l.direct * share_at(g, p.cosine) +
                                 p.even * l.even * g[PW_ANGLE_DIFFUSE]) +
                w->solar_other * (p.direct * l.direct + p.even * l.even));
  }
  return sum;
}

/* All windows as one face: from outdoors to their inner faces. */
static face window_face(const window_hour *w, double t_out)
{
  if (!(w->ua > 0.0)) return (face){0};
  double area = fmax(w->area, w->ua / 7.9); /* an area for a film of 8 to hold */
  double core = 1.0 / (area / w->ua - 1.0 / (glass_in + radiant_in));
  return (face){area, core * t_out, core, glass_in};
}

/* ---------------------------------------------------------------- the zone */

typedef struct zone {
  const pw_house *house;
  const pw_weather *weather;
  const pw_house_window *window;
  size_t n;
  wall wall[PW_PARTS_MAX];
  double t, density; /* C, kg/m3 */
} zone;

static double mean_density(const pw_weather *w)
{
  double sum = 0.0;
  for (int i = 0; i < PW_HOURS; i++)
    sum += (double)w->hour[i].pressure / PW_HOURS;
  return sum / (287.05 * 293.15);
}

/* Outdoor film and sol-air temperature of a part. */
static double outside_of(const zone *z, const pw_house_part *p, int hour, const sun *s,
                         double albedo, double *film)
{
  const pw_hour *h = &z->weather->hour[hour];
  if (p->outside == PW_OUTSIDE_GROUND) {
    *film = 1e6;
    return z->house->ground_c[pw_month_of_day(hour / 24)];
  }
  double emittance = p->emittance > 0.0 ? p->emittance : 0.9;
  *film = 4.0 + 4.0 * wind_share(z->house) * (double)h->wind + radiant_out * emittance;
  on_plane sunny = plane_at(h, s, p->tilt_deg, p->facing_deg, albedo);
  return (double)h->t_air +
         (p->absorptance * (sunny.direct + sunny.even) - sky_loss(p->tilt_deg, emittance)) /
             *film;
}

/* One step; need in W, heating above 0. */
static double step(zone *z, int hour, const sun *s)
{
  const pw_house *house = z->house;
  const pw_hour *h = &z->weather->hour[hour];
  double e[PW_PARTS_MAX][NODES], f[PW_PARTS_MAX][NODES], floor = 0.0, rest = 0.0;
  double albedo = house->albedo > 0.0 ? house->albedo
                  : h->albedo >= 0.0f ? (double)h->albedo
                                      : ground_light;
  double film = 4.0 + 4.0 * wind_share(house) * (double)h->wind + radiant_out * 0.84;
  window_hour w = windows_at(z->window, z->n, h, s, film, albedo);
  for (size_t i = 0; i < house->n_part; i++)
    *(house->part[i].floor ? &floor : &rest) += z->wall[i].area;
  double flow = house->volume * (house->air_changes + house->vent_changes[hour % 24]) / 3600.0;
  double through = z->density * air_heat * flow;
  double store = z->density * air_heat * house->volume *
                 (house->air_store > 0.0 ? house->air_store : 1.0) / dt;
  face side[PW_PARTS_MAX + 1];
  size_t n = house->n_part + 1;
  for (size_t i = 0; i < house->n_part; i++) {
    const pw_house_part *p = &house->part[i];
    double film_out, t_out = outside_of(z, p, hour, s, albedo, &film_out);
    double face_sun =
        floor > 0.0 ? (p->floor ? on_floor * w.sun / floor : (1.0 - on_floor) * w.sun / rest)
                    : w.sun / rest;
    side[i] = wall_reduce(&z->wall[i], film_out, t_out, face_sun, e[i], f[i]);
  }
  side[n - 1] = window_face(&w, (double)h->t_air - sky_loss(90.0, 0.84) / film);
  /* air: a[0][0] t + a[0][1] r = b[0] + need; all faces see one radiant temperature r */
  double aa = store + through, am = 0.0, mm = 0.0;
  double ba =
      store * z->t + through * (double)h->t_air + house->gain_w * (1.0 - house->gain_radiant);
  double bm = house->gain_w * house->gain_radiant;
  for (size_t i = 0; i < n; i++) {
    double hc = side[i].convective, y = 1.0 / (hc + radiant_in + side[i].h), m2 = side[i].area;
    aa += m2 * hc * (1.0 - hc * y);
    am += m2 * hc * radiant_in * y;
    mm += m2 * radiant_in * (1.0 - radiant_in * y);
    ba += m2 * hc * side[i].e * y;
    bm += m2 * radiant_in * side[i].e * y;
  }
  double a = aa - am * am / mm, b = ba + am * bm / mm, need = 0.0;
  double low = house->heat_set_c[hour % 24], high = house->cool_set_c[hour % 24];
  double most_heat = house->heat_max_w > 0.0 ? house->heat_max_w : (double)INFINITY;
  double most_cool = house->cool_max_w > 0.0 ? house->cool_max_w : (double)INFINITY;
  if (b / a < low) need = fmin(a * low - b, most_heat);
  if (b / a > high) need = fmax(a * high - b, -most_cool);
  z->t = (b + need) / a;
  double r = (bm + am * z->t) / mm;
  for (size_t i = 0; i < house->n_part; i++) {
    double hc = side[i].convective;
    wall_follow(&z->wall[i],
                (side[i].e + hc * z->t + radiant_in * r) / (hc + radiant_in + side[i].h), e[i],
                f[i]);
  }
  return need;
}

pw_status second_year_of(const pw_house *house, const pw_weather *weather,
                         const pw_house_window window[], size_t n, second_year *out,
                         pw_err *err)
{
  zone *z = calloc(1, sizeof *z);
  if (!z) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the second model");
  *z = (zone){.house = house, .weather = weather, .window = window, .n = n, .t = 20.0};
  z->density = mean_density(weather);
  for (size_t i = 0; i < house->n_part; i++) {
    wall_of(&house->part[i], &z->wall[i]);
    for (size_t k = 0; k < z->wall[i].n; k++)
      z->wall[i].t[k] = 15.0;
  }
  *out = (second_year){0};
  for (int i = -24 * 30; i < PW_HOURS; i++) {
    int hour = i < 0 ? i + PW_HOURS : i;
    sun s = sun_at(weather, hour);
    double heat = 0.0, cool = 0.0;
    for (int k = 0; k < STEPS; k++) {
      double need = step(z, hour, &s);
      heat += fmax(0.0, need) / STEPS;
      cool += fmax(0.0, -need) / STEPS;
    }
    if (i < 0) continue;
    out->heating_kwh[pw_month_of_day(hour / 24)] += 1e-3 * heat;
    out->cooling_kwh[pw_month_of_day(hour / 24)] += 1e-3 * cool;
  }
  free(z);
  return PW_OK;
}
