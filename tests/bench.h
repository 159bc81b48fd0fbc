/* What the parts of the bench share. A part is `void bench_NAME(bench *b)` in tests/bench_NAME.c with a
 * line below and one in the list of tests/bench.c; it measures with bench_cpu and hands over rows. */
#ifndef TESTS_BENCH_H
#define TESTS_BENCH_H

#include <stddef.h>

typedef struct bench bench;

typedef struct bench_row {
  const char *name; /* what was done */
  const char *item; /* one of what: "solve", "hour", "file" */
  double count;     /* items done in cpu seconds */
  double cpu;       /* s, processor time */
  double bound;     /* s an item may take; 0 none stated */
  double peer;      /* s an item took elsewhere; 0 not known */
  const char *held; /* what bound or peer is, "" none */
} bench_row;

void bench_give(bench *b, const bench_row *row);

/* Processor seconds of one call: the best of five rounds of at least 40 ms each, so that a
 * neighbour's work on the core counts less. */
double bench_cpu(void (*work)(void *data), void *data);

/* Measures work, which does count items a call, and gives the row. */
void bench_run(bench *b, const char *name, const char *item, double count,
               void (*work)(void *data), void *data, double bound, const char *held);

/* The parts, one a line. */
void bench_start(bench *b); /* first: a fork copies what this process has grown to */
void bench_glass(bench *b);
void bench_optics(bench *b);
void bench_sound(bench *b);
void bench_climate(bench *b);
void bench_range(bench *b);
void bench_rank(bench *b);
void bench_batch(bench *b);
void bench_house(bench *b);
void bench_section(bench *b);
void bench_bills(bench *b);
void bench_lanes(bench *b);

#endif
