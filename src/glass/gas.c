#include "panewright/gas.h"

#include <math.h>
#include <stddef.h>

#include "base/air.h"
#include "glass/gas_law.h"

/* ISO 15099:2003 Annex B, tables B.1 to B.3 (reference/glazing/gas.csv rows gas001 to gas037; the
 * check group `glazing` holds these against the file). */
static const pw_gas_fit coefficient[GAS_LAW_MAX] = {
    [PW_AIR] = PW_AIR_FIT,
    [PW_ARGON] = {2.285e-3, 5.149e-5, 3.379e-6, 6.451e-8, 521.9285, 0.0, 39.948},
    [PW_KRYPTON] = {9.443e-4, 2.826e-5, 2.213e-6, 7.777e-8, 248.0907, 0.0, 83.80},
    [PW_XENON] = {4.538e-4, 1.723e-5, 1.069e-6, 7.414e-8, 158.3397, 0.0, 131.30},
};

/* EN 673:2011 table of gas properties at -10, 0, +10, +20 C (gas.csv rows gas041 and on,
 * constants.csv for SF6; from memory there). */
enum { EN_POINTS = 4 };
static const struct {
  double density[EN_POINTS], viscosity[EN_POINTS], conductivity[EN_POINTS], heat;
} en_table[PW_GAS_COUNT] = {
    [PW_AIR] = {{1.326, 1.277, 1.232, 1.189},
                {1.661e-5, 1.711e-5, 1.761e-5, 1.811e-5},
                {2.336e-2, 2.416e-2, 2.496e-2, 2.576e-2},
                1008.0},
    [PW_ARGON] = {{1.829, 1.762, 1.699, 1.640},
                  {2.038e-5, 2.101e-5, 2.164e-5, 2.228e-5},
                  {1.584e-2, 1.634e-2, 1.684e-2, 1.734e-2},
                  519.0},
    [PW_KRYPTON] = {{3.832, 3.690, 3.560, 3.430},
                    {2.260e-5, 2.330e-5, 2.400e-5, 2.470e-5},
                    {0.842e-2, 0.870e-2, 0.900e-2, 0.926e-2},
                    245.0},
    [PW_XENON] = {{6.121, 5.897, 5.689, 5.495},
                  {2.078e-5, 2.152e-5, 2.226e-5, 2.299e-5},
                  {0.494e-2, 0.512e-2, 0.529e-2, 0.546e-2},
                  161.0},
    [PW_SF6] = {{6.844, 6.602, 6.360, 6.118},
                {1.383e-5, 1.421e-5, 1.459e-5, 1.497e-5},
                {1.119e-2, 1.197e-2, 1.275e-2, 1.354e-2},
                614.0},
};

static const char *const name[PW_GAS_COUNT] = {"air", "argon", "krypton", "xenon", "sf6"};
static const char *const share_field[PW_GAS_COUNT] = {"mix.share[air]", "mix.share[argon]",
                                                      "mix.share[krypton]", "mix.share[xenon]",
                                                      "mix.share[sf6]"};

/* Shares within 0..1 that sum to 1; *is_air is 1 when all are zero. */
static pw_status mix_check(const pw_mix *mix, int *is_air, pw_err *err)
{
  double sum = 0.0;
  for (size_t i = 0; i < PW_GAS_COUNT; i++) {
    if (!(mix->share[i] >= 0.0 && mix->share[i] <= 1.0 + 1e-9))
      return pw_fail(err, PW_E_DOMAIN, share_field[i], "gas share %g, want 0 to 1",
                     mix->share[i]);
    sum += mix->share[i];
  }
  *is_air = sum == 0.0;
  if (!*is_air && !(fabs(sum - 1.0) <= 1e-9))
    return pw_fail(err, PW_E_DOMAIN, "mix.share", "gas shares sum to %.12g, want 1", sum);
  return PW_OK;
}

static void law_pairs(gas_law *law, const double molar[])
{
  for (size_t i = 0; i < law->n; i++)
    for (size_t j = 0; j < law->n; j++) {
      double mi = molar[i], mj = molar[j];
      /* ISO 15099 Annex B, mixture rules (from memory): the weight of gas j on gas i, shares
       * folded in. With k' = 15/4 R mu/M the ratio in b_ij equals the one in phi_ij, so one
       * root serves viscosity and both parts of conductivity. */
      double scale = law->x[j] / (law->x[i] * 2.0 * sqrt(2.0 * (1.0 + mi / mj)));
      law->phi_root[i][j] = sqrt(sqrt(mj / mi));
      law->phi_scale[i][j] = scale;
      law->psi_scale[i][j] =
          scale * (1.0 + 2.41 * (mi - mj) * (mi - 0.142 * mj) / ((mi + mj) * (mi + mj)));
    }
}

