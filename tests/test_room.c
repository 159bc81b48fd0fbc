/* house/room: exchange of long waves between the faces of a room, against the equations that define it and closed forms.
 * Carroll, 1980, mean radiant temperature method (from memory): 1 / f = 1 - A f / sum A f, a face's share 1 / ((1 - e) / e +
 * 1 / f). */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "house/room.h"

static pw_house_part part(double area, double tilt, double facing, double emit)
{
  return (pw_house_part){.area = area,
                         .tilt_deg = tilt,
                         .facing_deg = facing,
                         .outside = PW_OUTSIDE_AIR,
                         .absorptance = 0.6,
                         .emittance_in = emit,
                         .floor = tilt == 180.0};
}

static pw_status faces(const pw_house_part of[], size_t n, room *r, pw_err *err)
{
  pw_house *house = calloc(1, sizeof *house);
  assert_non_null(house);
  memset(r, 0, sizeof *r);
  memcpy(house->part, of, n * sizeof *of);
  house->n_part = n;
  house->volume = 30.0;
  pw_status status = room_faces(r, house, NULL, 0, 1.0, err);
  free(house);
  return status;
}

/* f of a face from its share. */
static double factor(const room *r, size_t i, double emit)
{
  return 1.0 / (1.0 / r->share[i] - (1.0 - emit) / emit);
}

/* The inside of a cube: six alike, 1 / f = 1 - 1/6, f = 1.2. Black, its share is f; of 0.9, 1 / (1/9 + 5/6) = 18/17; of 0.1,
 * 1 / (9 + 5/6) = 6/59. Each face may have its own emittance: f is of areas alone. */
static void a_cube_by_closed_form(void **state)
{
  static const double emit[] = {1.0, 0.9, 0.1, 1.0, 0.9, 0.1},
                      want[] = {1.2, 18.0 / 17.0, 6.0 / 59.0};
  static const double tilt[] = {0, 180, 90, 90, 90, 90}, facing[] = {0, 0, 0, 90, 180, 270};
  pw_house_part cube[6];
  room *r = malloc(sizeof *r);
  pw_err err = {0};
  (void)state;
  assert_non_null(r);
  for (size_t i = 0; i < 6; i++)
    cube[i] = part(9.0, tilt[i], facing[i], emit[i]);
  assert_int_equal(faces(cube, 6, r, &err), PW_OK);
  for (size_t i = 0; i < 6; i++)
    pw_assert_near(r->share[i], want[i % 3], 1e-8, "cube", "closed form");
  free(r);
}

/* A room of unlike faces, two of them parts of one wall and one that stands in the room with both its sides: each plane fulfils
 * its equation with all others; parts of a plane see as one, and as one part of their sum. */
static void every_plane_fulfils_its_equation(void **state)
{
  enum { FACES = 8 };
  static const size_t plane[FACES] = {0, 1, 2, 3, 4, 2, 6, 7};
  pw_house_part p[FACES] = {part(30.0, 0, 0, 0.9),  part(30.0, 180, 0, 0.8),
                            part(5.0, 90, 0, 0.9),  part(14.0, 90, 90, 0.5),
                            part(11.0, 90, 180, 1), part(6.0, 90, 0, 0.3),
                            part(14.0, 90, 270, 1), part(20.0, 90, 0, 0.9)};
  room *r = malloc(sizeof *r), *one = malloc(sizeof *one);
  double f[FACES], area[FACES] = {0}, sum = 0.0;
  pw_err err = {0};
  (void)state;
  assert_true(r && one);
  p[7].outside = PW_OUTSIDE_SAME;
  assert_int_equal(faces(p, FACES, r, &err), PW_OK);
  for (size_t i = 0; i < FACES; i++) {
    f[i] = factor(r, i, p[i].emittance_in);
    area[plane[i]] += p[i].area * (i == 7 ? 2.0 : 1.0);
    pw_assert_near(f[i], f[plane[i]], 1e-9, "face", "its plane's");
  }
  for (size_t i = 0; i < FACES; i++)
    sum += area[i] * f[i];
  for (size_t i = 0; i < FACES; i++)
    if (plane[i] == i)
      pw_assert_near(1.0 / f[i], 1.0 - area[i] * f[i] / sum, 1e-8, "1 / f", "its equation");
  p[2].area += p[5].area;
  memmove(&p[5], &p[6], 2 * sizeof *p);
  assert_int_equal(faces(p, FACES - 1, one, &err), PW_OK);
  pw_assert_near(factor(one, 2, 0.9), f[2], 1e-9, "as one part", "parts change nothing");
  pw_assert_near(one->share[6], r->share[7], 1e-9, "what stands in the room", "the same");
  free(r);
  free(one);
}

/* One plane that is more than all others can see has no factor. */
static void a_plane_that_outweighs_all_is_refused(void **state)
{
  const pw_house_part p[] = {part(100.0, 0, 0, 0.9), part(1.0, 180, 0, 0.9),
                             part(1.0, 90, 0, 0.9)};
  room *r = malloc(sizeof *r);
  pw_err err = {0};
  (void)state;
  assert_non_null(r);
  assert_int_equal(faces(p, 3, r, &err), PW_E_CONVERGE);
  assert_string_equal(err.field, "part");
  free(r);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(a_cube_by_closed_form),
                                     cmocka_unit_test(every_plane_fulfils_its_equation),
                                     cmocka_unit_test(a_plane_that_outweighs_all_is_refused)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
