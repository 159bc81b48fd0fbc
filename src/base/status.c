#include "panewright/status.h"
#include "base/print.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void one_line(char *text)
{
  for (char *p = text; *p; p++)
    if ((unsigned char)*p < 32 || *p == 127) *p = '?';
}

pw_status pw_fail(pw_err *err, pw_status code, const char *field, const char *format, ...)
{
  if (!err) return code;
  *err = (pw_err){.code = code, .field = field};
  va_list args;
  va_start(args, format);
  pw_print_list(err->text, sizeof err->text, format, args);
  va_end(args);
  one_line(err->text);
  return code;
}

pw_status pw_fail_at(pw_err *err, pw_status code, const char *file, int line, int column,
                     const char *format, ...)
{
  if (!err) return code;
  *err = (pw_err){.code = code, .line = line, .column = column};
  int n; /* at most 120 and two numbers: there is room left */
  if (line > 0 && column > 0)
    n = snprintf(err->text, sizeof err->text, "%.120s:%d:%d: ", file, line, column);
  else if (line > 0)
    n = snprintf(err->text, sizeof err->text, "%.120s:%d: ", file, line);
  else
    n = snprintf(err->text, sizeof err->text, "%.120s: ", file);
  va_list args;
  va_start(args, format);
  pw_print_list(err->text + n, sizeof err->text - (size_t)n, format, args);
  va_end(args);
  one_line(err->text);
  return code;
}

pw_status pw_in_range(double v, double low, double high, const char *field, const char *unit,
                      pw_err *err)
{
  if (v >= low && v <= high) return PW_OK;
  return pw_fail(err, PW_E_DOMAIN, field, "%s %g%s, want %g to %g", field, v, unit, low, high);
}

const char *pw_status_text(pw_status code)
{
  static const char *const text[] = {
      [PW_OK] = "done",
      [PW_E_DOMAIN] = "value out of range",
      [PW_E_SHAPE] = "wrong count or size",
      [PW_E_CONVERGE] = "iteration did not settle",
      [PW_E_NOMEM] = "out of memory",
      [PW_E_DATA] = "bad input data",
      [PW_E_MISSING] = "input not found",
      [PW_E_CREATE] = "cannot create output",
      [PW_E_IO] = "reading or writing failed",
      [PW_E_LACK] = "a program that is needed is not there",
  };
  return (size_t)code < sizeof text / sizeof text[0] ? text[code] : "unknown status";
}
