#include "base/windows1252.h"

#include <stdlib.h>

/* Code points of the bytes 0x80 to 0x9F; 0: not in the page. All others stand for themselves. */
static const unsigned short high[32] = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

char *pw_windows1252_to_utf8(const char *text, size_t size, size_t *new_size, size_t *bad)
{
  char *out = malloc(3 * size + 1);
  size_t n = 0;
  *bad = size;
  if (!out) return NULL;
  for (size_t i = 0; i < size; i++) {
    unsigned p = (unsigned char)text[i];
    if (p >= 0x80 && p < 0xA0) p = high[p - 0x80];
    if (p == 0 && text[i] != '\0') {
      *bad = i;
      free(out);
      return NULL;
    }
    if (p < 0x80)
      out[n++] = (char)p;
    else if (p < 0x800) {
      out[n++] = (char)(0xC0 | p >> 6);
      out[n++] = (char)(0x80 | (p & 0x3F));
    } else {
      out[n++] = (char)(0xE0 | p >> 12);
      out[n++] = (char)(0x80 | (p >> 6 & 0x3F));
      out[n++] = (char)(0x80 | (p & 0x3F));
    }
  }
  out[n] = '\0';
  *new_size = n;
  return out;
}
