/* One uncoated pane: from optical constants, or from what was measured of it. */
#include <math.h>

#include "base/own_math.h"
#include "glass/optics_impl.h"

/* Normal-incidence reflectance of one face. */
static double face(double n) { return (n - 1.0) * (n - 1.0) / ((n + 1.0) * (n + 1.0)); }

/* Both faces and the glass between, all inter-reflections (ISO 9050; clause from memory):
 * t = (1-r)^2 a / (1 - r^2 a^2), reflectance r + r a t. */
static void slab(double r, double a, double *t, double *rho)
{
  *t = (1.0 - r) * (1.0 - r) * a / (1.0 - r * r * a * a);
  *rho = r + r * a * *t;
}

void pw_slab_at(const double n[PW_LANE], const double depth[PW_LANE], double cosine, pw_pol pol,
                double t[PW_LANE], double r[PW_LANE])
{
  double inside[PW_LANE], a[PW_LANE];
  double sine2 = 1.0 - cosine * cosine;
  double share_s = pol == PW_POL_P ? 0.0 : pol == PW_POL_S ? 1.0 : 0.5;
  for (size_t i = 0; i < PW_LANE; i++)
    inside[i] = sqrt(1.0 - sine2 / (n[i] * n[i])); /* Snell */
  for (size_t i = 0; i < PW_LANE; i++)
    a[i] = pw_exp(-depth[i] / inside[i]);
  for (size_t i = 0; i < PW_LANE; i++) {
    double c = inside[i], ts, rs, tp, rp;
    double s = (cosine - n[i] * c) / (cosine + n[i] * c); /* Fresnel */
    double p = (n[i] * cosine - c) / (n[i] * cosine + c);
    slab(s * s, a[i], &ts, &rs);
    slab(p * p, a[i], &tp, &rp);
    t[i] = share_s * ts + (1.0 - share_s) * tp;
    r[i] = share_s * rs + (1.0 - share_s) * rp;
  }
}

void pw_slab_from_measured(double t, double r, double *n, double *depth)
{
  /* Face reflectance and inner transmittance back from t and r at normal incidence:
   * Furler, ASHRAE Trans. 98(1), 1991/92; re-derived, see reference/optics/METHODS.md 1. */
  static const double depth_max = 60.0; /* black */
  double beta = t * t - r * r + 2.0 * r + 1.0;
  double under = beta * beta - 4.0 * (2.0 - r) * r;
  double face_r = (beta - sqrt(under > 0.0 ? under : 0.0)) / (2.0 * (2.0 - r));
  double a = t > 0.0 && face_r > 0.0 ? (r - face_r) / (face_r * t) : t;
  if (!(face_r > 0.0)) face_r = 0.0;
  /* A thin share of t and r cannot be told from rounding: take a from t alone there. */
  if (t > 0.0 && (t < 1e-3 || !(a > 0.0 && a <= 1.0)))
    a = t / ((1.0 - face_r) * (1.0 - face_r));
  if (a > 1.0) a = 1.0;
  double root = sqrt(face_r);
  *n = root < 0.999 ? (1.0 + root) / (1.0 - root) : 2000.0;
  *depth = a > 0.0 ? -pw_log(a) : depth_max;
  if (*depth > depth_max) *depth = depth_max;
}

pw_status pw_layer_glass(const double n[PW_LANE], const double kappa[PW_LANE], double thickness,
                         pw_layer *layer, pw_err *err)
{
  if (!(thickness >= 0.5e-3 && thickness <= 50e-3))
    return pw_fail(err, PW_E_DOMAIN, "thickness", "pane thickness %g mm, want 0.5 to 50",
                   thickness * 1e3);
  pw_layer made = {.fresnel = 1};
  for (size_t i = 0; i < PW_LANE; i++) {
    made.n[i] = n[i];
    made.depth[i] = kappa[i] * thickness;
    slab(face(n[i]), pw_exp(-made.depth[i]), &made.bare_t0[i], &made.bare_r0[i]);
    made.normal.t[i] = made.bare_t0[i];
    made.normal.rf[i] = made.normal.rb[i] = made.bare_r0[i];
  }
  *layer = made;
  return PW_OK;
}
