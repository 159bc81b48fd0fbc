#define _GNU_SOURCE
#include "bench_counters.h"

#include <linux/perf_event.h>
#include <math.h>
#include <sys/syscall.h>
#include <unistd.h>

/* A counter of this thread in user space; below 0: there is none. */
static int open_counter(uint64_t what)
{
  struct perf_event_attr a = {.type = PERF_TYPE_HARDWARE,
                              .size = sizeof a,
                              .config = what,
                              .exclude_kernel = 1,
                              .exclude_hv = 1};
  return (int)syscall(SYS_perf_event_open, &a, 0, -1, -1, 0);
}

static uint64_t count(int fd)
{
  uint64_t n = 0;
  return fd >= 0 && read(fd, &n, sizeof n) == (ssize_t)sizeof n ? n : 0;
}

counters counters_now(void)
{
  static int opened, instructions = -1, cycles = -1;
  if (!opened) {
    opened = 1;
    instructions = open_counter(PERF_COUNT_HW_INSTRUCTIONS);
    cycles = open_counter(PERF_COUNT_HW_CPU_CYCLES);
  }
  return (counters){count(instructions), count(cycles)};
}

double counters_per_cycle(counters from, counters to)
{
  uint64_t cycles = to.cycles - from.cycles;
  return cycles > 0 ? (double)(to.instructions - from.instructions) / (double)cycles
                    : (double)NAN;
}
