/* Random bytes as a house file. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include "job/house_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  pw_err err = {0};
  pw_house_file *file = malloc(sizeof *file);
  if (!file) return 0;
  pw_house_file_parse("fuzz.csv", (const char *)data, size, file, &err);
  free(file);
  return 0;
}
