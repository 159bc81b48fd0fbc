/* What src/house refuses, field by field, and that each bound itself is taken with a finite result. The bounds are those of the code and
 * its headers: far beyond any house, so that a slip of the pen or a number that is none stops. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "house/pane.h"
#include "house/wall.h"
#include "panewright/year.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

/* ---------------------------------------------------------------- the house */

/* All parts that a house may have are there, two are used. */
static pw_house good_house(void)
{
  pw_house h = {.n_part = 2,
                .floor_area = 100.0,
                .volume = 250.0,
                .air_changes = 0.5,
                .gain_w = 400.0,
                .gain_radiant = 0.6,
                .warm_c = 27.0,
                .height = 1.5,
                .terrain = 0.22};
  for (int i = 0; i < 24; i++) {
    h.heat_set_c[i] = 20.0;
    h.cool_set_c[i] = 26.0;
  }
  for (int i = 0; i < 12; i++)
    h.ground_c[i] = 12.0;
  for (size_t i = 0; i < PW_PARTS_MAX; i++) {
    h.part[i] = (pw_house_part){.area = 1000.0, .tilt_deg = 90.0, .absorptance = 0.6};
    h.part[i].facing_deg = 90.0 * (double)(i % 4);
    h.part[i].layers.n_layer = 1;
    for (size_t l = 0; l < PW_LAYERS_MAX; l++)
      h.part[i].layers.layer[l] = (pw_wall_layer){0.1, 0.2, 600.0, 1000.0, 0.0};
  }
  return h;
}

static pw_status house_check(const void *in, pw_err *err)
{
  const pw_house *h = in;
  pw_status s = pw_house_check(h, err);
  if (s == PW_OK) {
    double air = 0.0, ground = 0.0;
    pw_house_ua(h, &air, NULL);
    pw_house_ua(h, NULL, &ground);
    assert_true(isfinite(air) && isfinite(ground) && air >= 0.0 && ground == 0.0);
  }
  return s;
}

#define OF(field) #field, offsetof(pw_house, field)

static void a_house_as_a_whole(void **state)
{
  (void)state;
  const pw_house good = good_house();
  const pw_span span[] = {
      {OF(floor_area), "d", 1.0, 1e6},
      {OF(volume), "d", 1.0, 1e7},
      {OF(air_changes), "d", 0.0, 100.0},
      {OF(gain_w), "d", 0.0, 1e7},
      {OF(gain_radiant), "d", 0.0, 1.0},
      {OF(heat_radiant), "d", 0.0, 1.0},
      {OF(heat_max_w), "d", 0.0, 1e9},
      {OF(cool_max_w), "d", 0.0, 1e9},
      {OF(air_store), "d", 0.0, 100.0},
      {OF(albedo), "d", 0.0, 1.0},
      {OF(height), "d", 0.0, 100.0},
      {OF(terrain), "d", 0.0, 0.6},
      {OF(warm_c), "d", 0.0, 100.0},
      {OF(film_in), "i", 0, PW_FILM_IN_HEATED},
      {OF(film_out), "i", 0, PW_FILM_OUT_PLAIN},
      {OF(airing.share), "d", 0.0, 1.0},
      {OF(airing.flow), "d", 0.0, 100.0},
      {OF(airing.down_to_c), "d", 0.0, 60.0},
      {OF(airing.over_out), "d", 0.0, 50.0},
      {OF(airing.dew_most_c), "d", -100.0, 100.0},
      {OF(airing.most_changes), "d", 0.0, 1000.0},
      {OF(mass_area), "d", 0.0, 1e7},
      {OF(mass_store), "d", 0.0, 1e12},
      {OF(n_part), "n", 1, PW_PARTS_MAX},
      {"vent_changes", offsetof(pw_house, vent_changes[7]), "d)", 0.0, 1000.0},
      {"ground_c", offsetof(pw_house, ground_c[11]), "d", -40.0, 50.0}};
  pw_assert_spans(&good, sizeof good, span, COUNT(span), house_check);
}

static void each_part_of_a_house(void **state)
{
  (void)state;
  const pw_house good = good_house();
#define PART(field) #field, offsetof(pw_house, part[1].field)
  const pw_span span[] = {
      {PART(area), "d", 0.0, 1e5},
      {PART(tilt_deg), "d", 0.0, 180.0},
      {PART(facing_deg), "d", -360.0, 720.0},
      {PART(absorptance), "d", 0.0, 1.0},
      {PART(emittance), "d", 0.0, 1.0},
      {PART(absorptance_in), "d", 0.0, 1.0},
      {PART(emittance_in), "d", 0.0, 1.0},
      {PART(height), "d", 0.0, 100.0},
      {PART(overhang_depth), "d", 0.0, 20.0},
      {PART(overhang_gap), "d", 0.0, 20.0},
      {"layers", offsetof(pw_house, part[1].layers.n_layer), "n", 1, PW_LAYERS_MAX}};
  pw_assert_spans(&good, sizeof good, span, COUNT(span), house_check);
}

