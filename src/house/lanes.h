/* LANES numbers side by side, as one: the same formula serves one house and many. Included by
 * year_lanes.h after LANES is defined. Only operations that every processor rounds alike (+ - * /, root,
 * comparison, choice), so a lane gives bit for bit what it gives alone. Internal. */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "house/film.h"

#if defined __wasm_simd128__
#include <wasm_simd128.h>
#endif

#if LANES == 1
typedef double vd;  /* numbers */
typedef float vf;   /* the same, as they are stored */
typedef int64_t vm; /* of a comparison: all bits where it holds */
typedef uint64_t vu;
typedef int32_t vi; /* places in a table */

static inline vd v_all(double x) { return x; }
static inline double v_get(vd a, size_t lane)
{
  (void)lane;
  return a;
}
static inline void v_put(vd *a, size_t lane, double x)
{
  (void)lane;
  *a = x;
}
static inline vm v_mask(int holds) { return holds ? -1 : 0; }
static inline void v_put_mask(vm *m, size_t lane, int holds)
{
  (void)lane;
  *m = v_mask(holds);
}
static inline vm v_less(vd a, vd b) { return v_mask(a < b); }
static inline vd v_pick(vm m, vd a, vd b) { return m ? a : b; }
static inline vd v_root(vd a) { return sqrt(a); }
static inline vd v_abs(vd a) { return fabs(a); }
static inline vd v_of(const float *p) { return (double)*p; }
static inline vi v_whole(vd a) { return (int32_t)a; } /* towards 0 */
static inline vd v_number(vi a) { return (double)a; }
static inline size_t v_place(vi a, size_t lane)
{
  (void)lane;
  return (size_t)a;
}
static inline vm v_bits(vd a)
{
  vm m;
  memcpy(&m, &a, sizeof m);
  return m;
}
static inline vd v_of_bits(vm m)
{
  vd a;
  memcpy(&a, &m, sizeof a);
  return a;
}
#else
typedef double vd __attribute__((vector_size(8 * LANES)));
typedef float vf __attribute__((vector_size(4 * LANES)));
typedef int64_t vm __attribute__((vector_size(8 * LANES)));
typedef uint64_t vu __attribute__((vector_size(8 * LANES)));
typedef int32_t vi __attribute__((vector_size(4 * LANES)));

static inline vd v_all(double x) { return x - (vd){0.0}; }
static inline double v_get(vd a, size_t lane) { return a[lane]; }
static inline void v_put(vd *a, size_t lane, double x) { (*a)[lane] = x; }
static inline void v_put_mask(vm *m, size_t lane, int holds) { (*m)[lane] = holds ? -1 : 0; }
static inline vm v_less(vd a, vd b) { return (vm)(a < b); }
static inline vm v_bits(vd a) { return (vm)a; }
static inline vd v_of_bits(vm m) { return (vd)m; }
static inline vd v_pick(vm m, vd a, vd b) { return (vd)((m & (vm)a) | (~m & (vm)b)); }
#if LANES == 2 && defined __wasm_simd128__ /* whose compiler would take them one by one */
static inline vd v_root(vd a) { return (vd)wasm_f64x2_sqrt((v128_t)a); }
#else
static inline vd v_root(vd a)
{
  vd r = a;
  for (int l = 0; l < LANES; l++)
    r[l] = sqrt(a[l]);
  return r;
}
#endif
static inline vd v_abs(vd a) { return (vd)((vm)a & INT64_MAX); }
static inline vd v_of(const float *p)
{
  vf a;
  memcpy(&a, p, sizeof a);
  return __builtin_convertvector(a, vd);
}
static inline vi v_whole(vd a) { return __builtin_convertvector(a, vi); } /* towards 0 */
static inline vd v_number(vi a) { return __builtin_convertvector(a, vd); }
static inline size_t v_place(vi a, size_t lane) { return (size_t)a[lane]; }
#endif

static inline vd v_min(vd a, vd b) { return v_pick(v_less(a, b), a, b); }
static inline vd v_max(vd a, vd b) { return v_pick(v_less(b, a), a, b); }
/* 1 where it holds, else 0 */
static inline vd v_one(vm m) { return v_pick(m, v_all(1.0), v_all(0.0)); }

/* film_root3 on lanes. */
static inline vd v_root3(vd x)
{
  const double whole = 4503599627370496.0; /* 2^52: a number below it shows its integer bits */
  vu high = (vu)v_bits(x) >> 32;
  vd t = v_of_bits((vm)(high | FILM_ROOT3_WHOLE)) - whole;
  t = t * (1.0 / 3.0) + FILM_ROOT3_GUESS + whole;
  vd y = v_of_bits((vm)((vu)v_bits(t) << 32)), y3 = y * y * y;
  return y * ((y3 + 2.0 * x) / (2.0 * y3 + x + 1e-300));
}

/* x^e for x >= 0 and |e| <= 1, to 2.5e-8 of itself; 0 is taken as 1e-300. 2^(e log2 x): the exponent's bits, and
 * the logarithm of the rest within 1/sqrt 2 .. sqrt 2 by (m - 1)/(m + 1). Both polynomials have the least largest
 * error over their range (Remez); short ones, in pairs, for every face takes a power in each step. */
static inline vd v_power(vd x, vd e)
{
  const double whole = 4503599627370496.0;
  x = v_max(x, v_all(1e-300));
  /* bits of 1/sqrt 2 below 1, so that the exponent steps at the roots */
  vu u = (vu)v_bits(x) + UINT64_C(0x00095F619980C433);
  vd n = v_of_bits((vm)((u >> 52) | FILM_ROOT3_WHOLE)) - (whole + 1023.0);
  vd m = v_of_bits((vm)((u & UINT64_C(0x000FFFFFFFFFFFFF)) + UINT64_C(0x3FE6A09E667F3BCD)));
  vd t = (m - 1.0) / (m + 1.0), q = t * t;
  vd log2m = t * ((q * 0.96147080879171942 + 2.8853912893705727) + q * q * 0.59897388969509868);
  vd y = e * (n + log2m);
  /* 2^y: y + 1.5 2^52 shows round(y) in its last bits */
  vd shift = y + 6755399441055744.0;
  vu k = (vu)v_bits(shift) << 52;
  vd f = (y - (shift - 6755399441055744.0)) * 0.69314718055994531, f2 = f * f;
  vd p = (f * 0.1666652068983302 + 0.49999993451708435) +
         f2 * ((f * 0.008368709824171195 + 0.041668387361261147) + f2 * 0.0013814613260779772);
  return v_of_bits((vm)((vu)v_bits((f + 1.0) + f2 * p) + k));
}
