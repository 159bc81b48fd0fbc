/* Surface films: convection and long-wave of one surface at one moment. Inlined into the hour. */
#ifndef HOUSE_FILM_H
#define HOUSE_FILM_H

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "base/own_math.h"
#include "panewright/units.h"
#include "panewright/zone.h"

/* Cube root of x >= 0 to 2.1e-5, three times as fast as cbrt: a third of the exponent, one Halley
 * step. Films are known to 10 %. In steps that a processor takes on many numbers at once (lanes.h). */
#define FILM_ROOT3_WHOLE UINT64_C(0x4330000000000000) /* bits of 2^52 */
#define FILM_ROOT3_GUESS 715094163.0                  /* upper half of the guess's bits for 0 */
static inline double film_root3(double x)
{
  const double whole = 4503599627370496.0;
  uint64_t u;
  double t, y;
  memcpy(&u, &x, sizeof u);
  u = u >> 32 | FILM_ROOT3_WHOLE;
  memcpy(&t, &u, sizeof t);
  t = (t - whole) * (1.0 / 3.0) + FILM_ROOT3_GUESS + whole;
  memcpy(&u, &t, sizeof u);
  u <<= 32;
  memcpy(&y, &u, sizeof y);
  double y3 = y * y * y;
  return y * ((y3 + 2.0 * x) / (2.0 * y3 + x + 1e-300));
}

/* Natural convection of a plane is c |dt|^(1/3), with one c where the flow is driven up and away
 * (warm face up, cold face down) and one where it lies still. */
typedef struct film_tilt {
  double lively, still; /* W/(m2 K^(4/3)) */
  double up;            /* cosine of the tilt of the face towards this air, 1 looks up */
} film_tilt;

/* thin: air density over that at sea level. Turbulent free convection goes with (density)^(2/3), as
 * Nu ~ Ra^(1/3) and Ra ~ density^2.
 * Source: Walton, NBSIR 83-2655 (1983), fits to the handbook's free convection; vertical 1.31;
 * from memory. */
static inline film_tilt film_of_tilt(double up, double thin)
{
  double c = fabs(up) < 1e-3 ? 0.0 : fabs(up), scale = film_root3(thin * thin);
  film_tilt f = {
      .lively = scale * 9.482 / (7.238 - c), .still = scale * 1.810 / (1.382 + c), .up = up};
  return f;
}

/* dt: surface less air, K. */
static inline double film_natural(const film_tilt *f, double dt)
{
  double c = dt * f->up > 0.0 ? f->lively : f->still;
  return c * film_root3(fabs(dt));
}

/* Forced convection on smooth glass; v the wind of the site, m/s: at the height of a met mast, 10 m, in
 * the open, for that is what the paper correlates with ("wind speed at standard conditions"); the
 * shelter of the wall is in its coefficients. Read otherwise, v is the wind at the wall: then the film
 * is 0.78 of this one. Both are drawn by a range (pw_film_out). Windward and leeward are taken half the
 * time each, since hours put together from monthly means carry no direction. Turbulent flow goes with
 * density^0.8; the measurements were made where air is 0.85 as dense as at sea level.
 * Source: Yazdanian & Klems 1994, ASHRAE Transactions 100(1), windows of low buildings at Reno:
 * 3.26 v^0.89 and 3.55 v^0.617; text and coefficients from memory. */
static inline double film_wind_glass(double v, double thin)
{
  return v > 0.0 ? pw_power(thin / 0.85, 0.8) * 0.5 *
                       (3.26 * pw_power(v, 0.89) + 3.55 * pw_power(v, 0.617))
                 : 0.0;
}

/* Straight forms, W/(m2 K): free convection is in them. Density as in the others: ^0.8, from sea level.
 * Source: ISO 15099:2003 8.3.3, real wind: 4.7 + 7.6 V_s, V_s along the face 0.25 v windward (0.5
 * below 2 m/s) and 0.3 + 0.05 v leeward, v the site's; half each. ISO 6946:2017 annex C: 4 + 4 v before
 * the wall. Both from memory. */
static inline double film_wind_lee(double v, double thin)
{
  double windward = v > 2.0 ? 0.25 * v : 0.5, leeward = 0.3 + 0.05 * v;
  return pw_power(thin, 0.8) * (4.7 + 7.6 * 0.5 * (windward + leeward));
}

static inline double film_wind_plain(double v, double thin)
{
  return pw_power(thin, 0.8) * (4.0 + 4.0 * v);
}

/* The same on an opaque face, W/(m2 K) at 1 m/s; it goes with the root of v. A rough plate in wind:
 * 2.537 W R sqrt(perimeter / area v), W 1 windward and 0.5 leeward; the plate taken as square.
 * Source: Sparrow, Ramsey & Mass 1979, J. Heat Transfer 101, 199, with Walton's roughness factors
 * R (NBSIR 83-2655); from memory. Laminar: with the root of density. */
static inline double film_wind_plate(double area, double rough, double thin)
{
  return area > 0.0 ? 2.537 * 0.75 * rough * sqrt(4.0 / sqrt(area) * thin) : 0.0;
}

/* Wind at height z (m) in terrain of exponent a, from a met mast at 10 m in open country.
 * Source: power-law profile of the ASHRAE handbook of fundamentals; layer 270 m open (0.14),
 * 370 m suburb (0.22), 460 m town (0.33); from memory. */
