/* Even chances that are the same on every machine: Knuth's MMIX linear congruential generator (The Art of Computer
 * Programming 2, 3.3.4). For made weather and for cases, not for secrets. */
#ifndef BASE_RANDOM_H
#define BASE_RANDOM_H

#include <stdint.h>

/* The next of the row; its upper bits are the good ones. */
static inline uint64_t pw_random_next(uint64_t *state)
{
  return *state = *state * 6364136223846793005u + 1442695040888963407u;
}

/* The next as a number, 0 to below 1. */
static inline double pw_random_share(uint64_t *state)
{
  return (double)(pw_random_next(state) >> 11) / 9007199254740992.0;
}

#endif
