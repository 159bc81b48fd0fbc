/* Any bytes as a program file: read or refused, never harmed. */
#include <stddef.h>
#include <stdint.h>

#include "job/program_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  pw_program program;
  pw_program_result result;
  pw_amount amount;
  pw_notes notes = {0};
  pw_err err;
  const pw_label label = {1.5, 0.3, 0.5, 0.001};
  const pw_claim claim = {10.0, 14.0, 9000.0, 5000.0, 0.0};
  if (pw_program_parse("f.csv", (const char *)data, size, &program, &notes, &err) == PW_OK) {
    const char *zone = pw_program_zone(&program, 0);
    if (pw_program_judge(&program, zone ? zone : "", &label, 20260601, &result, &err) == PW_OK)
      pw_program_amount(&program, zone ? zone : "", 20260601, &result, &claim, &amount, &err);
    pw_program_free(&program);
  }
  pw_notes_free(&notes);
  return 0;
}
