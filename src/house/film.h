/* Surface films: convection and long-wave of one surface at one moment. Inlined into the hour. */
#ifndef HOUSE_FILM_H
#define HOUSE_FILM_H

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "panewright/units.h"

/* Cube root of x >= 0 to 1e-6, three times as fast as cbrt: a third of the exponent, one Halley
 * step. Films are known to 10 %. */
static inline double film_root3(double x)
{
  uint64_t u;
  double y;
  memcpy(&u, &x, sizeof u);
  u = u / 3 + UINT64_C(0x2A9F7893782DA1CE);
  memcpy(&y, &u, sizeof y);
  double y3 = y * y * y;
  y *= (y3 + 2.0 * x) / (2.0 * y3 + x + 1e-300);
  return y;
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
 * shelter of the wall is in its coefficients. Windward and leeward are taken half the time each, since
 * hours put together from monthly means carry no direction. Turbulent flow goes with density^0.8; the
 * measurements were made where air is 0.85 as dense as at sea level. Density enters all films here, indoor
 * and outdoor, free and forced.
 * Source: Yazdanian & Klems 1994, ASHRAE Transactions 100(1), windows of low buildings at Reno:
 * 3.26 v^0.89 and 3.55 v^0.617; text and coefficients from memory. The wind at the wall instead gives
 * 0.78 of the film; the range's draw of the outdoor film covers it. */
static inline double film_wind_glass(double v, double thin)
{
  return v > 0.0 ? pow(thin / 0.85, 0.8) * 0.5 * (3.26 * pow(v, 0.89) + 3.55 * pow(v, 0.617))
                 : 0.0;
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
  return pow(270.0 / 10.0, 0.14) * pow(z / layer, a);
}

/* Radiation between two temperatures, linear: sigma (a + b)(a2 + b2). */
static inline double film_radiant(double a, double b)
{
  return PW_SIGMA * (a + b) * (a * a + b * b);
}

/* UA (W/K) of a rated window part with the outer film of this wind in place of the rated one, 30.5
 * W/(m2 K): 26 convective at 5.5 m/s (NFRC 100) and 4.5 radiant. In calmer weather the film is
 * thinner, which counts most where the part itself hardly resists: bare aluminium of 6.8 W/(m2 K)
 * falls to 5 at 1.5 m/s. area 0 keeps ua as rated. */
static inline double film_of_rated(double ua, double area, double wind_glass)
{
  if (!(area > 0.0 && ua > 0.0)) return ua;
  const double rated = 30.5, radiant = 4.5, still = 2.0; /* W/(m2 K) */
  double film = sqrt(still * still + wind_glass * wind_glass) + radiant;
  double core = fmax(1.0 / ua - 1.0 / (rated * area), 0.0);
  return 1.0 / (core + 1.0 / (film * area));
}

#endif
