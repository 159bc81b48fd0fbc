/* study/compare_sound_rooms: which openings stand in one room, and what a room hears, by EN 12354-3 as the header of house/facade_sound
 * has it: D_2m,nT = R' + 10 lg (0.16 V / (0.5 s S)), so 10 lg (0.32 V / sum of area times tau), of openings, wall and vent. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/compare_sound_impl.h"

enum { N = 4, P = 2, W = (P + 1) * N };

typedef struct fixture {
  pw_job job;
  pw_compare c;
  sound_study s;
  pw_compare_sound out;
} fixture;

/* Through the existing windows, each of an opening, m2; a package lets pass half of it, the next a tenth; twice as much of traffic. */
static const double passes[N] = {0.01, 1e-4, 0.03, 2e-4};

/* A1 and A2 in the den, 2 and 2 x 1.5 m2; two without a room's name, B1 of 1 m2, B2 three of 10 m2. In the draw k all of it is
 * (k - 128) / 128 dB more, so the middle of the draws is as said. */
static fixture *by_hand(int noise)
{
  static const double by[P + 1] = {1.0, 0.5, 0.1}, area[N] = {2.0, 1.0, 1.5, 10.0},
                             times[N] = {1.0, 1.0, 2.0, 3.0};
  fixture *f = calloc(1, sizeof *f);
  assert_non_null(f);
  f->job.opening = calloc(N, sizeof *f->job.opening);
  f->s.window = calloc(W, sizeof *f->s.window);
  f->s.draw = calloc(PW_SOUND_DRAWS, sizeof *f->s.draw);
  f->s.value = calloc((size_t)3 * PW_SOUND_DRAWS + 64, sizeof *f->s.value);
  f->out.room = calloc(PW_WINDOWS_MAX, sizeof *f->out.room);
  f->s.n_window = W;
  f->job.house.noise = noise;
  f->job.house.noise_db_2m = 65.0;
  f->job.n_opening = N;
  f->c = (pw_compare){.job = &f->job, .n_opening = N, .n_package = P};
  for (size_t i = 0; i < N; i++) {
    pw_opening *o = &f->job.opening[i];
    pw_opening_init(o);
    memcpy(o->tag, (const char *const[]){"A1", "B1", "A2", "B2"}[i], 3);
    if (i % 2 == 0) memcpy(o->room, "Den", 4);
    f->s.window[i].area = area[i];
    f->s.window[i].times = times[i];
  }
  for (int ctr = 0; ctr < 2; ctr++) {
    f->s.through[ctr] = calloc((size_t)PW_SOUND_DRAWS * W, sizeof(double));
    for (size_t k = 0; k < PW_SOUND_DRAWS; k++)
      for (size_t w = 0; w < W; w++)
        f->s.through[ctr][k * W + w] =
            passes[w % N] * by[w / N] * (1 + ctr) * pow(10.0, ((double)k - 128.0) / 1280.0);
  }
  return f;
}

static void rooms(fixture *f)
{
  pw_err err = {0};
  if (sound_rooms(&f->c, &f->s, &f->out, &err) != PW_OK) fail_msg("%s", err.text);
}

static void done(fixture *f)
{
  free(f->job.opening);
  free(f->s.window);
  free(f->s.draw);
  free(f->s.value);
  free(f->s.through[0]);
  free(f->s.through[1]);
  free(f->out.room);
  free(f);
}

static void one_name_is_one_room(void **state)
{
  (void)state;
  fixture *f = by_hand(0);
  rooms(f);
  assert_int_equal(f->out.n_room, 3);
  assert_string_equal(f->out.room[0].name, "Den");
  assert_int_equal(f->out.room[0].n_opening, 2);
  assert_int_equal(f->out.room[0].opening[0], 0);
  assert_int_equal(f->out.room[0].opening[1], 2);
  assert_string_equal(f->out.room[1].name, "B1"); /* by its tag */
  assert_int_equal(f->out.room[1].n_opening, 1);
  assert_int_equal(f->out.room[1].opening[0], 1);
  assert_string_equal(f->out.room[2].name, "B2");
  assert_int_equal(f->out.room[2].n_opening, 1);
  assert_int_equal(f->out.room[2].opening[0], 3);
  done(f);
}

/* The den: 50 m3 told at its second opening, behind a wall of 200 dB at its first, so through the windows alone: 0.01 + 2 x 0.03
 * = 0.07 m2 of voices (spectrum 1), D = 10 lg (0.32 x 50 / 0.07) = 23.59, 41.41 dB(A) of 65; of traffic twice as much, 3.01 dB less. Half
 * the way through is 3.0103 dB, a tenth 10 dB, the same in every draw. */
