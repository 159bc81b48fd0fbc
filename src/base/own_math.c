/* Functions that the C library does not round alike everywhere, made of + - * / and root alone. Numbers written
 * out were made with 200 bits (mpmath). */
#include "base/own_math.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* 2^(j/16); ln of 22/32 to 46/32; atan of k/8: each as a sum of two. */
static const double root16[16][2] = {
    {0x1.0000000000000p+0, 0x0.0p+0},
    {0x1.0b5586cf9890fp+0, 0x1.8a62e4adc610bp-54},
    {0x1.172b83c7d517bp+0, -0x1.19041b9d78a76p-55},
    {0x1.2387a6e756238p+0, 0x1.9b07eb6c70573p-54},
    {0x1.306fe0a31b715p+0, 0x1.6f46ad23182e4p-55},
    {0x1.3dea64c123422p+0, 0x1.ada0911f09ebcp-55},
    {0x1.4bfdad5362a27p+0, 0x1.d4397afec42e2p-56},
    {0x1.5ab07dd485429p+0, 0x1.6324c054647adp-54},
    {0x1.6a09e667f3bcdp+0, -0x1.bdd3413b26456p-54},
    {0x1.7a11473eb0187p+0, -0x1.41577ee04992fp-55},
    {0x1.8ace5422aa0dbp+0, 0x1.6e9f156864b27p-54},
    {0x1.9c49182a3f090p+0, 0x1.c7c46b071f2bep-56},
    {0x1.ae89f995ad3adp+0, 0x1.7a1cd345dcc81p-54},
    {0x1.c199bdd85529cp+0, 0x1.11065895048ddp-55},
    {0x1.d5818dcfba487p+0, 0x1.2ed02d75b3707p-55},
    {0x1.ea4afa2a490dap+0, -0x1.e9c23179c2893p-54},
};
enum { LOG_FIRST = 22 };
static const double log_32nd[25][2] = {
    {-0x1.7fafa3bd8151cp-2, 0x1.219024acd3b77p-58},
    {-0x1.522ae0738a3d8p-2, 0x1.8f7e9b38a6979p-57},
    {-0x1.269621134db92p-2, -0x1.e0efadd9db02bp-56},
    {-0x1.f991c6cb3b379p-3, -0x1.f665066f980a2p-57},
    {-0x1.a93ed3c8ad9e3p-3, -0x1.bcafa9de97203p-57},
    {-0x1.5bf406b543db2p-3, 0x1.1f5b44c0df7e7p-61},
    {-0x1.1178e8227e47cp-3, 0x1.0e63a5f01c691p-58},
    {-0x1.9335e5d594989p-4, 0x1.478a85704ccb7p-58},
    {-0x1.08598b59e3a07p-4, 0x1.dd7009902bf32p-58},
    {-0x1.0415d89e74444p-5, -0x1.c05cf1d753622p-59},
    {0x0.0p+0, 0x0.0p+0},
    {0x1.f829b0e783300p-6, 0x1.33e3f04f1ef23p-60},
    {0x1.f0a30c01162a6p-5, 0x1.85f325c5bbacdp-59},
    {0x1.6f0d28ae56b4cp-4, -0x1.906d99184b992p-58},
    {0x1.e27076e2af2e6p-4, -0x1.61578001e0162p-60},
    {0x1.29552f81ff523p-3, 0x1.301771c407dbfp-57},
    {0x1.5ff3070a793d4p-3, -0x1.bc60efafc6f6ep-58},
    {0x1.9525a9cf456b4p-3, 0x1.d904c1d4e2e26p-57},
    {0x1.c8ff7c79a9a22p-3, -0x1.4f689f8434012p-57},
    {0x1.fb9186d5e3e2bp-3, -0x1.caaae64f21acbp-57},
    {0x1.1675cababa60ep-2, 0x1.ce63eab883717p-61},
    {0x1.2e8e2bae11d31p-2, -0x1.8f4cdb95ebdf9p-56},
    {0x1.4618bc21c5ec2p-2, 0x1.f42decdeccf1dp-56},
    {0x1.5d1bdbf5809cap-2, 0x1.4236383dc7fe1p-56},
    {0x1.739d7f6bbd007p-2, -0x1.8c76ceb014b04p-56},
};
static const double atan_8th[9][2] = {
    {0x0.0p+0, 0x0.0p+0},
    {0x1.fd5ba9aac2f6ep-4, -0x1.cd37686760c17p-59},
    {0x1.f5b75f92c80ddp-3, 0x1.8ab6e3cf7afbdp-57},
    {0x1.6f61941e4def1p-2, -0x1.c63aae6f6e918p-56},
    {0x1.dac670561bb4fp-2, 0x1.a2b7f222f65e2p-56},
    {0x1.1e00babdefeb4p-1, -0x1.928df287a668fp-58},
    {0x1.4978fa3269ee1p-1, 0x1.2419a87f2a458p-56},
    {0x1.700a7c5784634p-1, -0x1.8c34d25aadef6p-56},
    {0x1.921fb54442d18p-1, 0x1.1a62633145c07p-55},
};

