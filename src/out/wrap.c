#include "out/wrap.h"

#include <string.h>

#include "out/width.h"

void pw_wrap(FILE *f, const char *lead, const char *text, int width)
{
  int indent = (int)pw_width(lead, strlen(lead)), at = indent, first = 1;
  fputs(lead, f);
  while (*text) {
    size_t n = strcspn(text, " ");
    int wide = (int)pw_width(text, n);
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
