/* Fuzz: any text as a length and as a number; what is taken must be finite and come back. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "job/measure.h"
#include "job/number.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static const pw_unit_word unit[] = {
      {"$/kWh", 1.0, 0.0}, {"F", 1 / 1.8, -32 / 1.8}, {"%", 0.01, 0}};
  char *text = malloc(size + 1);
  if (!text) return 0;
  memcpy(text, data, size);
  text[size] = '\0';
  double length = 0.0, back = 0.0;
  if (pw_measure_read(text, &length, NULL) == PW_OK) {
    if (!(length >= 0.0 && isfinite(length))) abort();
    char again[64];
    pw_measure_text(length, again, sizeof again);
    if (length < 1e4 &&
        (pw_measure_read(again, &back, NULL) != PW_OK || fabs(back - length) > 2e-4))
      abort();
  }
  pw_given given;
  if (pw_number_read(text, unit, 3, -1e6, 1e6, &given, NULL, NULL) == PW_OK &&
      !(fabs(given.value) <= 1e6 && given.spread >= 0.0))
    abort();
  free(text);
  return 0;
}
