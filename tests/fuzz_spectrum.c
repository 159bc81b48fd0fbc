/* Any bytes as a measured pane: read or refused, without a stray access. The first byte picks the
 * header that goes before, so that rows are reached. */
#include "fuzz_text.h"

#include "job/spectrum_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const char *const head[] = {
      "", "wavelength_nm,through,back_out,back_in,thickness_mm,angular\n",
      "sun_through,sun_back_out,sun_back_in,light_through,light_back_out,light_back_in,uv_"
      "through,emissivity_in\n"};
  size_t whole = 0;
  char *text = fuzz_text(head, sizeof head / sizeof head[0], data, size, &whole);
  if (!text) return 0;
  pw_measured m;
  pw_notes notes = {0};
  pw_spectrum_file_parse("fuzz.csv", text, whole, &notes, &m, NULL);
  pw_notes_free(&notes);
  free(text);
  return 0;
}
