/* The year in the house: the glass chain against the unit's own balance, the closing of the energy
 * balance, the step, properties, refusals. Weather: a built-in place, so no file is needed. */
#include "house_fixture.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "house/film.h"
#define LANES 1
#include "climate/month.h"
#include "house/lane_step.h"
#include "job/house_file.h"
#include "panewright/year.h"

static void live(fixture *f, const pw_year_options *o, pw_year_workspace *ws,
                 pw_year_result *result)
{
  pw_err err = {0};
  if (pw_year_run(&f->file.house, &f->weather, f->file.window, f->file.n_window, o, ws, result,
                  &err) != PW_OK)
    fail_msg("%s", err.text);
}

/* The chain brought to rest against given films, W/m2 from glass to room. */
static double chain_flow(const pane_unit *u, const pw_env *e, const float absorbed[])
{
  lane_glass w = {0};
  double k, j, sun, t = e->t_in, q = 0.0;
  lane_put_glass(&w, 0, u);
  for (size_t m = 0; m < 2 * u->n; m++)
    w.t[m] = e->t_out;
  for (int i = 0; i < 100; i++) {
    double r_out = u->emit_out * film_radiant(w.t[0], e->t_rad_out);
    w.h_out = e->h_c_out + r_out;
    w.e_out = e->h_c_out * e->t_out + r_out * e->t_rad_out;
    glass_chain(&w, absorbed, &k, &j, &sun);
    double hc = u->room * pow(fabs(t - e->t_in), 0.25);
    double hr = u->emit_in * film_radiant(t, e->t_rad_in);
    double h = hc + hr, x = (hc * e->t_in + hr * e->t_rad_in + j) / (h + k);
    t += 0.7 * (x - t);
    glass_faces(&w, t);
    q = hc * (t - e->t_in) + hr * (t - e->t_rad_in);
  }
  return q;
}

/* Against pw_unit_solve on a grid of weather: 1.5 % or 0.6 W/m2 (bilinear cavities, one coefficient
 * for the indoor film from 0 to 40 C). */
static void the_chain_meets_the_units_own_balance(void **state)
{
  static const char *const house[] = {"std140/600", "std140/660", "std140/670"};
  static const double out[] = {253.15, 273.15, 293.15, 308.15}, in[] = {290.15, 299.15};
  static const double sun[] = {0.0, 300.0, 800.0}, film[] = {5.0, 20.0};
  fixture *f = *state;
  double worst = 0.0;
  for (int g = 0; g < 3; g++) {
    open_house(f, house[g]);
    const pw_glazing *glass = f->file.window[0].glazing;
    pane_unit u;
    pw_unit unit = glass->unit;
    unit.height = 1.5;
    assert_int_equal(pane_unit_of(glass, 1.5, 101325.0, &u, NULL), PW_OK);
    for (int n = 0; n < 4 * 2 * 3 * 2; n++) {
      pw_env e = {.t_out = out[n % 4],
                  .t_in = in[n / 4 % 2],
                  .sun = sun[n / 8 % 3],
                  .h_c_out = film[n / 24]};
      e.t_rad_out = e.t_out - 8.0;
      e.t_rad_in = e.t_in - 1.0;
      double share[PW_PANES_MAX];
      float absorbed[PW_PANES_MAX] = {0};
      for (size_t p = 0; p < unit.n_pane; p++) {
        share[p] = glass->light.absorbed[p][0];
        absorbed[p] = (float)(share[p] * e.sun);
      }
      pw_unit_result r;
      assert_int_equal(pw_unit_solve(&unit, &e, share, &r, NULL), PW_OK);
      double ours = chain_flow(&u, &e, absorbed), want = -r.q_in;
      worst = fmax(worst, fabs(ours - want) / fmax(fabs(want), 40.0));
      pw_assert_near(ours, want, 0.015 * fabs(want) + 0.6, house[g], "pw_unit_solve");
    }
  }
  print_message("glass chain: at worst %.2f %% off the unit's balance\n", 100.0 * worst);
}

/* Turbulent free convection of large plates, handbook of fundamentals (from memory): 1.31 upright,
 * 1.52 warm side up, 0.76 warm side down, times the cube root of the difference; both fits over the
 * tilt begin at the upright value. */
static void free_convection_meets_the_handbooks_plates(void **state)
{
  (void)state;
  const film_tilt wall = film_of_tilt(0.0, 1.0), floor = film_of_tilt(1.0, 1.0);
  for (double dt = -20.0; dt <= 20.0; dt += 8.0) {
    double root = cbrt(fabs(dt));
    pw_assert_near(film_natural(&wall, dt), 1.31 * root, 2e-3 * root, "upright", "handbook");
    pw_assert_near(film_natural(&floor, dt), (dt > 0.0 ? 1.52 : 0.76) * root, 2e-3 * root,
                   "level, looking up", "handbook");
  }
}

