#include "study/sobol.h"
#include "base/gsl_quiet.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_qrng.h>
#include <math.h>

enum { WORD = 30 }; /* bits of a coordinate in GSL's generator */

/* Finaliser of SplitMix64 (Steele, Lea, Flood 2014; constants from memory): every input bit reaches
 * every output bit. */
static uint64_t mix(uint64_t x)
{
  x += 0x9e3779b97f4a7c15u;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

/* Nested uniform scrambling in base 2: each bit is flipped by a coin that belongs to the bits above
 * it (Owen 1995), the coin being a hash of key and those bits. */
static uint32_t owen(uint32_t x, unsigned bits, uint64_t key)
{
  uint32_t y = 0;
  for (unsigned i = 0; i < bits; i++) {
    uint32_t above = (uint32_t)1 << i | (uint32_t)((uint64_t)x >> (bits - i));
    uint32_t bit = x >> (bits - 1 - i) & 1u;
    y = y << 1 | (bit ^ (uint32_t)(mix(key ^ above) >> 63));
  }
  return y;
}

/* x(index) in Gray code order: the exclusive or of the directions of the set bits. */
static uint32_t plain(const pw_sobol *s, size_t dim, uint32_t index)
{
  uint32_t x = 0, gray = index ^ index >> 1;
  for (unsigned k = 0; k < s->bits; k++)
    if (gray >> k & 1u) x ^= s->direction[dim][k];
  return x;
}

static pw_status directions_of(pw_sobol *s, pw_err *err)
{
  gsl_qrng *q = gsl_qrng_alloc(gsl_qrng_sobol, PW_SOBOL_BLOCK);
  if (!q) return pw_fail(err, PW_E_NOMEM, "n_dim", "no memory for the generator");
  uint32_t before[PW_SOBOL_BLOCK] = {0};
  size_t last = (size_t)1 << (s->bits - 1);
  for (size_t i = 1, k = 0; i <= last; i++) { /* GSL begins at point 1; point 0 is 0 */
    double x[PW_SOBOL_BLOCK];
    if (gsl_qrng_get(q, x) != GSL_SUCCESS) {
      gsl_qrng_free(q);
      return pw_fail(err, PW_E_CONVERGE, "n_point", "the generator of GSL failed");
    }
    int power = (i & (i - 1)) == 0;
    for (int d = 0; d < PW_SOBOL_BLOCK; d++) {
      uint32_t word = (uint32_t)ldexp(x[d], WORD);
      if (power) s->direction[d][k] = word ^ before[d];
      before[d] = word;
    }
    k += (size_t)power;
  }
  gsl_qrng_free(q);
  return PW_OK;
}

static pw_status read_directions(pw_sobol *s, pw_err *err)
{
  gsl_error_handler_t *held = pw_gsl_hold();
  pw_status status = directions_of(s, err);
  pw_gsl_release(held);
  return status;
}

pw_status pw_sobol_init(pw_sobol *sobol, size_t n_dim, size_t n_point, uint64_t seed,
                        pw_err *err)
{
  if (!(n_dim >= 1 && n_dim <= PW_SOBOL_DIMS_MAX))
    return pw_fail(err, PW_E_SHAPE, "n_dim", "%zu, want 1 to %d", n_dim, PW_SOBOL_DIMS_MAX);
  if (!(n_point >= 1 && n_point <= (size_t)1 << PW_SOBOL_BITS_MAX))
    return pw_fail(err, PW_E_SHAPE, "n_point", "%zu, want 1 to %d", n_point,
                   1 << PW_SOBOL_BITS_MAX);
  pw_sobol s = {.n_dim = n_dim, .bits = 1, .seed = seed};
  while ((size_t)1 << s.bits < n_point)
    s.bits++;
  pw_status status = read_directions(&s, err);
  if (status == PW_OK) *sobol = s;
  return status;
}

void pw_sobol_point(const pw_sobol *sobol, size_t index, double x[])
{
  uint32_t at = (uint32_t)index;
  for (size_t d = 0; d < sobol->n_dim; d++) {
    size_t block = d / PW_SOBOL_BLOCK, dim = d % PW_SOBOL_BLOCK;
    uint64_t key = mix(sobol->seed + mix(d + 1));
    if (block > 0 && dim == 0)
      at = owen((uint32_t)index, sobol->bits, mix(sobol->seed ^ mix(~(uint64_t)block)));
    uint32_t word = plain(sobol, dim, at);
    /* Within its cell of 2^-30 the point is uniform, and never on 0 or 1. */
    double tail = ((double)(mix(key ^ ((uint32_t)1 << WORD | word)) >> 42) + 0.5) / 4194304.0;
    x[d] = ldexp((double)owen(word, WORD, key) + tail, -WORD);
  }
}

void pw_sobol_plain(const pw_sobol *sobol, size_t index, double x[])
{
  for (size_t d = 0; d < sobol->n_dim && d < PW_SOBOL_BLOCK; d++)
    x[d] = ldexp((double)plain(sobol, d, (uint32_t)index), -WORD);
}
