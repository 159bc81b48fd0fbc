/* house/film: surface films by their printed formulas (sources and their memory stand in film.h), worked out apart from the program for a few
 * states each; air as thin as at 1.6 km is 0.85 or 0.8 of the sea's. */
#include "support.h"

#include <math.h>

#include "house/film.h"

static void near(double got, double want, const char *what)
{
  pw_assert_near(got, want, 3e-5 * fabs(want) + 1e-12, what, "by hand");
}

static void roots_and_free_convection(void **state)
{
  (void)state;
  static const double x[] = {0.0, 1e-6, 0.001, 1.0, 8.0, 27.5, 1e6};
  for (size_t i = 0; i < sizeof x / sizeof x[0]; i++)
    pw_assert_near(film_root3(x[i]), cbrt(x[i]), 2.2e-5 * cbrt(x[i]) + 1e-100, "cube root",
                   "libm");
  /* 9.482 / (7.238 - c) and 1.810 / (1.382 + c); upright both 1.31 */
  static const struct {
    double up, thin, lively, still;
  } row[] = {{0.0, 1.0, 1.310030, 1.309696},
             {9e-4, 1.0, 1.310030, 1.309696},
             {1.0, 1.0, 1.520038, 0.759866},
             {-1.0, 1.0, 1.520038, 0.759866},
             {-0.5, 0.85, 1.262743, 0.862988}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const film_tilt f = film_of_tilt(row[i].up, row[i].thin);
    near(f.lively, row[i].lively, "driven up and away");
    near(f.still, row[i].still, "still");
    /* a warm face that looks up, or a cold one that looks down, is lively: 8 K, so twice the constant */
    near(film_natural(&f, 8.0), 2.0 * (row[i].up > 0.0 ? row[i].lively : row[i].still),
         "warm face");
    near(film_natural(&f, -8.0), 2.0 * (row[i].up < 0.0 ? row[i].lively : row[i].still),
         "cold face");
  }
}

static void wind(void **state)
{
  (void)state;
  near(film_wind_glass(5.0, 1.0), 13.232303, "glass, field");
  near(film_wind_glass(2.0, 0.85), 5.742964, "glass, field");
  near(film_wind_glass(0.0, 1.0), 0.0, "no wind");
  near(film_wind_lee(1.0, 1.0), 7.93, "lee, under 2 m/s");
  near(film_wind_lee(4.0, 1.0), 10.4, "lee");
  near(film_wind_lee(4.0, 0.8), 8.699721, "lee, thin");
  near(film_wind_plain(3.0, 1.0), 16.0, "plain");
  near(film_wind_plain(3.0, 0.8), 13.384186, "plain, thin");
  near(film_wind_plate(25.0, 1.67, 1.0), 2.842125, "plate");
  near(film_wind_plate(25.0, 1.67, 0.8), 2.542074, "plate, thin");
  near(film_wind_plate(0.0, 1.67, 1.0), 0.0, "no plate");
  near(film_wind_share(10.0, 0.14), 1.0, "the mast itself");
  near(film_wind_share(1.5, 0.22), 0.472201, "suburb");
  near(film_wind_share(5.0, 0.33), 0.356731, "town");
  near(film_radiant(300.0, 280.0), PW_SIGMA * (pow(300.0, 4) - pow(280.0, 4)) / 20.0,
       "radiation");
}