pw_status gas_law_set(const pw_mix *mix, gas_law *law, pw_err *err)
{
  int is_air = 0;
  double molar[GAS_LAW_MAX];
  pw_status s = mix_check(mix, &is_air, err);
  if (s != PW_OK) return s;
  if (mix->share[PW_SF6] > 0.0)
    return pw_fail(
        err, PW_E_DOMAIN, share_field[PW_SF6],
        "SF6 share %g: ISO 15099 has no coefficients for it, want EN 673 or another gas",
        mix->share[PW_SF6]);
  law->n = 0;
  law->molar = law->cp_a = law->cp_b = 0.0;
  for (size_t i = 0; i < GAS_LAW_MAX; i++) {
    double x = is_air && i == PW_AIR ? 1.0 : mix->share[i];
    if (!(x > 0.0)) continue;
    size_t n = law->n++;
    law->x[n] = x;
    law->k_a[n] = coefficient[i].k_a;
    law->k_b[n] = coefficient[i].k_b;
    law->mu_a[n] = coefficient[i].mu_a;
    law->mu_b[n] = coefficient[i].mu_b;
    molar[n] = coefficient[i].molar;
    law->k_mono[n] = 3.75 * PW_GAS_CONSTANT / molar[n];
    law->molar += x * molar[n];
    law->cp_a += x * molar[n] * coefficient[i].cp_a;
    law->cp_b += x * molar[n] * coefficient[i].cp_b;
  }
  law->cp_a /= law->molar;
  law->cp_b /= law->molar;
  if (law->n > 1) law_pairs(law, molar);
  return PW_OK;
}

static void mixture_at(const gas_law *law, double t, gas_point *point)
{
  size_t n = law->n;
  double mu[GAS_LAW_MAX], root[GAS_LAW_MAX];
  double mu_sum = 0.0, k_sum = 0.0, k_slope = 0.0, mu_slope = 0.0;
  for (size_t i = 0; i < n; i++) {
    mu[i] = law->mu_a[i] + law->mu_b[i] * t;
    root[i] = sqrt(mu[i]);
  }
  for (size_t i = 0; i < n; i++) {
    double phi = 1.0, psi = 1.0;
    for (size_t j = 0; j < n; j++) {
      if (j == i) continue;
      double f = 1.0 + root[i] / root[j] * law->phi_root[i][j];
      phi += f * f * law->phi_scale[i][j];
      psi += f * f * law->psi_scale[i][j];
    }
    double k = law->k_a[i] + law->k_b[i] * t;
    double k_mono = law->k_mono[i] * mu[i]; /* k'; the rest, k'', may be slightly negative */
    mu_sum += mu[i] / phi;
    k_sum += k_mono / psi + (k - k_mono) / phi;
    k_slope += law->x[i] * law->k_b[i] / k;
    mu_slope += law->x[i] * law->mu_b[i] / mu[i];
  }
  *point = (gas_point){k_sum, mu_sum, law->cp_a + law->cp_b * t, k_slope, mu_slope};
}

void gas_law_at(const gas_law *law, double t, gas_point *point)
{
  if (law->n > 1) {
    mixture_at(law, t, point);
    return;
  }
  double k = law->k_a[0] + law->k_b[0] * t, mu = law->mu_a[0] + law->mu_b[0] * t;
  *point = (gas_point){k, mu, law->cp_a + law->cp_b * t, law->k_b[0] / k, law->mu_b[0] / mu};
}

pw_status pw_gas_iso15099(const pw_mix *mix, double t, double pressure, pw_gas_state *state,
                          pw_err *err)
{
  gas_law law;
  gas_point point;
  pw_status s = gas_law_set(mix, &law, err);
  if (s != PW_OK) return s;
  if (!(t >= 173.15 && t <= 373.15))
    return pw_fail(err, PW_E_DOMAIN, "t", "gas at %g K, want 173.15 to 373.15", t);
  if (!(pressure >= 3e4 && pressure <= 1.2e5))
    return pw_fail(err, PW_E_DOMAIN, "pressure", "%g Pa, want 30000 to 120000", pressure);
  gas_law_at(&law, t, &point);
  *state =
      (pw_gas_state){point.k, point.mu, point.cp, pressure * law.molar / (PW_GAS_CONSTANT * t)};
  return PW_OK;
}

pw_status pw_gas_en673(const pw_mix *mix, double t, pw_gas_state *state, pw_err *err)
{
  int is_air = 0;
  pw_status s = mix_check(mix, &is_air, err);
  if (s != PW_OK) return s;
  if (!(t >= 173.15 && t <= 373.15))
    return pw_fail(err, PW_E_DOMAIN, "t", "gas at %g K, want 173.15 to 373.15", t);
  double place = (t - 263.15) / 10.0; /* points stand 10 K apart from -10 C on */
  size_t i = place < 1.0 ? 0 : place < 2.0 ? 1 : 2;
  double f = place - (double)i;
  pw_gas_state sum = {0};
  for (size_t g = 0; g < PW_GAS_COUNT; g++) {
    double x = is_air && g == PW_AIR ? 1.0 : mix->share[g];
    if (!(x > 0.0)) continue;
    const double *rho = en_table[g].density, *mu = en_table[g].viscosity,
                 *k = en_table[g].conductivity;
    sum.density += x * (rho[i] + f * (rho[i + 1] - rho[i]));
    sum.viscosity += x * (mu[i] + f * (mu[i + 1] - mu[i]));
    sum.conductivity += x * (k[i] + f * (k[i + 1] - k[i]));
    sum.heat += x * en_table[g].heat; /* EN 673, mixtures by volume; clause from memory */
  }
  *state = sum;
  return PW_OK;
}

const char *pw_gas_name(pw_gas gas)
{
  return (unsigned)gas < PW_GAS_COUNT ? name[gas] : "unknown";
}
