#include "out/wrap.h"

#include <string.h>

/* Columns of the first n bytes of UTF-8 text. */
static int columns(const char *text, size_t n)
{
  int c = 0;
  for (size_t i = 0; i < n; i++)
    c += ((unsigned char)text[i] & 0xC0) != 0x80;
  return c;
}

void pw_wrap(FILE *f, const char *lead, const char *text, int width)
{
  int indent = columns(lead, strlen(lead)), at = indent, first = 1;
  fputs(lead, f);
  while (*text) {
    size_t n = strcspn(text, " ");
    int wide = columns(text, n);
    if (!first && at + 1 + wide > width) {
      fprintf(f, "\n%*s", indent, "");
      at = indent;
      first = 1;
    }
    if (!first) {
      fputc(' ', f);
      at++;
    }
    fwrite(text, 1, n, f);
    at += wide;
    first = 0;
    text += n;
    while (*text == ' ')
      text++;
  }
  fputc('\n', f);
}
