#include "climate/shade.h"

#include <math.h>

#include "base/own_math.h"
#include "panewright/units.h"

static const double depth_max = 20.0; /* m; deeper is a slip of the pen */

/* Length of the part of [a, b] that lies in [0, w]. */
static double overlap(double a, double b, double w)
{
  double lo = fmax(a, 0.0), hi = fmin(b, w);
  return hi > lo ? hi - lo : 0.0;
}

/* Area of the shadow that a finite plate throws on the strip x in [0, w] for drops s0..s1 below it;
 * its edges run from left - m s to right - m s. The overlap is piecewise linear in s. */
static double plate_shadow(double left, double right, double m, double w, double s0, double s1)
{
  if (!(s1 > s0)) return 0.0;
  double knot[6] = {s0, s1};
  int n = 2;
  if (m != 0.0) {
    const double at[4] = {left / m, (left - w) / m, right / m, (right - w) / m};
    for (int i = 0; i < 4; i++) {
      if (!(at[i] > s0 && at[i] < s1)) continue;
      int k = n++ - 1; /* insert in order before the last */
      knot[k + 1] = s1;
      while (k > 0 && knot[k - 1] > at[i]) {
        knot[k] = knot[k - 1];
        k--;
      }
      knot[k] = at[i];
    }
  }
  double area = 0.0;
  for (int i = 0; i + 1 < n; i++) {
    double a = overlap(left - m * knot[i], right - m * knot[i], w);
    double b = overlap(left - m * knot[i + 1], right - m * knot[i + 1], w);
    area += 0.5 * (a + b) * (knot[i + 1] - knot[i]);
  }
  return area;
}

/* The same from the sun's vector in the wall's axes: out of the wall, along it to the right, up. */
static double pw_shade_sunlit_vector(const pw_shade *s, double out, double right, double up)
{
  if (!(out > 0.0)) return 0.0;
  double side = right / out, rise = up / out;
  /* Fins and the reveal's sides leave x0..x1; the reveal's head and sill leave y0..y1. */
  double x0 = 0.0, x1 = s->width, y0 = 0.0, y1 = s->height;
  if (side > 0.0) {
    x1 -= s->reveal * side;
    if (s->fin_depth[1] > 0.0)
      x1 = fmin(x1, s->width + s->fin_gap[1] - (s->fin_depth[1] + s->reveal) * side);
  } else {
    x0 -= s->reveal * side;
    if (s->fin_depth[0] > 0.0)
      x0 = fmax(x0, -s->fin_gap[0] - (s->fin_depth[0] + s->reveal) * side);
  }
  if (rise > 0.0)
    y1 -= s->reveal * rise;
  else
    y0 -= s->reveal * rise;
  if (!(x1 > x0 && y1 > y0)) return 0.0;
  double lit = (x1 - x0) * (y1 - y0);
  if (s->overhang_depth > 0.0 && rise > 0.0) {
    double top = s->height + s->overhang_gap;
    double deep = fmin((s->overhang_depth + s->reveal) * rise, top - y0);
    lit -= plate_shadow(-s->overhang_run[0] - x0, s->width + s->overhang_run[1] - x0,
                        side / rise, x1 - x0, top - y1, deep);
  }
  return fmin(fmax(lit / (s->width * s->height), 0.0), 1.0);
}

double pw_shade_sunlit(const pw_shade *shade, double altitude_deg, double gamma_deg)
{
  double b = pw_rad(altitude_deg), g = pw_rad(gamma_deg);
  return pw_shade_sunlit_vector(shade, pw_cos(b) * pw_cos(g), pw_cos(b) * pw_sin(g), pw_sin(b));
}

int pw_shade_none(const pw_shade *s)
{
  return s->overhang_depth == 0.0 && s->reveal == 0.0 && s->fin_depth[0] == 0.0 &&
         s->fin_depth[1] == 0.0;
}