static const double ln2_high = 0x1.62e42fee00000p-1, ln2_low = 0x1.a39ef35793c76p-33;
/* pi/2 in three parts; a whole number below 2^20 times one of the first two is exact. */
static const double half_pi[3] = {0x1.921fb54400000p+0, 0x1.0b4611a600000p-34,
                                  0x1.3198a2e037073p-69};
static const double half_pi_high = 0x1.921fb54442d18p+0, half_pi_low = 0x1.1a62633145c07p-54;
static const double to_whole =
    6755399441055744.0; /* 1.5 2^52: added and taken away, it rounds */

static double of_bits(uint64_t u)
{
  double x;
  memcpy(&x, &u, sizeof x);
  return x;
}

static uint64_t bits_of(double x)
{
  uint64_t u;
  memcpy(&u, &x, sizeof u);
  return u;
}

/* x 2^k; two factors, so that results below the normal ones are reached. */
static double scaled(double x, int k)
{
  int first = k / 2;
  return x * of_bits((uint64_t)(1023 + first) << 52) *
         of_bits((uint64_t)(1023 + k - first) << 52);
}

typedef struct pair {
  double high, low;
} pair;

static double upper(double a)
{
  double big = a * 134217729.0;
  return big - (big - a);
}

/* a b = high + low, exactly (Dekker 1971: halves of 26 bits). */
static pair product(double a, double b)
{
  double ah = upper(a), al = a - ah, bh = upper(b), bl = b - bh, high = a * b;
  return (pair){high, ((ah * bh - high) + ah * bl + al * bh) + al * bl};
}

/* ---- exponential, logarithm, power ---- */

/* e^r - 1 of |r| <= ln 2 / 32. */
static double exp_less_1(double r)
{
  double q = r * r;
  return r + q * ((0.5 + r * (1.0 / 6.0)) + q * ((1.0 / 24.0 + r * (1.0 / 120.0)) +
                                                 q * (1.0 / 720.0 + r * (1.0 / 5040.0))));
}

/* e^(x + low), low below the last place of x. */
static double exp_of(double x, double low)
{
  if (!(x < 709.9)) return isnan(x) ? x : scaled(2.0, 1023);
  if (x < -746.0) return 0.0;
  double n = x * (16.0 / ln2_high) + to_whole - to_whole;
  double r = (x - n * (ln2_high / 16.0)) - (n * (ln2_low / 16.0) - low);
  int whole = (int)n, j = whole & 15, k = (whole - j) / 16;
  double p = exp_less_1(r), t = root16[j][0];
  return scaled(t + (root16[j][1] + t * p), k);
}

double pw_exp(double x) { return exp_of(x, 0.0); }

double pw_expm1(double x)
{
  static const double c[] = {1.0 / 6227020800.0, 1.0 / 479001600.0, 1.0 / 39916800.0,
                             1.0 / 3628800.0,    1.0 / 362880.0,    1.0 / 40320.0,
                             1.0 / 5040.0,       1.0 / 720.0,       1.0 / 120.0,
                             1.0 / 24.0,         1.0 / 6.0,         0.5};
  if (!(fabs(x) < 0.35)) return pw_exp(x) - 1.0;
  double p = 0.0;
  for (size_t i = 0; i < sizeof c / sizeof *c; i++)
    p = p * x + c[i];
  return x + x * x * p;
}

