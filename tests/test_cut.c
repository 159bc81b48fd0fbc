/* Hours that the clock cuts: which they are, and that the year by them is the year by short steps, where hours as a
 * whole were off by several per cent. */
#include "house_fixture.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LANES 1
#include "climate/month.h"
#include "house/lane_pace.h"
#include "job/house_file.h"
#include "panewright/year.h"

/* a: as usual; b: with 12 steps an hour (48 where it is cut). */
static void live(fixture *f)
{
  pw_err err = {0};
  for (int fine = 0; fine < 2; fine++) {
    pw_year_options o = {.steps_per_hour = fine ? 12 : 0};
    if (pw_year_run(&f->file.house, &f->weather, f->file.window, f->file.n_window, &o, NULL,
                    fine ? &f->b : &f->a, &err) != PW_OK)
      fail_msg("%s", err.text);
  }
}

static unsigned cut_of(const pw_house *h)
{
  unsigned char cut[24];
  unsigned all = 0;
  house_cut(h, cut);
  for (int i = 0; i < 24; i++)
    all |= (unsigned)cut[i] << i;
  return all;
}

static void the_clock_says_which(void **state)
{
  fixture *f = *state;
  pw_house *h = &f->file.house;
  open_house(f, "std140/600");
  assert_int_equal(cut_of(h), 0);
  open_house(
      f, "std140/640"); /* 10 C to 7 h, straight to 20 C by 8 h: only what the plant follows */
  assert_true(h->heat_ramp_k[7] == 10.0 && h->heat_set_c[7] == 15.0);
  assert_int_equal(cut_of(h), 1u << 7 | 1u << 8);
  h->heat_ramp_k[7] = 0.0;
  h->heat_set_c[7] = 10.0; /* a thermostat that jumps; going down asks nothing */
  assert_int_equal(cut_of(h), 1u << 8);
  open_house(f, "std140/600");
  for (int i = 9; i < 17; i++)
    h->cool_set_c[i] = NAN; /* off by day */
  assert_int_equal(cut_of(h), 1u << 17);
  h->cool_set_c[20] = 26.0;
  assert_int_equal(cut_of(h), 1u << 17 | 1u << 20);
  open_house(f, "std140/650FF"); /* a fan by the clock: all day */
  assert_int_equal(cut_of(h), 0xffffff);
}

/* Hours as a whole: the peak of 640 4 % high and an hour late, of the jump 8 % high; of 650 5 % high. */
static void peaks_are_those_of_short_steps(void **state)
{
  fixture *f = *state;
  open_house(f, "std140/640");
  live(f);
  assert_int_equal(f->a.peak_heating_hour, f->b.peak_heating_hour);
  pw_assert_near(f->a.peak_heating_w / f->b.peak_heating_w, 1.0, 0.025, "ramp", "steps");
  f->file.house.heat_ramp_k[7] = 0.0;
  live(f);
  pw_assert_near(f->a.peak_heating_w / f->b.peak_heating_w, 1.0, 0.025, "jump", "steps");
  open_house(f, "std140/650");
  live(f);
  pw_assert_near(f->a.peak_cooling_w / f->b.peak_cooling_w, 1.0, 0.01, "fan", "steps");
  open_house(f, "std140/950FF");
  live(f);
  pw_assert_near(f->a.t_air_min_c, f->b.t_air_min_c, 0.05, "fan, coldest", "steps");
}

/* Walls go from one step to the other with what they remember: no heat is lost, and a year in which nothing
 * happens at the switch is the year without it. */
