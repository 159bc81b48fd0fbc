#include "support.h"

#include <gsl/gsl_errno.h>
#include <math.h>
#include <stdio.h>

#include "out/message_text.h"

void pw_assert_near_at(double got, double want, double tolerance, const char *what,
                       const char *source, const char *file, int line)
{
  if (fabs(got - want) <= tolerance) return;
  print_error("%s: got %.10g, want %.10g +- %.3g (off by %.3g); source: %s\n", what, got, want,
              tolerance, got - want, source);
  _fail(file, line);
}

const char *pw_hourly(const char *name)
{
  static char path[512];
  snprintf(path, sizeof path, "reference/checks/hourly/%s.gz", name);
  return path;
}

void pw_test_begin(void) { gsl_set_error_handler(NULL); }

const char *pw_said(const pw_message *message)
{
  static char text[PW_MESSAGE_TEXT];
  return pw_message_text(NULL, message, text, sizeof text);
}
