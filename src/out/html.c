#include "out/html.h"

#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include "base/text.h"
#include "job/text_file.h"

/* ---------------------------------------------------------------- text */

size_t pw_html_step(const char *s, int *keep)
{
  unsigned long point = 0;
  size_t n = pw_text_decode(s, &point);
  *keep = n > 0 && !pw_text_unwanted(point);
  return n ? n : 1;
}

void pw_html_text(FILE *f, const char *text)
{
  const char *s = text;
  while (*s) {
    unsigned long point = 0;
    size_t n = pw_text_decode(s, &point);
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
    else if (!pw_text_unwanted(point))
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
