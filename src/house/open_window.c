#include "house/open_window.h"

#include <math.h>
#include <stddef.h>

#include "base/own_math.h"
#include "panewright/units.h"

double pw_open_wind(double area, double v, double cv) { return cv * area * v; }

double pw_open_stack(double area, double cd, double rise, double t_in, double t_out)
{
  double warm = fmax(t_in, t_out); /* handbook: To below the line where it is warmer outside */
  return cd * area * sqrt(2.0 * PW_GRAVITY * rise * fabs(t_in - t_out) / warm);
}

double pw_open_both_ways(double area, double cd, double height, double t_in, double t_out)
{
  return cd * area / 3.0 *
         sqrt(PW_GRAVITY * height * fabs(t_in - t_out) / (0.5 * (t_in + t_out)));
}

double pw_open_gids_phaff(double area, double height, double v, double dt)
{
  return 0.5 * area * sqrt(0.001 * v * v + 0.0035 * height * fabs(dt) + 0.01);
}

double pw_open_en_single(double area, double height, double v, double dt, double ratio)
{
  return ratio * 0.5 * area * sqrt(fmax(0.001 * v * v, 0.0035 * height * fabs(dt)));
}

double pw_open_en_cross(double cross, double all, double height, double v, double dt, double cd,
                        double dcp)
{
  return pw_hypot(cd * cross * v * sqrt(dcp), 0.5 * all * sqrt(0.0035 * height * fabs(dt)));
}

double pw_open_warren_parkins(double area, double height, double v, double t_in, double t_out)
{
  return fmax(pw_open_both_ways(area, 0.6, height, t_in, t_out), 0.025 * area * v);
}

double pw_open_in_series(double a, double b) { return a * b / pw_hypot(a, b); }

double pw_open_cross(double effective, double v, double dcp)
{
  return effective * v * sqrt(dcp);
}

double pw_open_outlet(double effective, double inlet)
{
  return effective * inlet / sqrt(inlet * inlet - effective * effective);
}

double pw_hinged_cd(double width, double height, double angle_deg)
{
  static const struct {
    double below, m, c; /* w/h */
  } row[] = {
      {0.5, 0.060, 0.612}, {1.0, 0.048, 0.589}, {2.0, 0.040, 0.563}, {INFINITY, 0.038, 0.548}};
  size_t k = 0;
  while (k < 3 && !(width / height < row[k].below))
    k++;
  return row[k].c * (1.0 - pw_exp(-row[k].m * angle_deg));
}

double pw_hinged_area(double width, double height, double angle_deg)
{
  double a = pw_rad(angle_deg);
  return fmin(2.0 * width * height * pw_sin(0.5 * a) + height * height * pw_sin(a),
              width * height);
}
