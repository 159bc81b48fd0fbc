/* The simple hourly and the monthly method against values printed or computed elsewhere: conductances
 * and utilisation factors of ISO 13790, the light box of Standard 140 by an independent code with
 * the same inputs, and an invented house in two climates. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/table.h"
#include "check/check.h"
#include "check/open_data.h"
#include "climate/sky.h"
#include "house/monthly.h"
#include "house/simple.h"
#include "panewright/units.h"

typedef struct desk {
  const pw_check_sink *sink;
  pw_weather weather;
  pw_sky_year sky;
  pw_facade_year facade;
  float sun[PW_HOURS];    /* W, gained through windows */
  float opaque[PW_HOURS]; /* W, gained through opaque parts */
} desk;

static void give(const desk *d, const char *id, const char *quantity, const char *unit,
                 double ours, double want, double tolerance, const char *source)
{
  pw_check_give(d->sink, id, quantity, unit, ours, want, tolerance, source,
                "computed by independent code");
}

/* Rows 90 to 112 of energy_checks.csv: factors and conductances. */
static pw_status give_pieces(const desk *d, pw_err *err)
{
  static const char source[] = "table climate/energy_checks";
  const pw_table *t = pw_table_find("climate/energy_checks");
  if (!t) return pw_fail(err, PW_E_DATA, NULL, "climate/energy_checks is not compiled in");
  int set = pw_table_column(t, "set"), what = pw_table_column(t, "quantity");
  int value = pw_table_column(t, "mean_or_value"), inputs = pw_table_column(t, "inputs");
  const pw_simple s = {.floor_area = 100.0,
                       .mass_area = 250.0,
                       .mass_store = 1e7,
                       .h_opaque = 120.0,
                       .h_window = 80.0,
                       .h_air = 50.0};
  pw_simple_net net;
  pw_status status = pw_simple_init(&s, &net, err);
  if (status != PW_OK) return status;
  const struct {
    const char *name;
    double ours;
  } conductance[] = {{"H_tr_is", net.h_is}, {"H_tr_ms", net.h_ms}, {"H_tr_em", net.h_em},
                     {"H_tr_1", net.h_1},   {"H_tr_2", net.h_2},   {"H_tr_3", net.h_3}};
  for (size_t i = 0; i < t->n_row; i++) {
    const char *q = pw_table_text(t, i, what), *in = pw_table_text(t, i, inputs);
    double want = pw_table_number(t, i, value), gamma, a;
    if (strcmp(pw_table_text(t, i, set), "ISO13790-12.2.1") == 0 &&
        sscanf(in, "gamma %lf a %lf", &gamma, &a) == 2) {
      int gain = strstr(q, "gain") != NULL;
      give(d, in, q, "-", gain ? pw_month_gain_use(gamma, a) : pw_month_loss_use(gamma, a),
           want, 5e-7, source);
    }
    for (size_t k = 0; k < sizeof conductance / sizeof conductance[0]; k++)
      if (strcmp(q, conductance[k].name) == 0)
        give(d, "5R1C", q, "W/K", conductance[k].ours, want, 5e-7 * want, source);
    if (strcmp(q, "steady heating need at 25 K") == 0) {
      double t_mass = 0.0;
      pw_simple_hour hour = {0};
      pw_simple_drive drive = {-5.0, -5.0, 0.0, 0.0, 20.0, NAN};
      for (int h = 0; h < 2000; h++)
        pw_simple_step(&s, &net, &drive, &t_mass, &hour);
      give(d, "5R1C", q, "W", hour.need, want, 1e-6 * want, source);
    }
  }
  return PW_OK;
}

/* ---- the box of Standard 140 with the inputs of STD140.md */

typedef struct box {
  const char *name;
  int east_west;            /* window on two sides */
  double u_window, g, p[5]; /* beam factor: polynomial in the incidence angle, rad */
  double u_wall, u_roof;
  double area_mass, store; /* a m2 of floor */
  double heat, cool;
  int set_back;
} box;

/* Clear pair, low-e argon, single: STD140.md. */
#define PAIR                                                                                   \
  3.1, 0.769, { 1.0, -0.189, 0.644, -0.596, 0.0 }
#define LOWE                                                                                   \
  1.45, 0.44, { 1.0, -0.152, 0.51, -0.526, 0.0 }
#define SINGLE                                                                                 \
  7.8, 0.864, { 0.998, 0.137, -0.745, 1.21, -0.668 }
