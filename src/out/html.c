#include "out/html.h"

#include <stdarg.h>
#include <stddef.h>
#include <stdlib.h>
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

void pw_html_text(pw_html *h, const char *text)
{
  const char *s = text;
  while (*s) {
    unsigned long point = 0;
    size_t n = pw_text_decode(s, &point);
    if (n == 0) {
      fputs("\xEF\xBF\xBD", h->f); /* U+FFFD stands for a byte that is no text */
      s++;
      continue;
    }
    if (point == '&')
      fputs("&amp;", h->f);
    else if (point == '<')
      fputs("&lt;", h->f);
    else if (point == '>')
      fputs("&gt;", h->f);
    else if (point == '"')
      fputs("&quot;", h->f);
    else if (point == '\'')
      fputs("&#39;", h->f);
    else if (point == '\n' || point == '\r' || point == '\t')
      fputc(' ', h->f);
    else if (!pw_text_unwanted(point))
      fwrite(s, 1, n, h->f);
    s += n;
  }
}

/* ---------------------------------------------------------------- format */

/* An argument of a format. */
typedef union argument {
  const char *s;
  int d;
  unsigned u;
  size_t zu;
  double f;
} argument;

enum { ARGUMENTS_MAX = 16, SPEC_SIZE = 16 };

/* Copies "%-8.3f" and the like into spec, without the "2$" that may stand in it; *place is that number from 0, or -1.
 * Returns the conversion letter and steps past it; 0 for none. */
static char conversion(const char **format, char spec[SPEC_SIZE], int *size, int *place)
{
  size_t n = 0;
  *place = -1;
  *size = 0;
  spec[n++] = *(*format)++;
  size_t digits = strspn(*format, "0123456789");
  if (digits > 0 && digits < 3 && (*format)[digits] == '$') {
    *place = (int)strtol(*format, NULL, 10) - 1;
    *format += digits + 1;
  }
  while (**format && n + 2 < SPEC_SIZE) {
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

/* The arguments in the order of the English format, which alone says their types. */
static int take(const char *format, va_list args, argument arg[ARGUMENTS_MAX])
{
  int n = 0;
  while ((format = strchr(format, '%')) && n < ARGUMENTS_MAX) {
    char spec[SPEC_SIZE];
    int size, place;
    switch (conversion(&format, spec, &size, &place)) {
    case 's':
      arg[n++].s = va_arg(args, const char *);
      break;
    case 'c':
    case 'd':
      arg[n++].d = va_arg(args, int);
      break;
    case 'u':
      if (size)
        arg[n++].zu = va_arg(args, size_t);
      else
        arg[n++].u = va_arg(args, unsigned);
      break;
    case 'e':
    case 'f':
    case 'g':
      arg[n++].f = va_arg(args, double);
      break;
    default:
      break;
    }
  }
  return n;
}

#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
#endif
/* A figure that came as text (out/figure.h): its parts are escaped like any text, so a text that only looks like one is a
 * span at worst. */
static void put_figure(pw_html *h, const char *said)
{
  char part[3][PW_HTML_FIGURE];
  for (size_t k = 0; k < 3; k++) {
    size_t n = strcspn(said, PW_HTML_PART);
    snprintf(part[k], sizeof part[k], "%.*s", (int)n, said);
    said += n + (said[n] != '\0');
  }
  fputs("<span class=\"fig\" data-kind=\"", h->f);
  pw_html_text(h, part[0]);
  fputs("\" data-key=\"", h->f);
  pw_html_text(h, part[1]);
  fputs("\">", h->f);
  pw_html_text(h, part[2]);
  fputs("</span>", h->f);
}

static void put_one(pw_html *h, char letter, const char *spec, int size, const argument *a)
{
  switch (letter) {
  case 's':
    if (a->s[0] == PW_HTML_MARK)
      put_figure(h, a->s + 1);
    else
      pw_html_text(h, a->s);
    break;
  case 'c':
  case 'd':
    fprintf(h->f, spec, a->d);
    break;
  case 'u':
    if (size)
      fprintf(h->f, spec, a->zu);
    else
      fprintf(h->f, spec, a->u);
    break;
  case 'e':
  case 'f':
  case 'g':
    fprintf(h->f, spec, a->f);
    break;
  default:
    break;
  }
}
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

void pw_html_put(pw_html *h, const char *format, ...)
{
  argument arg[ARGUMENTS_MAX];
  va_list args;
  va_start(args, format);
  int n = take(format, args, arg), next = 0;
  va_end(args);
  for (format = pw_tongue_say(h->tongue, format); *format;) {
    size_t plain = strcspn(format, "%");
    fwrite(format, 1, plain, h->f);
    format += plain;
    if (!*format) break;
    char spec[SPEC_SIZE];
    int size, place;
    char letter = conversion(&format, spec, &size, &place);
    if (letter == '%') {
      fputc('%', h->f);
    } else if (letter) {
      if (place < 0) place = next++;
      if (place < n) put_one(h, letter, spec, size, &arg[place]);
    }
  }
}

const char *pw_say(const pw_html *h, const char *text)
{
  return pw_tongue_say(h->tongue, text);
}

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

void pw_html_name(pw_html *h, const char *text)
{
  fputs(has_long_word(text) ? "<bdi class=\"long\">" : "<bdi>", h->f);
  pw_html_text(h, text);
  fputs("</bdi>", h->f);
}

/* ---------------------------------------------------------------- document */

const char *const pw_html_foot = PW_TEXT("Computed as installed; not a certified rating");

void pw_html_wide(pw_html *h, const char *name)
{
  pw_html_put(h, "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"%s\">", name);
}

void pw_html_begin(pw_html *h, const char *title, const char *const style[], const char *foot)
{
  pw_html_put(h,
              "<!DOCTYPE html>\n<html lang=\"%s\">\n<head>\n<meta charset=\"utf-8\">\n"
              "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
              "<meta http-equiv=\"Content-Security-Policy\" "
              "content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
              "<meta name=\"robots\" content=\"noindex\">\n<title>%s</title>\n<style>\n",
              h->tongue ? h->tongue->code : "en", title);
  for (size_t i = 0; style[i]; i++) {
    const char *text = pw_text_file_find(style[i]);
    if (text) fputs(text, h->f);
  }
  fprintf(h->f, "@page { @bottom-left { content: \"%s\"; } }\n", pw_say(h, foot));
  fputs("</style>\n</head>\n<body>\n", h->f);
}

void pw_html_end(pw_html *h) { fputs("</body>\n</html>\n", h->f); }
