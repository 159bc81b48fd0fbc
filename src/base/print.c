#include "base/print.h"

#include <locale.h>
#include <stdio.h>

int pw_print_list(char *text, size_t size, const char *format, va_list args)
{
  locale_t plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
  locale_t hosts = plain ? uselocale(plain) : (locale_t)0; /* of this thread alone */
  int n = vsnprintf(text, size, format, args);
  if (plain) {
    uselocale(hosts);
    freelocale(plain);
  }
  return n;
}

int pw_print(char *text, size_t size, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  int n = pw_print_list(text, size, format, args);
  va_end(args);
  return n;
}
