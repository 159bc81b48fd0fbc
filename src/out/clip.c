#include "out/clip.h"

#include <stddef.h>
#include <string.h>

enum { MOST = PW_CLIP_MAX / 4 - 1 }; /* characters that surely fit */

static int begins_character(char c) { return ((unsigned char)c & 0xc0u) != 0x80u; }

pw_clipped pw_clip(const char *text, int columns)
{
  pw_clipped out = {""};
  size_t most = columns > MOST ? MOST : columns < 1 ? 1 : (size_t)columns;
  size_t n = 0, last = 0, end = 0;
  for (; text[end] && end + 1 < sizeof out.text; end++)
    if (begins_character(text[end])) {
      if (n == most) break;
      last = end;
      n++;
    }
  memcpy(out.text, text, end);
  if (text[end]) memcpy(out.text + last, ".", 2);
  return out;
}