/* Set points may be off (not a number); where both are on, cooling stays above heating with its ramp. */
static void set_points_of_the_hours(void **state)
{
  (void)state;
  const double no = (double)NAN;
  const struct {
    double heat, ramp, cool;
    const char *field; /* NULL: taken */
  } row[] = {{20, 0, 26, NULL},
             {no, 0, no, NULL},
             {-50, 0, 100, NULL},
             {60, 0, 100, NULL},
             {-50.1, 0, 26, "heat_set_c"},
             {60.1, 0, 99, "heat_set_c"},
             {INFINITY, 0, no, "heat_set_c"},
             {-50, 0, -50, NULL},
             {no, 0, -50.1, "cool_set_c"},
             {no, 0, 100.1, "cool_set_c"},
             {no, 0, -INFINITY, "cool_set_c"},
             {20, 50, 45, NULL},
             {20, 50, 44.9, "cool_set_c"},
             {20, -50, 45, NULL},
             {20, -50.1, 60, "heat_ramp_k"},
             {20, 50.1, 60, "heat_ramp_k"},
             {20, no, 60, "heat_ramp_k"},
             {26.1, 0, 26, "cool_set_c"}};
  for (size_t i = 0; i < COUNT(row); i++) {
    pw_house h = good_house();
    pw_err err = {.field = NULL};
    h.heat_set_c[23] = row[i].heat;
    h.heat_ramp_k[23] = row[i].ramp;
    h.cool_set_c[23] = row[i].cool;
    pw_status s = pw_house_check(&h, &err);
    if (s != (row[i].field ? PW_E_DOMAIN : PW_OK)) fail_msg("row %zu: %s", i, err.text);
    if (row[i].field) assert_string_equal(err.field, row[i].field);
  }
  static float shape[PW_HOURS];
  const float wrong[] = {-1e-6f, 1000.0f, NAN, INFINITY};
  pw_house h = good_house();
  pw_err err;
  h.air_shape = shape;
  assert_int_equal(pw_house_check(&h, &err), PW_OK);
  for (size_t i = 0; i < COUNT(wrong); i++) {
    shape[PW_HOURS - 1] = wrong[i];
    assert_int_equal(pw_house_check(&h, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "air_shape");
  }
}

/* ---------------------------------------------------------------- its year */

typedef struct year {
  pw_house house;
  pw_house_window window[PW_WINDOWS_MAX + 1];
  size_t n_window;
  pw_year_options o;
} year;

static pw_weather *mild;
static pw_glazing glass;
static pw_year_workspace *ws;

static pw_status live(const void *in, pw_err *err)
{
  const year *y = in;
  static pw_year_result r;
  pw_status s = pw_year_run(&y->house, mild, y->window, y->n_window, &y->o, ws, &r, err);
  if (s == PW_OK) assert_true(isfinite(r.heating_kwh) && isfinite(r.cooling_kwh));
  return s;
}

static year *good_year(void)
{
  year *y = calloc(1, sizeof *y);
  assert_non_null(y);
  y->house = good_house();
  y->n_window = 1;
  y->o.method = PW_YEAR_QUICK;
  for (size_t i = 0; i < COUNT(y->window); i++)
    y->window[i] = (pw_house_window){.facing_deg = 180.0, .area_glass = 1.0, .glazing = &glass};
  return y;
}

static void a_window_of_a_year(void **state)
{
  (void)state;
  year *good = good_year();
#define WINDOW(field) #field, offsetof(year, window[0].field)
  const pw_span span[] = {
      {WINDOW(facing_deg), "d", -360.0, 720.0},
      {WINDOW(tilt_deg), "d", 0.0, 180.0},
      {WINDOW(area_glass), "d", 1e-4, 1e4},
      {WINDOW(height), "d", 0.0, 30.0},
      {WINDOW(width), "d", 0.0, 100.0},
      {WINDOW(ua_other), "d", -1e3, 1e5},
      {WINDOW(area_other), "d", 0.0, 1e4},
      {WINDOW(solar_other), "d", 0.0, 1e4},
      {WINDOW(overhang_depth), "d", 0.0, 20.0},
      {WINDOW(overhang_gap), "d", 0.0, 20.0},
      {WINDOW(reveal_depth), "d", 0.0, 20.0},
      {WINDOW(fin_depth), "d", 0.0, 20.0},
      {WINDOW(screen), "d", 0.0, 1.0},
      {WINDOW(shade_factor), "d", 0.0, 1.0},
      {"covered.pass", offsetof(year, window[0].covered.pass[0]), "d", 0.0, 1.0},
      {"covered.pass", offsetof(year, window[0].covered.pass[1]), "d", 0.0, 1.0},
      {"covered.closed", offsetof(year, window[0].covered.closed[0]), "d", 0.0, 1.0},
      {"covered.closed", offsetof(year, window[0].covered.closed[1]), "d", 0.0, 1.0},
      {WINDOW(covered.resistance), "d", 0.0, 10.0},
      {WINDOW(open_area), "d", 0.0, 1e4},
      {WINDOW(open_height), "d", 0.0, 30.0},
      {WINDOW(count), "i", 0, 1e6}};
  pw_assert_spans(good, sizeof *good, span, COUNT(span), live);
  pw_err err;
  good->window[0].glazing = NULL;
  assert_int_equal(live(good, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "glazing");
  free(good);
}

static void options_of_a_year(void **state)
{
  (void)state;
  year *good = good_year();
  const pw_span span[] = {{"window", offsetof(year, n_window), "n", 0, PW_WINDOWS_MAX},
                          {"steps_per_hour", offsetof(year, o.steps_per_hour), "i", 0, 12},
                          {"warm_up_days", offsetof(year, o.warm_up_days), "i", 0, 365},
                          {"method", offsetof(year, o.method), "i", 0, PW_YEAR_QUICK},
                          {"model", offsetof(year, o.sky), "i", 0, PW_SKY_MODEL_COUNT - 1}};
  pw_assert_spans(good, sizeof *good, span, COUNT(span), live);
  for (int lanes = -1; lanes <= 17; lanes++) {
    pw_err err;
    good->o.lanes = lanes;
    int taken = lanes == 0 || ((lanes == 1 || lanes == 2 || lanes == 4 || lanes == 8) &&
                               lanes <= pw_year_lanes());
    assert_int_equal(live(good, &err), taken ? PW_OK : PW_E_DOMAIN);
    if (!taken) assert_string_equal(err.field, "lanes");
  }
  free(good);
}

static pw_status live_in(const void *in, pw_err *err)
{
  year *y = good_year();
  static pw_year_result r;
  pw_status s = pw_year_run(&y->house, in, y->window, 1, &y->o, NULL, &r, err);
  if (s == PW_OK) assert_true(isfinite(r.heating_kwh) && isfinite(r.cooling_kwh));
  free(y);
  return s;
}

static void the_weather_of_a_year(void **state)
{
  (void)state;
#define HOUR(field) offsetof(pw_weather, hour[4000].field)
  const pw_span span[] = {{"weather", HOUR(t_air), "(f)", -90.0, 70.0},
                          {"weather", HOUR(pressure), "(f)", 3e4, 1.2e5},
                          {"weather", HOUR(wind), "f)", 0.0, 120.0},
                          {"state_late_h", offsetof(pw_weather, state_late_h), "d", 0.0, 1.0}};
  pw_assert_spans(mild, sizeof *mild, span, COUNT(span), live_in);
}

/* ---------------------------------------------------------------- walls, panes */

typedef struct wall_case {
  pw_wall_layers layers;
  double step, least;
} wall_case;

static pw_status wall_of(const void *in, pw_err *err)
{
  const wall_case *c = in;
  pw_wall w;
  pw_status s = pw_wall_init_cut(&c->layers, c->step, c->least, &w, err);
  if (s == PW_OK) assert_true(isfinite(w.u + w.store + w.direct[0][0] + w.direct[1][1]));
  return s;
}

static void a_wall(void **state)
{
  (void)state;
  wall_case good = {.layers = {.n_layer = 2}, .step = 3600.0, .least = 3600.0};
  for (size_t i = 0; i < PW_LAYERS_MAX; i++)
    good.layers.layer[i] = (pw_wall_layer){.resistance = 0.5};
  good.layers.layer[1] = (pw_wall_layer){0.1, 0.5, 1000.0, 1000.0, 1.0};
#define LAYER(field) #field, offsetof(wall_case, layers.layer[1].field)
  const pw_span span[] = {
      {"resistance", offsetof(wall_case, layers.layer[0].resistance), "(d)", 0.0, 1000.0},
      {LAYER(thickness), "d", 0.0, 5.0}, /* 0: a bare resistance */
      {LAYER(conductivity), "(d)", 0.0, 500.0},
      {LAYER(density), "d)", 0.0, 25000.0},
      {LAYER(heat), "d)", 0.0, 10000.0},
      {"n_layer", offsetof(wall_case, layers.n_layer), "n", 1, PW_LAYERS_MAX},
      {"least", offsetof(wall_case, least), "(d", 0.0, 3600.0}};
  const pw_span step = {"step", offsetof(wall_case, step), "(d", 0.0, 86400.0};
  pw_assert_spans(&good, sizeof good, span, COUNT(span), wall_of);
  good.least = 1e-6 * 86400.0; /* no longer than the shortest step tried */
  pw_assert_spans(&good, sizeof good, &step, 1, wall_of);
}

/* Ten layers of twelve cells each are more than the forty there are room for: refused, not cut short in silence. Three are 36 cells;
 * a fourth takes the four that are left, and the steady flow is still that of the layers in a row. */
static void a_wall_of_more_cells_than_there_is_room_for(void **state)
{
  (void)state;
  wall_case c = {.layers = {.n_layer = 10}, .step = 3600.0, .least = 3600.0};
  pw_err err;
  pw_wall w;
  for (size_t i = 0; i < 10; i++)
    c.layers.layer[i] = (pw_wall_layer){1.0, 0.1, 2000.0, 1000.0, 0.0};
  assert_int_equal(wall_of(&c, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "n_layer");
  c.layers.n_layer = 4;
  assert_int_equal(pw_wall_init(&c.layers, 3600.0, &w, NULL), PW_OK);
  assert_int_equal(w.n_cell, PW_CELLS_MAX);
  pw_assert_near(w.u, 0.1 / 4.0, 1e-12, "u", "4 m of 0.1 W/(m K)");
}

static void panes_that_cannot_be(void **state)
{
  (void)state;
  pane_unit unit;
  pw_err err;
  pw_glazing bad = glass;
  assert_int_equal(pane_unit_of(&glass, 1.0, 101325.0, &unit, &err), PW_OK);
  const size_t panes[] = {0, PW_PANES_MAX + 1, 1};
  for (size_t i = 0; i < COUNT(panes); i++) { /* the last is not what the light says */
    bad.unit.n_pane = panes[i];
    assert_int_equal(pane_unit_of(&bad, 1.0, 101325.0, &unit, &err), PW_E_SHAPE);
    assert_string_equal(err.field, "glazing");
  }
  const double thick[] = {0.0, -1e-3, 0.2, (double)NAN};
  for (size_t i = 0; i < COUNT(thick); i++) {
    bad = glass;
    bad.unit.pane[1].thickness = thick[i];
    assert_int_equal(pane_unit_of(&bad, 1.0, 101325.0, &unit, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "thickness");
  }
  bad = glass;
  bad.unit.gap[0].mix.share[PW_SF6] = 1.0; /* ISO 15099 knows nothing of it */
  assert_int_equal(pane_unit_of(&bad, 1.0, 101325.0, &unit, &err), PW_E_DOMAIN);
  year *y = good_year(); /* and through the year */
  y->window[0].glazing = &bad;
  y->o.method = PW_YEAR_DETAILED;
  assert_int_equal(live(y, &err), PW_E_DOMAIN);
  free(y);
}

int main(void)
{
  pw_test_begin();
  pw_buildup b;
  mild = calloc(1, sizeof *mild);
  ws = pw_year_workspace_new();
  if (!mild || !ws || pw_buildup_parse("3mm clear / 12mm air / 3mm clear", &b, NULL) != PW_OK ||
      pw_glazing_build(&b, &glass, NULL) != PW_OK)
    return 1;
  mild->site = (pw_site){.latitude_deg = 40.0, .longitude_deg = -105.0, .tz_h = -7.0};
  for (int i = 0; i < PW_HOURS; i++)
    mild->hour[i] = (pw_hour){.t_air = 10.0f, .t_dew = 2.0f, .wind = 3.0f, .pressure = 1e5f};
  mild->hour[4236].ghi = mild->hour[4236].dhi = 300.0f;
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_house_as_a_whole),
      cmocka_unit_test(each_part_of_a_house),
      cmocka_unit_test(set_points_of_the_hours),
      cmocka_unit_test(a_window_of_a_year),
      cmocka_unit_test(options_of_a_year),
      cmocka_unit_test(the_weather_of_a_year),
      cmocka_unit_test(a_wall),
      cmocka_unit_test(a_wall_of_more_cells_than_there_is_room_for),
      cmocka_unit_test(panes_that_cannot_be),
  };
  int failed = cmocka_run_group_tests(tests, NULL, NULL);
  pw_year_workspace_free(ws);
  free(mild);
  return failed;
}
