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

/* Source: Walton, NBSIR 83-2655 (1983), fits to the handbook's free convection; vertical 1.31;
 * from memory. */
static inline film_tilt film_of_tilt(double up)
{
  double c = fabs(up) < 1e-3 ? 0.0 : fabs(up);
  film_tilt f = {.lively = 9.482 / (7.238 - c), .still = 1.810 / (1.382 + c), .up = up};
  return f;
}

/* dt: surface less air, K. */
static inline double film_natural(const film_tilt *f, double dt)
{
  double c = dt * f->up > 0.0 ? f->lively : f->still;
  return c * film_root3(fabs(dt));
}

/* Wind over smooth glass: windward and leeward taken half the time each, since files of months
 * carry no direction that stands for it. v at the wall, m/s.
 * Source: Yazdanian & Klems 1994, ASHRAE Transactions 100(1): 3.26 v^0.89 and 3.55 v^0.617;
 * from memory. */
static inline double film_wind(double v)
{
  return v > 0.0 ? 0.5 * (3.26 * pow(v, 0.89) + 3.55 * pow(v, 0.617)) : 0.0;
}

/* Both at once on a rough face. Source: as above for glass; excess scaled by roughness as in
 * common use of Walton's factors; from memory. */
static inline double film_outside(double natural, double wind, double rough)
{
  double glass = sqrt(natural * natural + wind * wind);
  return natural + rough * (glass - natural);
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

#endif
