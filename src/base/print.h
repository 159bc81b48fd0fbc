/* Numbers in words, with a point whatever the host's locale: 12.7, never 12,7. */
#ifndef BASE_PRINT_H
#define BASE_PRINT_H

#include <stdarg.h>
#include <stddef.h>

/* As snprintf and vsnprintf. */
#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
int pw_print(char *text, size_t size, const char *format, ...);
#if defined(__GNUC__)
__attribute__((format(printf, 3, 0)))
#endif
int pw_print_list(char *text, size_t size, const char *format, va_list args);

/* As strtod. */
double pw_plain_number(const char *text, char **end);

#endif
