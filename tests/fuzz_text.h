/* Any bytes as a text, behind a header that the first of them picks, so that rows are reached. */
#ifndef TESTS_FUZZ_TEXT_H
#define TESTS_FUZZ_TEXT_H

#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* To be freed; NULL of no bytes or without memory. */
static char *fuzz_text(const char *const head[], size_t n_head, const uint8_t *data,
                       size_t size, size_t *whole)
{
  if (size == 0) return NULL;
  const char *start = head[data[0] % n_head];
  size_t n = strlen(start);
  *whole = n + size - 1;
  char *text = malloc(*whole ? *whole : 1);
  if (!text) return NULL;
  memcpy(text, start, n);
  memcpy(text + n, data + 1, size - 1);
  return text;
}

#endif
