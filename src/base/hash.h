/* FNV-1a, 64 bit; public domain. Begin with PW_HASH_START and mix in one piece after another. */
#ifndef BASE_HASH_H
#define BASE_HASH_H

#include <stddef.h>
#include <stdint.h>

#define PW_HASH_START UINT64_C(14695981039346656037)

static inline uint64_t pw_hash_mix(uint64_t h, const void *bytes, size_t n)
{
  const unsigned char *p = bytes;
  for (size_t i = 0; i < n; i++)
    /* NOLINTNEXTLINE(clang-analyzer-core.UndefinedBinaryOperatorResult): bytes of a double */
    h = (h ^ p[i]) * UINT64_C(1099511628211);
  return h;
}

#endif
