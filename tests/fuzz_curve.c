/* Any bytes as a measured sound reduction: read or refused, without a stray access. The first byte picks the
 * header that goes before, so that rows are reached. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "job/curve_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const char *const head[] = {"", "band_hz,r_db\n"};
  if (size == 0) return 0;
  const char *start = head[data[0] % 2];
  size_t n = strlen(start), whole = n + size - 1;
  char *text = malloc(whole ? whole : 1);
  if (!text) return 0;
  memcpy(text, start, n);
  memcpy(text + n, data + 1, size - 1);
  pw_curve m;
  pw_notes notes = {0};
  pw_curve_file_parse("fuzz.csv", text, whole, &notes, &m, NULL);
  pw_notes_free(&notes);
  free(text);
  return 0;
}
