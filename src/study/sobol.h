/* Owen-scrambled Sobol points, each reached by its index: any thread may take any point and the set
 * is the same. */
#ifndef STUDY_SOBOL_H
#define STUDY_SOBOL_H

#include <stddef.h>
#include <stdint.h>

#include "panewright/status.h"

enum {
  PW_SOBOL_BLOCK = 40,    /* dimensions of the generator of GSL */
  PW_SOBOL_BITS_MAX = 20, /* at most 2^20 points */
  PW_SOBOL_DIMS_MAX = 400
};

typedef struct pw_sobol {
  size_t n_dim;
  unsigned bits; /* good for 2^bits points */
  uint64_t seed;
  uint32_t direction[PW_SOBOL_BLOCK][PW_SOBOL_BITS_MAX]; /* 30-bit direction numbers */
} pw_sobol;

/* Prepares n_point points of n_dim coordinates.
 *
 * Status    PW_OK; PW_E_SHAPE n_dim 0 or above 400, n_point 0 or above 2^20; PW_E_NOMEM
 * Notes     1) The direction numbers are read off GSL's generator (Antonov and Saleev, 40 dimensions):
 *              v_k = x(2^k) xor x(2^k - 1).
 *           2) Beyond 40 dimensions blocks of 40 are padded: block b takes the points in an order
 *              of its own (an Owen-scrambled index), so that blocks are independent while each
 *              stays a net on every prefix of 2^k points.
 * Source    Sobol 1967; Owen, Randomly permuted (t,m,s)-nets, 1995; padding by scrambled index as
 *           in Burley, Practical hash-based Owen scrambling, 2020 (all from memory).
 */
pw_status pw_sobol_init(pw_sobol *sobol, size_t n_dim, size_t n_point, uint64_t seed,
                        pw_err *err);

/* Point index (from 0) into x[n_dim], each coordinate inside (0, 1). index < 2^bits. */
void pw_sobol_point(const pw_sobol *sobol, size_t index, double x[]);

/* The same without scrambling (x may be 0), to hold against other generators. n_dim <= 40. */
void pw_sobol_plain(const pw_sobol *sobol, size_t index, double x[]);

#endif