static void energy_closes_over_the_year(void **state)
{
  static const char *const house[] = {"std140/600", "std140/630", "std140/900", "std140/950"};
  fixture *f = *state;
  for (int i = 0; i < 4; i++) {
    for (int steps = 1; steps <= 3; steps += 2) {
      open_house(f, house[i]);
      f->file.window[0].ua_other = 2.0;
      f->file.window[0].solar_other = 0.05;
      f->file.house.heat_radiant = 0.3;
      pw_year_options o = {.steps_per_hour = steps};
      live(f, &o, NULL, &f->a);
      double turned = f->a.heating_kwh + f->a.cooling_kwh + f->a.solar_kwh;
      pw_assert_near(f->a.residual_kwh / turned, 0.0, 1e-6, house[i], "conservation of energy");
    }
  }
}

/* What the windows, walls, air and gains do sums to the need: the printed parts are the balance. */
static void the_parts_told_make_up_the_need(void **state)
{
  fixture *f = *state;
  open_house(f, "std140/600");
  live(f, NULL, NULL, &f->a);
  const pw_year_result *r = &f->a;
  double sum = r->heating_kwh - r->cooling_kwh + r->gain_kwh + r->solar_kwh -
               r->window_loss_kwh - r->opaque_loss_kwh - r->air_loss_kwh - r->stored_kwh;
  pw_assert_near(sum, 0.0, 1e-6 * r->solar_kwh, "sum of the parts", "conservation of energy");
  double month = 0.0;
  for (int m = 0; m < 12; m++)
    month += r->heating_month_kwh[m];
  pw_assert_near(month, r->heating_kwh, 1e-9 * month, "months", "their sum");
}

/* Half the step may change the year by 0.5 % of what is turned over; 0.5 % of each where it is
 * above 1 MWh. */
static void half_the_step_changes_little(void **state)
{
  static const char *const house[] = {"std140/600", "std140/620", "std140/640", "std140/660",
                                      "std140/670", "std140/900", "std140/940"};
  fixture *f = *state;
  for (int i = 0; i < 7; i++) {
    pw_year_options one = {.steps_per_hour = 1}, two = {.steps_per_hour = 2};
    open_house(f, house[i]);
    live(f, &one, NULL, &f->a);
    live(f, &two, NULL, &f->b);
    double total = f->b.heating_kwh + f->b.cooling_kwh;
    print_message("%s: %.1f %.1f, halved %.1f %.1f\n", house[i], f->a.heating_kwh,
                  f->a.cooling_kwh, f->b.heating_kwh, f->b.cooling_kwh);
    double pair[2][2] = {{f->a.heating_kwh, f->b.heating_kwh},
                         {f->a.cooling_kwh, f->b.cooling_kwh}};
    for (int k = 0; k < 2; k++)
      pw_assert_near(pair[k][0], pair[k][1], 0.005 * (pair[k][1] > 1000.0 ? pair[k][1] : total),
                     house[i], "half the step");
  }
}

static void a_workspace_changes_no_digit(void **state)
{
  fixture *f = *state;
  pw_year_workspace *ws = pw_year_workspace_new();
  assert_non_null(ws);
  open_house(f, "std140/620");
  live(f, NULL, ws, &f->a); /* fills it with other things */
  open_house(f, "std140/610");
  live(f, NULL, ws, &f->a);
  live(f, NULL, ws, &f->b);
  assert_memory_equal(&f->a, &f->b, sizeof f->a);
  live(f, NULL, NULL, &f->b);
  assert_memory_equal(&f->a, &f->b, sizeof f->a);
  pw_year_workspace_free(ws);
}

/* House after house in one workspace, each with glass and facades of its own. */
static void a_workspace_takes_any_number_of_houses(void **state)
{
  fixture *f = *state;
  pw_year_workspace *ws = pw_year_workspace_new();
  pw_year_options o = {.method = PW_YEAR_QUICK};
  assert_non_null(ws);
  open_house(f, "std140/620");
  for (int i = 0; i < 120; i++) {
    o.method = i % 20 ? PW_YEAR_QUICK : PW_YEAR_DETAILED;
    for (size_t w = 0; w < 2; w++) {
      f->file.window[w].facing_deg = 3.0 * i + (double)w;
      f->file.window[w].overhang_depth = 0.1 + 0.01 * i;
    }
    f->file.glass[0].unit.gap[0].thickness = 0.010 + 1e-5 * i;
    f->file.house.part[4].layers.layer[1].thickness = 0.1 + 1e-3 * i;
    live(f, &o, ws, &f->a);
  }
  o.method = PW_YEAR_DETAILED;
  live(f, &o, ws, &f->a);
  live(f, &o, NULL, &f->b);
  assert_memory_equal(&f->a, &f->b, sizeof f->a);
  pw_year_workspace_free(ws);
}

