/* A file made piece by piece in memory: `made`, of `made_size` bytes. */
#ifndef TESTS_MADE_TEXT_H
#define TESTS_MADE_TEXT_H

#include <stdarg.h>
#include <stddef.h>
#include <stdio.h>

enum { MADE_ROOM = 600000 };
static char made[MADE_ROOM];
static size_t made_size;

#if defined(__GNUC__)
__attribute__((format(printf, 1, 2)))
#endif
static void
put(const char *format, ...)
{
  va_list list;
  va_start(list, format);
  made_size += (size_t)vsnprintf(made + made_size, MADE_ROOM - made_size, format, list);
  va_end(list);
}

#endif
