/* Any bytes as prices.csv of a small job: read or refused, never harmed. */
#include "fuzz_job.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  fuzz_job f;
  pw_notes notes = {0};
  pw_err err;
  fuzz_job_set(&f);
  pw_prices_parse("prices.csv", (const char *)data, size, (int)(size & 1), &f.job, &notes,
                  &err);
  free(f.job.price);
  pw_notes_free(&notes);
  return 0;
}