static void indoor_forms(void **state)
{
  (void)state;
  static const struct {
    pw_film_in form;
    double up;
    int lively;
    double size;
    int glass;
    double thin, c, e;
  } row[] = {{PW_FILM_IN_ROOM, 0.0, 0, 2.0, 0, 1.0, 1.67634, 0.293},
             {PW_FILM_IN_ROOM, 0.0, 1, 4.0, 0, 1.0, 1.54148, 0.293},
             {PW_FILM_IN_ROOM, 1.0, 1, 3.0, 0, 1.0, 2.00077, 0.308},
             {PW_FILM_IN_ROOM, -1.0, 0, 3.0, 0, 1.0, 0.363767, 0.133},
             {PW_FILM_IN_ROOM, 0.49, 1, 2.0, 0, 1.0, 1.67634, 0.293},
             {PW_FILM_IN_ROOM, 0.51, 1, 2.0, 0, 1.0, 2.06339, 0.308},
             {PW_FILM_IN_FIXED, 0.0, 0, 1.0, 1, 1.0, 3.6, 0.0},
             {PW_FILM_IN_FIXED, 0.0, 0, 1.0, 0, 1.0, 2.5, 0.0},
             {PW_FILM_IN_FIXED, 1.0, 1, 1.0, 0, 1.0, 5.0, 0.0},
             {PW_FILM_IN_FIXED, 1.0, 0, 1.0, 0, 1.0, 0.7, 0.0},
             {PW_FILM_IN_FIXED, 1.0, 0, 1.0, 0, 0.8, 0.603242, 0.0},
             {PW_FILM_IN_HEATED, -1.0, 0, 1.0, 0, 1.0, 2.72, 0.13},
             {PW_FILM_IN_HEATED, 0.0, 0, 1.0, 0, 1.0, 1.98, 0.32},
             {PW_FILM_IN_HEATED, 0.0, 0, 1.0, 0, 0.8, 1.70631, 0.32}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const film_law l = film_in_law(row[i].form, row[i].up, row[i].lively, row[i].size,
                                   row[i].glass, row[i].thin);
    near(l.c, row[i].c, "constant");
    near(l.e, row[i].e, "exponent");
  }
  /* still air serves none of them; a heated room's its cold walls and ceiling, the others all */
  static const struct {
    pw_film_in form;
    double up, dt;
    int serves;
  } serve[] = {{PW_FILM_IN_STILL, 0, -5, 0},  {PW_FILM_IN_FIXED, 0, 5, 1},
               {PW_FILM_IN_ROOM, 1, 5, 1},    {PW_FILM_IN_HEATED, 0, -5, 1},
               {PW_FILM_IN_HEATED, 0, 5, 0},  {PW_FILM_IN_HEATED, -1, -5, 1},
               {PW_FILM_IN_HEATED, 1, -5, 0}, {PW_FILM_IN_HEATED, 0, 0, 0}};
  for (size_t i = 0; i < sizeof serve / sizeof serve[0]; i++)
    assert_int_equal(film_in_serves(serve[i].form, serve[i].up, serve[i].dt), serve[i].serves);
}

/* U of a rated part: outdoors 30.5 W/(m2 K) becomes sqrt(still^2 + wind^2) + 4.5, indoors 8 what the form makes of its 3.2 of convection. Of 2 m2 with 10
 * W/K in a wind film of 10 at sea level: still 2, film 14.698039, core 1/10 - 1/61, so 1 / (0.0836066 + 1/29.396078) = 8.503. */
static void rated_parts_in_other_air(void **state)
{
  (void)state;
  const film_rated field = film_rated_of(PW_FILM_OUT_FIELD, PW_FILM_IN_STILL, 1.0),
                   sheltered = film_rated_of(PW_FILM_OUT_SHELTERED, PW_FILM_IN_STILL, 0.8),
                   plain = film_rated_of(PW_FILM_OUT_PLAIN, PW_FILM_IN_STILL, 1.0),
                   lee = film_rated_of(PW_FILM_OUT_LEE, PW_FILM_IN_FIXED, 1.0);
  near(field.still, 2.0, "still outdoors");
  near(sheltered.still, 2.0 * pow(0.8, 2.0 / 3.0), "still, thin");
  near(plain.still, 0.0, "in the form");
  near(lee.still, 0.0, "in the form");
  near(field.inside, 8.0, "as rated");
  /* EN 673's 3.6 over what still air has at 6 K, 1.309696 6^(1/3) = 2.379889: 4.8 + 3.2 x 1.512675 */
  near(lee.inside, 4.8 + 3.2 * 3.6 / 2.379889, "by its form");
  near(film_of_rated(10.0, 2.0, 10.0, &field), 1.0 / (0.1 - 1.0 / 61.0 + 1.0 / 29.396078),
       "U A");
  near(film_of_rated(10.0, 2.0, 16.0, &lee),
       1.0 /
           (0.1 - 1.0 / 61.0 + (1.0 / (4.8 + 3.2 * 3.6 / 2.379889) - 0.125) / 2.0 + 1.0 / 41.0),
       "U A");
  near(film_of_rated(100.0, 2.0, 16.0, &plain), 41.0,
       "no core: the film alone"); /* more than a film passes */
  near(film_of_rated(10.0, 0.0, 16.0, &plain), 10.0, "no area: as rated");
  near(film_of_rated(-1.0, 2.0, 16.0, &plain), -1.0, "no U: as rated");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(roots_and_free_convection),
      cmocka_unit_test(wind),
      cmocka_unit_test(indoor_forms),
      cmocka_unit_test(rated_parts_in_other_air),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