static void a_room_by_its_windows_alone(void **state)
{
  (void)state;
  for (int noise = 0; noise < 4; noise += 3) { /* traffic, voices: reference/sound/noise.csv */
    fixture *f = by_hand(noise);
    double d = 23.5902 - (noise == 0 ? 3.0103 : 0.0);
    f->job.opening[0].wall_rw = 200.0;
    f->job.opening[2].wall_rw = 20.0; /* the first that is given holds */
    f->job.opening[2].room_volume = 50.0;
    rooms(f);
    const pw_room_sound *r = &f->out.room[0];
    static const double less[P + 1] = {0.0, 3.0103, 10.0};
    assert_int_equal(f->out.noise, noise);
    assert_true(r->complete && isnan(r->vent_dne));
    assert_int_equal(f->out.defaults, 1); /* the other rooms */
    for (size_t p = 0; p <= P; p++) {
      pw_assert_near(r->level_difference[p], d + less[p], 0.01, "difference", "EN 12354-3");
      pw_assert_near(r->level_indoors[p], 65.0 - d - less[p], 0.01, "indoors", "EN 12354-3");
      if (p == 0) continue;
      pw_assert_near(r->change[p - 1].p10, less[p], 1e-4, "change, 10 %", "the same draws");
      pw_assert_near(r->change[p - 1].p50, less[p], 1e-4, "change", "the same draws");
      pw_assert_near(r->change[p - 1].p90, less[p], 1e-4, "change, 90 %", "the same draws");
    }
    assert_true(isnan(f->out.room[1].level_indoors[0])); /* a room by default tells no level */
    done(f);
  }
  fixture *f = by_hand(3);
  f->job.house.noise_db_2m = 0.0; /* no level out there, none in here */
  for (size_t i = 0; i < N; i++) {
    f->job.opening[i].wall_rw = 50.0;
    f->job.opening[i].room_volume = 50.0;
  }
  rooms(f);
  assert_int_equal(f->out.defaults, 0);
  assert_true(f->out.room[1].complete && isnan(f->out.room[1].level_indoors[1]));
  done(f);
}

/* Stucco: 21, 33, 41, 46, 47 dB in the octaves 125 to 2000 Hz and 51 at 4000 (glass_octaves.csv), Rw 42. Its thirds from 100 to 3150 Hz in
 * the spectra 1 and 2 of ISO 717-1 (-29 -26 ... -9; -20 -20 -18 ... -15) leave 39.290 and 34.394 dB, added up apart from the program. A
 * room that nobody described: 35 m3, 4 m deep and 2.4 m high, so 8.75 m2 of facade, in which B1 leaves 7.75 m2 of wall; B2 of
 * 30 m2 stands in 36. What the draws miss of such a wall is here 3 dB in all. */
static void the_wall_passes_by_its_area(void **state)
{
  (void)state;
  static const double wall[2] = {39.290, 34.394};
  for (int ctr = 0; ctr < 2; ctr++) {
    fixture *f = by_hand(ctr ? 1 : 2); /* rail, aircraft */
    for (size_t k = 0; k < PW_SOUND_DRAWS; k++)
      f->s.draw[k].wall = 3.0;
    f->job.opening[3].vent_dne = 35.0;
    rooms(f);
    double tau = pow(10.0, -(wall[ctr] + 3.0) / 10.0), vent = 10.0 * pow(10.0, -3.5);
    double b1 = 1e-4 * (1 + ctr) + 7.75 * tau, b2 = 3.0 * 2e-4 * (1 + ctr) + 6.0 * tau + vent;
    pw_assert_near(f->out.room[1].level_difference[0], 10.0 * log10(0.32 * 35.0 / b1), 0.01,
                   "B1", "EN 12354-3");
    pw_assert_near(f->out.room[2].level_difference[0], 10.0 * log10(0.32 * 35.0 / b2), 0.01,
                   "B2", "EN 12354-3");
    pw_assert_near(f->out.room[2].vent_dne, 35.0, 0.0, "vent", "as given");
    done(f);
    /* a wall that is told: 10 dB under stucco by its Rw, and the draws miss nothing of it */
    f = by_hand(ctr ? 1 : 2);
    for (size_t k = 0; k < PW_SOUND_DRAWS; k++)
      f->s.draw[k].wall = 3.0;
    f->job.opening[1].wall_rw = 32.0;
    f->job.opening[1].room_volume = 20.0;
    rooms(f);
    b1 = 1e-4 * (1 + ctr) + (5.0 - 1.0) * pow(10.0, -(wall[ctr] - 10.0) / 10.0);
    pw_assert_near(f->out.room[1].level_difference[0], 10.0 * log10(0.32 * 20.0 / b1), 0.01,
                   "B1", "EN 12354-3");
    done(f);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(one_name_is_one_room),
      cmocka_unit_test(a_room_by_its_windows_alone),
      cmocka_unit_test(the_wall_passes_by_its_area),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