static void nothing_is_lost_at_the_switch(void **state)
{
  static const char *const house[] = {"std140/640", "std140/940", "std140/650", "std140/950FF"};
  fixture *f = *state;
  for (int i = 0; i < 4; i++) {
    open_house(f, house[i]);
    f->file.house.heat_radiant = 0.3;
    live(f);
    double turned = f->a.heating_kwh + f->a.cooling_kwh + f->a.solar_kwh;
    pw_assert_near(f->a.residual_kwh / turned, 0.0, 1e-6, house[i], "conservation of energy");
  }
  open_house(f, "std140/600");
  live(f);
  const double heating = f->a.heating_kwh, cooling = f->a.cooling_kwh;
  f->file.house.heat_set_c[5] -= 1e-9; /* cuts hour 6 */
  assert_int_equal(cut_of(&f->file.house), 1u << 6);
  live(f);
  pw_assert_near(f->a.heating_kwh / heating, 1.0, 5e-4, "heating", "no switch");
  pw_assert_near(f->a.cooling_kwh / cooling, 1.0, 5e-4, "cooling", "no switch");
}

/* A face of 10 C in the mean of one hour and 14 C in the next ran from 12 to 16 C: 15.5 C in its last quarter. Then
 * quarters of 16, 17, 19 and 20 C: 18 C in their hour. The wall's memory goes through both. */
static void faces_go_from_step_to_step(void **state)
{
  static lane_room r;
  static lane_pace p;
  static pw_wall hour, quarter;
  const pw_wall_layers concrete = {1, {{0.2, 1.7, 2400, 900, 0}}};
  const double faces[HOUSE_CUT] = {16.0, 17.0, 19.0, 20.0};
  (void)state;
  assert_int_equal(pw_wall_init_cut(&concrete, 3600.0, 900.0, &hour, NULL), PW_OK);
  assert_int_equal(pw_wall_init_cut(&concrete, 900.0, 900.0, &quarter, NULL), PW_OK);
  assert_int_equal(hour.n_mode, quarter.n_mode);
  room plan = {.n_part = 1, .n = 1, .step = 3600.0};
  plan.part[0] = (room_part){.wall = &hour, .wall_cut = &quarter};
  lane_put_room(&r, 0, &plan);
  lane_put_pace(&p, 0, &plan);
  r.part[0].was[1] = 10.0;
  lane_keep_faces(&r, &p);
  r.part[0].was[1] = 14.0;
  r.part[0].value[1] = 7.0 - hour.drive[1][1] * 14.0; /* a state of 7 */
  lane_quicken(&r, &p);
  pw_assert_near(r.part[0].was[1], 15.5, 1e-12, "last quarter", "hand sum");
  assert_true(r.step == 900.0 && r.part[0].wall->direct[1][1] == quarter.direct[1][1]);
  assert_true(r.part[0].wall->mode[1].keep == quarter.keep[1]);
  pw_assert_near(r.part[0].value[1] + quarter.drive[1][1] * 15.5, 7.0, 1e-12, "state", "kept");
  lane_no_faces(&r, &p);
  for (int k = 0; k < HOUSE_CUT; k++) {
    r.part[0].was[1] = faces[k];
    lane_add_faces(&r, &p);
  }
  r.part[0].value[1] = 7.0 - quarter.drive[1][1] * 20.0;
  lane_slow(&r, &p);
  pw_assert_near(r.part[0].was[1], 18.0, 1e-12, "the hour", "hand sum");
  assert_true(r.step == 3600.0 && r.part[0].wall->direct[0][1] == hour.direct[0][1]);
  assert_true(r.part[0].wall->mode[1].keep == hour.keep[1]);
  pw_assert_near(r.part[0].value[1] + hour.drive[1][1] * 18.0, 7.0, 1e-12, "state", "kept");
}

static void a_ramp_stays_below_cooling(void **state)
{
  fixture *f = *state;
  pw_err err;
  open_house(f, "std140/640");
  f->file.house.heat_ramp_k[7] = 26.0; /* 2 to 28 C, cooling from 27 C */
  assert_int_equal(pw_house_check(&f->file.house, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "cool_set_c");
  f->file.house.heat_ramp_k[7] = NAN;
  assert_int_equal(pw_house_check(&f->file.house, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "heat_ramp_k");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(the_clock_says_which),
                                     cmocka_unit_test(peaks_are_those_of_short_steps),
                                     cmocka_unit_test(nothing_is_lost_at_the_switch),
                                     cmocka_unit_test(faces_go_from_step_to_step),
                                     cmocka_unit_test(a_ramp_stays_below_cooling)};
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