double pw_tanh(double x)
{
  double less = pw_expm1(-2.0 * fabs(x));
  return copysign(-less / (less + 2.0), x);
}

/* ln x, whole: to twice the places of a double. 2^k m, and m by the nearest 32nd c: ln m = ln c + 2 artanh((m - c)/(m + c)). */
static pair log_of(double x, int whole)
{
  int below = x < 0x1p-1022;
  /* 1/sqrt 2 counts as 1, so that k steps there */
  uint64_t u = bits_of(below ? x * 0x1p54 : x) + UINT64_C(0x00095F619980C433);
  double k = (double)((int)(u >> 52) - 1023 - (below ? 54 : 0));
  double m = of_bits((u & UINT64_C(0x000FFFFFFFFFFFFF)) + UINT64_C(0x3FE6A09E667F3BCD));
  int j = (int)(m * 32.0 + 0.5) - LOG_FIRST;
  double c = (LOG_FIRST + j) / 32.0, d = m + c, s = (m - c) / d, q = s * s;
  double lacks = 0.0; /* what s lacks: the quotient rounds, and so does d */
  if (whole) {
    pair back = product(s, d);
    lacks = (((m - c) - back.high - back.low) - s * ((m - d) + c)) / d;
  }
  double series = q * (2.0 / 3.0 + q * (2.0 / 5.0 + q * (2.0 / 7.0 + q * (2.0 / 9.0))));
  double sum = k * ln2_high + log_32nd[j][0], lost = (k * ln2_high - sum) + log_32nd[j][0];
  pair l = {.high = sum + 2.0 * s};
  l.low = (sum - l.high) + 2.0 * s +
          (lost + (log_32nd[j][1] + k * ln2_low) + (2.0 * lacks + s * series));
  return l;
}

double pw_log(double x)
{
  if (!(x > 0.0)) return x == 0.0 ? -INFINITY : (double)NAN;
  if (!isfinite(x)) return x;
  pair l = log_of(x, 0);
  return l.high + l.low;
}

double pw_log10(double x) { return pw_log(x) * 0.43429448190325182765; }

/* x^(e + low) of a positive x, low below the last place of e. */
static double power_of(double x, double e, double low)
{
  pair l = log_of(x, 1), p = product(e, l.high);
  if (!(fabs(p.high) < 800.0)) return exp_of(p.high, 0.0);
  return exp_of(p.high, p.low + (e * l.low + low * l.high));
}

double pw_power(double x, double e)
{
  if (e == 0.0 || x == 1.0) return 1.0;
  if (x == 0.0) return e > 0.0 ? 0.0 : INFINITY;
  if (!(x > 0.0) || !isfinite(x) || !isfinite(e)) return x > 0.0 && e > 0.0 ? x : (double)NAN;
  return power_of(x, e, 0.0);
}

double pw_root3(double x)
{
  const double third = 1.0 / 3.0, low = 0x1.5555555555555p-56;
  if (x == 0.0 || !isfinite(x)) return x;
  return copysign(power_of(fabs(x), third, low), x);
}

double pw_hypot(double a, double b) { return sqrt(a * a + b * b); }

/* ---- angles ---- */

/* sin and cos of y + low, |y| <= pi/4, by their series. */
static double sin_of(double y, double low)
{
  double z = y * y, z2 = z * z;
  double p = (-1.0 / 6.0 + z * (1.0 / 120.0)) +
             z2 * ((-1.0 / 5040.0 + z * (1.0 / 362880.0)) +
                   z2 * ((-1.0 / 39916800.0 + z * (1.0 / 6227020800.0)) -
                         z2 * (1.0 / 1307674368000.0)));
  return y + (low * (1.0 - 0.5 * z) + y * z * p);
}

