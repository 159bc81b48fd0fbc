#include "out/html.h"

#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include "job/text_file.h"

/* ---------------------------------------------------------------- text */

/* Length of the UTF-8 character at s and its code point; 0 when the bytes are none.
 * Source: RFC 3629 (from memory): shortest forms only, no surrogates, up to U+10FFFF. */
static size_t decode(const unsigned char *s, unsigned long *point)
{
  static const struct {
    unsigned char mask, lead;
    unsigned long low;
  } form[] = {{0x80, 0x00, 0}, {0xE0, 0xC0, 0x80}, {0xF0, 0xE0, 0x800}, {0xF8, 0xF0, 0x10000}};
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

/* Controls, the byte-order mark, non-characters, and the marks of Unicode's bidirectional algorithm
 * that reach beyond their own character. */
static int unwanted(unsigned long p)
{
  return p < 32 || (p >= 0x7F && p <= 0x9F) || (p >= 0x202A && p <= 0x202E) ||
         (p >= 0x2066 && p <= 0x2069) || p == 0x200E || p == 0x200F || p == 0x061C ||
         p == 0xFEFF || (p & 0xFFFE) == 0xFFFE || (p >= 0xFDD0 && p <= 0xFDEF) || p == 0x2028 ||
         p == 0x2029;
}

size_t pw_html_step(const char *s, int *keep)
{
  unsigned long point = 0;
  size_t n = decode((const unsigned char *)s, &point);
  *keep = n > 0 && !unwanted(point);
  return n ? n : 1;
}

void pw_html_text(FILE *f, const char *text)
{
  const unsigned char *s = (const unsigned char *)text;
  while (*s) {
    unsigned long point = 0;
    size_t n = decode(s, &point);
    if (n == 0) {
      fputs("\xEF\xBF\xBD", f); /* U+FFFD stands for a byte that is no text */
      s++;
      continue;
    }
    if (point == '&')
      fputs("&amp;", f);
    else if (point == '<')
      fputs("&lt;", f);
    else if (point == '>')
      fputs("&gt;", f);
    else if (point == '"')
      fputs("&quot;", f);
    else if (point == '\'')
      fputs("&#39;", f);
    else if (point == '\n' || point == '\r' || point == '\t')
      fputc(' ', f);
    else if (!unwanted(point))
      fwrite(s, 1, n, f);
    s += n;
  }
}

/* ---------------------------------------------------------------- format */

/* Copies "%-8.3f" and the like into spec; returns the conversion letter and steps past it. */
static char conversion(const char **format, char spec[16], int *size)
{
  size_t n = 0;
  spec[n++] = *(*format)++;
  *size = 0;
  while (**format && n + 2 < 16) {
    char c = *(*format)++;
    spec[n++] = c;
    if (c == 'z') *size = 1;
    if (c == '%' || (c >= 'a' && c <= 'z' && c != 'z' && c != 'l' && c != 'h')) {
      spec[n] = '\0';
      return c;
    }
  }
  return '\0';
}

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
#endif
void pw_html_put(FILE *f, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  while (*format) {
    size_t plain = strcspn(format, "%");
    fwrite(format, 1, plain, f);
    format += plain;
    if (!*format) break;
    char spec[16];
    int size = 0;
    switch (conversion(&format, spec, &size)) {
    case 's':
      pw_html_text(f, va_arg(args, const char *));
      break;
    case 'c':
    case 'd':
      fprintf(f, spec, va_arg(args, int));
      break;
    case 'u':
      if (size)
        fprintf(f, spec, va_arg(args, size_t));
      else
        fprintf(f, spec, va_arg(args, unsigned));
      break;
    case 'e':
    case 'f':
    case 'g':
      fprintf(f, spec, va_arg(args, double));
      break;
    case '%':
      fputc('%', f);
      break;
    default:
      break;
    }
  }
  va_end(args);
}
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

/* Whether a word is so long that it has to be broken anywhere. */
static int has_long_word(const char *text)
{
  enum { LONG = 20 };
  for (size_t n; *text; text += n + strspn(text + n, " ")) {
    n = strcspn(text, " ");
    if (n > LONG) return 1;
  }
  return 0;
}

void pw_html_name(FILE *f, const char *text)
{
  fputs(has_long_word(text) ? "<bdi class=\"long\">" : "<bdi>", f);
  pw_html_text(f, text);
  fputs("</bdi>", f);
}

/* ---------------------------------------------------------------- document */

void pw_html_wide(FILE *f, const char *name)
{
  pw_html_put(f, "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"%s\">", name);
}

void pw_html_begin(FILE *f, const char *title, const char *const style[])
{
  pw_html_put(f,
              "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
              "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
              "<meta http-equiv=\"Content-Security-Policy\" "
              "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
              "<meta name=\"robots\" content=\"noindex\">\n<title>%s</title>\n<style>\n",
              title);
  for (size_t i = 0; style[i]; i++) {
    const char *text = pw_text_file_find(style[i]);
    if (text) fputs(text, f);
  }
  fputs("</style>\n</head>\n<body>\n", f);
}

void pw_html_end(FILE *f) { fputs("</body>\n</html>\n", f); }