static inline double film_wind_share(double z, double a)
{
  double layer = a < 0.18 ? 270.0 : a < 0.275 ? 370.0 : 460.0;
  return pw_power(270.0 / 10.0, 0.14) * pw_power(z / layer, a);
}

/* Radiation between two temperatures, linear: sigma (a + b)(a2 + b2). */
static inline double film_radiant(double a, double b)
{
  return PW_SIGMA * (a + b) * (a * a + b * b);
}

/* Convection of an inner face by the forms that do not go with film_natural, W/(m2 K); up as in film_tilt; size: m, of the plane (the square's side). thin: density over that at sea level.
 * Source: fixed: ISO 6946:2017 table C.1: 2.5 level, 5.0 up, 0.7 down; glass 3.6, EN 673. Room: Awbi &
 * Hatton 1999, Energy and Buildings 30, 233: wall 1.823 dt^0.293 / D^0.121, warm floor 2.175 dt^0.308 /
 * D^0.076, warm ceiling 0.704 dt^0.133 / D^0.601. Heated: Khalifa & Marshall 1990, Int. J. Heat Mass
 * Transfer 33, 2219, room with a convective heater: standing faces 1.98 dt^0.32, ceiling 2.72 dt^0.13; their
 * glass right above the heater (about 8 dt^0.1) is not drawn, for few windows of these houses stand so. All
 * from memory. */
typedef struct film_law { /* c |dt|^e */
  double c, e;
} film_law;

/* lively: the flow is driven up and away, as in film_natural. */
static inline film_law film_in_law(pw_film_in form, double up, int lively, double size,
                                   int glass, double thin)
{
  const double scale = film_root3(thin * thin);
  const int level = fabs(up) < 0.5;
  if (form == PW_FILM_IN_FIXED)
    return (film_law){scale * (glass ? 3.6 : level ? 2.5 : lively ? 5.0 : 0.7), 0.0};
  if (form == PW_FILM_IN_HEATED)
    return up < -0.5 ? (film_law){scale * 2.72, 0.13} : (film_law){scale * 1.98, 0.32};
  return level    ? (film_law){scale * 1.823 / pw_power(size, 0.121), 0.293}
         : lively ? (film_law){scale * 2.175 / pw_power(size, 0.076), 0.308}
                  : (film_law){scale * 0.704 / pw_power(size, 0.601), 0.133};
}

/* What a step works out for the form beside still air: nothing, constants, powers. */
enum { FILM_IN_NOTHING = 0, FILM_IN_CONSTANTS, FILM_IN_POWERS };
static inline int film_in_needs(pw_film_in form)
{
  return form == PW_FILM_IN_STILL   ? FILM_IN_NOTHING
         : form == PW_FILM_IN_FIXED ? FILM_IN_CONSTANTS
                                    : FILM_IN_POWERS;
}

/* Is the form in force at this face? A heated room's serves faces colder than its air, the floor not. */
static inline int film_in_serves(pw_film_in form, double up, double dt)
{
  return form == PW_FILM_IN_HEATED ? dt < 0.0 && up < 0.5 : form != PW_FILM_IN_STILL;
}

/* What the films of a rated window part become in the house. */
typedef struct film_rated {
  double
      still; /* W/(m2 K), free convection outdoors beside the forced; 0 where the form holds it */
  double inside; /* W/(m2 K), the whole inner film; rated 8.0 */
} film_rated;

/* Rated: outdoors 30.5 W/(m2 K), 26 convective at 5.5 m/s and 4.5 radiant (NFRC 100); indoors 8.0, of which
 * 3.2 convective (ISO 10077-1 annex A, R_si 0.13, rounded). Free convection outdoors 2.0 at sea level. The
 * indoor forms are taken at 6 K, on a pane 1.2 m high. Numbers from memory. */
static inline film_rated film_rated_of(pw_film_out out, pw_film_in in, double thin)
{
  film_rated f = {.still = 0.0, .inside = 8.0};
  film_tilt level = film_of_tilt(0.0, thin);
  if (out == PW_FILM_OUT_FIELD || out == PW_FILM_OUT_SHELTERED)
    f.still = 2.0 * film_root3(thin * thin);
  if (film_in_serves(in, 0.0, -6.0)) /* as the form has it beside still air */
  {
    film_law law = film_in_law(in, 0.0, 0, 1.2, 1, thin);
    f.inside = 4.8 + 3.2 * law.c * pw_power(6.0, law.e) / film_natural(&level, -6.0);
  }
  return f;
}

/* UA (W/K) of a rated window part with the outer film of this wind, and the house's inner film, in place of
 * the rated ones. In calmer weather the film is thinner, which counts most where the part itself hardly
 * resists: bare aluminium of 6.8 W/(m2 K) falls to 5 at 1.5 m/s. area 0 keeps ua as rated. */
static inline double film_of_rated(double ua, double area, double wind_glass,
                                   const film_rated *f)
{
  if (!(area > 0.0 && ua > 0.0)) return ua;
  const double out = 30.5, radiant = 4.5, in = 8.0; /* W/(m2 K) */
  double film = sqrt(f->still * f->still + wind_glass * wind_glass) + radiant;
  double core = fmax(1.0 / ua - 1.0 / (out * area), 0.0);
  return 1.0 / (core + (1.0 / f->inside - 1.0 / in) / area + 1.0 / (film * area));
}

#endif
