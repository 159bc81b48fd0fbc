/* Any bytes as a measured sound reduction: read or refused, without a stray access. The first byte picks the
 * header that goes before, so that rows are reached. */
#include "fuzz_text.h"

#include "job/curve_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const char *const head[] = {"", "band_hz,r_db\n"};
  size_t whole = 0;
  char *text = fuzz_text(head, sizeof head / sizeof head[0], data, size, &whole);
  if (!text) return 0;
  pw_curve m;
  pw_notes notes = {0};
  pw_curve_file_parse("fuzz.csv", text, whole, &notes, &m, NULL);
  pw_notes_free(&notes);
  free(text);
  return 0;
}
