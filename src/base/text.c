#include "base/text.h"
#include "base/ascii.h"

#include <string.h>

size_t pw_text_decode(const char *text, unsigned long *point)
{
  static const struct {
    unsigned char mask, lead;
    unsigned long low;
  } form[] = {{0x80, 0x00, 0}, {0xE0, 0xC0, 0x80}, {0xF0, 0xE0, 0x800}, {0xF8, 0xF0, 0x10000}};
  const unsigned char *s = (const unsigned char *)text;
  for (size_t n = 0; n < 4; n++) {
    if ((s[0] & form[n].mask) != form[n].lead) continue;
    unsigned long p = s[0] & (unsigned char)~form[n].mask;
    for (size_t i = 1; i <= n; i++) {
      if ((s[i] & 0xC0) != 0x80) return 0;
      p = p << 6 | (s[i] & 0x3F);
    }
    int surrogate = p >= 0xD800 && p <= 0xDFFF;
    if (p < form[n].low || surrogate || p > 0x10FFFF) return 0;
    *point = p;
    return n + 1;
  }
  return 0;
}

int pw_text_unwanted(unsigned long p)
{
  return p < 32 || (p >= 0x7F && p <= 0x9F) || (p >= 0x202A && p <= 0x202E) ||
         (p >= 0x2066 && p <= 0x2069) || p == 0x200E || p == 0x200F || p == 0x061C ||
         p == 0xFEFF || (p & 0xFFFE) == 0xFFFE || (p >= 0xFDD0 && p <= 0xFDEF) || p == 0x2028 ||
         p == 0x2029;
}

void pw_text_clean(char *text)
{
  while ((unsigned char)*text >= 32 &&
         (unsigned char)*text < 127) /* nearly always to the end */
    text++;
  char *to = text;
  while (*text) {
    unsigned long point = 0;
    size_t n = pw_text_decode(text, &point);
    if (n == 0) {
      *to++ = '?';
      text++;
      continue;
    }
    if (point == '\t' || point == '\n' || point == '\r')
      *to++ = ' ';
    else if (!pw_text_unwanted(point)) {
      memmove(to, text, n);
      to += n;
    }
    text += n;
  }
  *to = '\0';
}

void pw_text_plain(const char *text, char *plain, size_t size)
{
  size_t n = 0;
  for (size_t k; *text; text += k) {
    unsigned long point = 0;
    k = pw_text_decode(text, &point);
    int letter = k > 1 || pw_is_alnum(*text);
    if (k == 0) k = 1;
    if (n + k >= size) break;
    if (letter && k == 1)
      plain[n++] = pw_lower(*text);
    else if (letter)
      for (size_t i = 0; i < k; i++)
        plain[n++] = text[i];
    else if (n && plain[n - 1] != '_')
      plain[n++] = '_';
  }
  while (n && plain[n - 1] == '_')
    n--;
  plain[n] = '\0';
}

/* Bytes of a text that fit into size with their end, up to the end of a character. */
static size_t fitting(const char *text, size_t size)
{
  size_t n = strlen(text);
  if (n < size) return n;
  n = size - 1;
  while (n > 0 && ((unsigned char)text[n] & 0xC0) == 0x80)
    n--;
  return n;
}

void pw_text_cut(char *text, size_t size) { text[fitting(text, size)] = '\0'; }

void pw_text_keep(const char *text, char *to, size_t size)
{
  size_t n = fitting(text, size);
  memcpy(to, text, n);
  to[n] = '\0';
}
