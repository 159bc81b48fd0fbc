/* Words for the colour of light that came through glass. */
#include <math.h>

#include "base/own_math.h"
#include "glass/optics.h"
#include "panewright/units.h"

static double lab(double v)
{
  static const double delta = 6.0 / 29.0; /* CIE 015, L*a*b* */
  return v > delta * delta * delta ? pw_root3(v) : v / (3.0 * delta * delta) + 4.0 / 29.0;
}

const char *pw_colour_word(double x, double y, double y_share)
{
  static const struct {
    double to_deg; /* end of the hue range, L*a*b* hue angle */
    const char *slight, *plain;
  } hue[] = {{35.0, "slightly pinkish", "pinkish"},
             {82.0, "slightly bronze", "bronze"},
             {108.0, "slightly yellowish", "yellowish"},
             {130.0, "slightly yellow-green", "yellow-green"},
             {178.0, "slightly greenish", "greenish"},
             {225.0, "slightly blue-green", "blue-green"},
             {295.0, "slightly bluish", "bluish"},
             {335.0, "slightly purplish", "purplish"},
             {360.1, "slightly pinkish", "pinkish"}};
  static const double white_x = 0.95047, white_z = 1.08883; /* D65, 2 degree, CIE 015 */
  static const double neutral = 3.0, plain = 10.0;          /* chroma; our own choice */
  if (!(y > 0.0 && y_share > 0.0)) return "none";
  double fx = lab(x / y * y_share / white_x), fy = lab(y_share);
  double fz = lab((1.0 - x - y) / y * y_share / white_z);
  double a = 500.0 * (fx - fy), b = 200.0 * (fy - fz), chroma = pw_hypot(a, b);
  double angle = pw_atan2(b, a) * 180.0 / PW_PI;
  if (angle < 0.0) angle += 360.0;
  if (chroma < neutral) return y_share < 0.6 ? "neutral gray" : "neutral";
  size_t i = 0;
  while (angle > hue[i].to_deg)
    i++;
  return chroma < plain ? hue[i].slight : hue[i].plain;
}
