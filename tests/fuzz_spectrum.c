/* Any bytes as a measured pane: read or refused, without a stray access. The first byte picks the
 * header that goes before, so that rows are reached. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "job/spectrum_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const char *const head[] = {
      "", "wavelength_nm,t,r_front,r_back,thickness_mm,angular\n",
      "t_sol,rf_sol,rb_sol,t_vis,rf_vis,rb_vis,t_uv,emissivity_back\n"};
  if (size == 0) return 0;
  const char *start = head[data[0] % 3];
  size_t n = strlen(start), whole = n + size - 1;
  char *text = malloc(whole ? whole : 1);
  if (!text) return 0;
  memcpy(text, start, n);
  memcpy(text + n, data + 1, size - 1);
  pw_measured m;
  pw_notes notes = {0};
  pw_spectrum_file_parse("fuzz.csv", text, whole, &notes, &m, NULL);
  pw_notes_free(&notes);
  free(text);
  return 0;
}
