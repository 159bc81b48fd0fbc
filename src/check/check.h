/* The published cases, recomputed: one file a group, rows handed to a sink. `panewright check`
 * prints them and tests/test_check.c fails on any that misses. */
#ifndef CHECK_CHECK_H
#define CHECK_CHECK_H

#include <stddef.h>

#include "panewright/status.h"

/* Beside a measured value: its own spread, and where ours lies. */
typedef struct pw_check_band {
  double measured_low, measured_high;
  double p5, p10, p50, p90, p95;
} pw_check_band;

typedef struct pw_check_row {
  const char *id;       /* row or case name */
  const char *quantity; /* what, with enough words to find it in the source */
  const char *unit;
  double ours;
  double want; /* published value; NAN when the source gives a range */
  double
      tolerance; /* |ours - want| allowed; the source's rounding or as explained in the group */
  double low, high; /* published range; used when want is NAN */
  const char *source;
  const char *how_known; /* read, memory, computed ... */
  int advisory;          /* 1: printed, but a miss is no failure (the group says why) */
} pw_check_row;

typedef struct pw_check_sink {
  void (*row)(void *context, const pw_check_row *row);
  void (*note)(void *context,
               const char *text); /* one plain line: something skipped, a tally */
  void *context;
  const char *data; /* folder of open files (reference/checks), or NULL when there is none */
  void (*band)(void *context, const pw_check_band *band); /* of the row just given; or NULL */
} pw_check_sink;

typedef struct pw_check_group {
  const char *name;  /* --group NAME */
  const char *about; /* one line */
  pw_status (*run)(const pw_check_sink *sink, pw_err *err);
} pw_check_group;

/* 1: the group takes long, so it runs only when it is named (.ci/run and .ci/long name them). */
int pw_check_apart(const pw_check_group *group);

/* Every group, in print order. */
extern const pw_check_group *const pw_check_groups[];
extern const size_t pw_check_group_count;

/* Hands the sink a row with one published value. */
void pw_check_give(const pw_check_sink *sink, const char *id, const char *quantity,
                   const char *unit, double ours, double want, double tolerance,
                   const char *source, const char *how_known);

/* The same, advisory as in the row. */
void pw_check_give_as(const pw_check_sink *sink, int advisory, const char *id,
                      const char *quantity, const char *unit, double ours, double want,
                      double tolerance, const char *source, const char *how_known);

/* Hands the sink a row that has to lie within low .. high; advisory as in the row. */
void pw_check_give_range(const pw_check_sink *sink, const char *id, const char *quantity,
                         const char *unit, double ours, double low, double high, int advisory,
                         const char *source, const char *how_known);

/* Whether a row holds. */
int pw_check_holds(const pw_check_row *row);

#endif
