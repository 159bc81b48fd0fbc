#include "out/whole.h"

#include <ctype.h>
#include <string.h>

typedef struct part {
  const char *bytes;
  size_t size;
} part;

static const struct {
  part first, last;
} form[] = {
    [PW_WHOLE_SVG] = {{"<", 1}, {"</svg>", 6}},
    [PW_WHOLE_PNG] = {{"\x89PNG\r\n\x1a\n", 8}, {"\0\0\0\0IEND\xae\x42\x60\x82", 12}},
    [PW_WHOLE_PDF] = {{"%PDF-", 5}, {"%%EOF", 5}},
    [PW_WHOLE_HTML] = {{"<", 1}, {"</html>", 7}},
};

int pw_whole(pw_whole_kind kind, const char *text, size_t size)
{
  const part *first = &form[kind].first, *last = &form[kind].last;
  while (kind != PW_WHOLE_PNG && size > 0 && isspace((unsigned char)text[size - 1]))
    size--;
  return size >= first->size + last->size && memcmp(text, first->bytes, first->size) == 0 &&
         memcmp(text + size - last->size, last->bytes, last->size) == 0;
}
