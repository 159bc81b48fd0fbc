/* Any bytes as prices.csv of a small job: read or refused, never harmed. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "job/survey.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  pw_opening opening[2] = {
      {.tag = "A1", .quantity = 1, .operator_insert = PW_SLIDER, .screen = 1},
      {.tag = "A2", .quantity = 2, .operator_insert = PW_FIXED}};
  pw_package package[2] = {{.name = "good"}, {.name = "best"}};
  pw_job job = {.n_opening = 2, .n_package = 2, .opening = opening, .package = package};
  pw_notes notes = {0};
  pw_err err;
  pw_prices_parse("prices.csv", (const char *)data, size, (int)(size & 1), &job, &notes, &err);
  free(job.price);
  pw_notes_free(&notes);
  return 0;
}
