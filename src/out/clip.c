#include "out/clip.h"

#include <stddef.h>
#include <string.h>

#include "base/text.h"
#include "out/width.h"

enum { MOST = PW_CLIP_MAX / 4 - 1 }; /* characters that surely fit */

/* The longest beginning that fits, with its combining marks. */
static size_t beginning(const char *text, size_t columns)
{
  size_t end = 0, step;
  unsigned long point;
  while (text[end] && (step = pw_text_decode(text + end, &point)) > 0 &&
         end + step < PW_CLIP_MAX - 1 && pw_width(text, end + step) <= columns)
    end += step;
  return end;
}

pw_clipped pw_clip(const char *text, int columns)
{
  pw_clipped out = {""};
  size_t most = columns > MOST ? MOST : columns < 1 ? 1 : (size_t)columns;
  size_t end = beginning(text, most);
  if (text[end]) end = beginning(text, most - 1);
  memcpy(out.text, text, end);
  if (text[end]) memcpy(out.text + end, ".", 2);
  return out;
}
