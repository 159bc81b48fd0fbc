#include "base/print.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

/* The plain locale for this thread alone, until given back. */
typedef struct plain {
  locale_t mine, hosts;
} plain;

static plain hold(void)
{
  plain p = {newlocale(LC_ALL_MASK, "C", (locale_t)0), (locale_t)0};
  if (p.mine) p.hosts = uselocale(p.mine);
  return p;
}

static void give_back(plain p)
{
  if (!p.mine) return;
  uselocale(p.hosts);
  freelocale(p.mine);
}

int pw_print_list(char *text, size_t size, const char *format, va_list args)
{
  plain p = hold();
  int n = vsnprintf(text, size, format, args);
  give_back(p);
  return n;
}

double pw_plain_number(const char *text, char **end)
{
  plain p = hold();
  double v = strtod(text, end);
  give_back(p);
  return v;
}

int pw_print(char *text, size_t size, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  int n = pw_print_list(text, size, format, args);
  va_end(args);
  return n;
}
