#include "sound/leaf.h"

#include <math.h>

#include "gen/reference.h"
#include "panewright/units.h"

static double critical(double mass, double stiffness)
{
  return PW_SOUND_C * PW_SOUND_C / (2.0 * PW_PI) * sqrt(mass / stiffness);
}

/* Bending stiffness of a plate per width, N m. */
static double stiffness(const pw_ref_sound_leaf_row *m, double t)
{
  return m->modulus_gpa * 1e9 * t * t * t / (12.0 * (1.0 - m->poisson * m->poisson));
}

pw_status pw_leaf_sheet(double thickness, size_t material, pw_leaf *leaf, pw_err *err)
{
  if (!(thickness >= 0.5e-3 && thickness <= 50e-3))
    return pw_fail(err, PW_E_DOMAIN, "thickness", "%g mm, want 0.5 to 50", thickness * 1e3);
  if (material >= (size_t)pw_ref_sound_leaf__n)
    return pw_fail(err, PW_E_DOMAIN, "material", "no row %zu of sound/leaf", material);
  const pw_ref_sound_leaf_row *m = &pw_ref_sound_leaf[material];
  leaf->mass = m->density_kg_m3 * thickness;
  leaf->fc = critical(leaf->mass, stiffness(m, thickness));
  leaf->eta = m->eta;
  return PW_OK;
}

pw_status pw_leaf_laminate(const double ply[2], double interlayer, size_t kind, double at,
                           pw_leaf *leaf, pw_err *err)
{
  const pw_ref_sound_leaf_row *glass = &pw_ref_sound_leaf[pw_ref_sound_leaf__glass];
  for (int i = 0; i < 2; i++)
    if (!(ply[i] >= 0.5e-3 && ply[i] <= 25e-3))
      return pw_fail(err, PW_E_DOMAIN, "ply", "%g mm, want 0.5 to 25", ply[i] * 1e3);
  if (!(interlayer >= 0.1e-3 && interlayer <= 10e-3))
    return pw_fail(err, PW_E_DOMAIN, "interlayer", "%g mm, want 0.1 to 10", interlayer * 1e3);
  if (kind >= (size_t)pw_ref_sound_interlayer__n || !(at >= 0.0 && at <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "interlayer", "no such row, or a place not in 0 to 1");
  const pw_ref_sound_interlayer_row *k = &pw_ref_sound_interlayer[kind];
  double loose = stiffness(glass, ply[0]) + stiffness(glass, ply[1]);
  double solid = stiffness(glass, ply[0] + ply[1]);
  double share = k->stiff_low * pow(k->stiff_high / k->stiff_low, at);
  leaf->mass = glass->density_kg_m3 * (ply[0] + ply[1]) + k->density_kg_m3 * interlayer;
  leaf->fc = critical(leaf->mass, fmax(loose, share * solid));
  /* The softer the interlayer holds the plies, the more it is sheared: loss and stiffness run
   * against each other. */
  leaf->eta = k->eta_high * pow(k->eta_low / k->eta_high, at);
  return PW_OK;
}

double pw_leaf_eta_laboratory(double mass, double f) { return mass / (485.0 * sqrt(f)); }

/* ISO 12354-1:2017 B.2 (from memory). */
double pw_leaf_sigma_forced(double f, double l1, double l2, double c)
{
  double a = fmax(l1, l2), b = fmin(l1, l2), k0 = 2.0 * PW_PI * f / c;
  double ratio = b / a;
  double lambda = -0.964 - (0.5 + ratio / PW_PI) * log(ratio) + 5.0 * ratio / (2.0 * PW_PI) -
                  1.0 / (4.0 * PW_PI * a * b * k0 * k0);
  /* The fit runs below 0 for a long strip; nothing radiates less than nothing. */
  return fmin(2.0, fmax(0.0, 0.5 * (log(k0 * sqrt(a * b)) - lambda)));
}

/* Free waves below the critical frequency: ISO 12354-1:2017 B.3. */
static double sigma_below(double f, double fc, double l1, double l2, double c)
{
  double q = sqrt(f / fc), one = 1.0 - q * q;
  double d1 =
      (one * log((1.0 + q) / (1.0 - q)) + 2.0 * q) / (4.0 * PW_PI * PW_PI * one * sqrt(one));
  double d2 = f > 0.5 * fc ? 0.0
                           : 8.0 * c * c * (1.0 - 2.0 * q * q) /
                                 (fc * fc * pow(PW_PI, 4.0) * l1 * l2 * q * sqrt(one));
  return 2.0 * (l1 + l2) / (l1 * l2) * (c / fc) * d1 + d2;
}

double pw_leaf_sigma(double f, double fc, double l1, double l2, double c)
{
  double s1 = f > fc ? 1.0 / sqrt(1.0 - fc / f) : 2.0;
  double s2 = 4.0 * l1 * l2 * (f / c) * (f / c);
  double s3 = sqrt(2.0 * PW_PI * f * (l1 + l2) / (16.0 * c));
  double f11 = c * c / (4.0 * fc) * (1.0 / (l1 * l1) + 1.0 / (l2 * l2));
  double s = s3;
  if (f11 <= 0.5 * fc) {
    s = f >= fc ? s1 : sigma_below(f, fc, l1, l2, c);
    if (f < f11) s = fmin(s, s2);
  } else if (f < fc && s2 < s3) {
    s = s2;
  } else if (f > fc && s1 < s3) {
    s = s1;
  }
  return fmin(2.0, s);
}

pw_status pw_leaf_iso_12354(const pw_leaf *leaf, const double eta[PW_THIRDS],
                            const pw_leaf_annex_b *in, pw_thirds *out, pw_err *err)
{
  double fc = leaf->fc * in->c * in->c / (PW_SOUND_C * PW_SOUND_C);
  const double given[][2] = {{in->l1, 100.0}, {in->l2, 100.0},      {in->rho, 100.0},
                             {in->c, 1e4},    {leaf->mass, 1000.0}, {leaf->fc, 1e6}};
  for (size_t i = 0; i < sizeof given / sizeof given[0]; i++)
    if (!(given[i][0] > 0.0 && given[i][0] <= given[i][1]))
      return pw_fail(err, PW_E_DOMAIN, "leaf",
                     "sides (m), air, mass and fc: %g, want above 0 to %g", given[i][0],
                     given[i][1]);
  for (int i = 0; i < PW_THIRDS; i++) {
    double f = pw_third_hz(i), edge = pow(10.0, 0.05);
    if (!(eta[i] > 0.0 && eta[i] <= 10.0))
      return pw_fail(err, PW_E_DOMAIN, "eta", "%g, want a loss factor above 0 to 10", eta[i]);
    double z = 2.0 * in->rho * in->c / (2.0 * PW_PI * f * leaf->mass);
    double sigma = pw_leaf_sigma(f, fc, in->l1, in->l2, in->c), tau;
    if (fc >= f / edge && fc < f * edge) { /* the band that holds fc */
      tau = PW_PI * sigma * sigma / (2.0 * eta[i]);
    } else {
      tau = PW_PI * fc * sigma * sigma / (2.0 * f * eta[i]);
      double miss = 1.0 - (f / fc) * (f / fc);
      if (f < fc) tau += 2.0 * pw_leaf_sigma_forced(f, in->l1, in->l2, in->c) / (miss * miss);
    }
    out->db[i] = -10.0 * log10(z * z * tau);
  }
  return PW_OK;
}