static double cos_of(double y, double low)
{
  double z = y * y, z2 = z * z, half = 0.5 * z, w = 1.0 - half;
  double p = (1.0 / 24.0 - z * (1.0 / 720.0)) +
             z2 * ((1.0 / 40320.0 - z * (1.0 / 3628800.0)) +
                   z2 * ((1.0 / 479001600.0 - z * (1.0 / 87178291200.0)) +
                         z2 * (1.0 / 20922789888000.0)));
  return w + (((1.0 - w) - half) + (z2 * p - y * low));
}

/* Quarter turns taken off x; what is left is y + low. */
static int quarters(double x, double *y, double *low)
{
  if (!(fabs(x) < 1e6)) x = remainder(x, 4.0 * half_pi_high);
  double n = x * (1.0 / half_pi_high) + to_whole - to_whole;
  double r = x - n * half_pi[0], w = n * half_pi[1], t = r - w;
  w = n * half_pi[2] - ((r - t) - w);
  *y = t - w;
  *low = (t - *y) - w;
  return (int)n & 3;
}

void pw_sin_cos(double x, double *sine, double *cosine)
{
  double y, low;
  if (!isfinite(x)) {
    *sine = *cosine = (double)NAN;
    return;
  }
  int q = quarters(x, &y, &low);
  double s = sin_of(y, low), c = cos_of(y, low);
  *sine = q == 0 ? s : q == 1 ? c : q == 2 ? -s : -c;
  *cosine = q == 0 ? c : q == 1 ? -s : q == 2 ? -c : s;
}

/* The sine of x turned on by so many quarters. */
static double sin_on(double x, int on)
{
  double y, low;
  if (!isfinite(x)) return (double)NAN;
  int q = (quarters(x, &y, &low) + on) & 3;
  double v = q & 1 ? cos_of(y, low) : sin_of(y, low);
  return q & 2 ? -v : v;
}

double pw_sin(double x) { return sin_on(x, 0); }

double pw_cos(double x) { return sin_on(x, 1); }

double pw_tan(double x)
{
  double s, c;
  pw_sin_cos(x, &s, &c);
  return s / c;
}

/* The angle of a/b, 0 <= a <= b, by the nearest eighth k: atan(k/8) + atan((a - kb/8)/(b + ka/8)). */
static pair atan_of_share(double a, double b)
{
  double share = a / b;
  int k = share < 0.1 ? 0 : (int)(8.0 * share + 0.5);
  double c = k / 8.0, t = (a - c * b) / (b + c * a), z = t * t;
  double p = -1.0 / 3.0 +
             z * (1.0 / 5.0 +
                  z * (-1.0 / 7.0 +
                       z * (1.0 / 9.0 +
                            z * (-1.0 / 11.0 +
                                 z * (1.0 / 13.0 + z * (-1.0 / 15.0 + z * (1.0 / 17.0)))))));
  return (pair){atan_8th[k][0], atan_8th[k][1] + (t + t * z * p)};
}

static pair half_turn(double times)
{
  return (pair){2.0 * times * half_pi_high, 2.0 * times * half_pi_low};
}

/* a - b of a.high >= b.high, what is lost in it kept. */
static pair less(pair a, pair b)
{
  double high = a.high - b.high;
  return (pair){high, (a.low - b.low) + ((a.high - high) - b.high)};
}

double pw_atan2(double y, double x)
{
  double a = fabs(y), b = fabs(x);
  if (isnan(a) || isnan(b)) return (double)NAN;
  if (a == 0.0 && b == 0.0) return signbit(x) ? copysign(2.0 * half_pi_high, y) : y;
  if (isinf(a) || isinf(b)) {
    a = isinf(a) ? 1.0 : 0.0;
    b = isinf(b) ? 1.0 : 0.0;
  }
  int steep = a > b;
  pair turn = atan_of_share(steep ? b : a, steep ? a : b);
  if (steep) turn = less(half_turn(0.5), turn);
  if (signbit(x)) turn = less(half_turn(1.0), turn);
  return copysign(turn.high + turn.low, y);
}

double pw_atan(double x) { return pw_atan2(x, 1.0); }

double pw_asin(double x) { return pw_atan2(x, sqrt((1.0 - x) * (1.0 + x))); }

double pw_acos(double x) { return pw_atan2(sqrt((1.0 - x) * (1.0 + x)), x); }