static const box boxes[] = {
    {"600", 0, PAIR, 0.53, 0.33, 4.522, 51289.8, 20.0, 27.0, 0},
    {"620", 1, PAIR, 0.53, 0.33, 4.522, 51289.8, 20.0, 27.0, 0},
    {"640", 0, PAIR, 0.53, 0.33, 4.522, 51289.8, 20.0, 27.0, 1},
    {"660", 0, LOWE, 0.53, 0.33, 4.522, 51289.8, 20.0, 27.0, 0},
    {"670", 0, SINGLE, 0.53, 0.33, 4.522, 51289.8, 20.0, 27.0, 0},
    {"680", 0, PAIR, 0.15, 0.10, 4.522, 51289.8, 20.0, 27.0, 0},
    {"685", 0, PAIR, 0.53, 0.33, 4.522, 51289.8, 19.9, 20.1, 0},
    {"695", 0, PAIR, 0.15, 0.10, 4.522, 51289.8, 19.9, 20.1, 0},
    {"900", 0, PAIR, 0.53, 0.33, 2.7, 249272.0, 20.0, 27.0, 0},
    {"920", 1, PAIR, 0.53, 0.33, 2.7, 249272.0, 20.0, 27.0, 0},
    {"940", 0, PAIR, 0.53, 0.33, 2.7, 249272.0, 20.0, 27.0, 1},
    {"980", 0, PAIR, 0.15, 0.10, 2.7, 249272.0, 20.0, 27.0, 0},
    {"985", 0, PAIR, 0.53, 0.33, 2.7, 249272.0, 19.9, 20.1, 0},
    {"995", 0, PAIR, 0.15, 0.10, 2.7, 249272.0, 19.9, 20.1, 0},
};

static const double frame = 0.001; /* share of a window */
static const double r_se = 0.04, absorptance = 0.6, h_r = 4.5, dt_sky = 11.0;
static const double wall_facing[] = {0, 90, 180, 270};
static const double wall_area[] = {21.6, 16.2, 9.6, 16.2};

static float whole(const pw_facade_year *f, int i)
{
  return f->beam[i] + f->circumsolar[i] + f->dome[i] + f->horizon[i] + f->ground[i];
}

static pw_status add_opaque(desk *d, double facing, double tilt, double ua, double view,
                            pw_err *err)
{
  pw_status s = pw_facade_of_year(&d->sky, &(pw_facade){facing, tilt, 0.2}, &d->facade, err);
  for (int i = 0; s == PW_OK && i < PW_HOURS; i++)
    d->opaque[i] +=
        (float)(r_se * ua * (absorptance * (double)whole(&d->facade, i) - view * h_r * dt_sky));
  return s;
}

static pw_status add_window(desk *d, const box *b, double facing, double area, pw_err *err)
{
  pw_status s = pw_facade_of_year(&d->sky, &(pw_facade){facing, 90.0, 0.2}, &d->facade, err);
  double loss = 0.5 * r_se * b->u_window * area * h_r * dt_sky;
  for (int i = 0; s == PW_OK && i < PW_HOURS; i++) {
    double x = acos(fmin(fmax((double)d->facade.cos_incidence[i], 0.0), 1.0));
    double p = b->p[0] + x * (b->p[1] + x * (b->p[2] + x * (b->p[3] + x * b->p[4])));
    double beam = (double)d->facade.beam[i], rest = (double)whole(&d->facade, i) - beam;
    d->sun[i] += (float)(area * (1.0 - frame) * b->g * (fmax(p, 0.0) * beam + rest) - loss);
  }
  return s;
}

static pw_status drive_box(desk *d, const box *b, pw_err *err)
{
  pw_status s = PW_OK;
  memset(d->sun, 0, sizeof d->sun);
  memset(d->opaque, 0, sizeof d->opaque);
  for (int w = 0; s == PW_OK && w < 4; w++)
    s = add_opaque(d, wall_facing[w], 90.0, b->u_wall * wall_area[w], 0.5, err);
  if (s == PW_OK) s = add_opaque(d, 0.0, 0.0, b->u_roof * 48.0, 1.0, err);
  if (s == PW_OK)
    s = add_window(d, b, b->east_west ? 90.0 : 180.0, b->east_west ? 6.0 : 12.0, err);
  if (s == PW_OK && b->east_west) s = add_window(d, b, 270.0, 6.0, err);
  return s;
}

