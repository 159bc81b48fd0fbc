#include "out/width.h"

#include <unistr.h>
#include <uniwidth.h>

size_t pw_width(const char *text, size_t n)
{
  size_t plain = 0;
  while (plain < n && text[plain] >= 32 && text[plain] < 127)
    plain++;
  if (plain == n) return n;
  int columns = u8_width((const uint8_t *)text, n, "UTF-8");
  return columns > 0 ? (size_t)columns : 0;
}