static pw_status in_range(const pw_shade *s, pw_err *err)
{
  if (!(s->width > 0.0 && s->width <= depth_max && s->height > 0.0 && s->height <= depth_max))
    return pw_fail(err, PW_E_DOMAIN, "width", "window %g x %g m, want above 0 and up to %g",
                   s->width, s->height, depth_max);
  const struct {
    const char *field;
    double v;
  } size[] = {{"overhang_depth", s->overhang_depth},
              {"overhang_gap", s->overhang_gap},
              {"fin_depth", s->fin_depth[0]},
              {"fin_depth", s->fin_depth[1]},
              {"fin_gap", s->fin_gap[0]},
              {"fin_gap", s->fin_gap[1]},
              {"reveal", s->reveal}};
  for (size_t i = 0; i < sizeof size / sizeof size[0]; i++)
    if (!(size[i].v >= 0.0 && size[i].v <= depth_max))
      return pw_fail(err, PW_E_DOMAIN, size[i].field, "%s %g m, want 0 to %g", size[i].field,
                     size[i].v, depth_max);
  if (!(s->overhang_run[0] >= 0.0 && s->overhang_run[1] >= 0.0))
    return pw_fail(err, PW_E_DOMAIN, "overhang_run", "overhang run %g, %g m, want 0 or more",
                   s->overhang_run[0], s->overhang_run[1]);
  return PW_OK;
}

/* Mean sunlit share over a quarter of the sphere in front of the wall, weighted by the cosine to
 * its normal; up is 1 for the sky, -1 for the ground. */
static double vault(const pw_shade *s, double up)
{
  enum { RISE = 48, TURN = 48 };
  double sum = 0.0, weight = 0.0;
  for (int j = 0; j < TURN; j++) {
    double g = (2.0 * (j + 0.5) / TURN - 1.0) * (PW_PI / 2.0), cg, sg;
    pw_sin_cos(g, &sg, &cg);
    for (int i = 0; i < RISE; i++) {
      double b = (i + 0.5) / RISE * (PW_PI / 2.0), cb, sb;
      pw_sin_cos(b, &sb, &cb);
      sum += pw_shade_sunlit_vector(s, cb * cg, cb * sg, up * sb) * cb * cb * cg;
      weight += cb * cb * cg;
    }
  }
  return sum / weight;
}

pw_status pw_shade_factors(const pw_shade *s, pw_shade_factor *out, pw_err *err)
{
  pw_status status = in_range(s, err);
  if (status != PW_OK) return status;
  int fins = s->fin_depth[0] > 0.0 || s->fin_depth[1] > 0.0;
  pw_shade_factor f = {1.0, 1.0, 1.0};
  if (!fins && s->reveal == 0.0) {
    if (s->overhang_depth > 0.0) {
      double p = s->overhang_depth, g = s->overhang_gap, h = s->height;
      if (isinf(s->overhang_run[0]) && isinf(s->overhang_run[1]))
        f.dome = (pw_hypot(g + h, p) - pw_hypot(g, p)) / h; /* METHODS.md section 7 */
      else
        f.dome = vault(s, 1.0);
    }
  } else {
    enum { TURN = 200 };
    f.dome = vault(s, 1.0);
    f.ground = vault(s, -1.0);
    f.horizon = 0.0;
    for (int j = 0; j < TURN; j++) {
      double v = -1.0 + 2.0 * (j + 0.5) / TURN;
      f.horizon += pw_shade_sunlit_vector(s, sqrt(1.0 - v * v), v, 0.0) / TURN;
    }
  }
  *out = f;
  return PW_OK;
}

pw_status pw_shade_year(const pw_shade *shade, const pw_facade *facade, const pw_sun_year *sun,
                        float sunlit[PW_HOURS], pw_err *err)
{
  pw_status status = in_range(shade, err);
  if (status != PW_OK) return status;
  if (facade->tilt_deg != 90.0 && !pw_shade_none(shade))
    return pw_fail(err, PW_E_DOMAIN, "tilt_deg", "tilt %g, shading is known for 90 only",
                   facade->tilt_deg);
  for (size_t i = 0; i < PW_HOURS; i++)
    sunlit[i] = 1.0f;
  if (pw_shade_none(shade)) return PW_OK;
  double ca = pw_cos(pw_rad(facade->azimuth_deg)), sa = pw_sin(pw_rad(facade->azimuth_deg));
  for (size_t i = 0; i < sun->n; i++) {
    double e = (double)sun->east[i], n = (double)sun->north[i];
    double out = e * sa + n * ca, right = e * ca - n * sa;
    if (out > 0.0)
      sunlit[sun->hour[i]] =
          (float)pw_shade_sunlit_vector(shade, out, right, (double)sun->up[i]);
  }
  return PW_OK;
}

double pw_screen_factor(double openness, double reflectance, double cos_incidence)
{
  if (openness == 0.0) openness = 0.66;
  double r = 1.0 - sqrt(openness);
  double open = (1.0 - r) * fmax(1.0 - r / fmax(cos_incidence, 1e-6), 0.0);
  return open + 0.5 * reflectance * (1.0 - open);
}