/* Two passes over the year; the second counts. */
static pw_status run_box(desk *d, const box *b, double need[2], pw_err *err)
{
  const pw_simple s = {.floor_area = 48.0,
                       .h_is = 2.1,
                       .mass_area = b->area_mass * 48.0,
                       .mass_store = b->store * 48.0,
                       .h_opaque = b->u_wall * 63.6 + b->u_roof * 48.0 + 0.038 * 48.0,
                       .h_window = b->u_window * 12.0,
                       .h_air = 0.414 * 129.6 * 1.2 * 1005.0 / 3600.0};
  pw_simple_net net;
  pw_simple_hour hour;
  double t_mass = 20.0;
  pw_status status = pw_simple_init(&s, &net, err);
  if (status != PW_OK) return status;
  for (int k = 0; k < 2 * PW_HOURS; k++) {
    int i = k % PW_HOURS, clock = i % 24;
    double t = (double)d->weather.hour[i].t_air, heat = b->heat;
    if (k == PW_HOURS) need[0] = need[1] = 0.0;
    if (b->set_back) heat = clock == 23 || clock < 7 ? 10.0 : clock == 7 ? 15.0 : 20.0;
    pw_simple_drive drive = {t,    t,      200.0, (double)d->sun[i] + (double)d->opaque[i],
                             heat, b->cool};
    pw_simple_step(&s, &net, &drive, &t_mass, &hour);
    need[0] += 1e-6 * fmax(hour.need, 0.0);
    need[1] += 1e-6 * fmax(-hour.need, 0.0);
  }
  return PW_OK;
}

static pw_status give_boxes(desk *d, pw_err *err)
{
  const pw_table *t = pw_table_find("climate/std140_5r1c_published");
  if (!t)
    return pw_fail(err, PW_E_DATA, NULL, "climate/std140_5r1c_published is not compiled in");
  int column = pw_table_column(t, "own_5r1c_same_inputs");
  for (size_t k = 0; k < sizeof boxes / sizeof boxes[0]; k++) {
    double need[2] = {0.0, 0.0};
    pw_status s = drive_box(d, &boxes[k], err);
    if (s == PW_OK) s = run_box(d, &boxes[k], need, err);
    if (s != PW_OK) return s;
    for (size_t i = 0; i < t->n_row; i++) {
      const char *q = pw_table_text(t, i, 1);
      int cooling = strcmp(q, "annual cooling") == 0;
      if (strcmp(pw_table_text(t, i, 0), boxes[k].name) != 0 ||
          (!cooling && strcmp(q, "annual heating") != 0))
        continue;
      double want = pw_table_number(t, i, column);
      give(d, boxes[k].name, q, "MWh", need[cooling], want, 0.005 * want + 5e-4,
           "table climate/std140_5r1c_published");
    }
  }
  return PW_OK;
}

/* ---- the invented house of annual_example.json */

typedef struct example {
  const char *file, *window;
  double u, g, iam[10], iam_diffuse, changes;
  double want[2]; /* kWh: hourly heating, cooling */
} example;

#define OLD "existing", 6.2, 0.7, {1, 1, 1, 0.99, 0.98, 0.95, 0.87, 0.71, 0.42, 0}, 0.9, 0.7
#define NEW "insert", 1.9, 0.27, {1, 1, 0.995, 0.985, 0.96, 0.91, 0.8, 0.61, 0.31, 0}, 0.86, 0.6
static const example examples[] = {
    {"723170TYA.CSV", OLD, {10812.482, 3141.156}},
    {"723170TYA.CSV", NEW, {8709.381, 1517.709}},
    {"722780TYA.CSV", OLD, {1769.571, 15466.821}},
    {"722780TYA.CSV", NEW, {1635.195, 9531.514}},
};

static pw_status example_sun(desk *d, const example *e, pw_err *err)
{
  static const double area[] = {3.0, 4.0, 7.0, 4.0}; /* N E S W */
  memset(d->sun, 0, sizeof d->sun);
  for (int w = 0; w < 4; w++) {
    pw_status s =
        pw_facade_of_year(&d->sky, &(pw_facade){90.0 * w, 90.0, 0.2}, &d->facade, err);
    if (s != PW_OK) return s;
    for (int i = 0; i < PW_HOURS; i++) {
      double x = acos(fmin(fmax((double)d->facade.cos_incidence[i], 0.0), 1.0)) * 18.0 / PW_PI;
      int k = x < 8.999 ? (int)x : 8;
      double iam = e->iam[k] + (x - k) * (e->iam[k + 1] - e->iam[k]);
      double beam = (double)d->facade.beam[i], rest = (double)whole(&d->facade, i) - beam;
      d->sun[i] += (float)(area[w] * e->g * (beam * iam + rest * e->iam_diffuse));
    }
  }
  return PW_OK;
}

static pw_status example_hourly(const desk *d, const example *e, double need[2], pw_err *err)
{
  const pw_simple s = {.floor_area = 120.0,
                       .mass_area = 300.0,
                       .mass_store = 1.98e7,
                       .h_opaque = 130.0,
                       .h_window = e->u * 18.0,
                       .h_air = 1200.0 * e->changes * 300.0 / 3600.0};
  pw_simple_net net;
  pw_simple_hour hour;
  double t_mass = 20.0;
  pw_status status = pw_simple_init(&s, &net, err);
  if (status != PW_OK) return status;
  for (int k = 0; k < 2 * PW_HOURS; k++) {
    int i = k % PW_HOURS;
    double t = (double)d->weather.hour[i].t_air;
    if (k == PW_HOURS) need[0] = need[1] = 0.0;
    pw_simple_drive drive = {t, t, 480.0, (double)d->sun[i], 20.0, 26.0};
    pw_simple_step(&s, &net, &drive, &t_mass, &hour);
    need[0] += 1e-3 * fmax(hour.need, 0.0);
    need[1] += 1e-3 * fmax(-hour.need, 0.0);
  }
  return PW_OK;
}

