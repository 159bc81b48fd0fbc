/* A job of two openings and two packages, for any bytes as one of the files beside it. */
#ifndef TESTS_FUZZ_JOB_H
#define TESTS_FUZZ_JOB_H

#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include "job/survey.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

typedef struct fuzz_job {
  pw_opening opening[2];
  pw_package package[2];
  pw_job job;
} fuzz_job;

static void fuzz_job_set(fuzz_job *f)
{
  *f = (fuzz_job){
      .opening = {{.tag = "A1", .quantity = 1, .operator_insert = PW_SLIDER, .screen = 1},
                  {.tag = "A2", .quantity = 2, .operator_insert = PW_FIXED}},
      .package = {{.name = "good"}, {.name = "best"}}};
  f->job =
      (pw_job){.n_opening = 2, .n_package = 2, .opening = f->opening, .package = f->package};
}

#endif
