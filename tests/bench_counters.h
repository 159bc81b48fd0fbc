/* Instructions and cycles of this process, where the kernel and the machine count them (perf_event_open). */
#ifndef TESTS_BENCH_COUNTERS_H
#define TESTS_BENCH_COUNTERS_H

#include <stdint.h>

typedef struct counters {
  uint64_t instructions, cycles; /* 0, 0: not counted */
} counters;

counters counters_now(void);
double counters_per_cycle(counters from, counters to); /* NAN: not counted */

#endif
