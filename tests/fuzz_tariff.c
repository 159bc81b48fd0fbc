/* Any bytes as a tariff file: read or refused, never harmed. */
#include <stddef.h>
#include <stdint.h>

#include "job/tariff_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  pw_tariff_file file;
  pw_notes notes = {0};
  pw_err err;
  pw_tariff_parse("f.csv", (const char *)data, size, &file, &notes, &err);
  pw_notes_free(&notes);
  return 0;
}
