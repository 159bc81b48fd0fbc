/* The invented sample jobs of reference/trade/samples as openings and fits. */
#ifndef CHECK_TRADE_SAMPLE_H
#define CHECK_TRADE_SAMPLE_H

#include "base/table.h"
#include "panewright/fit.h"
#include "panewright/status.h"
#include "panewright/survey.h"

enum { TRADE_ROWS_MAX = 16 };

typedef struct trade_sample {
  pw_job job; /* its opening points into opening; not for pw_job_free */
  pw_opening opening[TRADE_ROWS_MAX];
  pw_fit fit[TRADE_ROWS_MAX]; /* with the built-in vinyl line */
  const pw_table *expected;
} trade_sample;

/* name: "job_a_08" or "job_b_14". */
pw_status trade_sample_read(const char *name, trade_sample *sample, pw_err *err);

#endif