static void a_row_of_two_is_two_windows(void **state)
{
  fixture *f = *state;
  open_house(f, "std140/600");
  live(f, NULL, NULL, &f->a);
  f->file.window[0].count = 1;
  f->file.window[1] = f->file.window[0];
  f->file.n_window = 2;
  live(f, NULL, NULL, &f->b);
  pw_assert_near(f->b.heating_kwh, f->a.heating_kwh, 1e-9 * f->a.heating_kwh, "heating",
                 "the same glass told otherwise");
  pw_assert_near(f->b.window[0].solar_kwh + f->b.window[1].solar_kwh, f->a.solar_kwh,
                 1e-9 * f->a.solar_kwh, "sun", "the same glass told otherwise");
}

static void changes_go_the_right_way(void **state)
{
  fixture *f = *state;
  open_house(f, "std140/600");
  live(f, NULL, NULL, &f->a);
  f->file.window[0].overhang_depth = 1.5;
  live(f, NULL, NULL, &f->b);
  assert_true(f->b.cooling_kwh < f->a.cooling_kwh && f->b.heating_kwh > f->a.heating_kwh);
  assert_true(f->b.window[0].incident_kwh < f->a.window[0].incident_kwh);
  f->file.window[0].overhang_depth = 0.0;
  f->file.house.air_changes *= 2.0;
  live(f, NULL, NULL, &f->b);
  assert_true(f->b.heating_kwh > f->a.heating_kwh);
  open_house(f, "std140/670");
  live(f, NULL, NULL, &f->b);
  assert_true(f->b.heating_kwh > f->a.heating_kwh);
  assert_true(f->b.window[0].t_inner_min_c < f->a.window[0].t_inner_min_c);
  assert_true(f->b.window[0].hours_uncomfortable > f->a.window[0].hours_uncomfortable);
  open_house(f, "std140/600");
  f->file.house.heat_max_w = 1500.0;
  live(f, NULL, NULL, &f->b);
  assert_true(f->b.peak_heating_w <= 1500.0 + 1e-9 && f->b.t_air_min_c < 20.0 - 1e-6);
}

/* By all three methods: an hourly rate that is one rate is the constant one; air that comes in the cold half of the
 * year, with the same mean, makes heating more (the house's whole air in winter at twice the rate). */
