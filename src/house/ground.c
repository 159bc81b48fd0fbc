/* The ground under a slab: its resistance, and what its temperature follows. */
#include "house/ground.h"

#include <math.h>

#include "base/own_math.h"
#include "house/wall.h"
#include "panewright/units.h"

static const double film_out = 0.04; /* m2K/W, ISO 6946 */
static const double film_in = 0.17;  /* the same, flow down */
static const double soil = 2.0; /* W/(m K), ISO 13370 clay or silt 1.5, sand 2.0; from memory */
static const double depth = 3.2; /* m, what a year's swing reaches in sand; ISO 13370, memory */
static const double wall_thickness = 0.15; /* m */

/* d_t of ISO 13370: the slab as so much soil, m; r_f: resistance of the slab. */
static double equivalent(double r_f)
{
  return wall_thickness + soil * (film_in + r_f + film_out);
}

double ground_soil_resistance(double side, double r_f)
{
  double b = side / 2.0, d_t = equivalent(r_f);
  double u = d_t < b ? 2.0 * soil / (PW_PI * b + d_t) * pw_log(PW_PI * b / d_t + 1.0)
                     : soil / (0.457 * b + d_t);
  return fmax(0.1, 1.0 / u - r_f - film_in);
}

/* Part of the steady transfer that the outdoor swing of a year adds: H_pe / H_g of a square slab without
 * insulation at its edge. Source: ISO 13370:2007 annex A: H_pe = 0.37 P soil ln(depth / d_t + 1). */
static double swing_share(const pw_house_part *slab)
{
  pw_wall_layers above = slab->layers; /* the first layer is the soil */
  above.layer[0] = (pw_wall_layer){.resistance = 0.0};
  double side = sqrt(slab->area), d_t = equivalent(pw_wall_resistance(&above));
  double h_pe = 0.37 * 4.0 * side * soil * pw_log(depth / d_t + 1.0);
  return fmin(1.0, h_pe / (slab->area * pw_house_part_u(slab)));
}

void pw_house_ground(const pw_house *house, const pw_weather *weather, pw_ground_form form,
                     double ground_c[12])
{
  double mean = 0.0, month[12] = {0.0}, share = 0.0;
  for (int h = 0; h < PW_HOURS; h++) {
    int m = pw_month_of_day(h / 24);
    mean += (double)weather->hour[h].t_air / PW_HOURS;
    month[m] += (double)weather->hour[h].t_air / (24.0 * pw_month_days[m]);
  }
  for (size_t i = 0; form == PW_GROUND_PERIODIC && i < house->n_part; i++)
    if (house->part[i].outside == PW_OUTSIDE_GROUND) share = swing_share(&house->part[i]);
  int late = form == PW_GROUND_PERIODIC;
  if (form == PW_GROUND_PERIMETER) share = 1.0;
  for (int m = 0; m < 12; m++)
    ground_c[m] = mean + share * (month[(m + 12 - late) % 12] - mean);
}
