/* General-purpose finite element packages on a section of ours: input written on the fly in a temporary
 * folder, run as a child, processor time and heat flow taken. For the bench only. */
#ifndef TESTS_BENCH_PEER_H
#define TESTS_BENCH_PEER_H

#include "frame/frame_impl.h"

typedef struct peer {
  const char *name;                                           /* package */
  const char *program;                                        /* what is looked for in PATH */
  const char *command;                                        /* run in the folder */
  int (*write)(const frame_grid *grid, const char *folder);   /* 0 on success */
  double (*read)(const frame_grid *grid, const char *folder); /* W/(m K); NAN: no result */
} peer;

extern const peer peers[];
extern const size_t peer_count;

int peer_installed(const peer *p);

/* The package's coupling on that grid; *cpu the child's processor seconds. NAN when it failed. */
double peer_run(const peer *p, const frame_grid *grid, double *cpu);

#endif
