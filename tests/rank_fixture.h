/* The example house, compared by the quick method, beside a small catalogue for its search. */
#ifndef TESTS_RANK_FIXTURE_H
#define TESTS_RANK_FIXTURE_H

#include "support.h"

#include <string.h>

#include "job/catalogue_file.h"
#include "job/job_open.h"

/* Two panes of clear glass, one coating, two gaps, one spacer, one line. */
#define RANK_SMALL                                                                             \
  "part,name,thickness,gas,place,pocket,price_per_area,price_per_opening,price_per_length\n"   \
  "pane,clear,3mm,,,,10 $/m2,,\n"                                                              \
  "pane,clear,6mm,,,,24 $/m2,,\n"                                                              \
  "coating,ag2,,,gap,,13 $/m2,,\n"                                                             \
  "gap,,8mm,air,,,2 $/m2,,\n"                                                                  \
  "gap,,16mm,argon 90%,,,5 $/m2,,\n"                                                           \
  "spacer,metal,,,,,,,1 $/m\n"                                                                 \
  "frame_line,vinyl,,,,40mm,150 $/m2,$300,\n"

static inline pw_status rank_open(const char *text, pw_open_job *open, pw_compare *compare,
                                  pw_rank_catalogue *catalogue, pw_err *err)
{
  pw_status s = pw_job_open("examples/harrow_bend", open, err);
  if (s == PW_OK) s = pw_catalogue_parse("small.csv", text, strlen(text), catalogue, NULL, err);
  if (s != PW_OK) return s;
  const pw_compare_options options = pw_job_options(open, PW_YEAR_QUICK);
  return pw_compare_run(&open->job, open->weather, &options, NULL, compare, err);
}

#endif
