/* Any bytes as a glass build-up: refused with a column inside the text, or read and said back. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/glazing.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  char *text = malloc(size + 1), printed[512];
  if (!text) return 0;
  memcpy(text, data, size);
  text[size] = 0;
  pw_buildup b, again;
  pw_err err = {0};
  if (pw_buildup_parse(text, &b, &err) == PW_OK) {
    if (pw_buildup_print(&b, printed, sizeof printed, NULL) != PW_OK) abort();
    if (pw_buildup_parse(printed, &again, &err) != PW_OK) abort();
  } else if (err.column < 1 || (size_t)err.column > strlen(text) + 1) {
    abort();
  }
  free(text);
  return 0;
}