/* One month against the table: the factor's own value where ISO 52016-1 lets it stand, else 0. */
static void give_month(const desk *d, const example *e, const pw_month_balance *b, int m,
                       const double need[2])
{
  const pw_table *t = pw_table_find("climate/month_example");
  double h = (b->h_transmission + b->h_air) * b->hours * 1e-3;
  double loss[2] = {h * (b->heat_set - b->t_out), h * (b->cool_set - b->t_out)};
  int ended[2] = {b->gain_kwh > 2.0 * loss[0], loss[1] > 2.0 * b->gain_kwh};
  for (size_t i = 0; t && i < t->n_row; i++) {
    if (strcmp(pw_table_text(t, i, 0), e->window) != 0 ||
        strcmp(pw_table_text(t, i, 1), e->file) != 0 || pw_table_number(t, i, 2) != m + 1)
      continue;
    for (int q = 0; q < 2; q++) {
      char id[64], what[64];
      double want = ended[q] ? 0.0 : pw_table_number(t, i, 5 + q);
      snprintf(id, sizeof id, "%s %.6s %d", e->window, e->file, m + 1);
      snprintf(what, sizeof what, "monthly %s%s", q ? "cooling" : "heating",
               ended[q] ? ", ended by the rule" : "");
      give(d, id, what, "kWh", need[q], want, 0.003 * want + 1.0,
           "table climate/month_example; rule of ISO 52016-1:2017 6.6 from memory");
    }
  }
}

static pw_status example_monthly(const desk *d, const example *e, pw_err *err)
{
  pw_month_balance b = {.heat_set = 20.0,
                        .cool_set = 26.0,
                        .h_transmission = 130.0 + e->u * 18.0,
                        .h_air = 1200.0 * e->changes * 300.0 / 3600.0};
  b.time_constant_h = 1.98e7 / 3600.0 / (b.h_transmission + b.h_air);
  for (int m = 0; m < 12; m++) {
    int first = 24 * pw_month_start[m], last = first + 24 * pw_month_days[m];
    double need[2];
    b.hours = last - first;
    b.t_out = 0.0;
    b.gain_kwh = 0.480 * b.hours;
    for (int i = first; i < last; i++) {
      b.t_out += (double)d->weather.hour[i].t_air / b.hours;
      b.gain_kwh += 1e-3 * (double)d->sun[i];
    }
    pw_status s = pw_month_need(&b, &need[0], &need[1], err);
    if (s != PW_OK) return s;
    give_month(d, e, &b, m, need);
  }
  return PW_OK;
}

static pw_status load(desk *d, const char *file, pw_err *err)
{
  pw_status s = pw_check_hourly(d->sink, file, &d->weather, err);
  return s == PW_OK ? pw_sky_of_year(&d->weather, PW_SKY_PEREZ, &d->sky, err) : s;
}

static pw_status give_examples(desk *d, pw_err *err)
{
  static const char *const what[] = {"hourly heating", "hourly cooling"};
  for (size_t k = 0; k < sizeof examples / sizeof examples[0]; k++) {
    const example *e = &examples[k];
    double need[2] = {0.0, 0.0};
    pw_status s = load(d, e->file, err);
    if (s == PW_OK) s = example_sun(d, e, err);
    if (s == PW_OK) s = example_hourly(d, e, need, err);
    if (s == PW_OK) s = example_monthly(d, e, err);
    if (s != PW_OK) return s;
    char id[64];
    snprintf(id, sizeof id, "%s %.6s", e->window, e->file);
    for (int q = 0; q < 2; q++)
      give(d, id, what[q], "kWh", need[q], e->want[q], 0.003 * e->want[q] + 1.0,
           "table climate/annual_example");
  }
  return PW_OK;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  desk *d = calloc(1, sizeof *d);
  if (!d) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a year");
  d->sink = sink;
  pw_status s = give_pieces(d, err);
  if (s == PW_OK) s = load(d, "725650TYA.CSV", err);
  if (s == PW_OK) s = give_boxes(d, err);
  if (s == PW_OK) s = give_examples(d, err);
  free(d);
  return s;
}

extern const pw_check_group pw_check_simple;
const pw_check_group pw_check_simple = {
    "simple", "the simple hourly and the monthly method of ISO 13790", run};