static void air_by_the_hour(void **state)
{
  static float even[PW_HOURS], winter[PW_HOURS];
  fixture *f = *state;
  int cold = 0;
  for (int i = 0; i < PW_HOURS; i++) {
    int m = pw_month_of_day(i / 24);
    even[i] = 1.0f;
    winter[i] = m < 3 || m > 8 ? 1.0f : 0.0f;
    cold += m < 3 || m > 8;
  }
  for (int i = 0; i < PW_HOURS; i++)
    winter[i] *= (float)PW_HOURS / (float)cold;
  for (int method = PW_YEAR_DETAILED; method <= PW_YEAR_QUICK; method++) {
    const pw_year_options o = {.method = (pw_year_method)method};
    open_house(f, "std140/600");
    f->file.window[0].screen = 0.2; /* so that the monthly method heats, too */
    live(f, &o, NULL, &f->a);
    f->file.house.air_shape = even;
    live(f, &o, NULL, &f->b);
    /* bits, but by the month, whose mean of hours is summed */
    double hair = method == PW_YEAR_QUICK ? 1e-9 : 0.0;
    pw_assert_near(f->b.heating_kwh, f->a.heating_kwh, hair * f->a.heating_kwh, "heating",
                   "one rate");
    pw_assert_near(f->b.cooling_kwh, f->a.cooling_kwh, hair * f->a.cooling_kwh, "cooling",
                   "one rate");
    f->file.house.air_shape = winter;
    live(f, &o, NULL, &f->b);
    assert_true(f->b.heating_kwh > 1.05 * f->a.heating_kwh);
  }
  even[4000] = -1.0f;
  f->file.house.air_shape = even;
  pw_err err;
  assert_int_equal(pw_house_check(&f->file.house, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "air_shape");
}

/* A frame's rated U holds its outer film at 5.5 m/s: in calmer weather it loses less, the more so the
 * less it resists itself; with hardly any film (a large face) nothing changes. */
static void frames_follow_the_wind(void **state)
{
  fixture *f = *state;
  double lost[3];
  static const double area[] = {0.0, 1.0, 1e4};
  for (int i = 0; i < 3; i++) {
    open_house(f, "std140/600");
    f->file.window[0].ua_other = 6.8; /* aluminium without a break, 1 m2 */
    f->file.window[0].area_other = area[i];
    live(f, NULL, NULL, &f->a);
    lost[i] = f->a.window_loss_kwh;
  }
  pw_assert_near(lost[2], lost[0], 2e-3 * lost[0], "no film to speak of", "limit");
  assert_true(lost[1] < lost[0]);
}

/* The ground's albedo by hour of a weather file (snow) is what a stated one is, month by month; by the
 * definition of the two: January of snow 0.7 takes in the sun of a house that states 0.7, July that of
 * 0.2, and a file that says 0.2 all year changes nothing. Before, the file's was not used. */
static void snow_of_the_file_is_used(void **state)
{
  fixture *f = *state;
  pw_year_options o = {.method = PW_YEAR_SIMPLE};
  pw_weather *kept = malloc(sizeof *kept);
  assert_non_null(kept);
  *kept = f->weather;
  double jan[3], jul[3], year[3];
  open_house(f, "std140/600");
  for (int run = 0; run < 3; run++) { /* stated 0.2, stated 0.7, of the file */
    f->file.house.albedo = run == 0 ? 0.2 : run == 1 ? 0.7 : 0.0;
    for (int h = 0; run == 2 && h < PW_HOURS; h++)
      f->weather.hour[h].albedo = h < 31 * 24 ? 0.7f : -1.0f;
    live(f, &o, NULL, &f->a);
    jan[run] = f->a.window[0].solar_month_kwh[0];
    jul[run] = f->a.window[0].solar_month_kwh[6];
  }
  assert_true(jan[1] > 1.05 * jan[0]);
  pw_assert_near(jan[2], jan[1], 1e-9, "January", "stated 0.7");
  pw_assert_near(jul[2], jul[0], 1e-9, "July", "stated 0.2");
  for (int run = 0; run < 3; run++) {
    static const float albedo[] = {-1.0f, 0.2f, 0.0f};
    f->file.house.albedo = run == 2 ? 0.2 : 0.0;
    for (int h = 0; h < PW_HOURS; h++)
      f->weather.hour[h].albedo = albedo[run];
    live(f, &o, NULL, &f->a);
    year[run] = f->a.heating_kwh;
  }
  f->weather = *kept;
  free(kept);
  assert_true(year[0] == year[1] && year[0] == year[2]);
}

static void hours_sum_to_the_year(void **state)
{
  static float heat[PW_HOURS], cool[PW_HOURS], sun[PW_HOURS], window[PW_HOURS];
  fixture *f = *state;
  pw_year_hours h = {.heating_w = heat, .cooling_w = cool, .solar_w = sun, .window_w = window};
  pw_year_options o = {.hours = &h};
  for (int m = PW_YEAR_DETAILED; m <= PW_YEAR_SIMPLE; m++) {
    double sum[4] = {0};
    o.method = (pw_year_method)m;
    open_house(f, "std140/600");
    live(f, &o, NULL, &f->a);
    for (int i = 0; i < PW_HOURS; i++) {
      sum[0] += 1e-3 * (double)heat[i];
      sum[1] += 1e-3 * (double)cool[i];
      sum[2] += 1e-3 * (double)sun[i];
      sum[3] += 1e-3 * (double)window[i];
    }
    pw_assert_near(sum[0], f->a.heating_kwh, 1e-3, "heating", "hours");
    pw_assert_near(sum[1], f->a.cooling_kwh, 1e-3, "cooling", "hours");
    pw_assert_near(sum[2], f->a.solar_kwh, 1e-2, "sun", "hours");
    pw_assert_near(sum[3], f->a.solar_kwh - f->a.window_loss_kwh, 1e-2, "windows", "hours");
  }
}

static void refuse(fixture *f, const pw_year_options *o, pw_status want, const char *field)
{
  pw_err err = {0};
  memset(&f->b, 0x5a, sizeof f->b);
  f->a = f->b;
  assert_int_equal(pw_year_run(&f->file.house, &f->weather, f->file.window, f->file.n_window, o,
                               NULL, &f->b, &err),
                   want);
  assert_string_equal(err.field, field);
  assert_true(strlen(err.text) > 10);
  assert_memory_equal(&f->a, &f->b, sizeof f->a);
  open_house(f, "std140/600");
}

static void refuses_what_cannot_be(void **state)
{
  fixture *f = *state;
  open_house(f, "std140/600");
  f->file.house.volume = NAN;
  refuse(f, NULL, PW_E_DOMAIN, "volume");
  f->file.house.cool_set_c[5] = 10.0;
  refuse(f, NULL, PW_E_DOMAIN, "cool_set_c");
  f->file.house.part[0].absorptance = 1.2;
  refuse(f, NULL, PW_E_DOMAIN, "absorptance");
  f->file.house.part[2].layers.layer[1].conductivity = -1.0;
  refuse(f, NULL, PW_E_DOMAIN, "conductivity");
  f->file.window[0].area_glass = 0.0;
  refuse(f, NULL, PW_E_DOMAIN, "area_glass");
  f->file.window[0].glazing = NULL;
  refuse(f, NULL, PW_E_SHAPE, "glazing");
  f->file.window[0].overhang_depth = 50.0;
  refuse(f, NULL, PW_E_DOMAIN, "overhang_depth");
  refuse(f, &(pw_year_options){.steps_per_hour = 13}, PW_E_DOMAIN, "steps_per_hour");
  float keep = f->weather.hour[7].t_air;
  f->weather.hour[7].t_air = NAN;
  refuse(f, NULL, PW_E_DOMAIN, "weather");
  f->weather.hour[7].t_air = keep;
}

/* Eight points of the compass, each 45 degrees about its middle, however many turns a facing has. */
static void a_facing_has_its_facade(void **state)
{
  (void)state;
  static const struct {
    double facing;
    int facade;
  } row[] = {{0, 0},   {22.4, 0}, {22.6, 1},  {45, 1},    {90, 2},
             {180, 4}, {270, 6},  {337.4, 7}, {337.6, 0}, {360, 0},
             {405, 1}, {-45, 7},  {-90, 6},   {-360, 0},  {720, 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    assert_int_equal(pw_year_facade(row[i].facing), row[i].facade);
}

/* What a method cannot know it leaves as not a number, so that nobody prints a nought for it. */
static void plainer_methods_leave_blank_what_they_cannot_know(void **state)
{
  fixture *f = *state;
  open_house(f, "std140/600");
  for (int method = PW_YEAR_DETAILED; method <= PW_YEAR_QUICK; method++) {
    int hourly = method != PW_YEAR_QUICK, detailed = method == PW_YEAR_DETAILED;
    live(f, &(pw_year_options){.method = (pw_year_method)method}, NULL, &f->a);
    const pw_year_result *r = &f->a;
    const double of_detail[] = {r->residual_kwh,
                                r->stored_kwh,
                                r->opaque_loss_kwh,
                                r->window[0].t_inner_min_c,
                                r->window[0].t_inner_max_c,
                                r->window[0].hours_uncomfortable,
                                r->window[0].radiant_min_c};
    for (size_t i = 0; i < sizeof of_detail / sizeof of_detail[0]; i++)
      assert_int_equal(!isnan(of_detail[i]), detailed);
    const double of_hours[] = {r->t_air_min_c, r->t_air_max_c, r->t_air_mean_c, r->hours_cold,
                               r->hours_overheated};
    for (size_t i = 0; i < sizeof of_hours / sizeof of_hours[0]; i++)
      assert_int_equal(!isnan(of_hours[i]), hourly);
    assert_true(r->cooling_kwh > 0.0 && r->window[0].incident_kwh > 0.0);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_chain_meets_the_units_own_balance),
      cmocka_unit_test(free_convection_meets_the_handbooks_plates),
      cmocka_unit_test(energy_closes_over_the_year),
      cmocka_unit_test(the_parts_told_make_up_the_need),
      cmocka_unit_test(half_the_step_changes_little),
      cmocka_unit_test(a_workspace_changes_no_digit),
      cmocka_unit_test(a_workspace_takes_any_number_of_houses),
      cmocka_unit_test(a_row_of_two_is_two_windows),
      cmocka_unit_test(changes_go_the_right_way),
      cmocka_unit_test(air_by_the_hour),
      cmocka_unit_test(frames_follow_the_wind),
      cmocka_unit_test(snow_of_the_file_is_used),
      cmocka_unit_test(hours_sum_to_the_year),
      cmocka_unit_test(a_facing_has_its_facade),
      cmocka_unit_test(plainer_methods_leave_blank_what_they_cannot_know),
      cmocka_unit_test(refuses_what_cannot_be)};
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
